"""A liner read from a drawing or a scan, as text and as JSON."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from nesting.files.columns import INDENT, count_of, wrap_text, write_table
from nesting.files.document import to_json
from nesting.jobs.found import LinerFound
from nesting.schedules.setout import write_length, write_size
from nesting.shapes.geometry import Polygon
from nesting.shapes.pieces import Units
from nesting.units import decimal_text, to_mm, to_mm2
from nesting.unitwords import WORDS
from nesting.values.liner import BlankZone, Ornament

_MOST_TOLD = 40  # kinds of things left out that are told one by one


def report_liner(found: LinerFound) -> str:
    """Return what was found, how it was read and what was left out, without a final newline."""
    sections = [
        [_result(found)],
        ["How it was read:", *(line for note in found.notes for line in _wrap(f"{note}.", INDENT))],
        _list_shapes("Ornaments", found.liner.ornaments, found),
        _list_shapes("Blank zones", found.liner.zones, found),
        _list_left_out(found),
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def liner_to_json(found: LinerFound) -> str:
    """Return the same as JSON text: lengths in mm, exact; areas in mm2."""
    liner = found.liner
    document = {
        "source": found.source,
        "units": found.units,
        "name": liner.name,
        "thickness": to_mm(liner.thickness),
        "unmarked": liner.unmarked,
        "outline": _shape(liner.outline),
        "ornaments": [
            {"name": each.name, **_shape(each.outline), "relief": to_mm(each.relief)}
            for each in liner.ornaments
        ],
        "blank_zones": [{"name": each.name, **_shape(each.outline)} for each in liner.zones],
        "notes": list(found.notes),
        "left_out": [
            {"what": what, "why": why, "count": count} for what, why, count in found.left_out
        ],
    }
    return to_json("nesting-liner", 1, document)


def _result(found: LinerFound) -> str:
    liner, units = found.liner, _units(found)
    box = liner.outline.bounds
    holes = len(liner.outline.holes)
    parts = [
        f"liner '{liner.name}', {write_size(box.width, box.height, units)} {units}",
        f"{_area(liner.outline.area, units)}",
        *([count_of(holes, "hole")] if holes else []),
        count_of(len(liner.ornaments), "ornament"),
        count_of(len(liner.zones), "blank zone"),
    ]
    return f"{found.source}: {', '.join(parts)}."


def _list_shapes(
    title: str, shapes: Sequence[Ornament | BlankZone], found: LinerFound
) -> list[str]:
    if not shapes:
        return [f"{title}: none."]
    units = _units(found)
    head = ["name", "left", "right", "bottom", "top", "points", f"area {WORDS[units].area[0]}"]
    rows = []
    for shape in shapes:
        box = shape.outline.bounds
        faces = (box.x0, box.x1, box.y0, box.y1)
        area = _area(shape.outline.area, units).partition(" ")[0]
        points = str(len(shape.outline.shell))
        rows.append([shape.name, *(write_length(face, units) for face in faces), points, area])
    total = _area(sum(shape.outline.area for shape in shapes), units)
    heading = f"{title}, in {WORDS[units].lengths} from the datum corner; together {total}:"
    return [heading, *write_table(head, rows, left=("name",))]


def _list_left_out(found: LinerFound) -> list[str]:
    told = found.left_out
    if not told:
        return ["Left out: nothing."]
    lines: list[str] = []
    for what, why, count in told[:_MOST_TOLD]:
        times = "" if count == 1 else f"{count} x "
        lines += _wrap(f"{times}{what}: {why}.", INDENT)
    if len(told) > _MOST_TOLD:
        lines.append(f"{INDENT}and {len(told) - _MOST_TOLD} more kinds of things.")
    return ["Left out:", *lines]


def _shape(outline: Polygon) -> dict[str, Any]:
    box = outline.bounds
    return {
        "left": to_mm(box.x0),
        "right": to_mm(box.x1),
        "bottom": to_mm(box.y0),
        "top": to_mm(box.y1),
        "area": to_mm2(outline.area),
        "points": len(outline.shell),
    }


def _area(steps: int, units: Units) -> str:
    name, square = WORDS[units].area
    return f"{decimal_text(Fraction(steps, square), 4)} {name}"


def _units(found: LinerFound) -> Units:
    return "in" if found.units == "in" else "mm"


def _wrap(text: str, indent: str) -> Iterable[str]:
    plain = "".join(each if each.isprintable() else " " for each in text)
    return wrap_text(plain, indent)
