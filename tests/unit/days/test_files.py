"""The files of a calendar."""

from calendarjobs import make_calendar

from nesting.days.files import CALENDAR_FILES, write_calendar_files


def test_four_files_are_written():
    """JSON, CSV, iCalendar and the chart, each under its own name."""
    job, _, calendar = make_calendar()
    files = write_calendar_files(job, calendar)
    assert tuple(files) == CALENDAR_FILES
    assert files["calendar.json"].startswith("{")
    assert files["calendar.csv"].startswith("cast,")
    assert files["calendar.ics"].startswith("BEGIN:VCALENDAR\r\n")
    assert "<svg" in files["calendar.svg"]
