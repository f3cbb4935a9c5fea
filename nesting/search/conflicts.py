"""Which places exclude each other, said with few and strong rows.

Rectangles that overlap in pairs share a point, so a set of places free of overlaps is one in
which no point of the liner is covered twice; and only lower left corners need looking at. Where the
gaps between boxes are restricted too, places that exclude each other without overlapping stand
together in *cliques*, sets of which at most one can be used.
"""

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import ANY_GAP, Instance, Ints, as_bits

Bools = NDArray[np.bool_]
Bits = NDArray[np.uint8]

_COMPARE_ALL = 3_000
"""Up to so many points each is compared with every other, beyond with its neighbours only."""


class Points:
    """The points that state all overlaps: ``cover`` (points, places), ``at`` (points, 2).

    ``barred`` (places, places) tells which places exclude each other though they do not overlap,
    None where there are none.
    """

    def __init__(self, cover: Bools, at: Ints, barred: Bools | None = None) -> None:
        self.cover, self.at, self.barred = cover, at, barred

    def rows(self) -> list[NDArray[np.int32]]:
        """Return, per point, the places that cover it."""
        return [np.flatnonzero(row).astype(np.int32) for row in self.cover]

    @cached_property
    def cliques(self) -> list[NDArray[np.int32]]:
        """Sets of places of which at most one can be used, for all that the points do not say."""
        if self.barred is None:
            return []
        overlaps = np.zeros_like(self.barred)
        for row in self.rows():
            overlaps[np.ix_(row, row)] = True
        return _cover_pairs(as_bits(self.barred), as_bits(self.barred | overlaps))

    def all_rows(self) -> list[NDArray[np.int32]]:
        """Return every set of places of which at most one can be used, those of points first."""
        return self.rows() + self.cliques


def find_points(instance: Instance) -> Points:
    """Return points such that places conflict exactly when they cover one of them together.

    Points whose places are all covered at another point too are left out, all of them where the
    points are not too many.
    """
    boxes = instance.boxes
    if not len(boxes):
        return Points(np.zeros((0, 0), dtype=np.bool_), np.zeros((0, 2), dtype=np.int64))
    xs, across = _stations(boxes[:, 0], boxes[:, 2])
    ys, up = _stations(boxes[:, 1], boxes[:, 3])
    packed, at = _grid(xs, across, ys, up)
    if len(packed) <= _COMPARE_ALL:
        keep = _keep_largest(packed)
        packed, at = packed[keep], at[keep]
    cover = np.unpackbits(packed, axis=1, count=len(boxes)).astype(np.bool_)
    return Points(cover, at, _find_barred(instance))


def _find_barred(instance: Instance) -> Bools | None:
    if not instance.gaps.least:
        return None
    boxes = instance.boxes
    barred = instance.gaps.meet(boxes, boxes) & ~ANY_GAP.meet(boxes, boxes)
    return barred if barred.any() else None


def _cover_pairs(pairs: list[int], meets: list[int]) -> list[NDArray[np.int32]]:
    """Return cliques that hold every pair; places and pairs as bits of whole numbers.

    Each place takes, with the partners no clique gives it yet, as many as exclude one another.
    """
    cliques: list[NDArray[np.int32]] = []
    left = list(pairs)
    for place in range(len(left)):
        while left[place]:
            members, able = [place], left[place]
            while able:
                other = (able & -able).bit_length() - 1
                members.append(other)
                able &= meets[other] & ~(1 << other)
            held = sum(1 << member for member in members)
            for member in members:
                left[member] &= ~held
            cliques.append(np.array(sorted(members), dtype=np.int32))
    return cliques


def _stations(low: Ints, high: Ints) -> tuple[Ints, Bools]:
    """Return the coordinates just before something ends, and what spans each of them.

    Between two such coordinates only starts happen, so the last start before an end sees most.
    """
    starts = np.unique(low)
    following = np.append(starts[1:], np.iinfo(np.int64).max)
    ends = np.sort(high)
    index = np.searchsorted(ends, starts, side="right")
    next_end = ends[np.minimum(index, len(ends) - 1)]
    stations = starts[(next_end <= following)]
    return stations, (low <= stations[:, None]) & (stations[:, None] < high)


def _grid(xs: Ints, across: Bools, ys: Ints, up: Bools) -> tuple[Bits, Ints]:
    """Return the bit sets of all crossings of stations, without those held by a neighbour."""
    lying, standing = np.packbits(up, axis=1), np.packbits(across, axis=1)
    kept, ats = [], []
    for number, x in enumerate(xs):
        block = lying & standing[number]
        some = block.any(axis=1) & ~_held(block, np.roll(block, 1, axis=0), slice(1, None))
        some &= ~_held(block, np.roll(block, -1, axis=0), slice(None, -1), strictly=True)
        if number:
            some &= ~_held(block, lying & standing[number - 1], slice(None))
        if number + 1 < len(xs):
            some &= ~_held(block, lying & standing[number + 1], slice(None), strictly=True)
        kept.append(block[some])
        ats.append(np.stack([np.full(int(some.sum()), x), ys[some]], axis=1))
    packed, at = np.concatenate(kept), np.concatenate(ats)
    _, first = np.unique(packed, axis=0, return_index=True)
    first.sort()
    return packed[first], at[first]


def _held(block: Bits, other: Bits, rows: slice, *, strictly: bool = False) -> Bools:
    """Tell which rows are held by the same row of the other block, if so many are to be compared.

    ``strictly`` leaves equal rows alone, so that of equals one stays.
    """
    held = np.zeros(len(block), dtype=np.bool_)
    held[rows] = ~(block & ~other)[rows].any(axis=1)
    if strictly:
        held[rows] &= (other & ~block)[rows].any(axis=1)
    return held


def _keep_largest(packed: Bits) -> Ints:
    """Return the rows that are not contained in another row, the first of equals."""
    sizes = np.bitwise_count(packed).sum(axis=1)
    order = np.argsort(-sizes.astype(np.int64), kind="stable")
    kept: list[int] = []
    alive = np.ones(len(order), dtype=np.bool_)
    for position, row in enumerate(order):
        if not alive[position]:
            continue
        kept.append(int(row))
        rest = np.flatnonzero(alive[position + 1 :]) + position + 1
        inside = ~(packed[order[rest]] & ~packed[row]).any(axis=1)
        alive[rest[inside]] = False
    return np.array(sorted(kept), dtype=np.int64)
