"""The files of one calendar: JSON, CSV, iCalendar and the chart."""

from __future__ import annotations

from nesting.calendardrawing import draw_calendar
from nesting.calendarfile import calendar_to_csv, calendar_to_json
from nesting.castcalendar import CastCalendar
from nesting.icsfile import write_ics
from nesting.job import Job
from nesting.output import CALENDAR_FILES
from nesting.svg import to_svg


def write_calendar_files(job: Job, calendar: CastCalendar) -> dict[str, str]:
    """Return the text of every file of a calendar by its name."""
    texts = (
        calendar_to_json(calendar),
        calendar_to_csv(calendar),
        write_ics(calendar),
        to_svg(draw_calendar(job, calendar)),
    )
    return dict(zip(CALENDAR_FILES, texts, strict=True))
