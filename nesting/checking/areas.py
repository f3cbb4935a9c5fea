"""Findings 5xx: the area account of each layout, and the totals a schedule states."""

from collections.abc import Iterator

from nesting.checking.findings import Finding, at_layout
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Areas, Layout, Schedule, Totals
from nesting.values.job import Job


def check_areas(job: Job, layout: Layout) -> Iterator[Finding]:
    """Yield what is wrong with the area account of one layout, to the square step."""
    liner = liner_area(job)
    panels = sum(panel.width * panel.height for panel in layout.panels)
    dams = sum(dam.width * dam.height for dam in layout.dams)
    right = Areas(liner, panels, dams, liner - panels - dams)
    for name in ("liner", "panels", "dams", "masked"):
        want, got = getattr(right, name), getattr(layout.areas, name)
        if want != got:
            text = f"area {name} must be {write_mm2(want)}, got {write_mm2(got)}"
            yield Finding(501, at_layout(layout), text)


def check_totals(schedule: Schedule, stated: Totals) -> tuple[Finding, ...]:
    """Return what is wrong with totals stated beside a schedule, as a file does."""
    found = []
    if stated.casts != schedule.casts:
        text = f"the casts must total {schedule.casts}, got {stated.casts}"
        found.append(Finding(403, "schedule", text))
    if dict(stated.panels) != schedule.panels:
        text = f"panels must total {schedule.panels}, got {dict(stated.panels)}"
        found.append(Finding(502, "schedule", text))
    for name, part in (("liner_area", "liner"), ("panel_area", "panels"), ("idle_area", "idle")):
        want = sum(layout.repeats * getattr(layout.areas, part) for layout in schedule.layouts)
        got = getattr(stated, name)
        if want != got:
            text = f"{name} must total {write_mm2(want)}, got {write_mm2(got)}"
            found.append(Finding(502, "schedule", text))
    return tuple(found)


def liner_area(job: Job) -> int:
    """Return the area of the job's liner [square steps], its holes left out."""
    outline = job.liner.outline
    return sum(_doubled(ring) for ring in (outline.shell, *outline.holes)) // 2


def write_mm2(square_steps: int) -> str:
    """Return an area as findings give it, in mm2."""
    return f"{square_steps / STEPS_PER_MM**2:.6f}".rstrip("0").rstrip(".") + " mm2"


def _doubled(ring: tuple[tuple[int, int], ...]) -> int:
    """Twice the signed area, by trapezia; clockwise holes come out negative."""
    ends = zip(ring, (*ring[1:], ring[0]), strict=True)
    return sum((x0 - x1) * (y0 + y1) for (x0, y0), (x1, y1) in ends)
