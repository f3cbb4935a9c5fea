"""The iCalendar file: its lines, its events, and nothing that depends on the day it is written."""

from dataclasses import replace
from datetime import date

import pytest
from calendarjobs import make_calendar

from nesting.days.ics import escape_text, fold_line, write_ics
from nesting.values.shopdays import USUAL_DAYS, Times


def unfold(text):
    """Return the content lines of a file."""
    return text.replace("\r\n ", "").split("\r\n")[:-1]


def events_of(text):
    """Return each event as its properties by name."""
    events, lines = [], unfold(text)
    for line in lines:
        if line == "BEGIN:VEVENT":
            events.append({})
        elif events and not line.startswith(("END:", "BEGIN:")):
            name, _, value = line.partition(":")
            events[-1][name.partition(";")[0]] = value
    return events


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("", ""),
        ("a, b; c\\d", "a\\, b\\; c\\\\d"),
        ("one\ntwo", "one\\ntwo"),
        ("bell\a", "bell"),
        ("N, n: \\n", "N\\, n: \\\\n"),
    ],
)
def test_text_is_escaped(text, escaped):
    """Backslash, semicolon, comma and line break; control characters are left out."""
    assert escape_text(text) == escaped


@pytest.mark.parametrize("letter", ["x", "\u0142", "\u6f22", "\U0001f3d7"])
def test_no_letter_is_broken_by_folding(letter):
    """Letters of one to four octets stay whole, lines stay within 75 octets, and all unfolds."""
    line = f"SUMMARY:{letter * 200}"
    folded = fold_line(line)
    assert max(len(each.encode("utf-8")) for each in folded) <= 75
    assert min(len(each.encode("utf-8")) for each in folded[:-1]) > 71
    assert folded[0] + "".join(each[1:] for each in folded[1:]) == line


def test_every_cast_and_demoulding_is_an_event():
    """Two casts give four events, each with a number of its own, and the due date one more."""
    _, _, calendar = make_calendar([(2, "table", None)], dues={"A1": date(2026, 3, 10)})
    events = events_of(write_ics(calendar, USUAL_DAYS))
    assert len(events) == len({event["UID"] for event in events}) == 5
    first, demould = events[:2]
    assert (first["DTSTART"], first["DTEND"]) == ("20260302T070000", "20260302T111000")
    assert first["SUMMARY"] == "Cast 1: layout 1\\, liner 1\\, bed table"
    assert "09:50 to 10:10 haze window\\, judged by eye" in first["DESCRIPTION"]
    assert (demould["DTSTART"], demould["DTEND"]) == ("20260303T070000", "20260303T073000")
    assert events[-1]["DTSTART"] == "20260310"
    assert events[-1]["SUMMARY"] == "Due: A1 (last panel demoulded 2026-03-04)"


def test_a_bed_has_a_number_only_where_there_are_several():
    """Of two tables the first is table 1; of one it is the table."""
    rows = [(1, "table", None), (1, "drum", None)]
    job, _, calendar = make_calendar(rows, beds=(("table", 2),), liners=2)
    named = [event["SUMMARY"] for event in events_of(write_ics(calendar, job.shop))]
    assert sum(each.endswith("bed table 1") for each in named) == 2
    assert sum(each.endswith("bed drum") for each in named) == 2


def test_one_day_late_is_one_day():
    """The last panel of two is out on Wednesday, a day after it is due."""
    job, _, calendar = make_calendar([(2, "table", None)], dues={"A1": date(2026, 3, 3)})
    due = events_of(write_ics(calendar, job.shop))[-1]["SUMMARY"]
    assert due == "Due: A1 (last panel demoulded 2026-03-04\\, 1 day late)"


def test_the_same_calendar_gives_the_same_bytes_and_a_later_start_the_same_events():
    """Stamps come from the start, and events keep their identity when the days move."""
    _, _, calendar = make_calendar()
    _, _, later = make_calendar(start=date(2026, 3, 9))
    assert write_ics(calendar, USUAL_DAYS) == write_ics(calendar, USUAL_DAYS)
    assert "DTSTAMP:20260302T000000Z\r\n" in write_ics(calendar, USUAL_DAYS)
    ids = [
        [event["UID"] for event in events_of(write_ics(each, USUAL_DAYS))]
        for each in (calendar, later)
    ]
    assert ids[0] == ids[1]


def test_another_job_has_other_events():
    """Two jobs in one calendar program do not overwrite each other."""
    _, _, calendar = make_calendar()
    other = replace(calendar, job="Library, reading room")
    ids = [
        {event["UID"] for event in events_of(write_ics(each, USUAL_DAYS))}
        for each in (calendar, other)
    ]
    assert not ids[0] & ids[1]


def test_days_of_set_out_before_a_cast_are_events_of_their_own():
    """Ten hours of set-out: two days, then the cast."""
    _, _, calendar = make_calendar([(1, "table", None)], times=Times(set_out=600))
    summaries = [
        event["SUMMARY"].split("\\,")[0] for event in events_of(write_ics(calendar, USUAL_DAYS))
    ]
    assert summaries[:3] == [
        "Set out for cast 1: layout 1",
        "Set out for cast 1: layout 1",
        "Cast 1: layout 1",
    ]


def test_an_event_without_length_has_no_end():
    """Demoulding that takes no time begins and does not end (an end must be later)."""
    _, _, calendar = make_calendar([(1, "table", None)], times=Times(demould=0))
    assert "DTEND" not in events_of(write_ics(calendar, USUAL_DAYS))[1]
