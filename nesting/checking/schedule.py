"""The independent verdict on a schedule: every rule again, from the finished rectangles alone.

It shares value types with the search and nothing else, so that a fault there cannot hide here.
"""

from collections.abc import Iterator

from nesting.checking.areas import check_areas, check_totals
from nesting.checking.counts import check_counts, find_stranger
from nesting.checking.dams import check_dams
from nesting.checking.findings import Finding
from nesting.checking.ornaments import check_ornaments
from nesting.checking.panels import check_panels
from nesting.checking.shapes import shape_liner
from nesting.values.casts import Layout, Placement, Schedule
from nesting.values.job import Job

__all__ = ["Finding", "check_schedule", "check_totals"]


def check_schedule(job: Job, schedule: Schedule) -> tuple[Finding, ...]:
    """Return everything wrong with a schedule for a job, by layout, then by code; empty if sound.

    Faults of the schedule as a whole come last; that it was made for another job stands alone.
    Touching a limit is allowed; all limits are judged to the step (0.000125 mm), save blank ground
    between slanted zones and sizes that went through a chord, where one or two steps are let pass.
    Not judged, as it takes a search: whether a heavier cast than the proof's exists, and whether a
    size within its tolerance was needed.
    """
    return tuple(_findings(job, schedule))


def _findings(job: Job, schedule: Schedule) -> Iterator[Finding]:
    stranger = find_stranger(job, schedule)
    if stranger:
        yield stranger
        return
    liner = shape_liner(job.liner)
    for layout in schedule.layouts:
        bays = _bays(layout, schedule)
        found = [
            *check_ornaments(job, liner, layout, bays),
            *check_dams(job, liner, layout, bays),
            *check_panels(job, liner, layout),
            *check_areas(job, layout),
        ]
        yield from sorted(found, key=lambda finding: finding.code)
    yield from sorted(check_counts(job, schedule), key=lambda finding: finding.code)


def _bays(layout: Layout, schedule: Schedule) -> tuple[Placement, ...]:
    """Return the panels the layout's dams were laid for: its own, and those it leaves masked."""
    kept = [
        other
        for other in schedule.layouts
        if layout.same_dams_as is not None and other.number == layout.same_dams_as
    ]
    return layout.panels + tuple(panel for other in kept for panel in other.panels)
