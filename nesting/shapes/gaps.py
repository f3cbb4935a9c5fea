"""A point of a box outside open convex pieces, in whole steps, be it in a pocket between slopes.

Cells of lines along x are cut in two until one line is left, which is answered exactly, or until
nothing can be free on any line of the cell. Two reasons show that. What pieces forbid on the first
and on the last line of a cell they forbid on every line between, because they are convex. And two
pieces that overlap on both lines overlap between, because the overlap of two convex pieces is
convex: so a chain of overlapping pieces from one end of the box to the other leaves nothing
between, however slanted it runs. So cells need not be lower than a pocket that just closes.
"""

import numpy as np

from nesting.shapes.convex import APART, REACH, Bools, Floats, Ints, Pieces, long_runs
from nesting.shapes.geometry import Box, Point

_AT_ONCE = 128
_MOST_CELLS = 200_000
_SURELY = 1e-5
"""Pieces that overlap by more surely do [steps]: coordinates are rounded by less than 1e-7."""


def find_gap(pieces: Pieces, domain: Box) -> Point | None:
    """Return a point of the closed domain inside no piece, or None where there is none.

    None, too, where the search is given up: room is then left on single points of a grid line only,
    and not on one of 200,000 lines tried.

    >>> from nesting.shapes.convex import pieces_of_rings
    >>> left, right = ((0, 0), (40, 0), (0, 80)), ((40, 0), (40, 80), (0, 80))
    >>> find_gap(pieces_of_rings([left, right]), Box(5, 10, 35, 70))
    (20, 40)
    >>> nearer = tuple((x - 1, y) for x, y in right)
    >>> find_gap(pieces_of_rings([left, nearer]), Box(5, 10, 35, 70)) is None
    True
    """
    near = pieces.near(domain)
    lines = np.unique(near.boxes[:, [1, 3]])
    low, high = np.array([domain.y0]), np.array([domain.y1])
    tried = 0
    while len(low) and tried <= _MOST_CELLS:
        tried += len(low)
        kept = []
        for at in range(0, len(low), _AT_ONCE):
            cells = low[at : at + _AT_ONCE], high[at : at + _AT_ONCE]
            is_open, point = _look(near, domain, *cells)
            if point is not None:
                return point
            kept.append(is_open)
        hopeful = np.concatenate(kept)
        low, high = _cut(low[hopeful], high[hopeful], lines)
    return None


def _look(pieces: Pieces, domain: Box, low: Ints, high: Ints) -> tuple[Bools, Point | None]:
    """Tell which cells, each some lines of the domain, may hold a point; and one, if it is seen."""
    _, bottom, _, top = pieces.boxes.T
    cell, piece = np.nonzero((bottom < low[:, None]) & (high[:, None] < top))
    firsts, lasts = zip(*(pieces.inside_at(piece, ends[cell]) for ends in (low, high)), strict=True)
    first, last = np.maximum(*firsts), np.minimum(*lasts)
    begin, _ = long_runs(len(low), cell, first, last, (domain.x0, domain.x1))
    at = (begin + REACH) // APART
    is_open = np.zeros(len(low), dtype=np.bool_)
    is_open[at] = True
    seen = np.flatnonzero(low[at] == high[at])
    if len(seen):
        first_seen = int(seen[0])
        line = int(at[first_seen])
        return is_open, (int(begin[first_seen]) - line * APART, int(low[line]))
    starts = np.searchsorted(cell, np.arange(len(low) + 1))
    for k in np.flatnonzero(is_open):
        mine = piece[starts[k] : starts[k + 1]]
        is_open[k] = not _bars(pieces, mine, (int(low[k]), int(high[k])), domain)
    return is_open, None


def _bars(pieces: Pieces, piece: Ints, ends: tuple[int, int], domain: Box) -> bool:
    """Whether a chain of pieces that overlap on both lines reaches across the domain."""
    extents = [_extent(pieces, piece, y) for y in ends]
    linked = np.ones((len(piece), len(piece)), dtype=np.bool_)
    begins, is_end = np.ones((2, len(piece)), dtype=np.bool_)
    for least, most in extents:
        overlap = np.minimum(most[:, None], most) - np.maximum(least[:, None], least)
        linked &= overlap > _SURELY
        begins &= (least < domain.x0 - _SURELY) & (most > domain.x0 + _SURELY)
        is_end &= (least < domain.x1 - _SURELY) & (most > domain.x1 + _SURELY)
    reached = begins
    while reached.any() and not (reached & is_end).any():
        further = linked[reached].any(axis=0) | reached
        if (further == reached).all():
            return False
        reached = further
    return bool(reached.any())


def _extent(pieces: Pieces, piece: Ints, y: int) -> tuple[Floats, Floats]:
    """Return the least and the greatest x of pieces on one line."""
    a, b, c = np.moveaxis(pieces.cuts[piece], -1, 0)
    at = (c - b * y) / np.where(a == 0, 1, a)
    least = np.where(a < 0, at, -np.inf).max(axis=1, initial=-np.inf)
    most = np.where(a > 0, at, np.inf).min(axis=1, initial=np.inf)
    return (
        np.maximum(least, pieces.boxes[piece, 0]),
        np.minimum(most, pieces.boxes[piece, 2]),
    )


def _cut(low: Ints, high: Ints, lines: Ints) -> tuple[Ints, Ints]:
    """Cut each cell before, on and beyond the line nearest to its middle, or about its middle."""
    middle = (low + high) // 2
    at = middle
    if len(lines):
        after = np.searchsorted(lines, middle).clip(1, max(1, len(lines) - 1))
        before, beyond = lines[after - 1], lines[np.minimum(after, len(lines) - 1)]
        nearest = np.where(middle - before <= beyond - middle, before, beyond)
        at = np.where((low <= nearest) & (nearest <= high), nearest, middle)
    lows, highs = np.stack([low, at, at + 1], axis=1), np.stack([at - 1, at, high], axis=1)
    kept = lows <= highs
    return lows[kept], highs[kept]
