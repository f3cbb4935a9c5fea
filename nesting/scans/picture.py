"""The picture of what was found on a scan: heights as tints, ornaments, blank zones, and a key.

Nothing is decided here.
"""

from collections.abc import Iterator

from nesting.drawings.compose import (
    Figures,
    Head,
    Painted,
    Picture,
    compose,
    measured,
    start_names,
)
from nesting.drawings.key import MOST_WIDTH, KeyRow, list_notes
from nesting.drawings.names import PlacedNames
from nesting.drawings.record import Area, AreaStyle, Drawing, Layer, Line, Shape
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.view import FROM_ABOVE, View
from nesting.files.columns import count_of
from nesting.scans.build import ScanFound, Shade
from nesting.scans.report import found_liner
from nesting.shapes.geometry import Box, slabs
from nesting.values.job import Units

_TINTS: dict[int, AreaStyle] = {-1: "sunk", 1: "low", 2: "middle", 3: "high"}
_NAMED = "All names are in the report"
_FEW = 4  # one name of so many may be missing


def draw_scan(found: ScanFound, title: str, units: Units) -> Drawing:
    """Return the picture on the smallest paper where names have a place, a few perhaps not."""
    liner = found.liner
    head = Head(
        "scan",
        f"{title}: what was found on the scan",
        f"Liner '{liner.name}' with {count_of(len(liner.ornaments), 'ornament')} and "
        f"{count_of(len(liner.zones), 'blank zone')} over tints of height.",
        units,
        ((title, "Liner from a scan"), (f"Liner: {liner.name}", FROM_ABOVE, _NAMED)),
    )
    named = len(liner.ornaments) + len(liner.zones)
    key = tuple(_key_rows(found, units))
    picture = Picture(head, liner.outline.bounds, (key,), may_miss=named // _FEW)

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        names = _name_all(sheet, figures, found)
        layers = (
            Layer("heights", _draw_heights(sheet.view, found)),
            Layer("found", _draw_found(sheet.view, found)),
            measured(sheet, figures),
            Layer("names", names.shapes),
        )
        return Painted(layers, len(names.unplaced))

    return compose(picture, paint)


def _draw_heights(view: View, found: ScanFound) -> tuple[Shape, ...]:
    """Return the liner, its tints from low to high, and ground without readings."""
    outline = found.liner.outline
    shapes: list[Shape] = [Area(view.rings(outline), "liner")]
    for shade in found.shades:
        rings = tuple(
            tuple(view.at(_held(point, outline.bounds)) for point in ring)
            for area in shade.areas
            for ring in area
        )
        shapes.append(Area(rings, _TINTS[shade.depth]))
    return tuple(shapes)


def _held(point: tuple[int, int], box: Box) -> tuple[int, int]:
    """Return the point moved onto the liner's box, beyond which tints are rounded."""
    return min(max(point[0], box.x0), box.x1), min(max(point[1], box.y0), box.y1)


def _draw_found(view: View, found: ScanFound) -> tuple[Shape, ...]:
    shapes: list[Shape] = []
    for zone in found.liner.zones:
        rings = view.rings(zone.outline)
        shapes.append(Area(rings, "plain"))
        shapes += [Line((*ring, ring[0]), "zone") for ring in rings]
    for part, ornament in zip(found.parts, found.liner.ornaments, strict=True):
        rings = view.rings(ornament.outline)
        if part.unread == 1:
            shapes.append(Area(rings, "masked"))
        shapes.append(Area(rings, "ornament"))
    (rim,) = view.rings(found.liner.outline)
    return (*shapes, Line((*rim, rim[0]), "rim"))


def _name_all(sheet: SheetPlan, figures: Figures, found: ScanFound) -> PlacedNames:
    """Return the names of ornaments, then those of zones that have room inside them."""
    relief = [ornament.outline for ornament in found.liner.ornaments]
    names = start_names(sheet, figures, found.liner.outline, relief, 0.0)
    for ornament in found.liner.ornaments:
        names.name_ornament(sheet.view.rect(ornament.outline.bounds), ornament.name, is_needed=True)
    for zone in found.liner.zones:
        widest = max(slabs(zone.outline), key=lambda box: box.area)
        words = zone.name.rpartition(" ")[2]  # the key gives the rest
        if not names.name_within(sheet.view.rect(widest), words):
            names.unplaced.append(zone.name)
    return names


def _key_rows(found: ScanFound, units: Units) -> Iterator[KeyRow]:
    """Yield a swatch and its meaning for all that is used, then how the scan was read."""
    if found.liner.ornaments:
        yield KeyRow(("Ornament, with its doubt",), "ornament")
    if any(part.unread == 1 for part in found.parts):
        yield KeyRow(("Without readings",), "masked")
    if found.liner.zones:
        yield KeyRow(("Blank zone 'ground ...'",), "plain")
    yield from (KeyRow((_meaning(shade),), _TINTS[shade.depth]) for shade in found.shades)
    told = found_liner(found, "", units).notes
    yield from list_notes((f"- {note}" for note in told), MOST_WIDTH)


def _meaning(shade: Shade) -> str:
    return f"{shade.beyond:.1f} mm or more {'below' if shade.depth < 0 else 'above'} ground"
