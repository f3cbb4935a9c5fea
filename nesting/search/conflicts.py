"""Which places exclude each other, said with the fewest and strongest rows.

Rectangles that overlap in pairs share a point, so a set of places free of conflicts is one in
which no point of the liner is covered twice; and only lower left corners need looking at.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from nesting.search.instance import Instance, Ints

Bools = NDArray[np.bool_]


class Points:
    """The points that state all conflicts: ``cover`` (points, places), ``at`` (points, 2)."""

    def __init__(self, cover: Bools, at: Ints) -> None:
        self.cover, self.at = cover, at

    def rows(self) -> list[NDArray[np.int32]]:
        """Return, per point, the places that cover it."""
        return [np.flatnonzero(row).astype(np.int32) for row in self.cover]


def find_points(instance: Instance) -> Points:
    """Return points such that places conflict exactly when they cover one of them together.

    Points whose places are all covered at another point too are left out.
    """
    boxes = instance.boxes
    if not len(boxes):
        return Points(np.zeros((0, 0), dtype=np.bool_), np.zeros((0, 2), dtype=np.int64))
    xs, across = _stations(boxes[:, 0], boxes[:, 2])
    ys, up = _stations(boxes[:, 1], boxes[:, 3])
    cover, at = _grid(xs, across, ys, up)
    keep = _keep_largest(cover)
    return Points(cover[keep], at[keep])


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


def _grid(xs: Ints, across: Bools, ys: Ints, up: Bools) -> tuple[Bools, Ints]:
    covers, ats = [], []
    for x, row in zip(xs, across, strict=True):
        block = up & row
        some = block.sum(axis=1) > 0
        covers.append(block[some])
        ats.append(np.stack([np.full(int(some.sum()), x), ys[some]], axis=1))
    return np.concatenate(covers), np.concatenate(ats)


def _keep_largest(cover: Bools) -> Ints:
    """Return the rows that are not contained in another row, the first of equals."""
    packed = np.packbits(cover, axis=1)
    _, first = np.unique(packed, axis=0, return_index=True)
    sizes = cover[first].sum(axis=1)
    order = first[np.argsort(-sizes, kind="stable")]
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
