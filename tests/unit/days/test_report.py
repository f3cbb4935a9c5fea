"""A calendar as text."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

from calendarjobs import make_calendar, make_job, make_schedule

from nesting.days.plan import plan_days
from nesting.days.report import report_calendar, write_result
from nesting.values.shopdays import Times


def report(*args, **days):
    """Return the report of a small calendar, its line breaks and columns as single blanks."""
    job, _, calendar = make_calendar(*args, **days)
    return " ".join(report_calendar(job, calendar).split())


def test_the_result_is_one_line():
    """Casts, liners, days, due dates, changes and verdicts."""
    _, _, calendar = make_calendar([(1, "table", None), (1, "drum", None)])
    assert write_result(calendar) == (
        "Bath house, foyer: 2 casts on 1 liner, Monday 2026-03-02 to Wednesday 2026-03-04; no due "
        "dates; 1 re-set and 1 bed change, fewest PROVED; 3 working days, fewest PROVED."
    )


def test_each_cast_has_its_line():
    """Day, cast, layout, liner, bed, what comes before, and the times; the day stands once."""
    job, _, calendar = make_calendar([(1, "table", None), (1, "drum", None)], liners=2)
    lines = report_calendar(job, calendar).splitlines()
    head = next(n for n, line in enumerate(lines) if line.startswith("  day"))
    first, second = (line.split() for line in lines[head + 1 : head + 3])
    assert first[:2] == ["Mon", "2026-03-02"]
    assert first[-5:] == ["09:50-10:10", "10:10-11:10", "Tue", "03-03", "07:00"]
    assert second[0] == "2"
    assert first[5:9] == ["table", "set", "out", "07:00"]


def test_the_haze_is_said_to_be_judged_by_eye():
    """The window is the shop's own, and no more than common practice."""
    text = report(times=Times(haze=(15, 30)))
    assert "judged by eye. The window shown is 15 to 30 min after the face coat" in text
    assert "common practice, no source" in text


def test_a_mix_without_polymer_is_kept_wet():
    """Textbook: 7 days; where both mixes have polymer nothing is said of it."""
    job, _, calendar = make_calendar()
    assert "kept wet" not in report_calendar(job, calendar)
    backing = replace(job.materials.backing, polymer=Fraction(0))
    job = replace(job, materials=replace(job.materials, backing=backing))
    text = " ".join(report_calendar(job, calendar).split())
    assert "a mix of this job has no polymer. Its panels are kept wet for 7 days (textbook)" in text


def test_lateness_is_told_by_mark_and_days():
    """Which cannot hold, by how many days, and that it is proved."""
    text = report(
        [(1, "table", None), (1, "table", None)],
        dues={"A1": date(2026, 3, 3), "C1": date(2026, 3, 3)},
    )
    assert "1 day late, summed over panels, least PROVED" in text
    assert "they cannot all hold" in text
    assert "Promise the days on which the last panel is demoulded, or start earlier," in text
    assert "Wed 2026-03-04 1 1" in text


def test_due_dates_that_hold_are_said_to():
    """No mark is late."""
    assert "every due date holds" in report(dues={"A1": date(2026, 4, 1)})


def test_what_goes_first_is_told_in_its_order():
    """The aims are listed the most important first."""
    changes, finish = report(), report(first="finish")
    assert changes.index("re-sets and bed changes together") < changes.index("working days 6")
    assert finish.index("working days 6") < finish.index("re-sets and bed changes together")


def test_what_is_not_proved_says_so():
    """A bound stands beside the figure."""
    rows = [(4, "table", None), (4, "drum", None), (3, "table", None), (4, "drum", None)]
    job = make_job({"C1": date(2026, 3, 3), "A1": date(2026, 3, 3)}, liners=2)
    calendar = plan_days(job, make_schedule(*rows), time_limit=1e-9)
    bound = f"NOT PROVED, at least {calendar.late.bound}"
    assert calendar.late.bound < calendar.late.value
    assert bound in " ".join(report_calendar(job, calendar).split())


def test_cautions_end_the_report():
    """What can hurt, what rules, and what is not certified."""
    text = report()
    assert "Silica dust" in text
    assert text.endswith("hours of work are certified.")
