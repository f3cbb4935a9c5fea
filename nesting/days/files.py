"""The files of one calendar: JSON, CSV, iCalendar and the chart."""

from __future__ import annotations

import re

from nesting.days.chart import draw_calendar
from nesting.days.export import FORMAT, calendar_to_csv, calendar_to_json
from nesting.days.ics import write_ics
from nesting.drawings.svg import to_svg
from nesting.files.output import Kind
from nesting.values.calendar import CastCalendar
from nesting.values.job import Job

CALENDAR_FILES = ("calendar.json", "calendar.csv", "calendar.ics", "calendar.svg")
CALENDAR = Kind(
    "calendar",
    CALENDAR_FILES[0],
    FORMAT,
    re.compile(r"calendar\.(json|csv|ics|svg)"),
    lambda document: CALENDAR_FILES,
)
"""How a calendar's files are told from others in a folder: they are always the same four."""


def write_calendar_files(job: Job, calendar: CastCalendar) -> dict[str, str]:
    """Return the text of every file of a calendar by its name."""
    texts = (
        calendar_to_json(calendar),
        calendar_to_csv(calendar),
        write_ics(calendar, job.shop),
        to_svg(draw_calendar(job, calendar)),
    )
    return dict(zip(CALENDAR_FILES, texts, strict=True))
