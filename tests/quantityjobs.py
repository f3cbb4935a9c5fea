"""The hand-sized job with materials stated, and the quantities of its schedule."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM, hand_job, hand_schedule

from nesting.amounts.quantities import reckon_quantities
from nesting.values.material import USUAL, Material, Prices

PRICES = Prices(
    "crowns",
    (("cement", Fraction(1, 2)), ("sand", Fraction(1, 10)), ("fibre", Fraction(5))),
    rubber=Fraction(12),
    dam=Fraction(3),
    liner=Fraction(900),
    pulls=150,
)
"""Prices that are made up; some ingredients have none."""


def make_job(on_panel="boss", relief=9, fill=Fraction(1, 2), **changes):
    """Return the hand-sized job: 20 mm panels with 4 mm of face coat, and a heron in relief."""
    job = hand_job()
    heron = replace(job.liner.ornaments[0], relief=round(relief * MM), on_panel=on_panel, fill=fill)
    material = Material(20 * MM, 4 * MM, 10 * MM)
    return replace(
        job,
        liner=replace(job.liner, ornaments=(heron,)),
        materials=replace(USUAL, panel=material, **changes),
    )


def make_quantities(**options):
    """Return the job of `make_job` and the quantities of its schedule."""
    job = make_job(**options)
    return job, reckon_quantities(job, hand_schedule())
