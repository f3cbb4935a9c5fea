"""All quantities together: panels come to casts, casts to days and to the order."""

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from calendarjobs import MONDAY
from handjob import hand_schedule
from quantityjobs import PRICES, make_job, make_quantities

from nesting.amounts.mixes import sum_ingredients
from nesting.amounts.quantities import reckon_quantities
from nesting.amounts.weights import sum_weights
from nesting.days.plan import plan_days
from nesting.values.shopdays import ShopDays


def repeated(first, second, **days):
    """Return the quantities where the two layouts are cast so often, on the days of a calendar."""
    one, two = hand_schedule().layouts
    layouts = (replace(one, repeats=first), replace(two, repeats=second))
    job = replace(make_job(), shop=ShopDays(start=MONDAY, **days))
    schedule = replace(hand_schedule(), layouts=layouts)
    return reckon_quantities(job, schedule, plan_days(job, schedule))


def test_panels_and_casts_both_come_to_the_order():
    """The same mass, counted by panels and by casts."""
    found = repeated(3, 2)
    assert found.weight == sum_weights(row.panel.weight.times(row.pieces) for row in found.panels)
    assert found.weight == sum_weights(cast.weight.times(cast.repeats) for cast in found.casts)
    assert [row.pieces for row in found.panels] == [3, 3, 2]


@pytest.mark.parametrize("liners", [1, 2, 5])
def test_days_come_to_the_order(liners):
    """However many liners are cast on in a day, every cast falls on one day."""
    found = repeated(3, 2, liners=liners, beds=(("table", 5),))
    days = [day for day in found.days for _ in range(day.count)]
    assert sum(len(day.layouts) for day in days) == 5
    assert sum_ingredients(dict(day.ingredients) for day in days) == dict(found.ingredients)


def test_days_are_those_of_the_calendar():
    """Days alike stand together over a day off, and each entry has its dates."""
    found = repeated(4, 1, dates_off=(date(2026, 3, 4),))
    assert [(day.first, day.last, day.layouts, day.dates) for day in found.days] == [
        (1, 4, (1,), (MONDAY, date(2026, 3, 6))),
        (5, 5, (2,), (date(2026, 3, 9), date(2026, 3, 9))),
    ]
    first = found.casts[0]
    assert found.days[0].batches == first.batches == first.face.count + first.backing.count


def test_two_liners_are_mixed_for_together():
    """On a day with both layouts the mix is that of both."""
    (day,) = repeated(1, 1, liners=2, beds=(("table", 2),)).days
    both = repeated(1, 1).days
    assert day.layouts == (1, 2)
    assert day.batches == sum(each.batches for each in both)


def test_without_a_calendar_casts_are_made_one_a_day():
    """In the order of the schedule, and without dates."""
    _, found = make_quantities()
    assert [(day.first, day.last, day.layouts, day.dates) for day in found.days] == [
        (1, 1, (1,), None),
        (2, 2, (2,), None),
    ]


def test_batches_hold_the_cast_and_what_is_lost():
    """Each mix is batched for its own layer of the cast."""
    _, found = make_quantities()
    for cast in found.casts:
        assert cast.face.need == cast.weight.face_wet * Fraction("1.1")
        assert cast.backing.need == cast.weight.backing_wet * Fraction("1.1")
        assert sum(cast.ingredients.values()) == cast.face.all + cast.backing.all


def test_costs_stand_beside_the_panels():
    """One for each row where there are prices, none otherwise."""
    assert len(make_quantities(prices=PRICES)[1].panel_costs) == 3
    assert make_quantities()[1].panel_costs == ()
