"""The picture of what was found on a scan: heights as tints, ornaments, blank zones, and a key.

Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import floor

from nesting.drawings.labels import Taken, beside, nearest_on, within
from nesting.drawings.lettering import wrap
from nesting.drawings.record import Area, AreaStyle, Drawing, Layer, Line, Rect, Shape, Text
from nesting.drawings.sheet import MARGIN, PAD, PAPERS, ROW_PITCH, STRIP_HEIGHT, SheetPlan, View
from nesting.drawings.strip import draw_strip
from nesting.drawings.terrain import quarter_disc
from nesting.files.columns import count_of
from nesting.scans.build import ScanFound, Shade
from nesting.scans.report import found_liner
from nesting.shapes.geometry import Box, Polygon, slabs
from nesting.values.job import Units

_SCALES: dict[Units, tuple[Fraction, ...]] = {
    "mm": tuple(map(Fraction, ("1", "2", "5/2", "5", "10", "20", "25", "50", "100", "200"))),
    "in": tuple(map(Fraction, (1, 2, 4, 8, 12, 16, 24, 48, 96, 192))),
}
_TINTS: dict[int, AreaStyle] = {-1: "sunk", 1: "low", 2: "middle", 3: "high"}
_HEIGHT, _KEY_WIDTH, _SWATCH = 3.5, 96.0, 14.0
_ON_RIM, _ON_LABEL = 1.0, 0.4
_FEW = 4  # one name of so many may be missing


def draw_scan(found: ScanFound, title: str, units: Units) -> Drawing:
    """Return the picture on the smallest paper where names have a place, a few perhaps not."""
    best: tuple[int, SheetPlan, tuple[Shape, ...]] | None = None
    for sheet in _sheets(found.liner.outline.bounds, units):
        unplaced, names = _name_all(sheet, found)
        if best is None or unplaced < best[0]:
            best = unplaced, sheet, names
        if unplaced * _FEW <= len(found.liner.ornaments) + len(found.liner.zones):
            break
    assert best is not None
    unplaced, sheet, names = best
    strip = draw_strip(sheet.strip, _title(found, title, sheet), sheet.view, units)
    return Drawing(
        "scan",
        sheet.width,
        sheet.height,
        f"{title}: what was found on the scan",
        f"Liner '{found.liner.name}' with {count_of(len(found.liner.ornaments), 'ornament')} and "
        f"{count_of(len(found.liner.zones), 'blank zone')} over tints of height.",
        (
            Layer("sheet", sheet.shapes),
            Layer("heights", _draw_heights(sheet.view, found)),
            Layer("found", _draw_found(sheet.view, found)),
            Layer("names", names),
            Layer("key", _draw_key(sheet, found, units, unplaced)),
            Layer("strip", strip),
        ),
    )


def _sheets(bounds: Box, units: Units) -> Iterator[SheetPlan]:
    """Yield each paper with the key beside the liner, at the largest scale that holds it."""
    for paper, width, height in PAPERS[units]:
        inside = Rect(MARGIN, MARGIN, width - MARGIN, height - MARGIN)
        strip = inside._replace(y1=inside.y0 + STRIP_HEIGHT)
        split = inside.x1 - _KEY_WIDTH - 2 * PAD
        ground = Rect(inside.x0, strip.y1, split, inside.y1)
        key = Rect(split, strip.y1, inside.x1, inside.y1)
        view = _fit(units, ground.grown(-3 * PAD), bounds)
        yield SheetPlan(paper, width, height, view, ground, key, 1, strip, (False, False), False)


def _fit(units: Units, room: Rect, bounds: Box) -> View:
    """Return the view that puts the liner in the middle of the room at the largest scale."""
    for scale in _SCALES[units]:
        view = View(scale, 0, 0)
        width, height = view.length(bounds.width), view.length(bounds.height)
        if width <= room.width and height <= room.height:
            break
    (x, y), (left, low) = room.centre, view.at((bounds.x0, bounds.y0))
    return View(scale, x - left - width / 2, y - low - height / 2)


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
    return (*shapes, Line((*rim, rim[0]), "rim"), quarter_disc(view.at((0, 0)), 2.5))


def _name_all(sheet: SheetPlan, found: ScanFound) -> tuple[int, tuple[Shape, ...]]:
    """Return how many names found no place, and the others; ornaments first."""
    taken = Taken()
    for outline in (found.liner.outline, *(each.outline for each in found.liner.ornaments)):
        for ring in sheet.view.rings(outline):
            taken.draw((*ring, ring[0]), _ON_RIM, 0.0)
    shapes: list[Shape] = []
    unplaced = 0
    for ornament in found.liner.ornaments:
        name = _place_beside(sheet, taken, ornament.name, ornament.outline)
        unplaced += not name
        shapes += name
    for zone in found.liner.zones:
        words = zone.name.rpartition(" ")[2]  # the key gives the rest
        name = _place_within(
            taken, words, sheet.view.rect(max(slabs(zone.outline), key=lambda box: box.area))
        )
        unplaced += not name
        shapes += name
    return unplaced, tuple(shapes)


def _place_beside(sheet: SheetPlan, taken: Taken, words: str, outline: Polygon) -> list[Shape]:
    """Return a name on its ornament where it fits, else beside it with a leader."""
    ground = _plate(words)
    target = sheet.view.rect(outline.bounds)
    inside = sheet.ground.grown(-1)
    for rect, face in beside(target, ground.width, ground.height):
        if not (inside.holds(rect) and taken.is_free(rect)) or taken.cost(rect) > 0:
            continue
        end = nearest_on(rect, face)
        near = abs(end[0] - face[0]) + abs(end[1] - face[1]) < 4
        if near or taken.is_clear(face, end):
            return _put(taken, words, rect, [] if near else [Line((face, end), "leader")])
    return []


def _place_within(taken: Taken, words: str, room: Rect) -> list[Shape]:
    ground = _plate(words)
    for rect in within(room, ground.width, ground.height):
        if taken.is_free(rect) and not taken.cost(rect):
            return _put(taken, words, rect, [])
    return []


def _plate(words: str) -> Rect:
    return Text(0, 0, words, _HEIGHT).rect.grown(_ON_LABEL)


def _put(taken: Taken, words: str, rect: Rect, leader: list[Line]) -> list[Shape]:
    taken.take(rect)
    ground = _plate(words)
    text = Text(rect.x0 - ground.x0, rect.y0 - ground.y0, words, _HEIGHT)
    return [*leader, Area((rect.ring,), "plate"), text]


def _draw_key(sheet: SheetPlan, found: ScanFound, units: Units, unplaced: int) -> tuple[Shape, ...]:
    """Return a swatch and its meaning for all that is used, then how the scan was read."""
    rows: list[tuple[AreaStyle | None, str]] = [("ornament", "Ornament, with its doubt")]
    if any(part.unread == 1 for part in found.parts):
        rows.append(("masked", "Without readings"))
    rows += [("plain", "Blank zone 'ground ...'")] if found.liner.zones else []
    rows += [(_TINTS[shade.depth], _meaning(shade)) for shade in found.shades]
    told = list(found_liner(found, "", units).notes)
    told += [f"names without room here, in the report: {unplaced}"] if unplaced else []
    notes = [line for note in told for line in wrap(f"- {note}", _KEY_WIDTH, _HEIGHT)]
    room = floor((sheet.key.height - 2 * PAD) / ROW_PITCH)
    rows += [(None, line) for line in notes[: room - len(rows)]]
    shapes: list[Shape] = [Line((*sheet.key.ring, sheet.key.ring[0]), "rule")]
    for number, (style, words) in enumerate(rows[:room]):
        base = sheet.key.y1 - PAD - (number + 1) * ROW_PITCH + (ROW_PITCH - _HEIGHT) / 2
        x = sheet.key.x0 + PAD
        if style is not None:
            swatch = Rect(x, base - 0.3, x + _SWATCH, base + _HEIGHT + 0.3)
            shapes.append(Area((swatch.ring,), style))
            shapes += [Line((*swatch.ring, swatch.ring[0]), "zone")] if style == "plain" else []
            x += _SWATCH + 3
        shapes.append(Text(x, base, words, _HEIGHT))
    return tuple(shapes)


def _meaning(shade: Shade) -> str:
    return f"{shade.beyond:.1f} mm or more {'below' if shade.depth < 0 else 'above'} ground"


def _title(found: ScanFound, title: str, sheet: SheetPlan) -> Sequence[Sequence[str]]:
    return [[title, "Liner from a scan"], [f"Liner: {found.liner.name}"], [sheet.scale_words]]
