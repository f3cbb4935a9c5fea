"""Findings 3xx: panels on the liner, apart, of the size ordered, on their own bed.

Sizes are judged on the exact numbers stated, without rounding to a number of digits first (the
absolute method of ASTM E29).
"""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from nesting.checking.findings import Finding, at_layout, at_panel, mm, size
from nesting.checking.rects import (
    apart,
    close_pairs,
    gaps_of,
    has_area,
    has_width,
    inner_strips,
    rect_of,
)
from nesting.checking.shapes import LinerShapes
from nesting.values.bed import Bed
from nesting.values.casts import Layout, Placement
from nesting.values.job import Job
from nesting.values.panels import Panel

FLOAT_STEP = 1
"""How far [steps] a size may be off that was worked out through a chord or back from a flat one."""


def check_panels(job: Job, liner: LinerShapes, layout: Layout) -> Iterator[Finding]:
    """Yield what is wrong with the panels of one layout."""
    solid = [panel for panel in layout.panels if has_area(panel)]
    yield from _check_places(liner, layout, solid)
    yield from _check_gaps(job, layout, solid)
    yield from _check_strips(job, layout, solid)
    beds = {bed.name: bed for bed in job.beds}
    order = {panel.mark: panel for panel in job.panels}
    if layout.bed not in beds:
        text = f"its bed must be one of {', '.join(map(repr, beds))}, got {layout.bed!r}"
        yield Finding(308, at_layout(layout), text)
    for placement in layout.panels:
        where = at_panel(layout, placement)
        if placement.mark not in order:
            marks = ", ".join(map(repr, order))
            yield Finding(305, where, f"its mark must be one of {marks}, got {placement.mark!r}")
            continue
        panel = order[placement.mark]
        if layout.bed in beds and panel.bed != layout.bed:
            text = f"it must be cast on bed {panel.bed!r}, is cast on {layout.bed!r}"
            yield Finding(306, where, text)
        if placement.turned and panel.turn == "none":
            yield Finding(307, where, "it must not be turned, is turned half round")
        yield from _check_size(job, where, placement, panel, beds[panel.bed])


def _check_places(
    liner: LinerShapes, layout: Layout, panels: Sequence[Placement]
) -> Iterator[Finding]:
    held = liner.holds([rect_of(panel) for panel in panels])
    for panel, on_liner in zip(panels, held, strict=True):
        where = at_panel(layout, panel)
        if not on_liner:
            yield Finding(301, where, "it must lie on the liner, runs off it")
            continue
        for side, line in inner_strips(panel, "edge", 0).items():
            if not liner.has_rim_along(line):
                text = f"its {side} side must lie on the liner's rim or have a dam, does neither"
                yield Finding(304, where, text)


def _check_gaps(job: Job, layout: Layout, panels: Sequence[Placement]) -> Iterator[Finding]:
    width = job.rules.dam_width
    rects = [rect_of(panel) for panel in panels]
    for one, other in close_pairs(rects, width):
        gap = apart(rects[one], rects[other])
        got = f"are {mm(gap)} apart" if gap >= 0 else "overlap"
        text = f"it and panel {panels[other].mark!r} must be >= {mm(width)} apart, {got}"
        yield Finding(302, at_panel(layout, panels[one]), text)


def _check_strips(job: Job, layout: Layout, panels: Sequence[Placement]) -> Iterator[Finding]:
    """Along one axis two panels are a listed width apart, or two dams and more."""
    if job.rules.other_widths:
        return
    two = 2 * job.rules.dam_width
    rects = [rect_of(panel) for panel in panels]
    for one, other in close_pairs(rects, two):
        gaps = gaps_of(rects[one], rects[other])
        is_told = max(gaps) < job.rules.dam_width
        if not is_told and not any(has_width(job, gap) for gap in gaps):
            widths = ", ".join(map(mm, job.dam_widths))
            text = f"it and panel {panels[other].mark!r} must be {widths} or >= {mm(two)} apart"
            got = " and ".join(
                f"{mm(g)} along {a}" for g, a in zip(gaps, "xy", strict=True) if g >= 0
            )
            yield Finding(309, at_panel(layout, panels[one]), f"{text}, are {got}")


def _check_size(
    job: Job, where: str, placement: Placement, panel: Panel, bed: Bed
) -> Iterator[Finding]:
    off = placement.off_nominal
    for (low, high), change in zip(panel.limits, off, strict=True):
        if not low <= change <= high:
            limits = f"{mm(low)} and {mm(high)}"
            text = f"its size must be off by between {limits}, is off by {size(*off)}"
            yield Finding(303, where, text)
            return
    got = (placement.width, placement.height)
    shrink = job.as_cast.panel_shrink
    ordered = {"x": panel.width + off[0], "y": panel.height + off[1]}
    fresh = {axis: _fresh(length, shrink) for axis, length in ordered.items()}
    flat: tuple[Fraction, ...] = tuple(
        _flat(length, panel, bed, job.liner.thickness) if axis == bed.curved_axis else length
        for axis, length in fresh.items()
    )
    if not has_area(placement) or any(
        abs(have - want) > _slack(panel, bed, axis, limits, shrink)
        for have, want, axis, limits in zip(got, flat, "xy", panel.limits, strict=True)
    ):
        asked = size(round(flat[0]), round(flat[1]))
        yield Finding(303, where, f"it must measure {asked} flat, measures {size(*got)}")


def _fresh(length: int, shrink: Fraction) -> Fraction:
    """Return a fresh length: of each q steps of it p are lost and q - p are left."""
    whole, lost = shrink.denominator, shrink.numerator
    return Fraction(length * whole, whole - lost)


def _slack(
    panel: Panel, bed: Bed, axis: str, limits: tuple[int, int], shrink: Fraction
) -> Fraction:
    """Half a step, for the one rounding; more where the way there was rounded too.

    A size within tolerance is worked out back from a flat one and rounded to a step as ordered,
    even to no change at all, and what is ordered counts for more on the fresh panel.
    """
    curved = bed.form != "flat" and axis == bed.curved_axis
    plumb_back = panel.measured_on == "back" and bed.ends == "plumb"
    by_chord = curved and (panel.measured_on == "chord" or plumb_back)
    rounded_twice = by_chord or (limits != (0, 0) and (curved or shrink != 0))
    return Fraction(1, 2) + (_fresh(FLOAT_STEP, shrink) if rounded_twice else 0)


def _flat(length: Fraction, panel: Panel, bed: Bed, thickness: int) -> Fraction:
    """Rule 10, worked out from the angle: what spans it on the neutral surface is the flat size."""
    if bed.form == "flat":
        return length
    away = 1 if bed.form == "convex" else -1
    face: int = bed.radius + away * thickness
    neutral: Fraction = bed.radius + away * bed.neutral * thickness
    if panel.measured_on == "chord":
        return Fraction(2 * math.asin(length / (2 * face))) * neutral
    if panel.measured_on == "face":
        return length / face * neutral
    back = face + away * panel.thickness
    if bed.ends == "square":
        return length / back * neutral
    half_chord = back * math.sin(length / (2 * back))  # plumb ends are as far apart on the face
    return Fraction(2 * math.asin(half_chord / face)) * neutral
