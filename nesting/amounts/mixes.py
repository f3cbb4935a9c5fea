"""From a mix by ratios to batches as they are weighed: nothing is lost and nothing runs short.

And what these cost, per panel and per cast, with the liner's share of a cast.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from nesting.amounts.weights import Weight
from nesting.errors import InputError
from nesting.values.job import Job
from nesting.values.material import INGREDIENTS, Batching, Mix, Prices

Ingredients = dict[str, Fraction]
"""The weight [kg] of each ingredient of a mix, in the order of `material.INGREDIENTS`."""


@dataclass(frozen=True, slots=True)
class Batches:
    """So many equal batches: ``ingredients`` of one as weighed, and the ``need`` of all [kg]."""

    count: int
    ingredients: tuple[tuple[str, Fraction], ...]
    need: Fraction
    mix: Mix

    @property
    def one(self) -> Fraction:
        """What one batch weighs [kg]."""
        return sum((weight for _, weight in self.ingredients), Fraction(0))

    @property
    def all(self) -> Fraction:
        """What all batches weigh together [kg]: at least the need."""
        return self.one * self.count

    @property
    def litres(self) -> Fraction:
        """The volume of one batch, at the mix's wet density."""
        return self.one / self.mix.wet_density * 1000

    @property
    def water_cement(self) -> Fraction:
        """Water : cement as weighed, the dispersion's water counted; 0 where there is none."""
        weights = dict(self.ingredients)
        brought = weights["dispersion"] * (1 - self.mix.dispersion_solids)
        return (weights["water"] + brought) / weights["cement"] if self.count else Fraction(0)

    @property
    def wanted(self) -> Ingredients:
        """What one batch would hold beside its cement if no scale rounded it [kg]."""
        shares, cement = shares_of(self.mix), dict(self.ingredients)["cement"]
        return {name: share / shares["cement"] * cement for name, share in shares.items()}

    def total(self) -> Ingredients:
        """Return the ingredients of all batches together [kg]."""
        return {name: weight * self.count for name, weight in self.ingredients}


def shares_of(mix: Mix) -> Ingredients:
    """Return each ingredient's share of the whole by weight; the shares add up to 1.

    >>> from nesting.values.material import FACE_MIX
    >>> sum(shares_of(FACE_MIX).values()), shares_of(FACE_MIX)["fibre"]
    (Fraction(1, 1), Fraction(0, 1))
    """
    per_cement = {
        "cement": Fraction(1),
        "sand": mix.sand,
        "water": mix.water - mix.dispersion_water,
        "dispersion": mix.polymer / mix.dispersion_solids,
        "plasticiser": mix.plasticiser,
        "pigment": mix.pigment,
    }
    without_fibre = sum(per_cement.values())
    scale = (1 - mix.fibre) / without_fibre
    return {name: amount * scale for name, amount in per_cement.items()} | {"fibre": mix.fibre}


def split_mix(mix: Mix, mass: Fraction) -> Ingredients:
    """Return the exact ingredients of so much mix [kg]; they add up to it."""
    return {name: share * mass for name, share in shares_of(mix).items()}


def weigh_batch(mix: Mix, mass: Fraction, division: Fraction) -> Ingredients:
    """Return one batch in whole divisions of the scale [kg], of at least ``mass`` in all.

    The cement is the least whole number of divisions at which the other ingredients, each rounded
    to the nearest division in its ratio to the cement, bring the batch up to the mass. So every
    ratio holds to half a division, and the batch is never short.

    >>> from nesting.values.material import FACE_MIX
    >>> sum(weigh_batch(FACE_MIX, Fraction(10), Fraction(1, 10)).values())
    Fraction(101, 10)
    """
    shares = shares_of(mix)
    cement = math.ceil(shares["cement"] * mass / division)
    cement = max(0, cement - len(INGREDIENTS))
    while True:
        counts = {
            name: math.floor(share / shares["cement"] * cement + Fraction(1, 2))
            for name, share in shares.items()
        }
        if sum(counts.values()) * division >= mass:
            return {name: count * division for name, count in counts.items()}
        cement += 1


def batch_mix(mix: Mix, in_panels: Fraction, batching: Batching) -> Batches:
    """Return the fewest equal batches that give the mix in the panels [kg], overspray and loss.

    No batch as weighed is more than the mixer takes. Nothing in the panels takes no batch.

    Raises
    ------
    InputError
        Where a single division of cement, with all that belongs to it, is too much for the mixer.
    """
    need = in_panels * (1 + batching.overspray + batching.loss)
    if need <= 0:
        return Batches(0, tuple((name, Fraction(0)) for name in INGREDIENTS), Fraction(0), mix)
    count = math.ceil(need / batching.mixer)
    while True:
        ingredients = weigh_batch(mix, need / count, batching.scale)
        if sum(ingredients.values()) <= batching.mixer:
            return Batches(count, tuple(ingredients.items()), need, mix)
        if ingredients["cement"] == batching.scale:
            rule = "must take a batch with one division of the scale of cement"
            raise InputError("[batch] mixer", rule, remedy="give a finer scale or a larger mixer")
        count += 1


def sum_ingredients(amounts: Iterable[Mapping[str, Fraction]]) -> Ingredients:
    """Return the ingredients of all amounts together, every ingredient named."""
    total = dict.fromkeys(INGREDIENTS, Fraction(0))
    for ingredients in amounts:
        for name, weight in ingredients.items():
            total[name] += weight
    return total


@dataclass(frozen=True, slots=True)
class CastCost:
    """What one cast costs: the mix as batched, and the liner's share, None where not known."""

    material: Fraction
    liner: Fraction | None

    @property
    def total(self) -> Fraction:
        """Material, and the liner's share where it is known."""
        return self.material + (self.liner or 0)


def cost_ingredients(prices: Prices, ingredients: Mapping[str, Fraction]) -> Fraction:
    """Return what the ingredients of a mix [kg] cost; an ingredient without a price adds nothing.

    >>> prices = Prices(ingredients=(("cement", Fraction(2)),))
    >>> cost_ingredients(prices, {"cement": Fraction(3), "sand": Fraction(1)})
    Fraction(6, 1)
    """
    known = dict(prices.ingredients)
    return sum(
        (known.get(name, Fraction(0)) * mass for name, mass in ingredients.items()), Fraction(0)
    )


def cost_panel(job: Job, prices: Prices, weight: Weight) -> Fraction:
    """Return what a panel's mix costs, with its share of overspray and loss."""
    batch = job.materials.batch
    allowed = 1 + batch.overspray + batch.loss
    face = split_mix(job.materials.face, weight.face_wet * allowed)
    backing = split_mix(job.materials.backing, weight.backing_wet * allowed)
    return cost_ingredients(prices, face) + cost_ingredients(prices, backing)


def liner_share(prices: Prices) -> Fraction | None:
    """Return the liner's share of one cast: its price over the pulls expected of it."""
    if prices.liner is None or prices.pulls is None:
        return None
    return prices.liner / prices.pulls


def list_unpriced(job: Job, prices: Prices) -> tuple[str, ...]:
    """Return the ingredients the mixes hold that have no price: what the sums leave out."""
    mixes = (job.materials.face, job.materials.backing)
    held = {name for mix in mixes for name, share in shares_of(mix).items() if share}
    return tuple(name for name in INGREDIENTS if name in held - set(dict(prices.ingredients)))
