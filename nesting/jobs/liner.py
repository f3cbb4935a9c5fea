"""Writes a liner as a file of its own, which jobs name: docs/file-format.md.

Lengths are exact: plain decimals in mm, and in an inch file text in mm wherever the inches have no
short decimal.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from nesting.files.marks import LINER_MARK
from nesting.files.tomltext import quoted
from nesting.jobs.found import LinerFound
from nesting.shapes.geometry import Polygon, Ring, doubled_area, polygon_of
from nesting.units import STEPS_PER_INCH, decimal_text, to_mm

_FILL = Fraction(1, 2)  # what a file that says nothing means
_PER_LINE = 6  # points on one line of an outline
_MOST_TOLD = 40  # kinds of things left out that are told one by one
_INCH_DECIMALS = 6  # of 1/64 in


def write_liner(found: LinerFound) -> str:
    """Return the liner as TOML that reads back equal, notes first as comments."""
    liner, units = found.liner, found.units
    source = f"read from {_comment(found.source)}" if found.source else "written"
    lines = [f"# Liner {source} {LINER_MARK}"]
    lines += [f"# {_comment(note)}." for note in found.notes]
    for what, why, count in found.left_out[:_MOST_TOLD]:
        times = "" if count == 1 else f"{count} x "
        lines.append(f"# Left out: {times}{_comment(what)}: {_comment(why)}.")
    if len(found.left_out) > _MOST_TOLD:
        lines.append(f"# Left out: {len(found.left_out) - _MOST_TOLD} more kinds of things.")
    lines += ["", f'units = "{units}"', "", "[liner]", f"name = {quoted(liner.name)}"]
    lines += _write_shape(liner.outline, units, datum_size=True)
    if liner.outline.holes:
        lines += ["holes = [", *_write_holes(liner.outline.holes, units), "]"]
    lines += [f"thickness = {length_value(liner.thickness, units)}"]
    lines += [f'unmarked = "{liner.unmarked}"']
    for ornament in liner.ornaments:
        lines += ["", "[[liner.ornament]]", f"name = {quoted(ornament.name)}"]
        lines += _write_shape(ornament.outline, units)
        lines += [f"relief = {length_value(ornament.relief, units)}"] if ornament.relief else []
        lines += [f'on_panel = "{ornament.on_panel}"'] if ornament.on_panel else []
        lines += [f"fill = {float(ornament.fill)!r}"] if ornament.fill != _FILL else []
    for zone in liner.zones:
        lines += ["", "[[liner.blank_zone]]", f"name = {quoted(zone.name)}"]
        lines += _write_shape(zone.outline, units)
    for each in liner.keep_clear:
        lines += ["", "[[liner.keep_clear]]", f"name = {quoted(each.name)}"]
        if each.place.area:
            lines += _write_shape(polygon_of(each.place), units)
        else:
            lines += [f"at = {_values(each.place[:2], units)}"]
        lines += [f"distance = {length_value(each.distance, units)}"]
    return "\n".join(lines) + "\n"


def length_value(steps: int, units: str) -> str:
    """Return a length as a TOML value that is read back as exactly so many steps.

    >>> length_value(12_903_200, "mm"), length_value(-101_600, "in"), length_value(8000, "in")
    ('1612.9', '-0.5', '"1 mm"')
    """
    millimetres = decimal_text(to_mm(steps), 6)  # exact: a step is 0.000125 mm
    if units == "mm":
        return millimetres
    inches = Fraction(steps, STEPS_PER_INCH)
    text = decimal_text(inches, _INCH_DECIMALS)
    return text if Fraction(text) == inches else f'"{millimetres} mm"'


def _write_shape(outline: Polygon, units: str, *, datum_size: bool = False) -> list[str]:
    box = outline.bounds
    is_box = len(outline.shell) == 4 and doubled_area(outline.shell) == 2 * box.area
    if is_box and datum_size and box[:2] == (0, 0):
        return [f"size = {_values(box[2:], units)}"]
    if is_box and not datum_size:
        return [f"rect = {_values((box.x0, box.y0, box.width, box.height), units)}"]
    return ["outline = [", *_write_points(outline.shell, units, "    "), "]"]


def _write_holes(holes: Iterable[Ring], units: str) -> Iterator[str]:
    for hole in holes:
        yield "    ["
        yield from _write_points(hole, units, "        ")
        yield "    ],"


def _write_points(ring: Ring, units: str, indent: str) -> Iterator[str]:
    for start in range(0, len(ring), _PER_LINE):
        points = (_values(point, units) for point in ring[start : start + _PER_LINE])
        yield f"{indent}{', '.join(points)},"


def _values(steps: Iterable[int], units: str) -> str:
    return f"[{', '.join(length_value(each, units) for each in steps)}]"


def _comment(text: str) -> str:
    """Return the text as one line a TOML comment may hold."""
    return "".join(character if character.isprintable() else " " for character in text)
