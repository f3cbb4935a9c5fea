"""The files of one plan: the schedule, a drawing per layout and per kind of panel, the overview."""

from datetime import datetime

from nesting.drawings.front import draw_front
from nesting.drawings.masking import draw_layout
from nesting.drawings.overview import draw_overview
from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.faces import name_face_files
from nesting.files.output import OVERVIEW_FILE, SCHEDULE_FILE, name_layout_file
from nesting.fronts.kinds import list_kinds
from nesting.schedules.stamps import stamp_plan
from nesting.schedules.write import schedule_to_json
from nesting.values.casts import Schedule
from nesting.values.job import Job


def write_plan_files(
    job: Job, schedule: Schedule, drawn: datetime, *, dxf: bool = False
) -> dict[str, str]:
    """Return the text of every file of a plan by its name: layouts in turn, then front views.

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
    kinds = list_kinds(job, schedule)
    for name, kind in zip(name_face_files([k.face.mark for k in kinds]), kinds, strict=True):
        drawings[name] = to_svg(stamped(draw_front(job, kind, "face"), stamp))
    overview = to_svg(stamped(draw_overview(job, schedule), stamp))
    return {
        SCHEDULE_FILE: schedule_to_json(schedule, job),
        **drawings,
        OVERVIEW_FILE: overview,
    }
