"""How much rubber moves with warmth and on curing, against the figures of handbook tables.

The tables give a range for polyurethane rubber; its two ends, over the length and the difference
of temperature that are printed with them, are what a liner must grow by here.
"""

from fractions import Fraction

import pytest
from printed import Figure

from nesting.shapes.geometry import Box, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.liner import Liner

TABLES = "handbook tables quoted in data pages"
LENGTH = 2400
LINER = Liner("rubber", polygon_of(Box(0, 0, LENGTH * MM, MM)), 25 * MM)


def measured(as_cast):
    """Return what 2400 mm of liner measure now [mm]."""
    return Fraction(lay_liner(LINER, as_cast).outline.bounds.width, MM)


def growth_in_ten_degrees(expansion):
    """Return by how much 2400 mm of liner grow from 20 to 30 C [mm]."""
    warm = AsCast(Fraction(0), Fraction(30), Fraction(20), Fraction(expansion))
    return measured(warm) - LENGTH


FIGURES = (
    Figure(
        TABLES,
        "polyurethane rubber, expansion 1e-4 per degree C: growth of 2400 mm in 10 degrees, in mm",
        "2.4",
        lambda: growth_in_ten_degrees("1e-4"),
    ),
    Figure(
        TABLES,
        "polyurethane rubber, expansion 2e-4 per degree C: growth of 2400 mm in 10 degrees, in mm",
        "4.8",
        lambda: growth_in_ten_degrees("2e-4"),
    ),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_our_figure_is_the_printed_one(figure):
    """A liner read at another temperature is longer by what the tables say."""
    assert figure.off() <= Fraction(figure.within), figure.source


def test_cooling_takes_back_what_warming_gave():
    """From 30 to 20 C the same figures, less."""
    cold = AsCast(Fraction(0), Fraction(20), Fraction(30), Fraction(2, 10_000))
    assert LENGTH - measured(cold) == Fraction("4.8")


def test_shrinkage_on_curing_stays_under_the_printed_tenth_of_a_per_cent():
    """Handbook tables quoted in data pages: under 0.1 %, so 2400 mm lose less than 2.4 mm."""
    assert LENGTH - measured(AsCast(liner_shrink=Fraction(1, 1000))) == Fraction("2.4")
    assert LENGTH - measured(AsCast(liner_shrink=Fraction("0.00099"))) < Fraction("2.4")
