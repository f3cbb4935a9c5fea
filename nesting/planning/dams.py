"""From panels to the cut list: dam rings as disjoint strips, with zones, clearances and areas."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from nesting.maps.bans import ring_strips
from nesting.planning.parting import part_region
from nesting.planning.strips import StripRule
from nesting.shapes.convex import Pieces, pieces_of, square_distances
from nesting.shapes.geometry import Box, Polygon, polygon_of, subtract
from nesting.values.casts import Areas, Dam, Placement
from nesting.values.liner import Liner
from nesting.values.names import dam_name


def place_dams(liner: Liner, rule: StripRule, panels: Sequence[Placement]) -> tuple[Dam, ...]:
    """Return the dams of a cast, numbered from the datum upward and then to the right.

    Together they fill the panels' dam rings and do not overlap. A gap between two panels narrower
    than two dams is one dam of the gap's own width.
    """
    boxes = [box for ring in _rings(panels, rule.dam) for box in part_region(ring, rule)]
    ornaments, zones = _ground_pieces(liner)
    return tuple(
        _dam(dam_name(number), box, ornaments, zones)
        for number, box in enumerate(sorted(boxes, key=lambda b: (b.y0, b.x0)), start=1)
    )


@lru_cache(maxsize=16)
def _ground_pieces(liner: Liner) -> tuple[Pieces, tuple[tuple[str, Pieces], ...]]:
    """Return the ornaments in pieces, and the zones by name, which every cast asks for."""
    ornaments = pieces_of(ornament.outline for ornament in liner.ornaments)
    return ornaments, tuple((zone.name, pieces_of([zone.outline])) for zone in liner.zones)


def _rings(panels: Sequence[Placement], dam: int) -> tuple[Polygon, ...]:
    strips = [
        polygon_of(strip.moved(panel.x, panel.y))
        for panel in panels
        for strip in ring_strips(panel.width, panel.height, panel.sides, dam)
    ]
    return subtract(strips, [])


def _dam(name: str, box: Box, ornaments: Pieces, zones: Sequence[tuple[str, Pieces]]) -> Dam:
    inside = tuple(zone for zone, pieces in zones if (square_distances(pieces, box) < 0).any())
    clearance = int(square_distances(ornaments, box).min()) if len(ornaments) else None
    return Dam(name, box.x0, box.y0, box.width, box.height, inside, clearance)


def account(liner: Liner, placements: Iterable[Placement], dams: Iterable[Dam]) -> Areas:
    """Return the area account of one cast.

    Liner = panels + dams + masked, in whole square steps. Panels and dams must be disjoint and lie
    on the liner; what they leave is masked. Without any, the whole liner is masked. A liner with
    slanted sides may end in half a square step. The account then takes the whole square steps
    below, so the half is missing from the masked area and from nothing else
    (a hundred-millionth of a square millimetre).

    Raises
    ------
    ValueError
        Where panels and dams cover more than the liner has.
    """
    whole = liner.outline.area
    panels = sum(placement.width * placement.height for placement in placements)
    strips = sum(dam.width * dam.height for dam in dams)
    if panels + strips > whole:
        raise ValueError("panels and dams cover more than the liner: they overlap or lie off it")
    return Areas(whole, panels, strips, whole - panels - strips)
