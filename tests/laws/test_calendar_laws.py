"""What holds of every calendar, and that its checker sees each fault."""

from dataclasses import replace
from datetime import date, timedelta
from functools import cache

import pytest
from handjob import hand_job, hand_schedule
from smalljobs import small_job

from nesting.calendarcheck import check_calendar
from nesting.castdays import plan_days
from nesting.schedule import schedule_casts
from nesting.shopdays import ShopDays

START = date(2026, 3, 5)
CASES = [("bands", 1), ("islands", 2), ("corner", 3)]


@cache
def planned(kind, seed, liners=1, **shop):
    """Return a small job with its schedule and its calendar."""
    job, schedule = scheduled(kind, seed)
    job = replace(job, shop=ShopDays(start=START, liners=liners, **shop))
    return job, schedule, plan_days(job, schedule)


@cache
def scheduled(kind, seed):
    """Return a small job and its schedule."""
    if kind == "hand":
        return hand_job(), hand_schedule()
    job = small_job(kind, seed)
    return job, schedule_casts(job, time_limit=5)


@pytest.mark.parametrize(("kind", "seed"), [*CASES, ("hand", 0)])
@pytest.mark.parametrize("liners", [1, 2])
def test_a_fresh_calendar_keeps_every_rule(kind, seed, liners):
    """Every cast once, liner and bed free, within hours, on no day off, covered long enough."""
    job, schedule, calendar = planned(kind, seed, liners)
    assert check_calendar(job, schedule, calendar) == ()
    assert len(calendar.casts) == schedule.casts
    assert not any(cast.day.isoweekday() in (6, 7) for cast in calendar.casts)


@pytest.mark.parametrize(("kind", "seed"), CASES)
def test_resets_are_at_least_the_layouts_less_the_liners(kind, seed):
    """The first dams on each liner are set out; with one liner no more re-sets are needed."""
    _, schedule, one = planned(kind, seed)
    _, _, two = planned(kind, seed, 2)
    assert one.resets == schedule.different_layouts - 1
    assert two.resets >= schedule.different_layouts - 2
    assert two.changes.value <= one.changes.value


@pytest.mark.parametrize(("kind", "seed"), CASES)
def test_one_liner_more_never_finishes_later(kind, seed):
    """Where the finish is what goes first; with beds enough."""
    beds = (("table", 2),)
    _, _, one = planned(kind, seed, 1, beds=beds, first="finish")
    _, _, two = planned(kind, seed, 2, beds=beds, first="finish")
    assert two.finish <= one.finish


def faults(change, kind="hand", seed=0):
    """Return the faults the checker finds once the calendar is changed."""
    job, schedule, calendar = planned(kind, seed)
    return " / ".join(check_calendar(job, schedule, change(calendar)))


def shifted(cast, **by):
    """Return a cast with everything moved in time."""
    delta = timedelta(**by)
    steps = tuple(s._replace(begins=s.begins + delta, ends=s.ends + delta) for s in cast.steps)
    demould = cast.demould._replace(
        begins=cast.demould.begins + delta, ends=cast.demould.ends + delta
    )
    return replace(cast, steps=steps, demould=demould)


@pytest.mark.parametrize(
    "change",
    [
        lambda c: replace(c, casts=c.casts[1:]),
        lambda c: replace(c, casts=(*c.casts, c.casts[0])),
        lambda c: replace(c, casts=(shifted(c.casts[0], days=1), *c.casts[1:])),
        lambda c: replace(c, casts=(shifted(c.casts[0], hours=9), *c.casts[1:])),
        lambda c: replace(c, casts=(shifted(c.casts[0], days=2), *c.casts[1:])),
        lambda c: replace(c, casts=(replace(c.casts[0], liner=2), *c.casts[1:])),
        lambda c: replace(c, casts=(replace(c.casts[0], bed_number=2), *c.casts[1:])),
        lambda c: replace(c, casts=(replace(c.casts[0], layout=9), *c.casts[1:])),
        lambda c: replace(
            c,
            casts=(
                replace(
                    c.casts[0],
                    demould=c.casts[0].demould._replace(
                        begins=c.casts[0].covered, ends=c.casts[0].covered
                    ),
                ),
                *c.casts[1:],
            ),
        ),
        lambda c: replace(c, late=replace(c.late, value=c.late.value + 1)),
        lambda c: replace(c, casts=(c.casts[0], replace(c.casts[1], is_reset=False))),
    ],
)
def test_each_fault_put_in_is_found(change):
    """A cast dropped, doubled, moved, on a liner or bed the shop has not, demoulded too soon."""
    assert faults(lambda calendar: calendar) == ""
    assert faults(change)
