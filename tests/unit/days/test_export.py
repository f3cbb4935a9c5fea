"""A calendar as JSON and as CSV."""

import csv
import io
import json
from datetime import date
from pathlib import Path

from calendarjobs import make_calendar
from printtime import STAMP

from nesting.days.export import (
    CALENDAR_FILES,
    calendar_to_csv,
    calendar_to_json,
    write_calendar_files,
)

PAGE = (Path(__file__).parents[3] / "docs" / "file-format.md").read_text(encoding="utf-8")


def test_json_holds_every_cast_and_what_is_proved():
    """Figures, bounds, due dates and each step's times."""
    _, _, calendar = make_calendar(dues={"A1": date(2026, 3, 3)})
    document = json.loads(calendar_to_json(calendar))
    assert (document["format"], document["version"]) == ("nesting-calendar", 1)
    assert document["changes"] == {
        "value": 2, "lower_bound": 2, "proved": True, "resets": 1, "bed_changes": 1,
    }  # fmt: skip
    assert document["dues"][0]["mark"] == "A1"
    assert len(document["casts"]) == 5
    cast = document["casts"][0]
    assert cast["tasks"][0] == {
        "task": "set out", "from": "2026-03-02T07:00", "to": "2026-03-02T09:00",
    }  # fmt: skip
    assert cast["demould"]["from"] == "2026-03-03T07:00"


def test_every_column_is_on_the_page():
    """docs/file-format.md explains each column of the CSV file."""
    columns = calendar_to_csv(make_calendar()[2]).splitlines()[0].split(",")
    assert len(columns) > 12
    assert [column for column in columns if f"`{column}`" not in PAGE] == []


def test_csv_has_a_row_for_each_cast():
    """Under its head every cast stands once; lines end as RFC 4180 has it."""
    _, _, calendar = make_calendar()
    text = calendar_to_csv(calendar)
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [int(row["cast"]) for row in rows] == [1, 2, 3, 4, 5]
    assert text.count("\r\n") == text.count("\n") == 6
    assert rows[0]["haze_from"] == "2026-03-02T09:50"
    assert {row["reset"] for row in rows} == {"yes", "no"}


def test_four_files_are_written():
    """JSON, CSV, iCalendar and the chart, each under its own name."""
    job, _, calendar = make_calendar()
    files = write_calendar_files(job, calendar, STAMP)
    assert tuple(files) == CALENDAR_FILES
    assert files["calendar.json"].startswith("{")
    assert files["calendar.csv"].startswith("cast,")
    assert files["calendar.ics"].startswith("BEGIN:VCALENDAR\r\n")
    assert STAMP.words in files["calendar.svg"]
