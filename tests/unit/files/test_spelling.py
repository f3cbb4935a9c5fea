"""Numbers are written so that they are read as they were."""

from fractions import Fraction

import pytest

from nesting.files.spelling import exact_decimal, write_number

LB = Fraction("0.45359237")
UNITS = [("", Fraction(1)), ("kg", Fraction(1)), ("lb", LB)]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(60), "60"),
        (Fraction(-1, 8), "-0.125"),
        (51 * LB, "23.13321087"),
        (Fraction("1.00000000000000000001"), '"1.00000000000000000001 kg"'),
        (LB / 3, repr(float(LB / 3))),
    ],
)
def test_a_number_is_plain_where_that_is_exact(value, text):
    """Else text in the first unit that has an end to its decimals; without any it is rounded."""
    assert write_number(value, UNITS) == text


def test_a_number_without_end_is_written_in_the_unit_that_ends_it():
    """A third of a foot is one of something."""
    assert write_number(Fraction(1, 3), [*UNITS, ("third", Fraction(1, 3))]) == '"1 third"'
    assert exact_decimal(Fraction(1, 3)) is None
