"""Units against the law and the shop chart. Figures are quoted, sources stand beside them."""

from fractions import Fraction

import pytest
from printed import Figure

from nesting.tape import Tape
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, parse_length, to_mm, to_steps

REGULATION = "16 CFR 500.19 (US federal regulation)"
ACT = "Weights and Measures Act 1985 (UK), section 1"
CHART = "arithmetic, as printed on shop charts"


def length(written, millimetres_per_unit):
    """Return what was written, in a unit, by way of the grid of steps."""
    return to_mm(to_steps(parse_length(written, "mm"))) / millimetres_per_unit


def square_cm(written):
    """Return the square over a length in cm2, by way of square steps."""
    return Fraction(to_steps(parse_length(written, "mm")) ** 2, (10 * STEPS_PER_MM) ** 2)


def on_the_rule(decimal_inches):
    """Return the fraction of an inch that decimal inches are shown as."""
    shown = Tape("in").words(to_steps(parse_length(decimal_inches, "in")))
    return Fraction(shown.partition(" in")[0])


FIGURES = (
    Figure(REGULATION, "1 in, in cm", "2.54", lambda: length("1 in", 10)),
    Figure(REGULATION, "1 ft, in cm", "30.48", lambda: length("1 ft", 10)),
    Figure(REGULATION, "1 in², in cm²", "6.4516", lambda: square_cm("1 in")),
    Figure(REGULATION, "1 ft², in cm²", "929.0304", lambda: square_cm("1 ft")),
    Figure(ACT, "1 yd, as 3 ft, in m", "0.9144", lambda: length("3 ft", 1000)),
    Figure(CHART, "1/64 in, in mm", "0.396875", lambda: length("1/64 in", 1)),
    Figure(CHART, "0.4 in to the nearest 1/64 in", "13/32", lambda: on_the_rule(0.4)),
    Figure(CHART, "0.7 in to the nearest 1/64 in", "45/64", lambda: on_the_rule(0.7)),
    Figure(CHART, "0.3 in to the nearest 1/64 in", "19/64", lambda: on_the_rule(0.3)),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_lengths_and_areas_are_the_legal_ones(figure):
    """Inch, foot and yard are exact and on the grid, and decimals go to the chart's fraction."""
    assert figure.off() <= Fraction(figure.within), figure.source


def test_a_sixty_fourth_is_3175_steps():
    """Source: 16 CFR 500.19 and arithmetic; the grid is chosen so that 1/64 in is whole."""
    assert STEPS_PER_INCH == 64 * 3175 == Fraction("25.4") * STEPS_PER_MM
