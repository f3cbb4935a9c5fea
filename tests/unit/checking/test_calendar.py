"""The checker of calendars: a sound one passes, and each fault put into it is found."""

import ast
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from calendarjobs import SMALL, make_calendar, make_job, make_schedule

import nesting.checking.calendar as checker
from nesting.checking.calendar import check_calendar
from nesting.days.plan import plan_days
from nesting.values.calendar import Aim
from nesting.values.shopdays import Times

HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def sound():
    """Return a job, a schedule and their calendar, on two liners."""
    return make_calendar([(3, "table", None), (2, "drum", None), (1, "table", 1)], liners=2)


def moved(cast, by):
    """Return the cast with all of its times moved."""
    tasks = (*cast.tasks, cast.demould)
    tasks = [task._replace(begins=task.begins + by, ends=task.ends + by) for task in tasks]
    return replace(cast, tasks=tuple(tasks[:-1]), demould=tasks[-1])


def with_cast(calendar, number, change):
    """Return the calendar with one cast changed."""
    casts = [change(cast) if cast.number == number else cast for cast in calendar.casts]
    return replace(calendar, casts=tuple(casts))


def stretched(cast, name, by):
    """Return the cast with one task ended later."""
    tasks = [s._replace(ends=s.ends + by) if s.name == name else s for s in cast.tasks]
    return replace(cast, tasks=tuple(tasks))


def test_a_fresh_calendar_is_sound(sound):
    """No fault is found in what was planned, on one liner or two."""
    assert check_calendar(*sound) == ()
    assert check_calendar(*make_calendar(SMALL)) == ()


FAULTS = {
    "layout 3: it must be cast 1 times": lambda c: replace(c, casts=c.casts[:-1]),
    "on a day off": lambda c: with_cast(c, 6, lambda x: moved(x, 3 * DAY)),
    "outside working hours": lambda c: with_cast(c, 6, lambda x: moved(x, 9 * HOUR)),
    "its liner still holds": lambda c: with_cast(c, 3, lambda x: moved(x, -DAY)),
    "its bed still holds": lambda c: with_cast(c, 3, lambda x: moved(x, -DAY)),
    "tasks overlap": lambda c: with_cast(c, 1, lambda x: stretched(x, "set out", HOUR)),
    "face coat must take": lambda c: with_cast(
        c, 1, lambda x: stretched(x, "face coat", timedelta(minutes=5))
    ),
    "set out must take": lambda c: with_cast(
        c, 1, lambda x: stretched(x, "set out", timedelta(minutes=-5))
    ),
    "demould must take": lambda c: with_cast(
        c, 1, lambda x: replace(x, demould=x.demould._replace(ends=x.demould.ends + HOUR))
    ),
    "outside the haze window": lambda c: with_cast(
        c, 1, lambda x: stretched(x, "face coat", timedelta(minutes=45))
    ),
    "under cover": lambda c: with_cast(
        c, 1, lambda x: replace(x, demould=x.demould._replace(begins=x.covered + HOUR))
    ),
    "liner 3: the shop has 2": lambda c: with_cast(c, 1, lambda x: replace(x, liner=3)),
    "bed 'table' 2: the shop has 1": lambda c: with_cast(
        c, 1, lambda x: replace(x, bed_number=2) if x.bed == "table" else x
    ),
    "bed and panels must be those": lambda c: with_cast(c, 1, lambda x: replace(x, marks=("C9",))),
    "re-set if, and only if": lambda c: with_cast(c, 3, lambda x: replace(x, is_reset=True)),
    "tasks and changes must agree": lambda c: with_cast(
        c, 3, lambda x: replace(x, is_bed_change=True)
    ),
    "days late in all, got 8": lambda c: replace(c, late=Aim(8, 0)),
    "must add up": lambda c: replace(c, changes=Aim(7, 0)),
    "days, got 7": lambda c: replace(c, days=Aim(7, 0)),
    "bays are masked if, and only if": lambda c: with_cast(
        c, 6, lambda x: replace(x, tasks=tuple(s for s in x.tasks if s.name != "mask"))
    ),
    "the schedule has none of that number": lambda c: with_cast(
        c, 6, lambda x: replace(x, layout=9)
    ),
    "set out for the first cast": lambda c: with_cast(
        c, 1, lambda x: replace(x, tasks=x.tasks[1:])
    ),
}


@pytest.mark.parametrize("told", FAULTS)
def test_each_fault_is_found(sound, told):
    """One thing is put wrong, and the checker names it."""
    job, schedule, calendar = sound
    job = replace(job, panels=(*job.panels, replace(job.panels[0], mark="C9")))
    assert any(told in fault for fault in check_calendar(job, schedule, FAULTS[told](calendar)))


@pytest.mark.parametrize(("early", "is_found"), [(0, False), (1, True)])
def test_the_time_under_cover_is_kept_to_the_minute(sound, early, is_found):
    """A cast may be demoulded when its cover is over, and not a minute before."""
    job, schedule, calendar = sound
    wait = timedelta(minutes=job.shop.times.cover - early)
    changed = with_cast(
        calendar, 1, lambda x: replace(x, demould=x.demould._replace(begins=x.covered + wait))
    )
    faults = check_calendar(job, schedule, changed)
    assert any("under cover" in fault for fault in faults) == is_found


def test_a_liner_on_another_bed_without_a_bed_change_is_found():
    """The flag and the task are taken away together."""
    job, schedule, calendar = make_calendar([(1, "table", None), (1, "drum", None)])
    changed = with_cast(
        calendar,
        2,
        lambda x: replace(
            x, is_bed_change=False, tasks=tuple(s for s in x.tasks if s.name != "bed change")
        ),
    )
    faults = check_calendar(job, schedule, changed)
    assert "cast 2: the liner comes to another bed without a bed change" in faults


@pytest.mark.parametrize("first", [1, 2])
def test_a_liner_back_on_a_bed_without_a_bed_change_is_found(first):
    """A1, C1 and B1 are due in turn on one bed, and liners in turn lie on it, either one first."""
    dues = {mark: date(2026, 3, day) for mark, day in (("A1", 3), ("C1", 4), ("B1", 5))}
    job = make_job(dues, liners=2, times=Times(reset=600))
    schedule = make_schedule((1, "table", None), (1, "table", None), (1, "table", 1))
    one, two, three = schedule.layouts
    layouts = replace(one, panels=one.panels[:1]), two, replace(three, panels=one.panels[1:])
    schedule = replace(schedule, layouts=layouts)
    calendar = plan_days(job, schedule)
    casts = tuple(replace(c, liner=c.liner if first == 1 else 3 - c.liner) for c in calendar.casts)
    calendar = replace(calendar, casts=casts)
    assert [cast.liner for cast in casts] == [first, 3 - first, first]
    assert check_calendar(job, schedule, calendar) == ()
    changed = with_cast(
        calendar,
        3,
        lambda x: replace(
            x, is_bed_change=False, tasks=tuple(s for s in x.tasks if s.name != "bed change")
        ),
    )
    told = "cast 3: another liner lay on its bed, which takes a bed change"
    assert told in check_calendar(job, schedule, changed)


def test_late_panels_are_counted_again():
    """The sum over panels is worked out from the days of demoulding."""
    job, schedule, calendar = make_calendar(
        [(3, "table", None)], dues={"A1": date(2026, 3, 3), "B1": date(2026, 3, 4)}
    )
    assert calendar.late.value == 1 + 2 + 1
    assert check_calendar(job, schedule, calendar) == ()


def test_it_shares_no_code_with_what_it_judges():
    """The checker imports values only: neither the search nor what places casts in days."""
    tree = ast.parse(Path(checker.__file__).read_text(encoding="utf-8"))
    imports = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    ours = {name for name in imports if name and name.startswith("nesting.")}
    assert ours == {"nesting.values.calendar", "nesting.values.casts", "nesting.values.job"}
