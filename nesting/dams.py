"""From panels to the cut list: the dam rings as disjoint strips, each with its zones and clearance."""

from __future__ import annotations

from collections.abc import Sequence

from nesting.casts import Dam, Placement
from nesting.convex import Pieces, pieces_of, square_distances
from nesting.geometry import Box, Polygon, polygon_of, slabs, subtract, turn_over
from nesting.job import Rules
from nesting.liner import Liner
from nesting.positions import ring_strips


def place_dams(liner: Liner, rules: Rules, panels: Sequence[Placement]) -> tuple[Dam, ...]:
    """Return the dams of a cast, numbered from the datum upward and then to the right.

    Together they fill the panels' dam rings and do not overlap. A gap between two panels narrower
    than two dams is one dam of the gap's own width.
    """
    region = _rings(panels, rules.dam_width)
    lying = sorted(box for polygon in region for box in _rows(polygon))
    standing = sorted(box for polygon in region for box in slabs(polygon))
    boxes = min(lying, standing, key=lambda found: sum(max(b.width, b.height) for b in found))
    ornaments = pieces_of(ornament.outline for ornament in liner.ornaments)
    zones = [(zone.name, pieces_of([zone.outline])) for zone in liner.zones]
    return tuple(
        _dam(f"D{number}", box, ornaments, zones)
        for number, box in enumerate(sorted(boxes, key=lambda b: (b.y0, b.x0)), start=1)
    )


def _rings(panels: Sequence[Placement], dam: int) -> tuple[Polygon, ...]:
    strips = [
        polygon_of(strip.moved(panel.x, panel.y))
        for panel in panels
        for strip in ring_strips(panel.width, panel.height, panel.sides, dam)
    ]
    return subtract(strips, [])


def _rows(polygon: Polygon) -> list[Box]:
    return [Box(y0, x0, y1, x1) for x0, y0, x1, y1 in slabs(turn_over(polygon))]


def _dam(name: str, box: Box, ornaments: Pieces, zones: list[tuple[str, Pieces]]) -> Dam:
    inside = tuple(zone for zone, pieces in zones if (square_distances(pieces, box) < 0).any())
    clearance = int(square_distances(ornaments, box).min()) if len(ornaments) else None
    return Dam(name, box.x0, box.y0, box.width, box.height, inside, clearance)
