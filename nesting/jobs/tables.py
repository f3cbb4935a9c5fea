"""Turns the tables of a job file into liner, rules, beds and panels, and checks them on each other.

Each part keeps the names its tables give, even those of tables with mistakes, so that one mistake
does not call up others: names are None where they are not known at all.
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.files.dates import read_date
from nesting.files.readers import (
    LengthReaders,
    read_choice,
    read_half,
    read_name,
    read_names,
    read_polygon,
    read_tolerance,
    read_whole,
)
from nesting.files.tomlcheck import Reader, Table, complete, whole
from nesting.jobs.castrules import CAST_READERS, Rule
from nesting.jobs.material import read_fill
from nesting.shapes.geometry import Polygon, Ring, sticks_out
from nesting.units import STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.castsizes import NO_SHRINK, cast_length
from nesting.values.liner import BlankZone, KeepClear, Liner, Ornament
from nesting.values.panels import Panel
from nesting.values.shopdays import NO_DUE
from nesting.values.tolerances import CLASSES, class_limits

MAX_QUANTITY = 100_000
"""Most panels of one size in an order."""

_LISTED = 8  # names listed in one message
_COMPARED = 200  # names a wrong name is compared with
Names = tuple[str, ...] | None
_NO_NAMES: tuple[str, ...] = ()
_NO_HOLES: tuple[Ring, ...] = ()
_NO_TOLERANCE = ((0, 0), "")


@dataclass(frozen=True, slots=True)
class LinerPart:
    """What is known of the liner: all of it, or what could be read beside its mistakes."""

    liner: Liner | None = None
    thickness: int | None = None
    ornaments: Names = None


@dataclass(frozen=True, slots=True)
class BedPart:
    """The beds that could be read, by name, and the names of all."""

    beds: Mapping[str, Bed]
    names: Names


def read_liner(table: Table, lengths: LengthReaders) -> LinerPart:
    """Return the liner of a ``[liner]`` table that describes one itself."""
    outline = _liner_outline(table, lengths)
    thickness = table.take("thickness", lengths.positive)
    ornament_rows = table.tables("ornament", remedy="begin each one with [[liner.ornament]]")
    zone_rows = table.tables("blank_zone", remedy="begin each one with [[liner.blank_zone]]")
    clear_rows = table.tables("keep_clear", remedy="begin each one with [[liner.keep_clear]]")
    ornaments = [_ornament(row, lengths) for row in ornament_rows]
    liner = whole(
        Liner,
        name=table.take("name", read_name),
        outline=outline,
        thickness=thickness,
        unmarked=table.take("unmarked", read_choice("detail", "blank"), "detail"),
        ornaments=complete(ornaments),
        zones=complete([_blank_zone(row, lengths) for row in zone_rows]),
        keep_clear=complete([_keep_clear(row, lengths, outline) for row in clear_rows]),
    )
    _refuse_twice(ornament_rows, "name")
    _refuse_twice(zone_rows, "name")
    _refuse_twice(clear_rows, "name")
    if outline is not None:
        _refuse_outside(ornament_rows, ornaments, outline, lengths)
    table.close()
    return LinerPart(liner, thickness, _names(table, "ornament", ornament_rows))


def read_rules(table: Table, lengths: LengthReaders) -> dict[str, Rule]:
    """Return the rules a ``[rules]`` table gives, None where one has a mistake."""
    readers: dict[str, Reader[int] | Reader[Fraction]] = {
        **CAST_READERS,
        "dam_width": lengths.positive,
        "dam_clearance": lengths.not_negative,
        "edge_margin": lengths.not_negative,
        "set_out": lengths.positive,
    }
    rules: dict[str, Rule] = {key: table.take(key, read, None) for key, read in readers.items()}
    table.close()
    return {key: value for key, value in rules.items() if key in table}


def read_beds(table: Table, lengths: LengthReaders, thickness: int | None) -> BedPart:
    """Return the beds of a file's ``[[bed]]`` tables, checked against the liner's thickness."""
    rows = table.tables("bed", remedy="begin each one with [[bed]]")
    beds = [_bed(row, lengths, thickness) for row in rows]
    _refuse_twice(rows, "name")
    return BedPart({bed.name: bed for bed in beds if bed}, _names(table, "bed", rows))


def read_panels(
    table: Table,
    lengths: LengthReaders,
    liner: LinerPart,
    beds: BedPart,
    shrink: Fraction = NO_SHRINK,
) -> tuple[Panel, ...] | None:
    """Return the panels of a file's ``[[panel]]`` tables, None where one has a mistake.

    ``shrink`` is the fraction of its length by which a panel shrinks once it is cast.
    """
    rows = table.tables("panel", remedy="begin each one with [[panel]]")
    panels = [_panel(row, lengths, beds.names, liner.ornaments) for row in rows]
    _refuse_twice(rows, "mark")
    for row, panel in zip(rows, panels, strict=True):
        if panel is not None:
            bed, thickness = beds.beds.get(panel.bed), liner.thickness
            bend = Bend(bed, thickness, shrink) if bed and thickness is not None else None
            _check_size(row, panel, bend, lengths)
    return complete(panels)


def _liner_outline(table: Table, lengths: LengthReaders) -> Polygon | None:
    outline = table.take_one(size=lengths.sized_box, outline=lengths.outline)
    holes = table.take("holes", lengths.rings, _NO_HOLES)
    if outline is None or not holes:
        return outline
    try:
        return read_polygon(outline.shell, holes)
    except InputError as error:
        table.fault("holes", error.rule, error.got)
        return None


def _ornament(row: Table, lengths: LengthReaders) -> Ornament | None:
    ornament = whole(
        Ornament,
        name=row.take("name", read_name),
        outline=row.take_one(rect=lengths.rect, outline=lengths.outline),
        relief=row.take("relief", lengths.not_negative, 0),
        on_panel=row.take("on_panel", read_choice("boss", "hollow"), ""),
        fill=row.take("fill", read_fill, Fraction(1, 2)),
    )
    row.close()
    return ornament


def _blank_zone(row: Table, lengths: LengthReaders) -> BlankZone | None:
    zone = whole(
        BlankZone,
        name=row.take("name", read_name),
        outline=row.take_one(rect=lengths.rect, outline=lengths.outline),
    )
    row.close()
    return zone


def _keep_clear(row: Table, lengths: LengthReaders, outline: Polygon | None) -> KeepClear | None:
    place = row.take_one(at=lengths.spot, rect=lambda value: lengths.rect(value).bounds)
    at_point = "at" in row
    least = lengths.positive if at_point else lengths.not_negative
    found = whole(
        KeepClear,
        name=row.take("name", read_name),
        place=place,
        distance=row.take("distance", least),
    )
    if found and outline and not outline.bounds.contains(found.place):
        rule = f"{shown(found.name)} must lie on the liner"
        row.fault("at" if at_point else "rect", rule, remedy="dams lie nowhere else")
    row.close()
    return found


def _bed(row: Table, lengths: LengthReaders, thickness: int | None) -> Bed | None:
    name = row.take("name", read_name)
    form = row.take("form", read_choice("flat", "convex", "concave"), "flat")
    if form == "flat":
        for key in ("radius", "curved_axis", "neutral"):
            row.refuse(key, "a flat bed has none", f"drop {key} or give form convex or concave")
        row.close()
        return whole(Bed, name=name, form=form)
    radius = row.take("radius", lengths.radius)
    axis = row.take("curved_axis", read_choice("x", "y"), "x")
    neutral = row.take("neutral", read_half, Fraction(1, 2))
    if form == "concave" and radius is not None and thickness is not None and radius <= thickness:
        rule = f"must be > the liner's thickness {lengths.text(thickness)} on a concave bed"
        row.fault("radius", rule, got=lengths.text(radius))
    row.close()
    return whole(Bed, name=name, form=form, radius=radius, curved_axis=axis, neutral=neutral)


def _panel(row: Table, lengths: LengthReaders, beds: Names, ornaments: Names) -> Panel | None:
    size = _panel_size(row, lengths)
    width, height = size or (None, None)
    must_show = _panel_ornaments(row, "must_show", ornaments)
    must_hide = _panel_ornaments(row, "must_hide", ornaments)
    for name in must_hide or ():
        if name in (must_show or ()):
            row.fault("must_hide", "must not repeat a name of must_show", got=shown(name))
    read_limits = read_tolerance(lengths, CLASSES)
    panel = whole(
        Panel,
        mark=row.take("mark", read_name),
        width=width,
        height=height,
        quantity=row.take("quantity", read_whole(1, MAX_QUANTITY)),
        bed=_panel_bed(row, beds),
        measured_on=row.take("measured_on", read_choice("face", "back", "chord"), "face"),
        turn=row.take("turn", read_choice("none", "half"), "none"),
        tolerance=(given := row.take("tolerance", read_limits, _NO_TOLERANCE)) and given[0],
        thickness=row.take("thickness", lengths.positive, 0),
        must_show=must_show,
        must_hide=must_hide,
        due=row.take("due", read_date, NO_DUE),
    )
    row.close()
    return _with_class(row, panel, given[1]) if panel and given and given[1] else panel


def _with_class(row: Table, panel: Panel, name: str) -> Panel | None:
    """Return the panel with the limits a named class gives its width and its height."""
    try:
        across, up = class_limits(name, panel.width), class_limits(name, panel.height)
    except InputError as error:
        row.fault("tolerance", error.rule, error.got, error.remedy)
        return None
    return replace(panel, tolerance=across, tolerance_height=up, tolerance_class=name)


def _panel_size(row: Table, lengths: LengthReaders) -> tuple[int, int] | None:
    remedy = "give size = [width, height] of a rectangle"
    row.refuse("outline", "panels with an outline are not supported", remedy)
    return None if "outline" in row and "size" not in row else row.take("size", lengths.size)


def _panel_bed(row: Table, names: Names) -> str | None:
    only = names[0] if names is not None and len(names) == 1 else None
    name = row.take("bed", read_name, only)
    if names is None or name in names:
        return name
    if "bed" not in row:
        rule = "this key is needed where there are several beds"
        row.fault("bed", rule, remedy=_known_text(names))
    elif name is not None:
        row.fault("bed", "there is no such bed", shown(name), _known_text(names, name))
    return None


def _panel_ornaments(row: Table, key: str, known: Names) -> tuple[str, ...] | None:
    names = row.take(key, read_names, _NO_NAMES)
    for name in names or ():
        if known is not None and name not in known:
            row.fault(
                key, "there is no such ornament", got=shown(name), remedy=_known_text(known, name)
            )
    return names


def _check_size(row: Table, panel: Panel, bend: Bend | None, lengths: LengthReaders) -> None:
    (across, _), (up, _) = panel.limits
    if -across >= panel.width or -up >= panel.height:
        rule = f"must leave a size > 0 {lengths.units}"
        row.fault("tolerance", rule, got=lengths.text(across if -across >= panel.width else up))
    if bend is None or bend.bed.form == "flat":
        return
    if panel.measured_on == "chord":
        _check_chord(row, panel, bend, lengths)
    elif panel.measured_on == "face":
        _check_arc(row, panel, bend, bend.radius_at(bend.thickness), lengths)
    elif _check_back(row, panel, bend, lengths):
        back = bend.radius_at(bend.thickness + panel.thickness)
        _check_arc(row, panel, bend, back, lengths)


def _curved_side(panel: Panel, bend: Bend) -> tuple[str, int]:
    """Return the side along the bed's curve, and the most it may measure [steps]."""
    across, up = panel.limits
    if bend.is_curved("y"):
        return "height", panel.height + up[1]
    return "width", panel.width + across[1]


def _check_arc(row: Table, panel: Panel, bend: Bend, radius: int, lengths: LengthReaders) -> None:
    """Tell of an arc longer than the circle of the surface it is measured on."""
    name, arc = _curved_side(panel, bend)
    if radius > 0 and cast_length(arc, bend.shrink) > math.tau * radius:
        around = lengths.text(int(math.tau * radius) // STEPS_PER_MM * STEPS_PER_MM)
        limit = f"the circle of the {panel.measured_on}, {around}"
        limit += ", less panel_shrink of it" if bend.shrink else ""
        rule = f"{name} must be <= {limit} around, on bed {shown(panel.bed)}"
        row.fault("size", rule, got=lengths.text(arc))


def _check_chord(row: Table, panel: Panel, bend: Bend, lengths: LengthReaders) -> None:
    name, chord = _curved_side(panel, bend)
    diameter = 2 * bend.radius_at(bend.thickness)
    if cast_length(chord, bend.shrink) > diameter:
        limit = f"the face's diameter {lengths.text(diameter)} on bed {shown(panel.bed)}"
        limit += " less panel_shrink of it" if bend.shrink else ""
        row.fault("size", f"{name}, a chord, must be <= {limit}", got=lengths.text(chord))


def _check_back(row: Table, panel: Panel, bend: Bend, lengths: LengthReaders) -> bool:
    """Whether the back has a radius at all; what is wrong with it is told."""
    face, is_convex = bend.radius_at(bend.thickness), bend.bed.form == "convex"
    if not panel.thickness:
        rule = "this key is needed where measured_on is back and the bed is curved"
        row.fault("thickness", rule)
    elif not is_convex and panel.thickness >= face:
        limit = f"the face's radius {lengths.text(face)} on bed {shown(panel.bed)}"
        row.fault("thickness", f"must be < {limit}", got=lengths.text(panel.thickness))
    return bool(panel.thickness) and (is_convex or panel.thickness < face)


def _refuse_twice(rows: Sequence[Table], key: str) -> None:
    first: dict[str, int] = {}
    for number, row in enumerate(rows, start=1):
        name = row.raw_text(key)
        if name is not None and first.setdefault(name, number) != number:
            remedy = f"number {first[name]} has it too, rename one"
            row.fault(key, f"each one needs a {key} of its own", got=shown(name), remedy=remedy)


def _refuse_outside(
    rows: Sequence[Table],
    ornaments: Sequence[Ornament | None],
    outline: Polygon,
    lengths: LengthReaders,
) -> None:
    known = [(row, ornament) for row, ornament in zip(rows, ornaments, strict=True) if ornament]
    beyond = sticks_out([ornament.outline for _, ornament in known], outline)
    for (row, ornament), box in zip(known, beyond, strict=True):
        if box is not None:
            near, far = lengths.place_text(box.x0, box.y0), lengths.place_text(box.x1, box.y1)
            rule = f"ornament {shown(ornament.name)} must lie on the liner"
            remedy = "move it, cut its outline at the rim, or enlarge the liner"
            row.fault("", rule, got=f"a part outside from {near} to {far}", remedy=remedy)


def _names(table: Table, key: str, rows: Sequence[Table]) -> Names:
    if table.is_mistaken(key):
        return None
    names = [row.raw_text("name") for row in rows]
    return None if None in names else tuple(dict.fromkeys(name for name in names if name))


def _known_text(names: Sequence[str], near: str = "") -> str:
    """Return a remedy that names the nearest known name, or the first few of all."""
    nearest = difflib.get_close_matches(near, names[:_COMPARED], 1)
    if nearest:
        return f"the nearest known is {shown(nearest[0])}"
    listed = ", ".join(shown(name) for name in names[:_LISTED])
    more = f" and {len(names) - _LISTED} more" if len(names) > _LISTED else ""
    return f"known: {listed}{more}" if names else "there are none"
