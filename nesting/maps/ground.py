"""What a panel and its dams must keep off: ornaments, ground for no dam, ground off the liner."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from nesting.shapes.convex import Pieces, joined, pieces_of, pieces_of_rings
from nesting.shapes.geometry import (
    Box,
    Point,
    Polygon,
    Ring,
    convex_hull,
    edges,
    polygon_of,
    subtract,
)
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner

Rims = tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Ground:
    """The obstacles of one liner under one set of rules.

    ``ornaments`` hold one set of pieces each, in the liner's order; ``no_dam`` is ground that no
    dam may touch, off the liner or not blank, and ``keep_clear`` what is too near to each place
    that dams keep off; ``off_liner`` is what no panel may touch, empty where the liner is a
    rectangle and its ``frame`` says it all. ``left_rims`` to ``top_rims`` are the
    straight stretches of the liner's rim a panel's side can lie on: (x, y from, y to) for left and
    right, (y, x from, x to) for bottom and top.
    """

    liner: Liner
    rules: Rules
    frame: Box
    ornaments: tuple[Pieces, ...]
    no_dam: Pieces
    keep_clear: tuple[Pieces, ...]
    off_liner: Pieces
    left_rims: Rims
    right_rims: Rims
    bottom_rims: Rims
    top_rims: Rims

    @property
    def parts(self) -> tuple[Pieces, ...]:
        """All obstacles."""
        return (*self.ornaments, self.no_dam, *self.keep_clear, self.off_liner)

    @property
    def is_stepped(self) -> bool:
        """Whether every obstacle is made of rectangles."""
        return not any(part.is_slanted().any() for part in self.parts)

    def with_parts(self, change: Callable[[Pieces], Pieces]) -> Ground:
        """Return the ground with every obstacle changed."""
        return replace(
            self,
            ornaments=tuple(map(change, self.ornaments)),
            no_dam=change(self.no_dam),
            keep_clear=tuple(map(change, self.keep_clear)),
            off_liner=change(self.off_liner),
        )


def survey(liner: Liner, rules: Rules) -> Ground:
    """Return the ground of a liner, exact; see `guards` for the one rounding and its safe side."""
    frame = liner.outline.bounds
    reach = _reach(frame, rules)
    outside = subtract([polygon_of(reach)], [liner.outline])
    off_liner = pieces_of(outside)
    ornaments = tuple(pieces_of([ornament.outline]) for ornament in liner.ornaments)
    no_dam = [] if liner.unmarked == "blank" else [_not_blank(liner.zones, reach)]
    left, right, bottom, top = rims(liner.outline)
    return Ground(
        liner,
        rules,
        frame,
        ornaments,
        joined([*no_dam, off_liner]),
        tuple(pieces_of_rings([each.ground]) for each in liner.keep_clear),
        pieces_of(()) if liner.outline.is_box else off_liner,
        left,
        right,
        bottom,
        top,
    )


def with_zones(ground: Ground, zones: Sequence[BlankZone]) -> Ground:
    """Return the ground of a liner with these blank zones instead of its own.

    The value's ``liner`` keeps its own. ``ground`` is that of a liner with ``unmarked = "detail"``.
    """
    reach = _reach(ground.frame, ground.rules)
    outside = pieces_of(subtract([polygon_of(reach)], [ground.liner.outline]))
    return replace(ground, no_dam=joined([_not_blank(zones, reach), outside]))


def turn_ground_over(ground: Ground) -> Ground:
    """Return the obstacles and rims with x and y exchanged; the liner itself stays as it is."""
    x0, y0, x1, y1 = ground.frame
    return replace(
        ground.with_parts(Pieces.turned_over),
        frame=Box(y0, x0, y1, x1),
        left_rims=ground.bottom_rims,
        right_rims=ground.top_rims,
        bottom_rims=ground.left_rims,
        top_rims=ground.right_rims,
    )


def rims(outline: Polygon) -> tuple[Rims, Rims, Rims, Rims]:
    """Return the axis-parallel stretches of the rim: left, right, bottom, top.

    On a left rim the liner lies to the right of it, and so on. Stretches that meet end to end are
    one.

    >>> rims(polygon_of(Box(0, 0, 4, 3)))
    (((0, 0, 3),), ((4, 0, 3),), ((0, 0, 4),), ((3, 0, 4),))
    """
    found: tuple[list[tuple[int, int, int]], ...] = ([], [], [], [])
    for ring in outline.rings:
        for (x0, y0), (x1, y1) in edges(ring):
            if x0 == x1:
                found[0 if y1 < y0 else 1].append((x0, min(y0, y1), max(y0, y1)))
            elif y0 == y1:
                found[2 if x1 > x0 else 3].append((y0, min(x0, x1), max(x0, x1)))
    left, right, bottom, top = (_end_to_end(stretches) for stretches in found)
    return left, right, bottom, top


def _end_to_end(stretches: list[tuple[int, int, int]]) -> Rims:
    merged: list[tuple[int, int, int]] = []
    for at, low, high in sorted(stretches):
        if merged and merged[-1][0] == at and merged[-1][2] == low:
            merged[-1] = (at, merged[-1][1], high)
        else:
            merged.append((at, low, high))
    return tuple(merged)


def _reach(frame: Box, rules: Rules) -> Box:
    return frame.grown(*4 * (rules.dam_width + rules.dam_clearance + 1,))


def _not_blank(blank: Sequence[BlankZone], reach: Box) -> Pieces:
    zones = [zone.outline for zone in blank]
    rest = subtract([polygon_of(reach)], zones)
    return joined([pieces_of(rest), pieces_of_rings(guards(rest, zones))])


def guards(rest: tuple[Polygon, ...], zones: list[Polygon]) -> list[Ring]:
    """Return thin obstacles that make up for crossings rounded to the grid.

    Where two slanted zone edges cross, the corner of what is left over is rounded by less than a
    step. A guard covers each slanted edge at such a corner, one step wide, so that no dam can lie
    outside a zone; it takes less than 0.00025 mm of room, and none where edges are axis-parallel.
    """
    given = {point for zone in zones for ring in zone.rings for point in ring}
    return [
        convex_hull([*_around(start, given), *_around(end, given)])
        for polygon in rest
        for ring in polygon.rings
        for start, end in edges(ring)
        if start[0] != end[0] and start[1] != end[1] and not {start, end} <= given
    ]


def _around(point: Point, given: set[Point]) -> list[Point]:
    if point in given:
        return [point]
    x, y = point
    return [(x - 1, y - 1), (x + 1, y - 1), (x + 1, y + 1), (x - 1, y + 1)]
