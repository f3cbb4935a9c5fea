"""Which size of a panel is used: the nominal one wherever it has a place, else the nearest.

Whatever asks for a panel's size asks here, so that a size that fits is a size that is planned.
"""

from dataclasses import dataclass
from itertools import product

from nesting.maps.ground import Ground
from nesting.maps.positions import PositionMap, Wish, map_positions
from nesting.maps.sizehunt import Hunted, Hunts, hunt_size
from nesting.shapes.geometry import Point
from nesting.values.bend import Bend
from nesting.values.panels import Panel


@dataclass(frozen=True, slots=True)
class SizedPanel:
    """A panel with the flat size it is planned at, its map, and its change from the order.

    ``place`` is one of the places on the map, no better than others.
    """

    panel: Panel
    map: PositionMap
    wish: Wish
    place: Point
    off_nominal: tuple[int, int] = (0, 0)


def choose_size(
    ground: Ground, panel: Panel, bend: Bend, hunts: Hunts | None = None
) -> SizedPanel | None:
    """Return the nominal size, else the nearest one within tolerance that has a place, else None.

    ``hunts``, where given, are those of the ground and save time over many panels.

    Nearest is the smallest greater change of the two sides, then the smallest sum of changes; to
    the step among axis-parallel obstacles, between slopes within `sizehunt.TOLERANCE`.
    """
    wish = wish_of(ground, panel)
    nominal = bend.flat_size(panel)
    found = map_positions(ground, *nominal, wish)
    place = found.first_place()
    if place is not None:
        return SizedPanel(panel, found, wish, place)
    hunted = _hunt_near(hunts or Hunts(ground), nominal, bend.flat_range(panel), wish)
    if hunted is None or hunted.size is None:
        return None
    found = map_positions(ground, *hunted.size, wish)
    off = bend.off_nominal(panel, hunted.size)
    return SizedPanel(panel, found, wish, _place_on(found, hunted.y), off)


def wish_of(ground: Ground, panel: Panel) -> Wish:
    """Return the panel's wishes as indexes into the liner's ornaments."""
    index = {ornament.name: number for number, ornament in enumerate(ground.liner.ornaments)}
    return Wish(
        frozenset(index[name] for name in panel.must_show),
        frozenset(index[name] for name in panel.must_hide),
    )


def _hunt_near(
    hunts: Hunts, nominal: Point, ranges: tuple[Point, Point], wish: Wish
) -> Hunted | None:
    """Return the nearest size within ranges of width and height, each side less or more."""
    found: list[Hunted] = []
    for wide, high in product((-1, 1), repeat=2):
        reach = abs(ranges[0][wide > 0] - nominal[0]), abs(ranges[1][high > 0] - nominal[1])
        if any(reach):
            found.append(hunt_size(hunts.across(wish), nominal, (wide, high), reach=reach))

    def change(each: Hunted) -> tuple[int, int, Point]:
        assert each.size is not None
        by = [abs(a - b) for a, b in zip(each.size, nominal, strict=True)]
        return max(by), sum(by), each.size

    return min((each for each in found if each.size is not None), key=change, default=None)


def _place_on(panel_map: PositionMap, y: int) -> Point:
    """Return the first place on a line that has one."""
    return next((run[0], y) for sheet in panel_map.sheets for run in sheet.runs_at_y(y)[:1])
