"""The files of one plan: the schedule, one drawing per masking layout, and the overview."""

from __future__ import annotations

from nesting.casts import Schedule
from nesting.job import Job
from nesting.masking import draw_layout
from nesting.output import OVERVIEW_FILE, SCHEDULE_FILE, name_layout_file
from nesting.overview import draw_overview
from nesting.schedulefile import schedule_to_json
from nesting.svg import to_svg


def write_plan_files(job: Job, schedule: Schedule, *, dxf: bool = False) -> dict[str, str]:
    """Return the text of every file of a plan by its name, drawings in the order of the layouts.

    With ``dxf`` each layout is there as DXF too.
    """
    drawings = {
        name_layout_file(layout.number): to_svg(draw_layout(job, schedule, layout))
        for layout in schedule.layouts
    }
    if dxf:
        from nesting.dxfwrite import layout_to_dxf

        drawings |= {
            name_layout_file(layout.number, "dxf"): layout_to_dxf(job, layout)
            for layout in schedule.layouts
        }
    overview = to_svg(draw_overview(job, schedule))
    return {
        SCHEDULE_FILE: schedule_to_json(schedule, job),
        **drawings,
        OVERVIEW_FILE: overview,
    }
