"""Calendar files against RFC 5545, by an independent reader; weekdays against ISO 8601.

RFC 5545 is the Internet Calendaring and Scheduling Core Object Specification. The package
``icalendar`` is the second opinion; it knows nothing of ours.
"""

import json
from dataclasses import replace
from datetime import date, datetime

import icalendar
import pytest
from calendarjobs import make_calendar
from handjob import hand_job, hand_schedule

from nesting.days.export import calendar_to_json
from nesting.days.ics import fold_line, write_ics
from nesting.days.plan import plan_days
from nesting.files.dates import read_weekday
from nesting.values.bed import Bed
from nesting.values.shopdays import USUAL_DAYS, ShopDays, Times

MONDAY = date(2026, 3, 2)


def calendar_of(title="Bath house, foyer", **shop):
    """Return the calendar of the hand-sized job."""
    job = replace(hand_job(), title=title, shop=ShopDays(start=MONDAY, **shop))
    return plan_days(job, replace(hand_schedule(), job=title))


def test_an_independent_reader_finds_every_cast_at_its_time():
    """One event per cast at least; the earliest and the latest times are the calendar's own."""
    calendar = calendar_of()
    read = icalendar.Calendar.from_ical(write_ics(calendar, USUAL_DAYS))
    assert read["VERSION"] == "2.0"  # RFC 5545, 3.7.4
    assert "nesting" in read["PRODID"]  # 3.7.3
    events = read.walk("VEVENT")
    assert len(events) >= len(calendar.casts)
    begins = [event["DTSTART"].dt for event in events]
    ends = [event["DTEND"].dt for event in events]
    tasks = [task for cast in calendar.casts for task in (*cast.tasks, cast.demould)]
    assert min(begins) == min(task.begins for task in tasks)
    assert max(ends) == max(task.ends for task in tasks)
    assert all(begin < end for begin, end in zip(begins, ends, strict=True))
    assert all(begin.tzinfo is None for begin in begins)  # floating times, 3.3.5 form 1


def test_every_event_has_a_name_of_its_own_and_a_stamp():
    """UID (3.8.4.7) is unique, DTSTAMP (3.8.7.2) is there; both are the same on every run."""
    text = write_ics(calendar_of(), USUAL_DAYS)
    assert text == write_ics(calendar_of(), USUAL_DAYS)
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    assert len({event["UID"] for event in events}) == len(events)
    assert all("DTSTAMP" in event for event in events)


def test_lines_end_in_crlf_and_are_folded_at_75_octets():
    """RFC 5545, 3.1; folding parts no letter of more than one octet."""
    text = write_ics(
        calendar_of("Łaźnia Łaźnia Łaźnia, wielka hala przyjęć, Łaźnia, Łaźnia ąęółż"), USUAL_DAYS
    )
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    lines = text.encode("utf-8").split(b"\r\n")
    assert max(map(len, lines)) <= 75
    assert any(line.startswith(b" ") for line in lines)
    for line in lines:
        line.decode("utf-8")


def test_commas_semicolons_and_backslashes_come_back_as_they_were():
    """RFC 5545, 3.3.11: they are escaped in text."""
    name = r"table; foyer, east \ west"
    job, schedule = hand_job(), hand_schedule()
    panels = tuple(replace(panel, bed=name) for panel in job.panels)
    job = replace(job, beds=(Bed(name),), panels=panels, shop=ShopDays(start=MONDAY))
    layouts = tuple(replace(layout, bed=name) for layout in schedule.layouts)
    text = write_ics(plan_days(job, replace(schedule, layouts=layouts)), USUAL_DAYS)
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    assert any(name in str(event["SUMMARY"]) for event in events)
    assert r"table\; foyer\, east \\ west" in text.replace("\r\n ", "")


@pytest.mark.parametrize(("name", "number"), [("Monday", 1), ("Thursday", 4), ("Sunday", 7)])
def test_weekdays_are_numbered_as_in_iso_8601(name, number):
    """Monday is 1 and Sunday 7; the day the calendar begins is a Monday."""
    assert read_weekday(name) == number
    assert MONDAY.isoweekday() == 1


CASES = {
    "plain": {},
    "due": {"dues": {"A1": date(2026, 3, 3)}, "liners": 2},
    "set out": {"times": Times(set_out=600)},
}


@pytest.fixture(params=CASES)
def calendar(request):
    """Return one of several calendars: with due dates, and with set-out on days before a cast."""
    return make_calendar(**CASES[request.param])[2]


def test_each_cast_each_demoulding_and_each_due_date_comes_back(calendar):
    """Begin and end of every cast and demoulding; due dates as whole days (RFC 5545, 3.6.1)."""
    events = icalendar.Calendar.from_ical(write_ics(calendar, USUAL_DAYS)).walk("VEVENT")
    times = {(event.decoded("DTSTART"), event.decoded("DTEND")) for event in events}
    for cast in calendar.casts:
        begins = next(task.begins for task in cast.tasks if task.begins.date() == cast.day)
        assert {(begins, cast.covered), (cast.demould.begins, cast.demould.ends)} <= times
    days = [event for event in events if not isinstance(event.decoded("DTSTART"), datetime)]
    assert [event.decoded("DTSTART") for event in days] == [due.due for due in calendar.dues]


def test_stamps_are_in_utc(calendar):
    """RFC 5545, 3.8.7.2: DTSTAMP is in UTC, once in each event, as are UID and DTSTART (3.6.1)."""
    for event in icalendar.Calendar.from_ical(write_ics(calendar, USUAL_DAYS)).walk("VEVENT"):
        assert event.decoded("DTSTAMP").utcoffset().total_seconds() == 0
        assert all(not isinstance(event[name], list) for name in ("UID", "DTSTAMP", "DTSTART"))


def test_a_folded_line_unfolds_to_itself():
    """RFC 5545, 3.1: taking out each line break with the blank after it gives the line again."""
    line = "DESCRIPTION:" + "reeds, herons and waves, " * 12
    folded = "\r\n".join(fold_line(line))
    assert folded != line
    assert folded.replace("\r\n ", "") == line


def test_dates_and_times_in_json_are_those_of_iso_8601(calendar):
    """The extended format, read back by Python's own reader."""
    for cast in json.loads(calendar_to_json(calendar))["casts"]:
        for task in cast["tasks"]:
            assert datetime.fromisoformat(task["from"]) < datetime.fromisoformat(task["to"])
