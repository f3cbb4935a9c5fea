"""Turns the tables of a job file into liner, rules, beds and panels, and checks them on each other.

Each part keeps the names its tables give, even those of tables with mistakes, so that one mistake
does not call up others: names are None where they are not known at all.
"""

import difflib
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from nesting.errors import InputError, shown
from nesting.files.keys import SHAPE, Keys, take_keys
from nesting.files.lengths import LengthReaders, read_polygon
from nesting.files.readers import read_name
from nesting.files.tomlcheck import Table, complete, whole
from nesting.jobs.keys import (
    CURVED_KEYS,
    bed_keys,
    clear_keys,
    dams_keys,
    liner_keys,
    ornament_keys,
    panel_keys,
    rules_keys,
    zone_keys,
)
from nesting.shapes.geometry import Polygon, Ring
from nesting.shapes.mending import sticks_out
from nesting.units import STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.castsizes import NO_SHRINK, cast_length
from nesting.values.job import DamStock
from nesting.values.liner import BlankZone, KeepClear, Liner, Ornament
from nesting.values.panels import Panel
from nesting.values.tolerances import class_limits

T = TypeVar("T")
Rule = int | Fraction | None
"""A length [steps], another number, or None where there is a mistake."""

_LISTED = 8  # names listed in one message
_COMPARED = 200  # names a wrong name is compared with
Names = tuple[str, ...] | None


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
    found = take_keys(table, liner_keys(lengths), leave=("file",))
    outline, thickness = _with_holes(table, found[SHAPE], found["holes"]), found["thickness"]
    ornament_rows = table.tables("ornament", remedy="begin each one with [[liner.ornament]]")
    zone_rows = table.tables("blank_zone", remedy="begin each one with [[liner.blank_zone]]")
    clear_rows = table.tables("keep_clear", remedy="begin each one with [[liner.keep_clear]]")
    ornaments = _make_all(ornament_rows, ornament_keys(lengths), Ornament)
    liner = whole(
        Liner,
        name=found["name"],
        outline=outline,
        thickness=thickness,
        unmarked=found["unmarked"],
        ornaments=complete(ornaments),
        zones=complete(_make_all(zone_rows, zone_keys(lengths), BlankZone)),
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
    rules: dict[str, Rule] = take_keys(table, rules_keys(lengths))
    table.close()
    return {key: value for key, value in rules.items() if key in table}


def read_dams(top: Table, lengths: LengthReaders, rules: Mapping[str, Rule]) -> DamStock | None:
    """Return what dams are made of as the ``[dams]`` table of a job gives it."""
    table = top.table_or_empty("dams")
    if table is None:
        return None
    found, width = take_keys(table, dams_keys(lengths)), rules.get("dam_width")
    if found["widths"] and isinstance(width, int) and width not in found["widths"]:
        got = ", ".join(map(lengths.text, found["widths"]))
        rule = f"must hold dam_width, {lengths.text(width)}"
        table.fault("widths", rule, got, "dams are laid at that width wherever they can be")
    table.close()
    return whole(DamStock, **found)


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
    keys = panel_keys(lengths)
    panels = [_panel(row, keys, beds.names, liner.ornaments) for row in rows]
    _refuse_twice(rows, "mark")
    for row, panel in zip(rows, panels, strict=True):
        if panel is not None:
            bed, thickness = beds.beds.get(panel.bed), liner.thickness
            bend = Bend(bed, thickness, shrink) if bed and thickness is not None else None
            _check_size(row, panel, bend, lengths)
    return complete(panels)


def _with_holes(
    table: Table, outline: Polygon | None, holes: tuple[Ring, ...] | None
) -> Polygon | None:
    if outline is None or not holes:
        return outline
    try:
        return read_polygon(outline.shell, holes)
    except InputError as error:
        table.fault("holes", error.rule, error.got)
        return None


def _make_all(rows: Sequence[Table], keys: Keys, make: Callable[..., T]) -> list[T | None]:
    """Return what tables with no more than those keys make, None for one with a mistake."""
    made = [whole(make, **take_keys(row, keys)) for row in rows]
    for row in rows:
        row.close()
    return made


def _keep_clear(row: Table, lengths: LengthReaders, outline: Polygon | None) -> KeepClear | None:
    keys = clear_keys(lengths)
    found = take_keys(row, keys)
    if "at" in row and found["distance"] == 0:
        row.fault("distance", f"must be > 0 {lengths.units}", got=f"0 {lengths.units}")
    place = found.pop(SHAPE)
    if place and outline and not outline.bounds.contains(place):
        rule = f"{shown(found['name'])} must lie on the liner"
        row.fault("at" if "at" in row else "rect", rule, remedy="dams lie nowhere else")
    row.close()
    return whole(KeepClear, place=place, **found)


def _bed(row: Table, lengths: LengthReaders, thickness: int | None) -> Bed | None:
    keys, curved = bed_keys(lengths), CURVED_KEYS
    found = take_keys(row, keys, leave=curved)
    if found["form"] == "flat":
        for key in curved:
            row.refuse(key, "a flat bed has none", f"drop {key} or give form convex or concave")
    else:
        found |= take_keys(row, keys, leave=("name", "form", "size"))
    radius, limit = found.get("radius"), thickness if found["form"] == "concave" else None
    if radius is not None and limit is not None and radius <= limit:
        rule = f"must be > the liner's thickness {lengths.text(limit)} on a concave bed"
        row.fault("radius", rule, got=lengths.text(radius))
    row.close()
    return whole(Bed, **found)


def _panel(row: Table, keys: Keys, beds: Names, ornaments: Names) -> Panel | None:
    remedy = "give size = [width, height] of a rectangle"
    row.refuse("outline", "panels with an outline are not supported", remedy)
    rule = "only a panel with an outline has one, and outlines are not supported"
    row.refuse("seen_from", rule, "drop seen_from, a rectangle has the same outline from the front")
    has_none = "outline" in row and "size" not in row  # told already
    found = take_keys(row, keys, leave=("size", "bed") if has_none else ("bed",))
    (width, height), in_feet = found.pop("size", None) or ((None, None), (False, False))
    for key in ("must_show", "must_hide"):
        _refuse_strangers(row, key, found[key], ornaments)
    for name in found["must_hide"] or ():
        if name in (found["must_show"] or ()):
            row.fault("must_hide", "must not repeat a name of must_show", got=shown(name))
    given = found.pop("tolerance")
    panel = whole(
        Panel,
        width=width,
        height=height,
        in_feet=in_feet,
        bed=_panel_bed(row, beds),
        tolerance=given and given[0],
        **found,
    )
    row.close()
    return _with_class(row, panel, given[1]) if panel and given[1] else panel


def _with_class(row: Table, panel: Panel, name: str) -> Panel | None:
    """Return the panel with the limits a named class gives its width and its height."""
    try:
        across, up = class_limits(name, panel.width), class_limits(name, panel.height)
    except InputError as error:
        row.fault("tolerance", error.rule, error.got, error.remedy)
        return None
    return replace(panel, tolerance=across, tolerance_height=up, tolerance_class=name)


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


def _refuse_strangers(row: Table, key: str, names: Names, known: Names) -> None:
    for name in names or ():
        if known is not None and name not in known:
            remedy = _known_text(known, name)
            row.fault(key, "there is no such ornament", got=shown(name), remedy=remedy)


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


def curved_side(panel: Panel, bend: Bend) -> tuple[str, int]:
    """Return the side along the bed's curve, and the most it may measure [steps]."""
    across, up = panel.limits
    if bend.is_curved("y"):
        return "height", panel.height + up[1]
    return "width", panel.width + across[1]


def _check_arc(row: Table, panel: Panel, bend: Bend, radius: int, lengths: LengthReaders) -> None:
    """Tell of an arc longer than the circle of the surface it is measured on."""
    name, arc = curved_side(panel, bend)
    if radius > 0 and cast_length(arc, bend.shrink) > math.tau * radius:
        around = lengths.text(int(math.tau * radius) // STEPS_PER_MM * STEPS_PER_MM)
        limit = f"the circle of the {panel.measured_on}, {around}"
        limit += ", less panel_shrink of it" if bend.shrink else ""
        rule = f"{name} must be <= {limit} around, on bed {shown(panel.bed)}"
        row.fault("size", rule, got=lengths.text(arc))


def _check_chord(row: Table, panel: Panel, bend: Bend, lengths: LengthReaders) -> None:
    name, chord = curved_side(panel, bend)
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
