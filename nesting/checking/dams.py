"""Findings 2xx: dams on blank ground of the liner, closed around panels, stated as they are."""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import product
from math import isqrt

import shapely

from nesting.checking.findings import Finding, at_dam, at_layout, at_panel, mm, size
from nesting.checking.rects import (
    StepRect,
    apart,
    close_pairs,
    has_area,
    has_width,
    rect_of,
    ring_strips,
    square_of_gap,
)
from nesting.checking.shapes import LinerShapes, boxes
from nesting.values.casts import Dam, Layout, Placement
from nesting.values.job import Job
from nesting.values.names import call_dam


def check_dams(
    job: Job, liner: LinerShapes, layout: Layout, bays: Sequence[Placement]
) -> Iterator[Finding]:
    """Yield what is wrong with the dams of one layout.

    ``bays`` are all the panels the dams were laid for, masked ones included.
    """
    dams = [dam for dam in layout.dams if has_area(dam)]
    panels = [panel for panel in layout.panels if has_area(panel)]
    for dam in layout.dams:
        if not has_area(dam):
            got = size(dam.width, dam.height)
            yield Finding(209, at_dam(layout, dam), f"width and height must be > 0 mm, got {got}")
    for name, count in Counter(dam.name for dam in layout.dams).items():
        if count > 1:
            yield Finding(
                208, at_layout(layout), f"dam names must differ, {name!r} stands {count} x"
            )
    yield from _check_widths(job, layout, dams)
    yield from _check_ground(liner, layout, dams)
    yield from _check_keep_clear(job, layout, dams)
    yield from _check_rings(job, layout, panels, dams)
    yield from _check_overlaps(layout, panels, dams)
    yield from _check_purpose(job, layout, bays, dams)
    yield from _check_statements(liner, layout, dams)


def _check_widths(job: Job, layout: Layout, dams: Sequence[Dam]) -> Iterator[Finding]:
    """Each dam is a strip of a width the shop has, to 0.05 mm; where others may be, any will do."""
    if job.rules.other_widths:
        return
    for dam in dams:
        if not has_width(job, dam.width) and not has_width(job, dam.height):
            widths = " or ".join(map(mm, job.dam_widths))
            text = f"it must be {widths} wide, got {size(dam.width, dam.height)}"
            yield Finding(211, at_dam(layout, dam), text)


def _check_ground(liner: LinerShapes, layout: Layout, dams: Sequence[Dam]) -> Iterator[Finding]:
    rects = [rect_of(dam) for dam in dams]
    for dam, held, blank in zip(dams, liner.holds(rects), liner.is_blank(rects), strict=True):
        if not held:
            yield Finding(201, at_dam(layout, dam), "it must lie on the liner, runs off it")
        elif not blank:
            yield Finding(202, at_dam(layout, dam), "it must lie on blank ground, runs off it")


def _check_keep_clear(job: Job, layout: Layout, dams: Sequence[Dam]) -> Iterator[Finding]:
    """No dam is nearer, in a straight line, to a place than the distance it asks for."""
    for dam, each in product(dams, job.liner.keep_clear):
        rect, place = rect_of(dam), StepRect(*each.place)
        square = square_of_gap(rect, place)
        if square < each.distance**2 or apart(rect, place) < 0:
            text = f"it must be >= {mm(each.distance)} from {each.name!r}, got {mm(isqrt(square))}"
            yield Finding(210, at_dam(layout, dam), text)


def _check_rings(
    job: Job, layout: Layout, panels: Sequence[Placement], dams: Sequence[Dam]
) -> Iterator[Finding]:
    """Rule 3: the ring of every panel, corner squares included, is covered by the dams."""
    laid = shapely.union_all(boxes(rect_of(dam) for dam in dams))
    shapely.prepare(laid)
    width = job.rules.dam_width
    for panel in panels:
        strips = ring_strips(panel, width)
        covered = shapely.covers(laid, boxes(strips.values())).tolist()
        for side, closed in zip(strips, covered, strict=True):
            if not closed:
                text = f"its {side} side needs a dam {mm(width)} wide, corners closed, has none"
                yield Finding(203, at_panel(layout, panel), text)


def _check_overlaps(
    layout: Layout, panels: Sequence[Placement], dams: Sequence[Dam]
) -> Iterator[Finding]:
    rects = [rect_of(dam) for dam in dams]
    for one, other in close_pairs(rects, 0):
        text = f"it must not overlap {call_dam(dams[other].name)}"
        yield Finding(204, at_dam(layout, dams[one]), text)
    for dam, rect in zip(dams, rects, strict=True):
        for panel in panels:
            if apart(rect, rect_of(panel)) < 0:
                text = f"it must not overlap panel {panel.mark!r}"
                yield Finding(205, at_dam(layout, dam), text)


def _check_purpose(
    job: Job, layout: Layout, bays: Sequence[Placement], dams: Sequence[Dam]
) -> Iterator[Finding]:
    strips = [strip for bay in bays for strip in ring_strips(bay, job.rules.dam_width).values()]
    for dam in dams:
        if all(apart(rect_of(dam), strip) >= 0 for strip in strips):
            yield Finding(
                206, at_dam(layout, dam), "it must stand along a panel, stands along none"
            )


def _check_statements(liner: LinerShapes, layout: Layout, dams: Sequence[Dam]) -> Iterator[Finding]:
    zones: list[list[str]] = [[] for _ in dams]
    for index, zone in liner.zones.met_by([rect_of(dam) for dam in dams]):
        zones[index].append(liner.zones.names[zone])
    for dam, names in zip(dams, zones, strict=True):
        if dam.zones != tuple(names):
            text = f"it lies in zones {_listed(names)}, the schedule says {_listed(dam.zones)}"
            yield Finding(207, at_dam(layout, dam), text)
        gap = liner.ornaments.distance(rect_of(dam))
        if dam.clearance != gap:
            text = f"its clearance is {_length(gap)}, the schedule says {_length(dam.clearance)}"
            yield Finding(207, at_dam(layout, dam), text)


def _listed(names: Sequence[str]) -> str:
    return ", ".join(repr(name) for name in names) or "none"


def _length(steps: int | None) -> str:
    return "none" if steps is None else mm(steps)
