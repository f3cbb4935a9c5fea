"""All quantities together: panels come to casts, casts to days and to the order."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import hand_schedule
from quantityjobs import PRICES, make_job, make_quantities

from nesting.material import USUAL
from nesting.mixes import sum_ingredients
from nesting.quantities import reckon_quantities
from nesting.weights import sum_weights


def repeated(first, second, per_day):
    """Return the quantities where the two layouts are cast so often."""
    schedule = hand_schedule()
    one, two = schedule.layouts
    layouts = (replace(one, repeats=first), replace(two, repeats=second))
    job = make_job(batch=replace(USUAL.batch, casts_per_day=per_day))
    return reckon_quantities(job, replace(schedule, layouts=layouts))


def test_panels_and_casts_both_come_to_the_order():
    """The same mass, counted by panels and by casts."""
    found = repeated(3, 2, 1)
    assert found.weight == sum_weights(row.panel.weight.times(row.pieces) for row in found.panels)
    assert found.weight == sum_weights(cast.weight.times(cast.repeats) for cast in found.casts)
    assert [row.pieces for row in found.panels] == [3, 3, 2]


@pytest.mark.parametrize("per_day", [1, 2, 4, 9])
def test_days_come_to_the_order(per_day):
    """However many casts a day, every cast falls on one day."""
    found = repeated(3, 2, per_day)
    days = [day for day in found.days for _ in range(day.first, day.last + 1)]
    assert sum(len(day.layouts) for day in days) == 5
    assert sum_ingredients(dict(day.ingredients) for day in days) == dict(found.ingredients)
    assert days[-1].last == -(-5 // per_day)


def test_days_that_are_alike_stand_together():
    """Two days of layout 1, then one of both, then the rest."""
    found = repeated(5, 2, 2)
    assert [(day.first, day.last, day.layouts) for day in found.days] == [
        (1, 2, (1, 1)),
        (3, 3, (1, 2)),
        (4, 4, (2,)),
    ]
    first = found.casts[0]
    assert (
        found.days[0].batches == 2 * first.batches == 2 * (first.face.count + first.backing.count)
    )


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
