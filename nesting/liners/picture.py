"""The picture of a liner that was read: outline, ornaments, blank zones, and what was left out.

Nothing is decided here: the liner is known already.
"""

from collections.abc import Iterable

from nesting.drawings.compose import (
    Figures,
    Head,
    Painted,
    Picture,
    compose,
    measured,
    start_names,
)
from nesting.drawings.key import KeyRow, Swatch
from nesting.drawings.legend import KEEP_CLEAR, liner_rows
from nesting.drawings.names import PlacedNames
from nesting.drawings.record import Drawing, Layer, Line
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.terrain import layout_layers
from nesting.drawings.view import FROM_ABOVE
from nesting.files.columns import count_of
from nesting.jobs.found import Ignored, LinerFound
from nesting.schedules.setout import write_size
from nesting.shapes.geometry import Box, bounds
from nesting.shapes.pieces import Units
from nesting.values.liner import BlankZone, Liner, Ornament

_MOST_NAMED = 60
_AROUND = 0.15  # of the liner's longer side: as far around it what was left out is shown
_ON_IGNORED, _SPARE = 12.0, 8.0


def draw_liner(found: LinerFound) -> Drawing:
    """Return the liner on the smallest paper, at the largest scale that holds it."""
    units: Units = "in" if found.units == "in" else "mm"
    near = [each for each in found.ignored if _is_near(each, _ground(found).grown(*_slack(found)))]
    liner = found.liner
    head = Head(
        "liner",
        f"Liner {liner.name}",
        f"The liner {liner.name} as read from {found.source or 'its file'}: {_counts(liner)}.",
        units,
        _title(found, units),
    )

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        ignored = tuple(Line(tuple(map(sheet.view.at, each.trace)), "ignored") for each in near)
        names = _names(liner, sheet, figures, ignored)
        return Painted(
            (
                *layout_layers(liner, None, sheet.view),
                Layer("ignored", ignored),
                measured(sheet, figures),
                Layer("names", names.shapes),
            )
        )

    return compose(Picture(head, _frame(found, near), (_rows(found, near),)), paint)


def _names(
    liner: Liner, sheet: SheetPlan, figures: Figures, ignored: Iterable[Line]
) -> PlacedNames:
    """Return the names of ornaments and zones wherever they stand clear."""
    shapes: tuple[Ornament | BlankZone, ...] = (*liner.ornaments, *liner.zones)
    outlines = [shape.outline for shape in shapes]
    names = start_names(sheet, figures, liner.outline, outlines, _SPARE)
    for line in ignored:
        names.taken.draw(line.points, _ON_IGNORED)
    for shape in shapes if len(shapes) <= _MOST_NAMED else ():
        names.name_ornament(sheet.view.rect(shape.outline.bounds), shape.name)
    for each in liner.keep_clear:
        names.name_ornament(sheet.view.rect(bounds(each.ground)), each.name)
    return names


def _rows(found: LinerFound, near: list[Ignored]) -> tuple[KeyRow, ...]:
    meanings: dict[Swatch, str] = {
        "ornament": "Ornament",
        "zone": "Blank zone",
        "keep_clear": KEEP_CLEAR,
        "rim": "Rim of the liner",
        **({"ignored": "Left out"} if near else {}),
        "datum": "Datum corner 0,0",
    }
    return liner_rows(found.liner, meanings)


def _counts(liner: Liner) -> str:
    ornaments = count_of(len(liner.ornaments), "ornament")
    return f"{ornaments}, {count_of(len(liner.zones), 'blank zone')}"


def _title(found: LinerFound, units: Units) -> tuple[tuple[str, ...], ...]:
    liner = found.liner
    box = liner.outline.bounds
    size = f"{write_size(box.width, box.height, units)} {units}"
    return (
        (f"Liner {liner.name}", size),
        (f"As read from {found.source}", FROM_ABOVE, _counts(liner)),
    )


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
