"""Work on grids of pixels: runs, connected parts, windows, and the pixels an outline meets.

A mask is a boolean array of shape (rows, columns), row 0 lowest; pixel (row, column) covers
[column, column + 1] x [row, row + 1] in pixel units.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

Mask = NDArray[np.bool_]
Readings = NDArray[np.floating[Any]]
Whole = NDArray[np.int64]
Tallies = NDArray[np.int32]

_NUDGE = 1e-9  # of a pixel: which of two pixels a crossing on their border belongs to


class Runs(NamedTuple):
    """Unbroken rows of set pixels, from below and from the left: row, start, end (past the last).

    Three arrays of one length.
    """

    row: Whole
    start: Whole
    end: Whole

    def take(self, chosen: Mask | Whole) -> Runs:
        """Return some of the runs."""
        return Runs(self.row[chosen], self.start[chosen], self.end[chosen])


def find_runs(mask: Mask) -> Runs:
    """Return the runs of a mask.

    >>> [part.tolist() for part in find_runs(np.array([[True, True, False, True]]))]
    [[0, 0], [0, 3], [2, 4]]
    """
    rows, columns = mask.shape
    framed = np.zeros((rows, columns + 2), np.int8)
    framed[:, 1:-1] = mask
    change = np.diff(framed, axis=1)
    row, start = np.nonzero(change == 1)
    return Runs(row, start, np.nonzero(change == -1)[1])


def label_runs(runs: Runs) -> Whole:
    """Return for each run the number of its connected part; pixels that meet at a corner connect.

    Parts are numbered from 0 in the order of their first run.
    """
    parents = list(range(len(runs.row)))

    def root(node: int) -> int:
        while parents[node] != node:
            parents[node] = parents[parents[node]]
            node = parents[node]
        return node

    for lower, upper in zip(*_meeting(runs), strict=True):
        first, second = sorted((root(lower), root(upper)))
        parents[second] = first
    roots = np.array([root(node) for node in range(len(parents))], np.int64)
    return np.unique(roots, return_inverse=True)[1].astype(np.int64)


def _meeting(runs: Runs) -> tuple[list[int], list[int]]:
    """Return the pairs of runs in neighbouring rows that share a border or a corner."""
    span = int(runs.end.max(initial=0)) + 2
    starts, ends = runs.row * span + runs.start, runs.row * span + runs.end
    first = np.searchsorted(ends, starts + span, side="left")  # of the row above: ends >= start
    last = np.searchsorted(starts, ends + span, side="right")  # and starts <= end
    above = runs.row + 1
    first = np.maximum(first, np.searchsorted(runs.row, above, side="left"))
    last = np.minimum(last, np.searchsorted(runs.row, above, side="right"))
    counts = np.maximum(last - first, 0)
    lower = np.repeat(np.arange(len(runs.row)), counts)
    offset = np.arange(len(lower)) - np.repeat(np.cumsum(counts) - counts, counts)
    return lower.tolist(), (np.repeat(first, counts) + offset).tolist()


def part_at(runs: Runs, labels: Whole, row: Whole, column: Whole) -> Whole:
    """Return the part that holds each pixel, all of which must lie in some run."""
    span = int(runs.end.max(initial=0)) + 1
    at = np.searchsorted(runs.row * span + runs.start, row * span + column, side="right") - 1
    return labels[at]


def spread(mask: Mask, by: int) -> Mask:
    """Return the mask with every pixel grown by so many pixels in all eight directions.

    >>> spread(np.array([[False, False, True, False, False]]), 1).astype(int).tolist()
    [[0, 1, 1, 1, 0]]
    """
    if by == 0:
        return mask.copy()
    framed = np.pad(mask, by)
    return slide(slide(framed, 2 * by + 1, 0, np.logical_or), 2 * by + 1, 1, np.logical_or)


def slide(values: NDArray[Any], length: int, axis: int, combine: np.ufunc) -> NDArray[Any]:
    """Return ``combine`` over every window of so many values along an axis.

    Windows of doubled length are made of two that overlap, so ``combine`` must not mind seeing a
    value twice: greatest, least, or. The result is shorter by ``length - 1``.

    >>> slide(np.array([3, 1, 4, 1, 5]), 3, 0, np.maximum).tolist()
    [4, 4, 5]
    """
    done, covered = values, 1
    while covered < length:
        step = min(covered, length - covered)
        ahead, behind = [slice(None)] * done.ndim, [slice(None)] * done.ndim
        behind[axis], ahead[axis] = slice(None, -step), slice(step, None)
        done = combine(done[tuple(behind)], done[tuple(ahead)])
        covered += step
    return done


def sums(mask: Mask) -> Tallies:
    """Return the table of sums: entry (row, column) counts set pixels below and left of there."""
    table = np.zeros((mask.shape[0] + 1, mask.shape[1] + 1), np.int32)
    np.cumsum(mask, axis=0, out=table[1:, 1:])
    np.cumsum(table[1:, 1:], axis=1, out=table[1:, 1:])
    return table


def count_in(table: Tallies, boxes: Whole) -> Tallies:
    """Return how many pixels are set in each box, given the table of sums.

    ``boxes`` has the shape (n, 4): first column, first row, end column, end row.
    """
    x0, y0, x1, y1 = boxes.T
    counts: Tallies = table[y1, x1] - table[y0, x1] - table[y1, x0] + table[y0, x0]
    return counts


def mark_meeting(mask: Mask, rings: Sequence[Readings]) -> None:
    """Set every pixel whose inside meets the area the rings bound, counted even-odd.

    ``rings`` are arrays (n, 2) of x and y in pixel units, each closed (the first point repeated).
    Parts beyond the mask are passed over.
    """
    inside = np.zeros((mask.shape[0], mask.shape[1] + 1), np.bool_)
    for ring in rings:
        for (x0, y0), (x1, y1) in pairwise(ring.tolist()):
            _toggle(inside, x0, y0, x1, y1)
            _mark_edge(mask, x0, y0, x1, y1)
    mask |= np.logical_xor.accumulate(inside, axis=1)[:, :-1]


def _toggle(inside: Mask, x0: float, y0: float, x1: float, y1: float) -> None:
    """Turn over, in each row whose middle line the edge crosses, the first pixel right of it."""
    low, high = (y0, y1) if y0 < y1 else (y1, y0)
    first = max(0, int(np.ceil(low - 0.5)))
    last = min(inside.shape[0], int(np.ceil(high - 0.5)))
    rows = np.arange(first, last)
    if len(rows):
        crossing = x0 + (rows + 0.5 - y0) * (x1 - x0) / (y1 - y0)
        columns = np.clip(np.ceil(crossing - 0.5), 0, inside.shape[1] - 1).astype(np.int64)
        inside[rows, columns] ^= True


def _mark_edge(mask: Mask, x0: float, y0: float, x1: float, y1: float) -> None:
    """Set every pixel an edge runs through; where it runs along a border, those on both sides."""
    cuts = [0.0, 1.0]
    for start, end in ((x0, x1), (y0, y1)):
        if start != end:
            lines = np.arange(np.ceil(min(start, end)), np.floor(max(start, end)) + 1)
            cuts.extend(((lines - start) / (end - start)).tolist())
    shares = np.unique(np.clip(cuts, 0.0, 1.0))
    middles = (shares[1:] + shares[:-1]) / 2
    xs, ys = x0 + middles * (x1 - x0), y0 + middles * (y1 - y0)
    for nudge_x, nudge_y in ((-_NUDGE, -_NUDGE), (_NUDGE, _NUDGE)):
        columns, rows = np.floor(xs + nudge_x), np.floor(ys + nudge_y)
        held = (columns >= 0) & (columns < mask.shape[1]) & (rows >= 0) & (rows < mask.shape[0])
        mask[rows[held].astype(np.int64), columns[held].astype(np.int64)] = True
