"""A calendar as JSON and as CSV, and the files of one: these, iCalendar and the chart."""

import csv
import io
import re

from nesting.days.chart import draw_calendar
from nesting.days.ics import write_ics
from nesting.drawings.stamps import stamped
from nesting.drawings.svg import to_svg
from nesting.files.document import to_json
from nesting.files.output import Kind
from nesting.values.calendar import Aim, CastCalendar, DayCast, Task
from nesting.values.job import Job
from nesting.values.stamp import Stamp

FORMAT = "nesting-calendar"
"""What marks a calendar's JSON file as one of ours."""

_HEAD = (
    "cast", "day", "layout", "marks", "liner", "bed", "bed_number", "reset", "bed_change",
    "work_begins", "face_coat", "haze_from", "haze_to", "backing", "covered", "demould",
)  # fmt: skip


def calendar_to_json(calendar: CastCalendar) -> str:
    """Return the calendar as JSON text: dates and times of ISO 8601, local, without a zone."""
    document = {
        "job": calendar.job,
        "start_asked": str(calendar.asked),
        "start": str(calendar.start),
        "finish": str(calendar.finish),
        "late_days": _aim_record(calendar.late),
        "changes": {
            **_aim_record(calendar.changes),
            "resets": calendar.resets,
            "bed_changes": calendar.bed_changes,
        },
        "working_days": _aim_record(calendar.days),
        "haze": "a window; the moment is judged by eye",
        "notes": list(calendar.notes),
        "dues": [
            {
                "mark": due.mark,
                "due": str(due.due),
                "done": str(due.done),
                "days_late": due.days_late,
                "panels_late": due.panels_late,
            }
            for due in calendar.dues
        ],
        "casts": [_cast_record(cast) for cast in calendar.casts],
    }
    return to_json(FORMAT, 1, document)


def calendar_to_csv(calendar: CastCalendar) -> str:
    """Return a row for each cast, under a row of column names; lines end with CRLF (RFC 4180)."""
    stream = io.StringIO()
    writer = csv.writer(stream)
    writer.writerow(_HEAD)
    for cast in calendar.casts:
        haze = cast.task("haze")
        writer.writerow(
            [
                cast.number,
                cast.day,
                cast.layout,
                " ".join(cast.marks),
                cast.liner,
                cast.bed,
                cast.bed_number,
                "yes" if cast.is_reset else "no",
                "yes" if cast.is_bed_change else "no",
                *(
                    moment.isoformat(timespec="minutes")
                    for moment in (
                        cast.tasks[0].begins,
                        cast.task("face coat").begins,
                        haze.begins,
                        haze.ends,
                        cast.task("backing").begins,
                        cast.covered,
                        cast.demould.begins,
                    )
                ),
            ]
        )
    return stream.getvalue()


def _aim_record(aim: Aim) -> dict[str, object]:
    return {"value": aim.value, "lower_bound": aim.bound, "proved": aim.proved}


def _cast_record(cast: DayCast) -> dict[str, object]:
    return {
        "cast": cast.number,
        "day": str(cast.day),
        "layout": cast.layout,
        "marks": list(cast.marks),
        "liner": cast.liner,
        "bed": cast.bed,
        "bed_number": cast.bed_number,
        "reset": cast.is_reset,
        "bed_change": cast.is_bed_change,
        "tasks": [_task_record(task) for task in cast.tasks],
        "demould": _task_record(cast.demould),
    }


def _task_record(task: Task) -> dict[str, str]:
    begins, ends = (each.isoformat(timespec="minutes") for each in (task.begins, task.ends))
    return {"task": task.name, "from": begins, "to": ends}


CALENDAR_FILES = ("calendar.json", "calendar.csv", "calendar.ics", "calendar.svg")
CALENDAR = Kind(
    "calendar",
    CALENDAR_FILES[0],
    FORMAT,
    re.compile(r"calendar\.(json|csv|ics|svg)"),
    lambda document: CALENDAR_FILES,
)
"""How a calendar's files are told from others in a folder: they are always the same four."""


def write_calendar_files(job: Job, calendar: CastCalendar, stamp: Stamp) -> dict[str, str]:
    """Return the text of every file of a calendar by its name; the stamp stands on the chart."""
    texts = (
        calendar_to_json(calendar),
        calendar_to_csv(calendar),
        write_ics(calendar, job.shop),
        to_svg(stamped(draw_calendar(job, calendar), stamp)),
    )
    return dict(zip(CALENDAR_FILES, texts, strict=True))
