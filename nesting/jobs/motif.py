"""Reads a motif file: a job whose liner is still to be made, with what may move; every mistake."""

from collections.abc import Sequence
from dataclasses import fields
from fractions import Fraction
from pathlib import Path

from nesting.errors import InputError, shown
from nesting.files.kinds import refuse_other_kind
from nesting.files.lengths import LengthReaders
from nesting.files.readers import read_choice, read_name, read_names, read_text
from nesting.files.toml import read_tables
from nesting.files.tomlcheck import Table, complete, whole
from nesting.jobs.keys import CAST_KEYS, NEEDED_RULES
from nesting.jobs.read import FLAT_BED, SET_OUT
from nesting.jobs.tables import LinerPart, read_beds, read_liner, read_panels, read_rules
from nesting.shapes.geometry import Box
from nesting.values.bed import AXES, Axis
from nesting.values.castsizes import NO_SHRINK, AsCast
from nesting.values.job import Job, Rules
from nesting.values.liner import Liner
from nesting.values.motif import Centring, Group, Motif, Strip
from nesting.values.panels import Panel

MAX_STRIPS = 60
"""Most cut lines of one motif."""


def read_motif(path: str | Path) -> Motif:
    """Return the motif a file describes, as docs/zones-format.md says.

    Raises
    ------
    InputErrors
        With every mistake of the file, each with file, line and key path.
    """
    return read_tables(Path(path), _read)


def _read(top: Table) -> Motif | None:
    if refuse_other_kind(top, "motif"):
        return None
    title = top.take("title", read_text)
    units = top.take("units", read_choice("mm", "in"))
    lengths = LengthReaders(units or "mm")
    part = _read_liner(top, lengths)
    rules, shrink = _read_rules(top, lengths, units or "mm")
    beds = read_beds(top, lengths, part.thickness)
    beds = FLAT_BED if beds.names == () else beds
    panels = read_panels(top, lengths, part, beds, shrink)
    if "panel" not in top:
        top.fault("panel", "an order needs at least one [[panel]]")
    job = whole(
        Job,
        title=title,
        units=units,
        liner=part.liner,
        rules=rules,
        beds=tuple(beds.beds.values()),
        panels=panels,
        as_cast=AsCast(panel_shrink=shrink),
    )
    strips = _read_strips(top, lengths, part.liner)
    motif = whole(
        Motif,
        job=job,
        strips=strips,
        groups=_read_groups(top, part, strips),
        centrings=_read_centrings(top, lengths, part, panels),
        **_read_zones(top, lengths, part.liner),
    )
    top.close()
    return motif


def _read_liner(top: Table, lengths: LengthReaders) -> LinerPart:
    table = top.table("liner")
    if table is None:
        return LinerPart()
    table.refuse("file", "the liner of a motif is described here, as drawn", "drop file")
    remedy = "add it to the job of the liner once that is made"
    table.refuse("keep_clear", "a liner still to be made has none", remedy)
    part = read_liner(table, lengths)
    if part.liner is None:
        return part
    outline = part.liner.outline
    if not outline.is_box or (outline.bounds.x0, outline.bounds.y0) != (0, 0):
        rule = "a motif is drawn on a rectangle from the datum corner"
        table.fault("outline" if "outline" in table else "", rule, remedy="give size")
        return LinerPart(None, part.thickness, part.ornaments)
    for number, zone in enumerate(part.liner.zones, start=1):
        if not zone.outline.is_box:
            rule = f"blank zone {number} of a motif must be a rectangle with sides along the axes"
            table.fault("blank_zone", rule, got=shown(zone.name), remedy="give rect")
            return LinerPart(None, part.thickness, part.ornaments)
    return part


def _read_rules(top: Table, lengths: LengthReaders, units: str) -> tuple[Rules | None, Fraction]:
    """Return the rules, and by what fraction of its length a panel shrinks."""
    table = top.table("rules")
    if table is None:
        return None, NO_SHRINK
    rules = {"set_out": SET_OUT[units], "other_widths": False, **read_rules(table, lengths)}
    shrink = Fraction(rules.pop("panel_shrink", None) or 0)
    for key in CAST_KEYS:
        if key in rules:
            remedy = "add it to the job of the liner once that is made"
            table.fault(key, "a liner still to be made has none", remedy=remedy)
    for key in NEEDED_RULES:
        if key not in rules:
            table.fault(key, "this key is needed")
            rules[key] = None
    return whole(Rules, **{part.name: rules.get(part.name) for part in fields(Rules)}), shrink


def _read_zones(top: Table, lengths: LengthReaders, liner: Liner | None) -> dict[str, object]:
    """Return what ``[zones]`` says of the liner to be made, by the names of the motif's fields."""
    table = top.table("zones")
    if table is None:
        return {"greatest": None}
    greatest = table.take("greatest", lengths.size)
    found: dict[str, object] = {
        "greatest": greatest,
        "lay_tolerance": table.take("lay_tolerance", lengths.not_negative, 0),
    }
    price = table.take("rubber_price", _read_price, Fraction(0))
    table.close()
    if liner is not None and greatest is not None:
        drawn = liner.outline.bounds
        if greatest[0] < drawn.width or greatest[1] < drawn.height:
            size = f"{lengths.text(drawn.width)} x {lengths.text(drawn.height)}"
            got = f"{lengths.text(greatest[0])} x {lengths.text(greatest[1])}"
            table.fault("greatest", f"must be at least the drawing's {size}", got=got)
    return found if not price else {**found, "price": price}


def _read_strips(
    top: Table, lengths: LengthReaders, liner: Liner | None
) -> tuple[Strip, ...] | None:
    rows = top.tables("strip", needed=True, remedy="begin each one with [[strip]]")
    if len(rows) > MAX_STRIPS:
        rows[MAX_STRIPS].fault("", f"a motif has at most {MAX_STRIPS} strips", f"{len(rows)}")
        return None
    strips = [_read_strip(row, lengths, liner) for row in rows]
    known: dict[str, int] = {}
    places: dict[tuple[Axis, int], int] = {}
    for number, (row, strip) in enumerate(zip(rows, strips, strict=True), start=1):
        if strip is None:
            continue
        if known.setdefault(strip.name, number) != number:
            remedy = f"number {known[strip.name]} has it too, rename one"
            row.fault("name", "each one needs a name of its own", shown(strip.name), remedy)
        if places.setdefault((strip.axis, strip.at), number) != number:
            remedy = f"number {places[strip.axis, strip.at]} is there already"
            row.fault("at", "two strips must not lie at one place", remedy=remedy)
    _check_twins(rows, strips)
    return complete(strips) or None


def _read_strip(row: Table, lengths: LengthReaders, liner: Liner | None) -> Strip | None:
    axis = row.take("axis", _read_axis)
    strip = whole(
        Strip,
        name=row.take("name", read_name),
        axis=axis,
        at=row.take("at", lengths.positive),
        least=row.take("least", lengths.not_negative, 0),
        greatest=row.take("greatest", lengths.positive),
        as_wide_as=row.take("as_wide_as", read_name, ""),
    )
    row.close()
    if strip is None:
        return None
    if strip.least > strip.greatest:
        limit = lengths.text(strip.greatest)
        row.fault("least", f"must be at most greatest, {limit}", got=lengths.text(strip.least))
    if liner is not None:
        _check_line(row, strip, lengths, liner)
    return strip


def _check_line(row: Table, strip: Strip, lengths: LengthReaders, liner: Liner) -> None:
    """Note where a cut line lies off the drawing or goes through an ornament."""
    frame = liner.outline.bounds
    extent = frame.width if strip.axis == "x" else frame.height
    if strip.at >= extent:
        rule = f"must be on the drawing, < {lengths.text(extent)}"
        row.fault("at", rule, got=lengths.text(strip.at))
        return
    for ornament in liner.ornaments:
        low, high = _ends(ornament.outline.bounds, strip.axis)
        if low < strip.at < high:
            near, far = lengths.text(low), lengths.text(high)
            rule = f"a strip must go through no ornament; {shown(ornament.name)} spans it"
            row.fault(
                "at", rule, f"{strip.axis} {lengths.text(strip.at)}", f"keep off {near} to {far}"
            )
            return


def _check_twins(rows: Sequence[Table], strips: Sequence[Strip | None]) -> None:
    names = [strip.name for strip in strips if strip]
    for row, strip in zip(rows, strips, strict=True):
        if strip is None or not strip.as_wide_as:
            continue
        if strip.as_wide_as not in names or strip.as_wide_as == strip.name:
            rule = "must name another strip"
            row.fault("as_wide_as", rule, got=shown(strip.as_wide_as), remedy=_listed(names))


def _read_groups(
    top: Table, part: LinerPart, strips: Sequence[Strip] | None
) -> tuple[Group, ...] | None:
    rows = top.tables("group", remedy="begin each one with [[group]]")
    groups: list[Group | None] = []
    owner: dict[str, str] = {}
    for row in rows:
        group = whole(
            Group, name=row.take("name", read_name), ornaments=row.take("ornaments", read_names)
        )
        row.close()
        groups.append(group)
        for name in group.ornaments if group else ():
            if part.ornaments is not None and name not in part.ornaments:
                remedy = _listed(part.ornaments)
                row.fault("ornaments", "there is no such ornament", shown(name), remedy)
            elif group and owner.setdefault(name, group.name) != group.name:
                rule = f"ornament {shown(name)} is in group {shown(owner[name])} already"
                row.fault("ornaments", rule)
        if group and part.liner and strips:
            _check_parted(row, group, part.liner, strips)
    return complete(groups)


def _check_parted(row: Table, group: Group, liner: Liner, strips: Sequence[Strip]) -> None:
    boxes = [each.outline.bounds for each in liner.ornaments if each.name in group.ornaments]
    for strip in strips:
        ends = [_ends(box, strip.axis) for box in boxes]
        if any(low < strip.at < high for low, high in ends):
            continue  # told at the strip
        if ends and min(low for low, _ in ends) < strip.at < max(high for _, high in ends):
            rule = f"a group keeps its shape, but strip {shown(strip.name)} parts it"
            row.fault("ornaments", rule, remedy="make two groups of it or move the strip")


def _read_centrings(
    top: Table, lengths: LengthReaders, part: LinerPart, panels: Sequence[Panel] | None
) -> tuple[Centring, ...] | None:
    rows = top.tables("centred", remedy="begin each one with [[centred]]")
    found: list[Centring | None] = []
    for row in rows:
        mark, name = row.take("panel", read_name), row.take("ornament", read_name)
        along = row.take("along", read_choice("x", "y", "both"), "both")
        within = row.take("within", lengths.not_negative, 0)
        row.close()
        if panels is not None and mark is not None and mark not in [p.mark for p in panels]:
            remedy = _listed([panel.mark for panel in panels])
            row.fault("panel", "there is no such panel", shown(mark), remedy)
        if part.ornaments is not None and name is not None and name not in part.ornaments:
            row.fault("ornament", "there is no such ornament", shown(name), _listed(part.ornaments))
        for axis in AXES:
            if along in (axis, "both", None):
                found.append(whole(Centring, mark=mark, ornament=name, axis=axis, within=within))
    return complete(found)


def _ends(box: Box, axis: str) -> tuple[int, int]:
    return (box.x0, box.x1) if axis == "x" else (box.y0, box.y1)


def _listed(names: Sequence[str]) -> str:
    return f"known: {', '.join(shown(name) for name in names[:8])}" if names else "there are none"


def _read_axis(value: object) -> Axis:
    return "x" if read_choice("x", "y")(value) == "x" else "y"


def _read_price(value: object) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value < 1e9:
        raise InputError("", "must be a number > 0", got=shown(value))
    return Fraction(repr(value))
