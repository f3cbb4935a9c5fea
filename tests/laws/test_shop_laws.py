"""What holds for every calendar, on generated shops and schedules small enough to be proved."""

import random
from collections import Counter
from dataclasses import replace
from datetime import date, time, timedelta

import pytest
from calendarjobs import make_job, make_schedule

from nesting.calendarcheck import check_calendar
from nesting.castdays import plan_days
from nesting.shopdays import Times

SEEDS = range(10)


def make_shop(seed, liners=None, due=True):
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
    count = chance.randint(1, 3)
    job = make_job(
        dues,
        start=start,
        liners=liners or count,
        beds=(("table", chance.randint(1, 2)),),
        opens=time(chance.randint(6, 8)),
        closes=time(17),
        dates_off=(start + timedelta(days=chance.randint(1, 9)),),
        times=Times(cover=60 * chance.choice((16, 16, 20, 24)), reset=chance.choice((60, 240))),
    )
    return job, make_schedule(*rows)


def rank(calendar):
    """Return the aims in their order."""
    return calendar.late.value, calendar.changes.value, calendar.days.value


@pytest.mark.parametrize("seed", SEEDS)
def test_every_calendar_is_sound(seed):
    """Nothing twice at once, nothing on days off or out of hours: the checker finds no fault."""
    job, schedule = make_shop(seed)
    assert check_calendar(job, schedule, plan_days(job, schedule)) == ()


@pytest.mark.parametrize("seed", SEEDS)
def test_every_cast_is_on_one_day(seed):
    """Each layout is cast as often as the schedule says."""
    job, schedule = make_shop(seed)
    counts = Counter(cast.layout for cast in plan_days(job, schedule).casts)
    assert counts == {layout.number: layout.repeats for layout in schedule.layouts}


@pytest.mark.parametrize("seed", SEEDS)
def test_re_sets_are_never_fewer_than_layouts_less_liners(seed):
    """Each liner's first set-out is free, and every other layout takes a re-set."""
    job, schedule = make_shop(seed)
    calendar = plan_days(job, schedule)
    assert calendar.resets >= schedule.different_layouts - job.shop.liners


@pytest.mark.parametrize("seed", SEEDS)
def test_one_more_liner_is_never_worse(seed):
    """Days late, then changes, then days: a liner more may lie idle, so none gets worse."""
    job, schedule = make_shop(seed)
    more = replace(job, shop=replace(job.shop, liners=job.shop.liners + 1))
    assert rank(plan_days(more, schedule)) <= rank(plan_days(job, schedule))


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("first", ["changes", "finish"])
def test_one_more_liner_never_finishes_later(seed, first):
    """Without due dates, another liner takes a part of the work or none.

    Where fewest changes go first this needs a set-out that takes no longer than a re-set: a liner
    more may save a re-set at the price of a set-out.
    """
    job, schedule = make_shop(seed, liners=1, due=False)
    times = job.shop.times
    if first == "changes":
        times = replace(times, set_out=times.reset)
    shops = [replace(job.shop, liners=n, first=first, times=times) for n in (1, 2, 3)]
    finishes = [plan_days(replace(job, shop=shop), schedule).finish for shop in shops]
    assert finishes == sorted(finishes, reverse=True)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_later_due_date_is_never_later_met(seed):
    """With every due date a week on, no more days are late."""
    job, schedule = make_shop(seed)
    week = timedelta(days=7)
    panels = [replace(p, due=p.due + week) if p.due < date.max else p for p in job.panels]
    eased = plan_days(replace(job, panels=tuple(panels)), schedule)
    assert eased.late.value <= plan_days(job, schedule).late.value


@pytest.mark.parametrize("seed", SEEDS)
def test_small_calendars_are_proved(seed):
    """Every aim meets its bound."""
    calendar = plan_days(*make_shop(seed))
    assert calendar.late.proved
    assert calendar.changes.proved
    assert calendar.days.proved


@pytest.mark.parametrize("seed", SEEDS)
def test_earliest_finish_first_finishes_no_later(seed):
    """What goes first decides: days no more, or changes no more."""
    job, schedule = make_shop(seed)
    few = plan_days(job, schedule)
    soon = plan_days(replace(job, shop=replace(job.shop, first="finish")), schedule)
    assert few.late.value == soon.late.value
    assert few.changes.value <= soon.changes.value
    assert soon.days.value <= few.days.value
