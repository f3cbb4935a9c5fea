"""Which places exclude each other, said with few and strong rows, and which can go.

Rectangles that overlap in pairs share a point, so a set of places free of conflicts is one in
which no point of the liner is covered twice; and only lower left corners need looking at.

If everything that excludes place b also excludes place a of the same item, any layout that uses a
may use b instead. So a can go, with nothing lost. What is left excludes less, so the rule is
applied until nothing changes.
"""

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import Instance, Ints

Bools = NDArray[np.bool_]
Bits = NDArray[np.uint8]

_COMPARE_ALL = 3_000
"""Up to so many points each is compared with every other, beyond with its neighbours only."""


def as_bits(flags: Bools) -> int:
    """Return a row of flags as the bits of a whole number, the first lowest."""
    return int.from_bytes(np.packbits(flags, bitorder="little").tobytes(), "little")


def find_meeting(boxes: Ints) -> list[int]:
    """Return for each box, as bits of a whole number, the boxes that it meets, itself included."""
    x0, y0, x1, y1 = boxes.T
    meets = (x0[:, None] < x1) & (x0 < x1[:, None]) & (y0[:, None] < y1) & (y0 < y1[:, None])
    return [as_bits(row) for row in meets]


class Points:
    """The points that state all conflicts: ``cover`` (points, places), ``at`` (points, 2)."""

    def __init__(self, cover: Bools, at: Ints) -> None:
        self.cover, self.at = cover, at

    def rows(self) -> list[NDArray[np.int32]]:
        """Return, per point, the places that cover it."""
        return [np.flatnonzero(row).astype(np.int32) for row in self.cover]


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
    return Points(cover, at)


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


LARGEST = 6_000
"""With more places than this the instance is left as it is: the test is quadratic."""


def reduce_places(instance: Instance) -> tuple[Instance, Ints]:
    """Return the instance without replaceable places, and the old index of each place kept."""
    kept = np.arange(len(instance.owner))
    while len(kept) <= LARGEST:
        survivors = _irreplaceable(instance.only(kept))
        if len(survivors) == len(kept):
            break
        kept = kept[survivors]
    return instance.only(kept), kept


def _irreplaceable(instance: Instance) -> Ints:
    exclude = _exclusions(instance)
    gone = np.zeros(len(instance.owner), dtype=np.bool_)
    for item in range(len(instance.items)):
        members = np.flatnonzero(instance.owner == item)
        rows = exclude[members]
        sizes = np.bitwise_count(rows).sum(axis=1)
        for position in np.argsort(sizes, kind="stable"):
            if gone[members[position]]:
                continue
            covers = ~(rows[position] & ~rows).any(axis=1)
            covers[position] = False
            gone[members[covers]] = True
    return np.flatnonzero(~gone)


def _exclusions(instance: Instance) -> NDArray[np.uint64]:
    """Return, as bit sets, which places each place excludes, itself among them."""
    x0, y0, x1, y1 = instance.boxes.T
    width = -(-len(x0) // 64) * 8
    packed = np.zeros((len(x0), width), dtype=np.uint8)
    for place in range(len(x0)):
        meets = (x0 < x1[place]) & (x0[place] < x1) & (y0 < y1[place]) & (y0[place] < y1)
        bits = np.packbits(meets)
        packed[place, : len(bits)] = bits
    return packed.view(np.uint64)
