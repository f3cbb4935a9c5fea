"""The liner's rubber, a second liner, and dams instead."""

from dataclasses import replace
from fractions import Fraction

import pytest
from calendarjobs import MONDAY
from handjob import MM, hand_schedule, masked_bay
from quantityjobs import PRICES, make_job

from nesting.amounts.rubber import dam_work, liner_rubber, rubber_volume, second_rubber
from nesting.days.plan import plan_days
from nesting.values.material import USUAL, SecondLiner
from nesting.values.shopdays import ShopDays, Times

GROUND = Fraction("0.96") * Fraction("0.013")  # 1200 x 800 mm, 13 mm thick [m3]
HERON = Fraction("0.088") * Fraction("0.009") / 2


def with_second(**changes):
    """Return the job with a second liner of 400 x 500 mm."""
    second = SecondLiner(400 * MM, 500 * MM, 13 * MM, **changes)
    return make_job(rubber=replace(USUAL.rubber, second=second), prices=PRICES)


@pytest.mark.parametrize(("on_panel", "sign"), [("hollow", 1), ("boss", -1), ("", 1)])
def test_a_hollow_in_the_panel_stands_out_of_the_liner(on_panel, sign):
    """It takes rubber that a boss spares; where it is not stated, more is the safe side."""
    found = liner_rubber(make_job(on_panel))
    assert found.volume == GROUND + sign * HERON
    assert found.mass == found.volume * 1150


def test_bosses_and_hollows_cancel():
    """Rubber too comes out even."""
    area, liners = 1200 * MM * 800 * MM, (make_job("boss").liner, make_job("hollow").liner)
    both = tuple(liner.ornaments[0] for liner in liners)
    assert rubber_volume(area, 13 * MM, both) == GROUND


def test_a_second_liner_is_reckoned_where_it_is_asked_about():
    """Its own size, the ornaments it carries, its rubber's price, and whole days."""
    assert second_rubber(make_job()) is None
    plain = second_rubber(with_second())
    assert plain.volume == Fraction("0.2") * Fraction("0.013")
    assert plain.cost == plain.mass * 12
    assert second_rubber(with_second(ornaments=("heron",))).volume == plain.volume - HERON


@pytest.mark.parametrize(("model", "making", "wait", "days"), [(0, 4, 16, 1), (2, 10, 16, 4)])
def test_days_count_the_wait_in_the_model(model, making, wait, days):
    """Making and demoulding are rounded up to whole days, after those of the model."""
    rubber = replace(
        USUAL.rubber,
        model_days=model,
        making_hours=Fraction(making),
        demould_hours=Fraction(wait),
    )
    assert liner_rubber(make_job(rubber=rubber)).days == days


def test_dams_are_counted_once_for_each_setting():
    """Strips of 800, 800 and 1200 mm in two layouts; a layout that keeps its dams sets none."""
    job = make_job(prices=PRICES)
    work = dam_work(job, hand_schedule())
    assert (work.settings, work.length, work.hours) == (2, Fraction("2.8"), Fraction("3.5"))
    assert work.cost == Fraction("2.8") * 3
    kept, schedule = masked_bay()
    assert dam_work(kept, schedule).settings == 2
    assert dam_work(kept, schedule).cost is None


def test_dams_are_set_as_often_as_in_the_calendar():
    """The same layout on two liners is set out on both: 1.6 m twice, 2 h each, nothing re-set."""
    one = replace(hand_schedule().layouts[0], repeats=2)
    schedule = replace(hand_schedule(), layouts=(one,))
    job = replace(
        make_job(), shop=ShopDays(start=MONDAY, liners=2, beds=(("table", 2),), first="finish")
    )
    work = dam_work(job, schedule, plan_days(job, schedule))
    assert (work.settings, work.length, work.hours) == (2, Fraction("3.2"), 4)
    alone = replace(job, shop=ShopDays(start=MONDAY, times=Times(set_out=45)))
    assert dam_work(alone, schedule, plan_days(alone, schedule)).hours == Fraction("0.75")
