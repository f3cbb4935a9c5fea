"""The picture of a liner that was read: outline, ornaments, blank zones, and what was left out.

Nothing is decided here: the liner is known already.
"""

from __future__ import annotations

from collections.abc import Iterable

from nesting.drawings.key import KEEP_CLEAR, KeyRow, Swatch, draw_key, lines_needed, rows_width
from nesting.drawings.labels import Taken
from nesting.drawings.names import PlacedNames
from nesting.drawings.record import Area, Drawing, Layer, Line, bounds_of
from nesting.drawings.sheet import SheetNeed, SheetPlan, View, sheets_for
from nesting.drawings.strip import draw_strip
from nesting.drawings.terrain import clear_lines, datum_shapes
from nesting.files.columns import count_of
from nesting.jobs.found import Ignored, LinerFound
from nesting.schedules.setout import write_size
from nesting.shapes.geometry import Box, bounds
from nesting.shapes.pieces import Units
from nesting.values.liner import BlankZone, Liner, Ornament

_MOST_NAMED = 60
_MOST_KEY_COLUMNS = 8
_AROUND = 0.15  # of the liner's longer side: as far around it what was left out is shown
_ON_ORNAMENT, _ON_RIM, _SPARE = 12.0, 12.0, 8.0


def draw_liner(found: LinerFound) -> Drawing:
    """Return the liner on the smallest paper, at the largest scale that holds it."""
    units: Units = "in" if found.units == "in" else "mm"
    near = [each for each in found.ignored if _is_near(each, _ground(found).grown(*_slack(found)))]
    frame = _frame(found, near)
    rows = _rows(found, near)
    lines = tuple(lines_needed(rows, columns) for columns in range(1, _MOST_KEY_COLUMNS + 1))
    need = SheetNeed(frame, 0, 0, (0.0, 0.0), (0.0, 0.0), 0.0, rows_width(rows), lines)
    sheet = next(iter(sheets_for(need, units)))
    view = sheet.view
    ignored = tuple(Line(tuple(map(view.at, each.trace)), "ignored") for each in near)
    strip = draw_strip(sheet.strip, _title(found, sheet, units), view, units)
    names = _names(found, sheet, ignored)
    return Drawing(
        "liner",
        sheet.width,
        sheet.height,
        f"Liner {found.liner.name}",
        f"The liner {found.liner.name} as read from {found.source or 'its file'}: "
        f"{_counts(found.liner)}.",
        (
            Layer("sheet", sheet.shapes),
            *_liner_layers(found, view),
            Layer("ignored", ignored),
            Layer("plates", (*names.leaders, *names.plates)),
            Layer("rim", (*_rim(found, view), *datum_shapes(view))),
            Layer("names", tuple(names.texts)),
            Layer("key", draw_key(sheet, rows)),
            Layer("strip", strip),
        ),
    )


def _liner_layers(found: LinerFound, view: View) -> tuple[Layer, ...]:
    liner = found.liner
    rim = view.rings(liner.outline)
    zones = [view.rings(zone.outline) for zone in liner.zones]
    return (
        Layer(
            "ground",
            (
                Area(rim, "liner"),
                *(Area(rings, "zone") for rings in zones),
                *(Line((*ring, ring[0]), "zone") for rings in zones for ring in rings),
            ),
        ),
        Layer(
            "relief",
            (
                *(Area(view.rings(each.outline), "ornament") for each in liner.ornaments),
                *clear_lines(liner, view),
            ),
        ),
    )


def _rim(found: LinerFound, view: View) -> tuple[Line, ...]:
    return tuple(Line((*ring, ring[0]), "rim") for ring in view.rings(found.liner.outline))


def _names(found: LinerFound, sheet: SheetPlan, ignored: Iterable[Line]) -> PlacedNames:
    """Return the names of ornaments and zones wherever they stand clear."""
    view, liner = sheet.view, found.liner
    taken = Taken()
    taken.take(bounds_of(datum_shapes(view)))
    names = PlacedNames(sheet.ground.grown(-1.0), taken, _SPARE)
    if len(liner.ornaments) + len(liner.zones) > _MOST_NAMED:
        return names
    for ring in view.rings(liner.outline):
        taken.draw((*ring, ring[0]), _ON_RIM)
    for line in ignored:
        taken.draw(line.points, _ON_RIM)
    shapes: tuple[Ornament | BlankZone, ...] = (*liner.ornaments, *liner.zones)
    for shape in shapes:
        for ring in view.rings(shape.outline):
            taken.draw((*ring, ring[0]), _ON_ORNAMENT)
    for shape in shapes:
        names.name_ornament(view.rect(shape.outline.bounds), shape.name)
    for each in liner.keep_clear:
        names.name_ornament(view.rect(bounds(each.ground)), each.name)
    return names


def _rows(found: LinerFound, near: list[Ignored]) -> tuple[KeyRow, ...]:
    known: tuple[tuple[Swatch, str, bool], ...] = (
        ("ornament", "Ornament", bool(found.liner.ornaments)),
        ("zone", "Blank zone", bool(found.liner.zones)),
        ("keep_clear", KEEP_CLEAR, bool(found.liner.keep_clear)),
        ("rim", "Rim of the liner", True),
        ("ignored", "Left out", bool(near)),
        ("datum", "Datum corner 0,0", True),
    )
    return tuple(KeyRow((words,), swatch) for swatch, words, is_used in known if is_used)


def _counts(liner: Liner) -> str:
    ornaments = count_of(len(liner.ornaments), "ornament")
    return f"{ornaments}, {count_of(len(liner.zones), 'blank zone')}"


def _title(found: LinerFound, sheet: SheetPlan, units: Units) -> list[list[str]]:
    liner = found.liner
    box = liner.outline.bounds
    size = f"{write_size(box.width, box.height, units)} {units}"
    return [
        [f"Liner {liner.name}", size],
        [f"As read from {found.source}", _counts(liner)],
        [sheet.scale_words],
    ]


def _ground(found: LinerFound) -> Box:
    box = found.liner.outline.bounds
    return Box(min(box.x0, 0), min(box.y0, 0), max(box.x1, 0), max(box.y1, 0))


def _slack(found: LinerFound) -> tuple[int, int, int, int]:
    box = found.liner.outline.bounds
    around = round(_AROUND * max(box.width, box.height))
    return around, around, around, around


def _is_near(each: Ignored, room: Box) -> bool:
    inside = (room.x0 <= x <= room.x1 and room.y0 <= y <= room.y1 for x, y in each.trace)
    return len(each.trace) > 1 and all(inside)


def _frame(found: LinerFound, near: list[Ignored]) -> Box:
    """Return the box around the liner, its datum and what is shown beside it."""
    box = _ground(found)
    xs = [box.x0, box.x1, *(x for each in near for x, _ in each.trace)]
    ys = [box.y0, box.y1, *(y for each in near for _, y in each.trace)]
    return Box(min(xs), min(ys), max(xs), max(ys))
