"""Position maps: where on the liner one panel size may lie, exactly.

A side of a panel lies on the liner's own rim (*edge*) or has a dam outside it. For each of the
sixteen combinations the keep-off region around the panel is a handful of rectangles (*strips*), and
a place is free when no strip meets an obstacle: the domain less the Minkowski sum of each obstacle
with each mirrored strip. Obstacles are convex pieces with whole-number corners, so every question
put here is answered in whole numbers. Domains are closed and may be a segment or a point: a panel
flush with the rim, or a band exactly one dam wide.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np

from nesting.maps.bans import list_bans, list_obstacles, reach_of
from nesting.maps.ground import Ground
from nesting.shapes.convex import (
    APART,
    REACH,
    Ints,
    Pieces,
    Run,
    free_runs,
    joined,
    long_runs,
    merged,
)
from nesting.shapes.gaps import find_gap
from nesting.shapes.geometry import Box
from nesting.values.casts import Side, Sides

_LEVELS = 65
_LINES_AT_ONCE = 128


@dataclass(frozen=True, slots=True)
class Sheet:
    """The places of a panel size for one combination of sides: a closed box less open pieces."""

    sides: Sides
    domain: Box
    forbidden: Pieces

    def runs_at_y(self, y: int) -> list[Run]:
        """Return the closed runs of free x on the line ``y``, from left to right."""
        if not self.domain.y0 <= y <= self.domain.y1:
            return []
        return free_runs(self.domain.x0, self.domain.x1, self.forbidden.forbidden_at(y))

    def runs_at_x(self, x: int) -> list[Run]:
        """Return the closed runs of free y on the line ``x``, from below."""
        return self.turned_over().runs_at_y(x)

    def ends(self, *, far: bool) -> Ints:
        """Return the x at which a run along x may end on its near or far side, unsorted.

        All of them where obstacles are axis-parallel: the domain's end and those of the pieces.
        """
        faces = self.forbidden.boxes[:, 0 if far else 2]
        inside = (self.domain.x0 <= faces) & (faces <= self.domain.x1)
        return np.append(faces[inside], self.domain.x1 if far else self.domain.x0)

    def shadow(self) -> list[Run]:
        """Return runs that hold every x at which there is a place, and little more.

        Looks at slabs between a few levels: an x is left out where a box forbids it throughout.
        """
        x0, low, x1, high = self.domain
        boxes = self.forbidden.boxes[~self.forbidden.is_slanted()]
        tops = np.unique(np.concatenate([[low, high], boxes[:, 3].clip(low, high)]))
        levels = np.unique(tops[np.linspace(0, len(tops) - 1, _LEVELS).astype(np.int64)])
        runs: list[Run] = []
        for bottom, top in zip(levels, np.append(levels[1:], high), strict=True):
            spanning = boxes[(boxes[:, 1] < bottom) & (boxes[:, 3] > top)]
            runs += free_runs(x0, x1, spanning[:, [0, 2]] + [1, -1])
        return merged(runs)

    def turned_over(self) -> Sheet:
        """Return the sheet with x and y exchanged."""
        x0, y0, x1, y1 = self.domain
        return Sheet(self.sides, Box(y0, x0, y1, x1), self.forbidden.turned_over())

    def first_place(self) -> tuple[int, int] | None:
        """Return a place, None where there is none, be it in a pocket between slopes.

        Among axis-parallel obstacles it is the lowest, then leftmost: a free region begins at the
        bottom of the domain or at the top of a forbidden piece. Between slopes it is any, see
        `gaps.find_gap`.
        """
        if self.forbidden.is_slanted().any():
            return find_gap(self.forbidden, self.domain)
        low, high = self.domain.y0, self.domain.y1
        tops = self.forbidden.boxes[:, 3]
        ys = np.unique(np.append(tops[(low < tops) & (tops <= high)], low))
        for batch in np.split(ys, range(_LINES_AT_ONCE, len(ys), _LINES_AT_ONCE)):
            forbidden = self.forbidden.forbidden_on(batch)
            begin, _ = long_runs(len(batch), *forbidden, (self.domain.x0, self.domain.x1))
            if len(begin):
                at = int((begin[0] + REACH) // APART)
                return int(begin[0]) - at * APART, int(batch[at])
        return None

    def holds(self, x: int, y: int) -> bool:
        """Whether the panel may lie with its lower-left corner at (x, y)."""
        inside = self.domain.contains(Box(x, y, x, y))
        return inside and not bool(self.forbidden.hold(x, y).any())


@dataclass(frozen=True, slots=True)
class PositionMap:
    """All places of one panel size (``width`` x ``height`` [steps]) on one ground."""

    width: int
    height: int
    sheets: tuple[Sheet, ...]

    def sheet_at(self, x: int, y: int) -> Sheet | None:
        """Return the sheet that allows the place, or None where the panel may not lie."""
        return next((sheet for sheet in self.sheets if sheet.holds(x, y)), None)

    def first_place(self) -> tuple[int, int] | None:
        """Return the first place of the first sheet that has one, see `Sheet.first_place`."""
        places = (sheet.first_place() for sheet in self.sheets)
        return next((place for place in places if place is not None), None)


@dataclass(frozen=True, slots=True)
class Wish:
    """Which ornaments a panel must show and must hide, as indexes into the liner's ornaments."""

    show: frozenset[int] = frozenset()
    hide: frozenset[int] = frozenset()


NO_WISH = Wish()


def map_positions(ground: Ground, width: int, height: int, wish: Wish = NO_WISH) -> PositionMap:
    """Return the exact position map of a panel of flat ``width`` x ``height`` [steps].

    A rectangle turned half round covers the same ground, so one map serves both turns.
    """
    return PositionMap(width, height, tuple(_sheets(ground, width, height, wish)))


def has_place(
    ground: Ground, width: int, height: int, wish: Wish = NO_WISH, beside: Box | None = None
) -> bool:
    """Whether a panel of that size may lie anywhere, be it in a pocket between slopes.

    Where a box is given, only places are looked at from which the panel, its dams or their
    clearance reach ``beside`` it.
    """
    return find_place(ground, width, height, wish, beside) is not None


def find_place(
    ground: Ground, width: int, height: int, wish: Wish = NO_WISH, beside: Box | None = None
) -> tuple[int, int, Sides] | None:
    """Return some place of a panel of that size and its sides, None where it has none.

    ``beside`` is as for `has_place`.
    """
    for sheet in _sheets(ground, width, height, wish, beside):
        if (place := sheet.first_place()) is not None:
            return *place, sheet.sides
    return None


def _sheets(
    ground: Ground, width: int, height: int, wish: Wish, beside: Box | None = None
) -> Iterator[Sheet]:
    obstacles = list_obstacles(ground, wish.hide)
    reach = max(reach_of(kind, ground.rules)[0] for kind in obstacles)
    for sides, unlimited in _domains(ground, width, height):
        domain = _limit(unlimited, ground, width, height, wish)
        if domain is not None and beside is not None:
            domain = _common(domain, beside.grown(width + reach, height + reach, reach, reach))
        if domain is not None:
            around = domain.grown(reach, reach, width + reach, height + reach)
            near = {kind: pieces.near(around) for kind, pieces in obstacles.items()}
            bans = list_bans(width, height, sides, ground.rules)
            forbidden = joined([near[kind].swept(strip) for kind, strip in bans])
            yield Sheet(sides, domain, forbidden.near(domain))


def _domains(ground: Ground, width: int, height: int) -> Iterator[tuple[Sides, Box]]:
    """Yield every combination of edge and dam sides with the closed box of its places."""
    across = list(_spans(ground.left_rims, ground.right_rims, width, height))
    up = list(_spans(ground.bottom_rims, ground.top_rims, height, width))
    for (left, right, x, ys), (bottom, top, y, xs) in product(across, up):
        widths = Sides(left, right, bottom, top).widths(ground.rules.dam_width)
        yield (
            Sides(left, right, bottom, top),
            Box(
                _highest(x[0], xs[0], ground.frame.x0 + widths[0]),
                _highest(y[0], ys[0], ground.frame.y0 + widths[2]),
                _lowest(x[1], xs[1], ground.frame.x1 - width - widths[1]),
                _lowest(y[1], ys[1], ground.frame.y1 - height - widths[3]),
            ),
        )


Limits = tuple[int | None, int | None]
_FREE: Limits = (None, None)


def _spans(
    low_rims: tuple[tuple[int, int, int], ...],
    high_rims: tuple[tuple[int, int, int], ...],
    size: int,
    other: int,
) -> Iterator[tuple[Side, Side, Limits, Limits]]:
    """Yield the sides across one axis with the limits they set along it and across it."""
    yield "dam", "dam", _FREE, _FREE
    for at, start, stop in low_rims:
        yield "edge", "dam", (at, at), (start, stop - other)
    for at, start, stop in high_rims:
        yield "dam", "edge", (at - size, at - size), (start, stop - other)
    for (at, start, stop), (end, from_, to) in product(low_rims, high_rims):
        if end - at == size:
            yield "edge", "edge", (at, at), (max(start, from_), min(stop, to) - other)


def _highest(*limits: int | None) -> int:
    return max(limit for limit in limits if limit is not None)


def _lowest(*limits: int | None) -> int:
    return min(limit for limit in limits if limit is not None)


def _limit(domain: Box, ground: Ground, width: int, height: int, wish: Wish) -> Box | None:
    """Return the part of the domain from which every wished ornament lies inside the panel."""
    shown = [ground.liner.ornaments[index].outline.bounds for index in wish.show]
    return _common(domain, *(Box(b.x1 - width, b.y1 - height, b.x0, b.y0) for b in shown))


def _common(*boxes: Box) -> Box | None:
    """Return what closed boxes share, be it a segment or a point; None where it is nothing."""
    x0, y0 = max(box.x0 for box in boxes), max(box.y0 for box in boxes)
    x1, y1 = min(box.x1 for box in boxes), min(box.y1 for box in boxes)
    return Box(x0, y0, x1, y1) if x0 <= x1 and y0 <= y1 else None
