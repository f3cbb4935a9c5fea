"""What the material costs, per panel and per cast, and the liner's share of a cast."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from nesting.amounts.mixes import split_mix
from nesting.amounts.weights import Weight
from nesting.values.job import Job
from nesting.values.material import INGREDIENTS, Prices


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
    held = {name for mix in mixes for name, mass in split_mix(mix, Fraction(1)).items() if mass}
    return tuple(name for name in INGREDIENTS if name in held - set(dict(prices.ingredients)))
