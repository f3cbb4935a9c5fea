"""Costs: what has a price is counted, what has none is named."""

from dataclasses import replace
from fractions import Fraction

from quantityjobs import PRICES, make_job, make_quantities

from nesting.amounts.costs import (
    CastCost,
    cost_ingredients,
    cost_panel,
    liner_share,
    list_unpriced,
)
from nesting.amounts.mixes import split_mix
from nesting.amounts.weights import Weight
from nesting.values.material import Prices


def test_a_panel_bears_its_part_of_overspray_and_loss():
    """The mix of both layers, a tenth more of it, at the prices given."""
    job = make_job()
    weight = Weight(Fraction(10), Fraction(40))
    face, back = job.materials.face, job.materials.backing
    expected = cost_ingredients(PRICES, split_mix(face, Fraction(11)))
    expected += cost_ingredients(PRICES, split_mix(back, Fraction(44)))
    assert cost_panel(job, PRICES, weight) == expected > 0


def test_the_liners_share_is_its_price_over_the_pulls():
    """900 over 150 pulls is 6 a cast; without a price there is no share."""
    assert liner_share(PRICES) == 6
    assert liner_share(Prices()) is None
    assert CastCost(Fraction(5), None).total == 5
    assert CastCost(Fraction(5), Fraction(6)).total == 11


def test_what_has_no_price_is_named():
    """Water is free, and pigment is not in the mixes."""
    assert list_unpriced(make_job(), PRICES) == ("water", "dispersion", "plasticiser")


def test_casts_come_to_the_order():
    """The order's cost is that of its casts, each with the liner's share."""
    _, found = make_quantities(prices=PRICES)
    assert found.cost.material == sum(cast.cost.material for cast in found.casts)
    assert found.cost.liner == 12
    _, bare = make_quantities(prices=replace(PRICES, liner=None, pulls=None))
    assert bare.cost.liner is None
    assert make_quantities()[1].cost is None
