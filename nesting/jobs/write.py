"""Writes a job as the TOML text that reads back equal."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from nesting.files.tomltext import quoted
from nesting.shapes.geometry import Polygon, polygon_of
from nesting.units import decimal_text, to_mm
from nesting.values.bed import Bed
from nesting.values.job import Job
from nesting.values.liner import KeepClear, Liner
from nesting.values.panels import Panel
from nesting.values.shopdays import NO_DUE

_USUAL_FILL = Fraction(1, 2)


def write_job(job: Job, remarks: Iterable[str] = ()) -> str:
    """Return the job as TOML, lengths exact in mm with their unit; ``remarks`` stand on top.

    Liner, rules, beds and order are written, of a liner that lies as drawn; tables for quantities
    and for the calendar are not.
    """
    rules = job.rules
    lines = [
        *(f"# {remark}" for remark in remarks),
        f"title = {quoted(job.title)}",
        f'units = "{job.units}"',
        *_liner_lines(job.liner),
        "",
        "[rules]",
        f"dam_width = {_length(rules.dam_width)}",
        f"dam_clearance = {_length(rules.dam_clearance)}",
        f"edge_margin = {_length(rules.edge_margin)}",
        f"set_out = {_length(rules.set_out)}",
    ]
    if job.as_cast.panel_shrink:
        lines.append(f"panel_shrink = {float(job.as_cast.panel_shrink)!r}")
    for bed in job.beds:
        lines += _bed_lines(bed)
    for panel in job.panels:
        lines += _panel_lines(panel)
    return "\n".join(lines) + "\n"


def _liner_lines(liner: Liner) -> list[str]:
    lines = ["", "[liner]", f"name = {quoted(liner.name)}"]
    box = liner.outline.bounds
    if liner.outline.is_box and (box.x0, box.y0) == (0, 0):
        lines.append(f"size = [{_length(box.width)}, {_length(box.height)}]")
    else:
        lines.append(f"outline = {_ring(liner.outline.shell)}")
    if liner.outline.holes:
        lines.append(f"holes = [{', '.join(map(_ring, liner.outline.holes))}]")
    lines += [f"thickness = {_length(liner.thickness)}", f'unmarked = "{liner.unmarked}"']
    for ornament in liner.ornaments:
        lines += ["", "[[liner.ornament]]", f"name = {quoted(ornament.name)}"]
        lines += [_shape(ornament.outline), f"relief = {_length(ornament.relief)}"]
        if ornament.on_panel:
            lines.append(f'on_panel = "{ornament.on_panel}"')
        if ornament.fill != _USUAL_FILL:
            lines.append(f"fill = {float(ornament.fill)!r}")
    for zone in liner.zones:
        lines += ["", "[[liner.blank_zone]]", f"name = {quoted(zone.name)}", _shape(zone.outline)]
    for each in liner.keep_clear:
        lines += ["", "[[liner.keep_clear]]", f"name = {quoted(each.name)}"]
        lines += [_place(each), f"distance = {_length(each.distance)}"]
    return lines


def _place(each: KeepClear) -> str:
    if each.place.area:
        return _shape(polygon_of(each.place))
    return f"at = [{_length(each.place.x0)}, {_length(each.place.y0)}]"


def _bed_lines(bed: Bed) -> list[str]:
    lines = ["", "[[bed]]", f"name = {quoted(bed.name)}"]
    if bed.form != "flat":
        lines += [
            f'form = "{bed.form}"',
            f"radius = {_length(bed.radius)}",
            f'curved_axis = "{bed.curved_axis}"',
            f"neutral = {float(bed.neutral)!r}",
        ]
    return lines


def _panel_lines(panel: Panel) -> list[str]:
    lines = [
        "",
        "[[panel]]",
        f"mark = {quoted(panel.mark)}",
        f"size = [{_length(panel.width)}, {_length(panel.height)}]",
        f"quantity = {panel.quantity}",
        f"bed = {quoted(panel.bed)}",
    ]
    if panel.measured_on != "face":
        lines.append(f'measured_on = "{panel.measured_on}"')
    if panel.thickness:
        lines.append(f"thickness = {_length(panel.thickness)}")
    if panel.turn != "none":
        lines.append(f'turn = "{panel.turn}"')
    if panel.tolerance_class:
        lines.append(f"tolerance = {quoted(panel.tolerance_class)}")
    elif panel.tolerance != (0, 0):
        lines.append(f"tolerance = [{', '.join(map(_length, panel.tolerance))}]")
    if panel.due != NO_DUE:
        lines.append(f"due = {panel.due.isoformat()}")
    for key, names in (("must_show", panel.must_show), ("must_hide", panel.must_hide)):
        if names:
            lines.append(f"{key} = [{', '.join(map(quoted, names))}]")
    return lines


def _shape(outline: Polygon) -> str:
    if outline.is_box:
        box = outline.bounds
        parts = (box.x0, box.y0, box.width, box.height)
        return f"rect = [{', '.join(map(_length, parts))}]"
    return f"outline = {_ring(outline.shell)}"


def _ring(ring: Iterable[tuple[int, int]]) -> str:
    return f"[{', '.join(f'[{_length(x)}, {_length(y)}]' for x, y in ring)}]"


def _length(steps: int) -> str:
    return f'"{decimal_text(to_mm(steps), 6)} mm"'  # exact: a step is 0.000125 mm
