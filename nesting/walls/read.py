"""Reads a wall file, every mistake at once, and writes the order it comes to as job tables."""

import math
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

from nesting.errors import InputError, shown
from nesting.files.kinds import refuse_other_kind
from nesting.files.lengths import MAX_RADIUS, LengthReaders
from nesting.files.marks import ORDER_MARK
from nesting.files.readers import read_choice, read_half, read_name, read_text, read_whole
from nesting.files.toml import read_tables
from nesting.files.tomlcheck import Reader, Table, complete, whole
from nesting.jobs.write import write_tables
from nesting.walls.cladding import (
    CLOSING_GAP,
    MAX_PANELS,
    Corner,
    Face,
    Skin,
    Stretch,
    Wall,
    WallArc,
    WallPart,
    WallRun,
    divide_part,
    neighbours,
    order_of,
)
from nesting.walls.path import closing_gap, turning
from nesting.walls.rules import read_tie_rule, read_width_rule

MAX_ROWS = 100
"""Most rows of panels over one another."""
MAX_PARTS = 200
"""Most parts of one wall."""

_LONGEST_NAME = 45  # of a part, so that a mark made from it is a name too
_FACES: dict[str, Face] = {"inner face": "inner", "outer face": "outer", "axis": "axis"}
_CHOICES = 'to = "inner face", "outer face" or "axis"'
_SKINS: dict[str, tuple[Skin, ...]] = {
    "both": ("inner", "outer"),
    "inner": ("inner",),
    "outer": ("outer",),
}


def read_wall(path: str | Path) -> Wall:
    """Return the wall a file describes, as docs/wall-format.md says; every part can be built.

    Raises
    ------
    InputErrors
        With every mistake of the file, each with file, line and key path.
    """
    return read_tables(Path(path), _read)


def write_order(wall: Wall, stretches: Sequence[Stretch]) -> str:
    """Return ``[[bed]]`` and ``[[panel]]`` tables of the order, ready for a job with a liner.

    Lengths are exact, in mm with their unit, so that they mean the same in any job.
    """
    thickness = LengthReaders("").text(wall.liner_thickness)
    remarks = [
        f"Order for {wall.title}, {ORDER_MARK}",
        f"The job's liner must be {thickness} thick, or the faces miss the radii of the wall.",
        "Sizes are measured along the face; the width is the one along the wall.",
    ]
    return write_tables(*order_of(wall, tuple(stretches)), remarks)


def _read(top: Table) -> Wall | None:
    if refuse_other_kind(top, "wall"):
        return None
    title = top.take("title", read_text)
    units = top.take("units", read_choice("mm", "in"))
    lengths = LengthReaders(units or "mm")
    liner, table = top.table("liner"), top.table("wall")
    rows = top.tables("part", needed=True, remedy="begin each one with [[part]]")
    thickness = liner and liner.take("thickness", lengths.positive)
    neutral = liner and liner.take("neutral", read_half, Fraction(1, 2))
    if liner:
        liner.close()
    skins, widest = _SKINS["both"], 0
    wall = None
    if table:
        skins = _SKINS[table.take("skins", read_choice(*_SKINS), "both") or "both"]
        widest = table.take("widest", lengths.positive, 0) or 0
        parts = _read_parts(rows, lengths, skins, widest)
        wall = whole(
            Wall,
            title=title,
            units=units,
            parts=parts,
            skins=skins,
            cavity=_read_cavity(table, lengths, skins),
            panel_thickness=table.take("panel_thickness", lengths.positive),
            height=table.take("height", lengths.positive),
            joint=table.take("joint", lengths.positive),
            rows=table.take("rows", read_whole(1, MAX_ROWS), 1),
            closed=table.take("closed", _read_yes, False),
            widths=read_width_rule(top, lengths),
            **read_tie_rule(top, lengths, skins),
            liner_thickness=thickness,
            neutral=neutral,
        )
        table.close()
    top.close()
    if wall is not None and table is not None:
        _check_wall(wall, table, rows, lengths)
    return wall


def _read_cavity(table: Table, lengths: LengthReaders, skins: Sequence[Skin]) -> int | None:
    if len(skins) == 2:
        return table.take("cavity", lengths.not_negative)
    table.refuse("cavity", "a wall of one skin has none", 'drop cavity or give skins = "both"')
    return 0


def _read_to(row: Table, skins: Sequence[Skin], *default: Face) -> Face | None:
    """Return the face a length or radius is measured to; one skin has no axis and no other face."""
    read = read_choice(*_FACES)

    def read_face(value: object) -> Face:
        face = _FACES[read(value)]
        if len(skins) == 1 and face != skins[0]:
            rule = f"a wall of one skin has its {skins[0]} face alone, no axis and no other face"
            raise InputError("", rule, shown(value), f'give to = "{skins[0]} face"')
        return face

    if "to" not in row and not default:
        row.refuse("to", "")
        row.fault("to", f"say what the radius is measured to: {_CHOICES}")
        return None
    return row.take("to", read_face, *default)


def _read_parts(
    rows: Sequence[Table],
    lengths: LengthReaders,
    skins: Sequence[Skin],
    widest: int,
) -> tuple[WallPart, ...] | None:
    if len(rows) > MAX_PARTS:
        rows[MAX_PARTS].fault("", f"a wall has at most {MAX_PARTS} parts", f"{len(rows)}")
        return None
    parts = [_read_part(row, number, lengths, skins, widest) for number, row in enumerate(rows)]
    first: dict[str, int] = {}
    for number, (row, part) in enumerate(zip(rows, parts, strict=True), start=1):
        if part is not None and first.setdefault(part.name, number) != number:
            remedy = f"number {first[part.name]} has it too, rename one"
            key = "name" if "name" in row else ""
            row.fault(key, "each part needs a name of its own", shown(part.name), remedy)
    return (complete(parts) or None) if rows else None


def _read_part(
    row: Table,
    number: int,
    lengths: LengthReaders,
    skins: Sequence[Skin],
    widest: int,
) -> WallPart | None:
    name = row.take("name", _read_part_name, _letters(number))
    form = row.take("form", read_choice("run", "arc", "corner"))
    part: WallPart | None = None
    if form == "run":
        default: Face = skins[0] if len(skins) == 1 else "axis"
        part = _read_run(row, name, lengths, _read_to(row, skins, default), widest)
    elif form == "arc":
        part = _read_arc(row, name, lengths, _read_to(row, skins), widest)
    elif form == "corner":
        part = whole(
            Corner,
            name=name,
            angle=row.take("angle", _read_degrees(180, "< 180")),
            toward=row.take("toward", read_choice("inner", "outer"), "inner"),
            leg=row.take("return", lengths.not_negative, 0),
        )
    if form is not None:
        row.close()
    return part


def _read_run(
    row: Table, name: str | None, lengths: LengthReaders, face: Face | None, widest: int
) -> WallRun | None:
    length = row.take("length", lengths.positive)
    panels, most = _read_division(row, lengths, widest)
    return whole(WallRun, name=name, length=length, to=face, panels=panels, widest=most)


def _read_arc(
    row: Table, name: str | None, lengths: LengthReaders, face: Face | None, widest: int
) -> WallArc | None:
    radius = row.take("radius", lengths.radius)
    angle: float | None = row.take_one(
        angle=_read_degrees(360, "<= 360"), length=_length_angle(lengths, radius)
    )
    toward = row.take("toward", read_choice("inner", "outer"), "inner")
    panels, most = _read_division(row, lengths, widest)
    if radius is not None and radius > MAX_RADIUS // 2:
        row.fault("radius", f"must be at most {lengths.text(MAX_RADIUS // 2)}")
        return None
    return whole(
        WallArc,
        name=name,
        radius=radius,
        angle=angle,
        to=face,
        toward=toward,
        panels=panels,
        widest=most,
    )


def _length_angle(lengths: LengthReaders, radius: int | None) -> Reader[float]:
    """Return a reader of an arc's length, which yields its angle [rad]."""

    def read(value: object) -> float:
        length = lengths.positive(value)
        if radius is None:
            return 1.0  # the radius is told already, nothing comes of this wall
        if length > math.tau * radius:
            circle = lengths.text(math.floor(math.tau * radius))
            raise InputError("", f"must be <= the full circle {circle}", got=lengths.text(length))
        return length / radius

    return read


def _read_division(
    row: Table, lengths: LengthReaders, widest: int
) -> tuple[int | None, int | None]:
    """Return how many panels, or 0, and the widest allowed."""
    panels = row.take("panels", read_whole(1, MAX_PANELS), 0)
    most = row.take("widest", lengths.positive, widest)
    if "panels" in row and "widest" in row:
        row.fault("widest", "give either panels or widest", got="both")
    elif "panels" not in row and most == 0:
        row.fault("", "give either panels or widest", got="neither", remedy="or widest in [wall]")
    return panels, most


def _check_wall(wall: Wall, table: Table, rows: Sequence[Table], lengths: LengthReaders) -> None:
    """Note what only the whole wall shows: corners, widths, radii, and whether it closes."""
    if wall.row_height <= 0:
        rule = f"must leave panels > 0 {lengths.units} high between the joints"
        table.fault("height", rule, lengths.text(wall.height), "give fewer rows or a smaller joint")
    known = len(wall.parts)
    astray = [index for index in range(known) if not _stands_between_runs(wall, index)]
    for index in astray:
        remedy = "put a run on either side, or set closed = true"
        rows[index].fault("", "a corner must stand between two runs", remedy=remedy)
    if astray:
        return
    marks: dict[str, int] = {}
    for index in range(known):
        _check_part(wall, index, rows[index], marks)
    if wall.closed:
        gap, turn = closing_gap(wall), math.degrees(abs(turning(wall)))
        if gap > CLOSING_GAP or abs(turn - 360) > 0.01:
            got = f"a gap of {gap:.1f} mm after {turn:.2f} degrees"
            rule = "a closed wall must end where it starts, after 360 degrees"
            table.fault("closed", rule, got, "mend a length, a radius or an angle")


def _check_part(wall: Wall, index: int, row: Table, marks: dict[str, int]) -> None:
    """Note where a run leaves open what its length is measured to, and where panels find no room.

    A run's faces differ in length only beside a corner.
    """
    differs = any(isinstance(part, Corner) for part in neighbours(wall, index))
    if isinstance(wall.parts[index], WallRun) and "to" not in row and wall.distance and differs:
        row.fault("to", f"say what the length beside a corner is measured to: {_CHOICES}")
    try:
        stretches = divide_part(wall, index)
    except InputError as error:
        row.fault("", error.rule, error.got, error.remedy)
        return
    for mark in (each.mark for each in stretches):
        if marks.setdefault(mark, index) != index and mark.endswith("-closing"):
            row.fault("name", "each panel needs a mark of its own", shown(mark), "rename the part")


def _stands_between_runs(wall: Wall, index: int) -> bool:
    if not isinstance(wall.parts[index], Corner):
        return True
    return all(isinstance(part, WallRun) for part in neighbours(wall, index))


def _read_degrees(most: int, bound: str) -> Reader[float]:
    """Return a reader of an angle in degrees above 0, which yields radians."""

    def read(value: object) -> float:
        wrong = isinstance(value, bool) or not isinstance(value, int | float)
        if wrong or not 0 < value <= most or (value == most and bound[1] != "="):  # type: ignore[operator]
            rule = f"must be a number of degrees > 0 and {bound}"
            raise InputError("", rule, got=shown(value))
        return math.radians(float(value))  # type: ignore[arg-type]

    return read


def _read_yes(value: object) -> bool:
    if not isinstance(value, bool):
        raise InputError("", "must be true or false", got=shown(value))
    return value


def _read_part_name(value: object) -> str:
    name = read_name(value)
    if len(name) > _LONGEST_NAME:
        rule = f"must have 1 to {_LONGEST_NAME} characters"
        raise InputError("", rule, got=f"{len(name)} characters")
    return name


def _letters(number: int) -> str:
    """Return A, B, ... Z, AA, AB, ... for 0, 1, ..."""
    before, last = divmod(number, 26)
    return (_letters(before - 1) if before else "") + chr(ord("A") + last)
