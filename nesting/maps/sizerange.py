"""Every size a liner can give: the region of (width, height) pairs that have a place, exactly.

Along each axis the obstacles cut the places of a panel's two sides into finitely many cells; within
a cell nothing changes. For each pair of cells of the lower and the upper side the widths follow as
in `ends`, and the pair gives rectangles of sizes. A panel can be pushed down until one
of the two sides is stopped, so pairs in which neither lies at a stop add nothing. Exact among
axis-parallel obstacles; slanted ones are replaced by stairs around them, so that every size is
real and some near the slopes may be missing, or by stairs inside them, so that none is missing.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from nesting.maps.ends import (
    ACROSS,
    FAR,
    NEAR,
    Ends,
    extents_between,
    list_all_ends,
    open_bans,
    tie,
)
from nesting.maps.ground import Ground
from nesting.maps.positions import NO_WISH, Wish
from nesting.shapes.convex import Bools, Ints, Pieces, Run, merged, pieces_of_boxes
from nesting.shapes.geometry import Box


@dataclass(frozen=True, slots=True)
class SizeBox:
    """Sizes that all have a place with that many dams: closed runs of flat extents [steps]."""

    widths: Run
    heights: Run
    dams: int

    def holds(self, width: int, height: int) -> bool:
        """Whether the size is one of them."""
        (w0, w1), (h0, h1) = self.widths, self.heights
        return w0 <= width <= w1 and h0 <= height <= h1


@dataclass(frozen=True, slots=True)
class _Cells:
    """Cells of one side of the panel along y: closed (n, 2), and which are stops from below."""

    ends: Ints
    is_stop: Bools
    active: Bools
    is_idle: Bools
    """Which are lines on which no more is free than beside them."""


def map_sizes(
    ground: Ground, widths: Run, heights: Run, wish: Wish = NO_WISH
) -> tuple[SizeBox, ...]:
    """Return the sizes within those flat widths and heights that have a place, fewest dams first.

    None of the boxes lies in another that needs no more dams. ``ground`` is made of rectangles, as
    `make_stepped` gives it. Extents below the edge margin are left out.

    Raises ValueError where the ground has slopes.
    """
    if not ground.is_stepped:
        raise ValueError("sizes are mapped on stepped ground")
    least = max(1, ground.rules.edge_margin)
    window = (max(widths[0], least), widths[1]), (max(heights[0], least), heights[1])
    found = [
        box for ends in list_all_ends(ground, wish) for box in _sizes(ground, *ends, window, wish)
    ]
    return _largest(found)


def make_stepped(ground: Ground, slices: int, *, around: bool) -> Ground:
    """Return the ground with each slanted obstacle as so many stairs around it, or inside it.

    With no slices, around: one box around each ornament that has a slanted edge, and around each
    other slanted piece. With no slices, inside: slanted pieces are left out.
    """

    def stairs(pieces: Pieces) -> Pieces:
        return _stairs(pieces, slices or int(around), around=around)

    def around_ornament(pieces: Pieces) -> Pieces:
        boxed = around and not slices and pieces.is_slanted().any()
        return _boxed(pieces) if boxed else stairs(pieces)

    return replace(
        ground.with_parts(stairs), ornaments=tuple(map(around_ornament, ground.ornaments))
    )


def _boxed(pieces: Pieces) -> Pieces:
    low, high = pieces.boxes.min(axis=0), pieces.boxes.max(axis=0)
    return pieces_of_boxes([Box(int(low[0]), int(low[1]), int(high[2]), int(high[3]))])


def _stairs(pieces: Pieces, slices: int, *, around: bool) -> Pieces:
    slanted = pieces.is_slanted()
    if not slanted.any():
        return pieces
    whole = [Box(*map(int, box)) for box in pieces.boxes[~slanted]]
    for box, cuts in zip(pieces.boxes[slanted], pieces.cuts[slanted], strict=True):
        levels = np.unique(np.linspace(box[1], box[3], slices + 1).astype(np.int64))
        levels = levels if slices else levels[:0]
        for low, high in zip(levels[:-1].tolist(), levels[1:].tolist(), strict=True):
            x0, x1 = _extent(box, cuts, low, high, around=around)
            if x0 < x1:
                whole.append(Box(x0, low, x1, high))
    return pieces_of_boxes(whole)


def _extent(box: Ints, cuts: Ints, low: int, high: int, *, around: bool) -> tuple[int, int]:
    """Return x from and to of a convex piece over [low, high]: at least it, or at most it."""
    x0, x1 = int(box[0]), int(box[2])
    for a, b, c in cuts.tolist():
        reach = sorted((c - b * low, c - b * high))
        if a > 0:
            x1 = min(x1, -(-reach[1] // a) if around else reach[0] // a)
        elif a < 0:
            x0 = max(x0, reach[1] // a if around else -(-reach[0] // a))
    return x0, x1


def _sizes(
    ground: Ground, x: Ends, y: Ends, window: tuple[Run, Run], wish: Wish
) -> Iterator[SizeBox]:
    """Yield the sizes of one combination of sides."""
    along, up = _obstacles(open_bans(ground, x, y, wish))
    dams = (x.near_side, x.far_side, y.near_side, y.far_side).count("dam")
    (least, most), heights = window
    lower, upper = _cells(up, y.near, NEAR), _cells(up, y.far, FAR)
    known: dict[bytes, list[Run]] = {}
    for i, j in _pairs(lower, upper, heights):
        low = max(int(upper.ends[j, 0] - lower.ends[i, 1]), heights[0])
        high = min(int(upper.ends[j, 1] - lower.ends[i, 0]), heights[1])
        active = lower.active[i] & upper.active[j]
        key = active.tobytes()
        if key not in known:
            kind, first, last = along[:, active]
            from_, to = extents_between(kind, first, last, x.near, x.far, least)
            known[key] = merged(zip(from_.tolist(), to.tolist(), strict=True))
        for run in known[key]:
            if run[0] <= most:
                yield SizeBox((run[0], min(run[1], most)), (low, high), dams)


def _obstacles(bans: list[tuple[Pieces, Box]]) -> tuple[Ints, Ints]:
    """Return what each obstacle forbids along x, and along y, (3, n) each: kind, first, last.

    A side of that kind may not lie from first to last; see `extents_between` for ``ACROSS``.
    """
    along: list[Ints] = []
    up: list[Ints] = []
    for pieces, strip in bans:
        x0, y0, x1, y1 = pieces.boxes.T
        for found, (kind, low, high), start, stop in (
            (along, tie(strip.x0, strip.x1), x0, x1),
            (up, tie(strip.y0, strip.y1), y0, y1),
        ):
            kinds = np.full(len(pieces), kind, dtype=np.int64)
            found.append(np.stack([kinds, start - high + 1, stop - low - 1]))
    return np.concatenate(along, axis=1), np.concatenate(up, axis=1)


def _cells(up: Ints, reach: Run, side: int) -> _Cells:
    """Return the cells of one side of the panel within its reach, and what is active in each.

    An obstacle is active where its strip meets it, as far as this side has a say.
    """
    kind, first, last = up
    mine, across = kind == side, kind == ACROSS
    begins = first[mine | (across & (side == FAR))] - 1
    ends = last[mine | (across & (side == NEAR))] + 1
    low, high = reach
    points = np.concatenate([begins, ends, reach])
    points = np.unique(points[(low <= points) & (points <= high)])
    lines = np.stack([points, points], axis=1)
    between = np.stack([points[:-1], points[1:]], axis=1)
    cells = np.concatenate([lines, between])
    twice = cells.sum(axis=1)[:, None]
    begun, over = twice > 2 * (first - 1), twice < 2 * (last + 1)
    has_say = begun if side == FAR else over
    active = np.where(mine, begun & over, np.where(across, has_say, True))
    stops = np.append(last[mine] + 1, low)
    beside = np.zeros(len(cells), dtype=bool)
    at, apart = active[: len(points)], active[len(points) :]
    beside[1 : len(points)] |= (at[1:] == apart).all(axis=1)
    beside[: len(points) - 1] |= (at[:-1] == apart).all(axis=1)
    is_stop = (cells[:, 0] == cells[:, 1]) & np.isin(cells[:, 0], stops)
    return _Cells(cells, is_stop, active, beside)


def _pairs(lower: _Cells, upper: _Cells, heights: Run) -> Iterator[tuple[int, int]]:
    """Yield pairs of cells, one at a stop, whose heights are wanted."""
    least = upper.ends[None, :, 0] - lower.ends[:, None, 1]
    most = upper.ends[None, :, 1] - lower.ends[:, None, 0]
    wanted = (most >= heights[0]) & (least <= heights[1])
    wanted &= (lower.is_stop[:, None] & ~upper.is_idle) | (upper.is_stop & ~lower.is_idle[:, None])
    yield from zip(*(index.tolist() for index in np.nonzero(wanted)), strict=True)


def _largest(found: Iterable[SizeBox]) -> tuple[SizeBox, ...]:
    """Drop what lies in another box with no more dams."""

    def rank(box: SizeBox) -> tuple[int, int, Run, Run]:
        (w0, w1), (h0, h1) = box.widths, box.heights
        return box.dams, -(w1 - w0 + 1) * (h1 - h0 + 1), box.widths, box.heights

    kept: list[SizeBox] = []
    held = np.zeros((0, 4), dtype=np.int64)
    for box in sorted(set(found), key=rank):
        w0, w1, h0, h1 = *box.widths, *box.heights
        inside = (held[:, 0] <= w0) & (held[:, 1] >= w1) & (held[:, 2] <= h0) & (held[:, 3] >= h1)
        if not inside.any():
            kept.append(box)
            held = np.concatenate([held, [[w0, w1, h0, h1]]])
    return tuple(kept)
