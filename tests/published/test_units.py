"""Units against the law and the shop chart. Figures are quoted, sources stand beside them."""

from fractions import Fraction

import pytest

from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, inch_text, parse_length, to_steps

REGULATION = "16 CFR 500.19 (US federal regulation)"
ACT = "Weights and Measures Act 1985 (UK), section 1"
CHART = "arithmetic, as printed on shop charts"


@pytest.mark.parametrize(
    ("written", "millimetres", "source"),
    [
        ("1 in", "25.4", REGULATION),
        ("1 ft", "304.8", REGULATION),
        ("3 ft", "914.4", ACT),  # 1 yd = 0.9144 m
        ("1/64 in", "0.396875", CHART),
    ],
)
def test_lengths_are_exact(written, millimetres, source):
    """An inch, a foot and a yard are the legal lengths, exactly and on the grid."""
    length = parse_length(written, "mm")
    assert length == Fraction(millimetres), source
    assert Fraction(to_steps(length), STEPS_PER_MM) == length, source


@pytest.mark.parametrize(
    ("side", "square_millimetres", "source"),
    [("1 ft", "92903.04", REGULATION), ("1 in", "645.16", REGULATION)],
)
def test_areas_are_exact(side, square_millimetres, source):
    """A square foot is 929.0304 cm2 and a square inch 6.4516 cm2, exactly, also in steps."""
    steps = to_steps(parse_length(side, "mm"))
    assert Fraction(steps**2, STEPS_PER_MM**2) == Fraction(square_millimetres), source


@pytest.mark.parametrize(
    ("decimal_inches", "division", "fraction"),
    [(0.4, 32, "13/32"), (0.7, 64, "45/64"), (0.3, 16, "5/16")],
)
def test_decimal_inches_go_to_the_fractions_of_the_chart(decimal_inches, division, fraction):
    """Source: arithmetic, as printed on shop charts of decimal inches to the nearest fraction."""
    steps = to_steps(parse_length(decimal_inches, "in"))
    assert inch_text(steps, division).startswith(f"{fraction} in")


def test_a_sixty_fourth_is_3175_steps():
    """Source: 16 CFR 500.19 and arithmetic; the grid is chosen so that 1/64 in is whole."""
    assert STEPS_PER_INCH == 64 * 3175 == Fraction("25.4") * STEPS_PER_MM
