"""Values of a job that are no lengths."""

from fractions import Fraction

import pytest

from nesting.errors import InputError
from nesting.jobs.readers import read_expansion, read_shrink, read_temperature


@pytest.mark.parametrize(
    ("value", "share"),
    [
        (0, 0),
        (0.0, 0),
        (0.001, Fraction(1, 1000)),
        (1e-05, Fraction(1, 100_000)),
        (0.0999, Fraction(999, 10_000)),
        ("0.1 %", Fraction(1, 1000)),
        ("0.1%", Fraction(1, 1000)),
        (" 9.99 % ", Fraction(999, 10_000)),
        (".5 %", Fraction(5, 1000)),
    ],
)
def test_a_share_is_a_fraction_or_text_in_per_cent(value, share):
    """Exactly as written, in decimals."""
    assert read_shrink(value) == share


@pytest.mark.parametrize("value", ["0.001", "0,1 %", "% 0.1", "", "1e-3 %", "1" * 40 + " %"])
def test_text_that_is_no_share_is_refused(value):
    """Without its sign a text could be either."""
    rule = r"must be a fraction, as 0.001, or text in per cent, as '0.1 %', got '"
    with pytest.raises(InputError, match=rule):
        read_shrink(value)


@pytest.mark.parametrize("value", [True, [0.1], {}, float("nan"), float("inf")])
def test_what_is_no_number_is_no_share(value):
    """Neither a truth nor a list, nor what is not finite."""
    with pytest.raises(InputError, match=r"must be a fraction, as 0.001, or text in per cent"):
        read_shrink(value)


@pytest.mark.parametrize("value", [0.1, "10 %", -0.001, "-0.1 %", 1])
def test_a_share_is_below_a_tenth(value):
    """More is a slip, a per cent given as a fraction most likely."""
    with pytest.raises(InputError, match=r"must be from 0 to below 0.1, which is 10 %, got"):
        read_shrink(value)


@pytest.mark.parametrize(
    ("value", "degrees"),
    [
        (20, 20),
        (-50, -50),
        (100, 100),
        (18.5, Fraction(37, 2)),
        ("68 F", 20),
        ("68F", 20),
        ("-58 °F", -50),
        ("212 f", 100),
        ("18.5 °C", Fraction(37, 2)),
        ("+4 c", 4),
        ("69 F", Fraction(185, 9)),
    ],
)
def test_a_temperature_is_in_celsius_unless_it_says_fahrenheit(value, degrees):
    """Exactly: 69 F are 185/9 C."""
    assert read_temperature(value) == degrees


@pytest.mark.parametrize("value", ["20", "68 K", "warm", "", "20,5 C", False, [20], float("nan")])
def test_what_is_no_temperature_is_refused(value):
    """Text needs its unit."""
    rule = "must be a temperature: a number of degrees C, or text such as '20 C' or '68 F', got"
    with pytest.raises(InputError, match=rule):
        read_temperature(value)


@pytest.mark.parametrize("value", [-50.1, 100.5, "213 F", "-59 F"])
def test_a_temperature_beyond_any_shop_is_refused(value):
    """Kelvin, or Fahrenheit without its sign."""
    with pytest.raises(InputError, match=r"must be from -50 to 100 C, got"):
        read_temperature(value)


@pytest.mark.parametrize("value", [0, 0.00015, 0.001])
def test_an_expansion_is_read_as_written(value):
    """Its ends included."""
    assert read_expansion(value) == Fraction(str(value))


@pytest.mark.parametrize("value", [-0.0001, 0.0011, 1, "0.0001", True, float("inf")])
def test_an_expansion_beyond_any_rubber_is_refused(value):
    """A number, from 0 to 0.001."""
    with pytest.raises(InputError, match=r"must be a number from 0 to 0.001, the growth"):
        read_expansion(value)
