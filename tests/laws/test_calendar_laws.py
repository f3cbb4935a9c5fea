"""What holds for every calendar, on generated shops and schedules small enough to be proved."""

import random
from collections import Counter
from dataclasses import replace
from datetime import date, time, timedelta
from functools import cache

import pytest
from calendarjobs import make_job, make_schedule
from longcases import leave_long
from smalljobs import small_job

from nesting.checking.calendar import check_calendar
from nesting.days.plan import plan_days
from nesting.planning.schedule import schedule_casts
from nesting.values.shopdays import ShopDays, Times

SEEDS = range(10)


@cache
def make_shop(seed, *, due=True):
    """Return (job, schedule) of two to four layouts on two beds, with the shop's days at random."""
    chance = random.Random(seed)
    beds = [chance.choice(("table", "drum")) for _ in range(chance.randint(2, 4))]
    rows = [(chance.randint(1, 4), bed, None) for bed in beds]
    if chance.random() < 0.5:
        rows.append((2, beds[0], 1))
    start = date(2026, 3, 2) + timedelta(days=chance.randint(0, 6))
    dues = {
        mark: start + timedelta(days=chance.randint(2, 12))
        for mark in ("A1", "B1", "C1")
        if due and chance.random() < 0.6
    }
    job = make_job(
        dues,
        start=start,
        liners=chance.randint(1, 3),
        beds=(("table", chance.randint(1, 2)),),
        opens=time(chance.randint(6, 8)),
        closes=time(17),
        dates_off=(start + timedelta(days=chance.randint(1, 9)),),
        times=Times(cover=60 * chance.choice((16, 16, 20, 24)), reset=chance.choice((60, 240))),
    )
    return job, make_schedule(*rows)


@cache
def planned(seed, *, due=True, week=0, **days):
    """Return a shop's calendar, with days of the shop changed, or due dates put off by weeks."""
    job, schedule = make_shop(seed, due=due)
    later = timedelta(days=7 * week)
    panels = [replace(p, due=p.due + later) if p.due < date.max else p for p in job.panels]
    job = replace(job, panels=tuple(panels), shop=replace(job.shop, **days))
    return plan_days(job, schedule)


def rank(calendar):
    """Return the aims in their order."""
    return calendar.late.value, calendar.changes.value, calendar.days.value


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
def test_every_calendar_is_sound_and_proved(seed):
    """Nothing twice at once, nothing out of hours, every cast on one day, every aim at its bound.

    Each liner's first set-out is free, and every other layout takes a re-set.
    """
    job, schedule = make_shop(seed)
    calendar = planned(seed)
    assert check_calendar(job, schedule, calendar) == ()
    counts = Counter(cast.layout for cast in calendar.casts)
    assert counts == {layout.number: layout.repeats for layout in schedule.layouts}
    assert not any(cast.day.isoweekday() in (6, 7) for cast in calendar.casts)
    assert calendar.resets >= schedule.different_layouts - job.shop.liners
    assert calendar.late.proved
    assert calendar.changes.proved
    assert calendar.days.proved


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
def test_one_more_liner_is_never_worse(seed):
    """Days late, then changes, then days: a liner more may lie idle, so none gets worse."""
    liners = make_shop(seed)[0].shop.liners
    assert rank(planned(seed, liners=liners + 1)) <= rank(planned(seed))


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
@pytest.mark.parametrize("first", ["changes", "finish"])
def test_one_more_liner_never_finishes_later(seed, first):
    """Without due dates, another liner takes a part of the work or none.

    Where fewest changes go first this needs a set-out that takes no longer than a re-set: a liner
    more may save a re-set at the price of a set-out.
    """
    times = make_shop(seed)[0].shop.times
    if first == "changes":
        times = replace(times, set_out=times.reset)
    options = {"due": False, "first": first, "times": times}
    finishes = [planned(seed, liners=n, **options).finish for n in (1, 2, 3)]
    assert finishes == sorted(finishes, reverse=True)


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
def test_a_later_due_date_is_never_later_met(seed):
    """With every due date a week on, no more days are late."""
    assert planned(seed, week=1).late.value <= planned(seed).late.value


@pytest.mark.parametrize("seed", leave_long(SEEDS, lambda seed: seed > 4))
def test_earliest_finish_first_finishes_no_later(seed):
    """What goes first decides: days no more, or changes no more."""
    few, soon = planned(seed), planned(seed, first="finish")
    assert few.late.value == soon.late.value
    assert few.changes.value <= soon.changes.value
    assert soon.days.value <= few.days.value


@pytest.mark.parametrize(("kind", "seed"), [("bands", 1), ("islands", 2), ("corner", 3)])
def test_schedules_as_they_are_searched_have_sound_calendars(kind, seed):
    """With one liner each layout but the first takes one re-set; with two never more."""
    job = small_job(kind, seed)
    schedule = schedule_casts(job, time_limit=5)
    one, two = (
        replace(job, shop=ShopDays(start=date(2026, 3, 5), liners=liners)) for liners in (1, 2)
    )
    calendars = [plan_days(each, schedule) for each in (one, two)]
    assert [check_calendar(j, schedule, c) for j, c in zip((one, two), calendars, strict=True)] == [
        (),
        (),
    ]
    assert calendars[0].resets == schedule.different_layouts - 1
    assert calendars[1].changes.value <= calendars[0].changes.value
