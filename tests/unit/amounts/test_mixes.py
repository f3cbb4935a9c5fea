"""Mixes and batches: ratios kept, nothing lost, nothing short."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from quantityjobs import PRICES, make_job, make_quantities

from nesting.amounts.mixes import (
    CastCost,
    batch_mix,
    cost_ingredients,
    cost_panel,
    liner_share,
    list_unpriced,
    shares_of,
    split_mix,
    sum_ingredients,
    weigh_batch,
)
from nesting.amounts.weights import Weight
from nesting.errors import InputError
from nesting.values.material import BACKING_MIX, FACE_MIX, INGREDIENTS, USUAL, Prices

SHARES = st.fractions(0, 1, max_denominator=200)
MIXES = st.builds(
    lambda sand, more, polymer, pigment, fibre: replace(
        BACKING_MIX,
        sand=3 * sand,
        water=polymer + more,
        polymer=polymer,
        pigment=pigment / 10,
        fibre=fibre / 5,
    ),
    *[SHARES] * 5,
)
MASSES = st.fractions(Fraction(1, 1000), 5000, max_denominator=1000)


@given(MIXES, MASSES)
def test_the_ingredients_are_the_mix(mix, mass):
    """Every ingredient is named, none is negative, and together they weigh what was asked."""
    split = split_mix(mix, mass)
    assert tuple(split) == INGREDIENTS
    assert min(split.values()) >= 0
    assert sum(split.values()) == mass
    assert split["fibre"] == mix.fibre * mass
    brought = split["dispersion"] * (1 - mix.dispersion_solids)
    assert split["water"] + brought == mix.water * split["cement"]


@given(MIXES, MASSES, st.sampled_from(["0.001", "0.01", "0.05", "0.5"]))
def test_a_batch_as_weighed_is_not_short_and_keeps_its_ratios(mix, mass, scale):
    """Whole divisions, each within half a division of its ratio to the cement."""
    division = Fraction(scale)
    batch = weigh_batch(mix, mass, division)
    assert sum(batch.values()) >= mass
    assert all((weight / division).denominator == 1 for weight in batch.values())
    shares = shares_of(mix)
    for name, weight in batch.items():
        exact = batch["cement"] * shares[name] / shares["cement"]
        assert abs(weight - exact) <= division / 2
    less = batch["cement"] / division - 1
    assert (
        sum(int(s / shares["cement"] * less + Fraction(1, 2)) for s in shares.values()) * (division)
        < mass
        or less < 0
    )


@given(MIXES, MASSES)
def test_batches_cover_the_need_within_the_mixer(mix, mass):
    """All batches together weigh at least panels, overspray and loss; none is above the mixer."""
    batches = batch_mix(mix, mass, USUAL.batch)
    assert batches.need == mass * Fraction("1.1")
    assert batches.all == batches.one * batches.count >= batches.need
    assert batches.one <= USUAL.batch.mixer
    assert sum(batches.total().values()) == batches.all
    assert batches.count <= -(-batches.need // USUAL.batch.mixer) + 1


def test_a_batch_that_rounding_would_overfill_is_parted():
    """Sixty kilograms weighed to half a kilogram come to more than sixty: two batches."""
    batching = replace(USUAL.batch, overspray=Fraction(0), loss=Fraction(0), scale=Fraction(1, 2))
    batches = batch_mix(FACE_MIX, Fraction(60), batching)
    assert sum(weigh_batch(FACE_MIX, Fraction(60), Fraction(1, 2)).values()) > 60
    assert batches.count == 2
    assert batches.all >= 60


def test_a_mix_that_no_batch_can_hold_is_refused():
    """With 99.9 % fibre one division of cement belongs to more than the mixer takes."""
    mix, batching = (
        replace(BACKING_MIX, fibre=Fraction("0.999")),
        replace(USUAL.batch, mixer=Fraction(20), scale=Fraction("0.2")),
    )
    with pytest.raises(InputError, match=r"\[batch\] mixer: must take a batch with one division"):
        batch_mix(mix, Fraction(10), batching)


def test_no_panels_take_no_batch():
    """A face coat of 0 mm is left out."""
    batches = batch_mix(FACE_MIX, Fraction(0), USUAL.batch)
    assert (batches.count, batches.one, batches.all, batches.water_cement) == (0, 0, 0, 0)


def test_water_to_cement_is_that_of_the_batch():
    """The dispersion's water counts, and rounding moves it little."""
    batches = batch_mix(BACKING_MIX, Fraction(40), USUAL.batch)
    assert float(batches.water_cement) == pytest.approx(0.32, abs=0.001)
    assert batches.litres == batches.one / 2


def test_sums_name_every_ingredient():
    """What is missing in one amount is nothing."""
    total = sum_ingredients([{"cement": Fraction(2)}, {"cement": Fraction(3), "sand": Fraction(1)}])
    assert (total["cement"], total["sand"], total["fibre"]) == (5, 1, 0)
    assert tuple(total) == INGREDIENTS


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
    """Water too, where it has no price; pigment is not in the mixes."""
    assert list_unpriced(make_job(), PRICES) == ("water", "dispersion", "plasticiser")


def test_casts_come_to_the_order():
    """The order's cost is that of its casts, each with the liner's share."""
    _, found = make_quantities(prices=PRICES)
    assert found.cost.material == sum(cast.cost.material for cast in found.casts)
    assert found.cost.liner == 12
    _, bare = make_quantities(prices=replace(PRICES, liner=None, pulls=None))
    assert bare.cost.liner is None
    assert make_quantities()[1].cost is None
