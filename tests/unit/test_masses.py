"""Weights, densities and shares as people write them."""

from fractions import Fraction

import pytest

from nesting.errors import InputError
from nesting.masses import (
    KG_PER_LB,
    in_density_unit,
    in_unit,
    mass_text,
    parse_density,
    parse_mass,
    parse_number,
    parse_share,
)


@pytest.mark.parametrize(
    ("value", "units", "kg"),
    [
        (60, "mm", 60),
        (2, "in", 2 * KG_PER_LB),
        (0.1, "mm", Fraction(1, 10)),
        ("60", "mm", 60),
        ("51 lb", "mm", 51 * KG_PER_LB),
        ("51 lbs", "mm", 51 * KG_PER_LB),
        ("8 oz", "mm", KG_PER_LB / 2),
        ("250 g", "in", Fraction(1, 4)),
        ("1.2 t", "mm", 1200),
        ("23\u00a0KG", "in", 23),
    ],
)
def test_weights_are_read_exactly(value, units, kg):
    """Numbers are in the job's unit, text in its own, and nothing is rounded."""
    assert parse_mass(value, units) == kg


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (0, "must be > 0 kg, got 0 kg"),
        (-3, "must be > 0 kg, got -3 kg"),
        ("-3 lb", "must be > 0 kg, got '-3 lb'"),
        (2_000_000, "must be at most 1000 t, got 2000000 kg"),
        ("3 stone", "must be a weight, got '3 stone'; write a number of kg"),
        ("1,5 kg", "a weight has no comma, got '1,5 kg'"),
        ("kg", "must be a weight, got 'kg'"),
        ("", "must be a weight, got ''"),
        (True, "must be a weight, got true"),
        (float("nan"), "must be a weight, got nan"),
        ([1], "must be a weight, got a list of 1"),
    ],
)
def test_what_is_no_weight_is_refused(value, told):
    """The rule, the value got and how to write it."""
    with pytest.raises(InputError) as refused:
        parse_mass(value, "mm")
    assert told in str(refused.value)


def test_densities_are_read_in_their_units():
    """Plain numbers are kg/m3 in mm jobs and lb/ft3 in inch jobs."""
    pcf = KG_PER_LB / Fraction("0.3048") ** 3
    assert parse_density(1922, "mm") == 1922
    assert parse_density(120, "in") == parse_density("120 lb/ft3", "mm") == 120 * pcf
    assert parse_density("1.9 t/m³", "in") == parse_density("1.9 g/cm3", "mm") == 1900
    assert in_density_unit(120 * pcf, "in") == 120
    assert in_density_unit(Fraction(1922), "mm") == 1922


@pytest.mark.parametrize(("value", "units"), [(120, "mm"), (1922, "in"), (-2000, "mm"), (0, "mm")])
def test_a_density_in_the_wrong_unit_is_caught(value, units):
    """No mix or rubber is as light or as dense as a wrong unit makes it."""
    with pytest.raises(InputError, match=r"from 500 to 5000 kg/m3 \(31.2 to 312.1 lb/ft3\), got"):
        parse_density(value, units)


def test_no_density_without_its_unit():
    """A weight is no density."""
    with pytest.raises(InputError, match=r"must be a density, got '1922 kg'; write a number of kg"):
        parse_density("1922 kg", "mm")


def test_shares_are_numbers_or_percentages():
    """Five parts in a hundred can be written in two ways, and no other."""
    assert parse_share(0.05, "x") == parse_share("5 %", "x") == parse_share("5%", "x")
    with pytest.raises(InputError, match=r"must be a share, got 'five'; write it as a share of x"):
        parse_share("five", "x")


def test_a_number_is_a_number():
    """Text, truth and infinity are none."""
    assert parse_number(4) == 4
    for value in ("4", True, float("inf"), None):
        with pytest.raises(InputError, match="must be a number"):
            parse_number(value)


def test_a_weight_is_shown_in_both_units():
    """The job's own comes first, and going there and back loses nothing."""
    assert mass_text(51 * KG_PER_LB, "in", 0) == "51 lb (23 kg)"
    assert mass_text(Fraction(10), "mm") == "10.0 kg (22.0 lb)"
    assert in_unit(Fraction(7), "in") * KG_PER_LB == in_unit(Fraction(7), "mm") == 7
