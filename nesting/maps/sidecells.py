"""Cells of pairs of sides: how wide a panel may be whose lower and upper side lie within ranges.

A cell says from where to where the lower side lies, and the upper one. What an obstacle forbids at
every pair of lines of a cell is known from the cell's ends, because obstacles are convex. So the
widths left over are too many, never too few, and exact where a cell is one pair of lines. All in
whole numbers, many cells at once.
"""

from dataclasses import dataclass

import numpy as np

from nesting.maps.ends import ACROSS, FAR, NEAR, Ends, open_bans, tie
from nesting.maps.ground import Ground
from nesting.maps.positions import Wish
from nesting.shapes.convex import APART, REACH, Ints, Pieces, joined, long_runs

NO_EXTENT = -1
_NOWHERE = 2**62


@dataclass(frozen=True, slots=True)
class SideCells:
    """Closed ranges of the lower and of the upper side, (n,) each [steps].

    ``is_rigid`` says that both sides move together, so that a cell is one row of pairs at one
    height: from (``low``, ``up_low``) to (``high``, ``up_high``).
    """

    low: Ints
    high: Ints
    up_low: Ints
    up_high: Ints
    is_rigid: bool

    def __len__(self) -> int:
        return len(self.low)


@dataclass(frozen=True, slots=True)
class SideTable:
    """One combination of sides, with every obstacle once for each strip it may not meet.

    ``along`` and ``up`` (3, n) say what ties each strip along x and along y, see `ends.tie`.
    """

    x: Ends
    y: Ends
    least: int
    pieces: Pieces
    along: Ints
    up: Ints
    left_apex: tuple[Ints, Ints]
    right_apex: tuple[Ints, Ints]

    def lines(self) -> tuple[Ints, Ints]:
        """Return the lower and the upper sides at which an obstacle begins or ceases to matter."""
        kind, low, high = self.up
        begins, ends = self.pieces.boxes[:, 1] - high, self.pieces.boxes[:, 3] - low
        near, far, across = kind == NEAR, kind == FAR, kind == ACROSS
        lower = np.concatenate([begins[near], ends[near], ends[across]])
        upper = np.concatenate([begins[far], ends[far], begins[across]])
        return np.unique(lower), np.unique(upper)

    def nearest_widths(self, cells: SideCells, width: int, sign: int) -> Ints:
        """Return per cell the width nearest to one that may be, or `NO_EXTENT`.

        ``sign`` is -1 for widths at most ``width``, 1 for widths at least that.
        """
        cell, piece, first, last = self._throughout(cells)
        kind = self.along[0, piece]
        parts = [
            (cell[kind == each], first[kind == each], last[kind == each])
            for each in (NEAR, FAR, ACROSS)
        ]
        near = long_runs(len(cells), *parts[0], self.x.near)
        far = long_runs(len(cells), *parts[1], self.x.far)
        widths = np.full(len(cells), NO_EXTENT, dtype=np.int64)
        if not len(near[0]) or not len(far[0]):
            return widths
        begin, end, most = _segments(near, parts[2])
        found, at = _nearest(begin, end, most, far, width, sign)
        good = found >= self.least
        if sign < 0:
            np.maximum.at(widths, at[good], found[good])
            return widths
        widths[:] = REACH
        np.minimum.at(widths, at[good], found[good])
        return np.where(widths == REACH, NO_EXTENT, widths)

    def _throughout(self, cells: SideCells) -> tuple[Ints, Ints, Ints, Ints]:
        """Return cell, obstacle, and the first and last x it forbids at every pair of the cell.

        A strip tied to one side is moved from one end of that side's range to the other: what it
        forbids at both ends it forbids between. One tied to both is least where they are nearest.
        """
        kind, low, high = self.up
        ends = [side[:, None] for side in (cells.low, cells.high, cells.up_low, cells.up_high)]
        down = [ends[0], ends[1]] if cells.is_rigid else [ends[1], ends[1]]
        over = [ends[2], ends[3]] if cells.is_rigid else [ends[2], ends[2]]
        near, far = kind == NEAR, kind == FAR
        froms = [np.where(near, ends[k], np.where(far, ends[k + 2], down[k])) + low for k in (0, 1)]
        tos = [np.where(near, ends[k], np.where(far, ends[k + 2], over[k])) + high for k in (0, 1)]
        _, bottom, _, top = self.pieces.boxes.T
        meets = (np.maximum(*froms) < top) & (np.minimum(*tos) > bottom)
        meets &= froms[0] < tos[0]
        cell, piece = np.nonzero(meets)
        bands = [(froms[k][meets], tos[k][meets]) for k in (0, 1)]
        left = np.maximum(*(self._outermost(piece, *band, far=False) for band in bands))
        right = np.minimum(*(self._outermost(piece, *band, far=True) for band in bands))
        _, near_by, far_by = self.along[:, piece]
        return cell, piece, left + 1 - far_by, right - 1 - near_by

    def _outermost(self, piece: Ints, low: Ints, high: Ints, *, far: bool) -> Ints:
        """Return the least x, rounded down, or greatest, rounded up, of pieces within bands."""
        found: Ints = self.pieces.boxes[piece, 2 if far else 0]
        bottom, top = (ends[piece] for ends in (self.right_apex if far else self.left_apex))
        cut = np.flatnonzero((high < bottom) | (low > top))
        if not len(cut):
            return found
        y = np.where(high < bottom, high, low)[cut]
        a, b, c = np.moveaxis(self.pieces.cuts[piece[cut]], -1, 0)
        rest = c - b * y[:, None]
        if far:
            reach = np.where(a > 0, -(-rest // np.where(a > 0, a, 1)), REACH)
            found[cut] = np.minimum(found[cut], reach.min(axis=1))
        else:
            reach = np.where(a < 0, rest // np.where(a < 0, a, 1), -REACH)
            found[cut] = np.maximum(found[cut], reach.max(axis=1))
        return found


def make_table(ground: Ground, x: Ends, y: Ends, wish: Wish) -> SideTable:
    """Return the table of one combination of sides, of those `ends.list_all_ends` yields."""
    bans = open_bans(ground, x, y, wish)
    counts = [len(pieces) for pieces, _ in bans]
    along = np.array([tie(strip.x0, strip.x1) for _, strip in bans], dtype=np.int64)
    up = np.array([tie(strip.y0, strip.y1) for _, strip in bans], dtype=np.int64)
    pieces = joined([pieces for pieces, _ in bans])
    return SideTable(
        x,
        y,
        max(1, ground.rules.edge_margin),
        pieces,
        np.repeat(along, counts, axis=0).T,
        np.repeat(up, counts, axis=0).T,
        pieces.apexes(far=False),
        pieces.apexes(far=True),
    )


def _segments(near: tuple[Ints, Ints], across: tuple[Ints, Ints, Ints]) -> tuple[Ints, Ints, Ints]:
    """Cut runs of near sides where an obstacle falls behind: begin, end, most of the far side."""
    cell, first, last = across
    after = last.clip(-REACH, REACH) + 1 + cell * APART
    before = first.clip(-REACH, REACH) - 1 + cell * APART
    order = np.argsort(after, kind="stable")
    after = after[order]
    least = np.append(np.minimum.accumulate(before[order][::-1])[::-1], _NOWHERE)
    begin, end = near
    run = np.searchsorted(begin, after, side="right") - 1
    inside = (run >= 0) & (after <= end[run]) & (after > begin[run])
    begins = np.unique(np.concatenate([begin, after[inside]]))
    run = np.searchsorted(begin, begins, side="right") - 1
    ends = np.minimum(end[run], np.append(begins[1:], _NOWHERE) - 1)
    return begins, ends, least[np.searchsorted(after, begins, side="right")]


def _nearest(
    begin: Ints, end: Ints, most: Ints, far: tuple[Ints, Ints], width: int, sign: int
) -> tuple[Ints, Ints]:
    """Return the nearest width of each segment of near sides that has one, and its cell.

    Of the runs of far sides the last one that can begin in reach gives most, the first one that
    ends beyond it gives least.
    """
    run_begin, run_end = far
    if sign < 0:
        run = np.searchsorted(run_begin, np.minimum(most, end + width), side="right") - 1
    else:
        run = np.searchsorted(run_end, begin + width, side="left")
    known = (run >= 0) & (run < len(run_begin))
    begin, end, most, run = begin[known], end[known], most[known], run[known]
    cell = (begin + REACH) // APART
    top = np.minimum(run_end[run], most) - begin
    low = run_begin[run] - end
    good = (cell == (run_begin[run] + REACH) // APART) & (run_begin[run] <= most) & (top > 0)
    good &= (low <= width) if sign < 0 else (top >= width)
    found = np.minimum(top, width) if sign < 0 else np.maximum(low, width)
    return found[good], cell[good]
