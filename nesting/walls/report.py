"""A wall and its order as text and as JSON."""

import math
from collections.abc import Sequence
from typing import Any

from nesting.files.columns import INDENT, count_of, wrap_text, write_table
from nesting.files.document import to_json
from nesting.schedules.setout import write_length
from nesting.tape import Tape
from nesting.units import STEPS_PER_MM, to_mm
from nesting.unitwords import WORDS
from nesting.walls.cladding import Stretch, Wall, joint_warnings, length_differences, order_of
from nesting.walls.tiereport import list_ties, tie_entries
from nesting.walls.ties import TiedWall
from nesting.walls.widths import EXACT

_HEAD = ["mark", "skin", "face", "radius", "length", "panels", "width", "height", "bed"]
_LEFT = ("mark", "skin", "face", "bed")
CAUTION = (
    "Local codes and licensed practice rule: this order certifies no panel, lift or structure."
)


def report_wall(wall: Wall, stretches: Sequence[Stretch], tied: TiedWall | None = None) -> str:
    """Return the whole report, without a final newline; every line is plain text."""
    sections = [
        [_result(wall, stretches)],
        [line for text in joint_warnings(wall) for line in wrap_text(f"Warning: {text}.")],
        _list_panels(wall, stretches),
        _list_beds(wall, stretches),
        _list_differences(wall),
        list_ties(wall, tied) if tied else [],
        [CAUTION],
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def wall_to_json(wall: Wall, stretches: Sequence[Stretch], tied: TiedWall | None = None) -> str:
    """Return the order as JSON text: lengths in mm, exact; radius is null where a face is flat."""
    beds, _ = order_of(wall, tuple(stretches))
    document = {
        "title": wall.title,
        "warnings": joint_warnings(wall),
        "panels": [_stretch_entry(wall, stretch) for stretch in stretches],
        "beds": [
            {
                "name": bed.name,
                "form": bed.form,
                "radius": to_mm(bed.radius) if bed.radius else None,
            }
            for bed in beds
        ],
        "arcs": [
            {
                "part": name,
                "angle_deg": round(math.degrees(angle), 9),
                "inner": round(inner / STEPS_PER_MM, 6),
                "outer": round(outer / STEPS_PER_MM, 6),
            }
            for name, angle, inner, outer in length_differences(wall)
        ],
        "ties": tie_entries(wall, tied) if tied else [],
    }
    return to_json("nesting-wall", 1, document)


def _stretch_entry(wall: Wall, stretch: Stretch) -> dict[str, Any]:
    return {
        "mark": stretch.mark,
        "part": wall.parts[stretch.part].name,
        "skin": stretch.skin,
        "face": stretch.shape,
        "face_radius": to_mm(stretch.radius) if stretch.radius else None,
        "length": to_mm(stretch.length),
        "size": [to_mm(stretch.width), to_mm(wall.row_height)],
        "joint": to_mm(stretch.joint),
        "quantity": len(stretch.spans) * wall.rows,
        "bed": stretch.bed.name,
    }


def _result(wall: Wall, stretches: Sequence[Stretch]) -> str:
    count = wall.rows * sum(len(stretch.spans) for stretch in stretches)
    sizes = len({(stretch.width, stretch.bed) for stretch in stretches})
    skins = "both skins" if len(wall.skins) == 2 else f"the {wall.skins[0]} skin"
    return f"{wall.title}: {count_of(count, 'panel')} of {count_of(sizes, 'size')} for {skins}."


def _list_panels(wall: Wall, stretches: Sequence[Stretch]) -> list[str]:
    is_rounded = wall.widths != EXACT
    rows = [
        [
            stretch.mark,
            stretch.skin,
            stretch.shape,
            write_length(stretch.radius, wall.units) if stretch.radius else "-",
            write_length(stretch.length, wall.units),
            str(len(stretch.spans) * wall.rows),
            write_length(stretch.width, wall.units),
            write_length(wall.row_height, wall.units),
            *([write_length(stretch.joint, wall.units)] if is_rounded else []),
            stretch.bed.name,
        ]
        for stretch in stretches
    ]
    if is_rounded:
        title = f"Panels and the joints beside them, in {WORDS[wall.units].lengths} along the face:"
        head = [*_HEAD[:-1], "joint", _HEAD[-1]]
        return [title, *write_table(head, rows, left=_LEFT), *wrap_text(_rounded_words(wall))]
    joint = Tape(wall.units).stated_words(wall.joint)
    title = f"Panels, in {WORDS[wall.units].lengths} along the face, with joints of {joint}:"
    return [title, *write_table(_HEAD, rows, left=_LEFT)]


def _rounded_words(wall: Wall) -> str:
    """Return how widths are rounded, and what takes the rest."""
    division = Tape(wall.units).stated_words(wall.widths.division)
    takes = "the joints take" if wall.widths.rest == "joints" else "one closing panel takes"
    return f"Widths are whole numbers of {division}; {takes} the rest of each face."


def _list_beds(wall: Wall, stretches: Sequence[Stretch]) -> list[str]:
    """Return how each curved bed brings the panel's face onto the wall's radius."""
    units = wall.units
    curved = {stretch.bed: stretch for stretch in stretches if stretch.radius}
    if not curved:
        return []
    thickness = write_length(wall.liner_thickness, units)
    lines = [f"Beds, in {WORDS[units].lengths}, under a liner {thickness} thick:"]
    for bed, stretch in curved.items():
        sign = "+" if bed.form == "concave" else "-"
        lines.append(
            f"{INDENT}{bed.form} bed, radius {write_length(bed.radius, units)} = "
            f"{write_length(stretch.radius, units)} {sign} {thickness}: {stretch.shape} faces."
        )
    return lines


def _list_differences(wall: Wall) -> list[str]:
    found = length_differences(wall)
    if not found:
        return []
    units = wall.units
    distance = write_length(wall.distance, units)
    lines = [
        f"Two skins of one arc differ in length by angle x distance, in {WORDS[units].lengths}:"
    ]
    for name, angle, inner, outer in found:
        lines.append(
            f"{INDENT}{name}: {math.degrees(angle):.6g} degrees x {distance} = "
            f"{write_length(round(abs(outer - inner)), units)} "
            f"(inner {write_length(round(inner), units)}, "
            f"outer {write_length(round(outer), units)})."
        )
    return lines
