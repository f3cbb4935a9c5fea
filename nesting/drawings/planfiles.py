"""The files of one plan: the schedule, one drawing per masking layout, and the overview."""

from datetime import datetime

from nesting.drawings.masking import draw_layout
from nesting.drawings.overview import draw_overview
from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.output import OVERVIEW_FILE, SCHEDULE_FILE, name_layout_file
from nesting.schedules.stamps import stamp_plan
from nesting.schedules.write import schedule_to_json
from nesting.values.casts import Schedule
from nesting.values.job import Job


def write_plan_files(
    job: Job, schedule: Schedule, drawn: datetime, *, dxf: bool = False
) -> dict[str, str]:
    """Return the text of every file of a plan by its name, drawings in the order of the layouts.

    Every sheet says that it was ``drawn`` then, and bears the sheet code of job and schedule. With
    ``dxf`` each layout is there as DXF too.
    """
    stamp = stamp_plan(drawn, job, schedule)
    drawings = {
        name_layout_file(layout.number): to_svg(stamped(draw_layout(job, schedule, layout), stamp))
        for layout in schedule.layouts
    }
    if dxf:
        from nesting.drawings.dxf import layout_to_dxf

        drawings |= {
            name_layout_file(layout.number, "dxf"): layout_to_dxf(job, layout)
            for layout in schedule.layouts
        }
    overview = to_svg(stamped(draw_overview(job, schedule), stamp))
    return {
        SCHEDULE_FILE: schedule_to_json(schedule, job),
        **drawings,
        OVERVIEW_FILE: overview,
    }
