"""Lengths at the door: `nesting.units`."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.errors import InputError
from nesting.units import (
    MM_PER_INCH,
    STEPS_PER_MM,
    decimal_text,
    mm_text,
    parse_length,
    parse_steps,
    to_mm,
    to_steps,
)

SIXTY_THREE_7_16 = Fraction(1015, 16) * MM_PER_INCH


@pytest.mark.parametrize(
    "text",
    [
        "5' 3-7/16\"",
        "5'-3 7/16\"",
        "5' - 3 7/16\"",
        "5'3 7/16''",
        "5 ft 3 7/16 in",
        "5ft3 7/16in",
        "5 ft. 3 7/16 in.",
        "5 feet 3 7/16 inches",
        "63 7/16 in",
        '63-7/16"',
        "63 7/16 IN",
        "63 7 / 16 in",
        "63\N{SUPERSCRIPT SEVEN}\N{FRACTION SLASH}\N{SUBSCRIPT ONE}\N{SUBSCRIPT SIX} in",
        "63\N{SUPERSCRIPT SEVEN}/16\N{DOUBLE PRIME}",
        "5\N{PRIME} 3\N{NO-BREAK SPACE}7\N{DIVISION SLASH}16\N{DOUBLE PRIME}",
        "63.4375 in",
        "5 ft 3.4375 in",
        "  63 7/16  in ",
        "1611.3125 mm",
        "161.13125 cm",
        "1.6113125m",
    ],
)
def test_one_length_has_many_spellings(text):
    """Feet, inches, fractions and metric spellings of one length give the same exact length."""
    assert parse_length(text, "mm") == SIXTY_THREE_7_16


@pytest.mark.parametrize(
    ("text", "unit", "millimetres"),
    [
        ("63\N{VULGAR FRACTION ONE HALF}\N{DOUBLE PRIME}", "mm", "1612.9"),
        ("\N{VULGAR FRACTION THREE EIGHTHS} in", "mm", "9.525"),
        ("7/16", "in", "11.1125"),
        ("63 7/16", "in", "1611.3125"),
        ("5 ft", "mm", "1524"),
        ("5.5'", "mm", "1676.4"),
        (".5 in", "mm", "12.7"),
        ("0 mm", "in", "0"),
        ("0 in", "mm", "0"),
        ("12.7", "mm", "12.7"),
        ("1/3 in", "mm", "127/15"),
    ],
)
def test_text_is_read_exactly(text, unit, millimetres):
    """Text gives an exact length; without a unit it is in the unit of the file."""
    assert parse_length(text, unit) == Fraction(millimetres)


@pytest.mark.parametrize(
    ("value", "unit", "millimetres"),
    [
        (1612.9, "mm", "1612.9"),
        (0.1, "mm", "0.1"),
        (63.5, "in", "1612.9"),
        (0.1, "in", "2.54"),
        (7, "in", "177.8"),
        (1e-7, "mm", "1/10000000"),
        (10**400, "mm", 10**400),
    ],
)
def test_a_number_is_what_its_digits_say(value, unit, millimetres):
    """A decimal is taken by its digits, not by its binary neighbour."""
    assert parse_length(value, unit) == Fraction(millimetres)


@pytest.mark.parametrize(
    ("value", "rule"),
    [
        ("", "must not be empty"),
        (" \t", "must not be empty"),
        ("1612,9 mm", "has no comma"),
        ("1,612.9 mm", "has no comma"),
        ("inf mm", "must be finite"),
        ("nan", "must be finite"),
        (float("inf"), "must be finite"),
        (float("nan"), "must be finite"),
        ("1e3 mm", "has no exponent"),
        ("1.5E-3 in", "has no exponent"),
        ("63.5 1/2 in", "decimals or a fraction"),
        ("1.5/2 in", "decimals or a fraction"),
        ("1/2.5 in", "decimals or a fraction"),
        ("63 17/16 in", "fraction must be less than 1 in"),
        ("16/16 in", "fraction must be less than 1 in"),
        ("1/0 in", "fraction must be less than 1 in"),
        ("5 ft 12 in", "inches after feet must be < 12"),
        ("5' 13 1/2\"", "inches after feet must be < 12"),
        ("5' 3", "inches after feet need their unit"),
        ("1/2 mm", "only inches have fractions"),
        ("63 7/16", "only inches have fractions"),
        ("-3 mm", "must have no sign"),
        ("+3 mm", "must have no sign"),
        ("\N{MINUS SIGN}3 mm", "must have no sign"),
        (-3, "must not be negative"),
        (-0.5, "must not be negative"),
        ("1 000 mm", "must be a length"),
        ("1_000 mm", "must be a length"),
        ("63 - 7/16 in", "must be a length"),
        ("1 1/2 ft", "must be a length"),
        ("5.5 ft 3 in", "must be a length"),
        ("5' 3' 2\"", "must be a length"),
        ("1/2 1/2 in", "must be a length"),
        ("\N{VULGAR FRACTION ONE HALF}\N{VULGAR FRACTION ONE HALF} in", "must be a length"),
        ("3\N{VULGAR FRACTION ONE HALF}\N{SUPERSCRIPT TWO} in", "must be a length"),
        ("3\N{SUPERSCRIPT TWO} in", "must be a length"),
        ("\N{ARABIC-INDIC DIGIT THREE} mm", "must be a length"),
        ("5.", "must be a length"),
        ("mm", "must be a length"),
        ("12 yd", "must be a length"),
        ("twelve mm", "must be a length"),
        ("12 mm mm", "must be a length"),
        ("1" * 61, "at most 60 characters"),
        ("x" * 10_000, "at most 60 characters"),
        (True, "must be a number or text"),
        (None, "must be a number or text"),
    ],
)
def test_whatever_leaves_a_doubt_is_refused_with_its_reason(value, rule):
    """A length that could be read in two ways, or in none, is refused and named in short."""
    with pytest.raises(InputError, match=rule) as caught:
        parse_length(value, "mm")
    assert caught.value.where == ""
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(
    ("value", "millimetres"), [("-3 mm", -3), ("- 3 mm", -3), ("+3 mm", 3), (-3, -3)]
)
def test_a_sign_counts_where_one_belongs(value, millimetres):
    """Coordinates and tolerances may be signed."""
    assert parse_length(value, "mm", signed=True) == millimetres


def test_a_sign_covers_the_whole_length():
    """Minus before feet and inches is minus all of it."""
    assert parse_length("-5' 3 7/16\"", "mm", signed=True) == -SIXTY_THREE_7_16


def reads_or_refuses(text, *, signed):
    """Whether the text gives a length, not below zero unless signed, or a refusal with its rule."""
    try:
        length = parse_length(text, "in", signed=signed)
    except InputError as error:
        return error.rule != ""
    return signed or length >= 0


@given(st.text(max_size=70))
def test_any_text_is_read_or_refused(text):
    """No text ends in anything but a finite length or a reason."""
    assert reads_or_refuses(text, signed=True)


@given(st.text(alphabet="0123456789 .-/'\"ftinmce,+\N{VULGAR FRACTION ONE HALF}", max_size=14))
def test_text_that_nearly_is_a_length_is_read_or_refused(text):
    """Text of the characters of lengths is read as no less than nothing, or refused."""
    assert reads_or_refuses(text, signed=False)


@given(
    feet=st.integers(0, 99),
    inches=st.integers(0, 11),
    top=st.integers(1, 63),
    mark=st.sampled_from(["{}' {} {}/64\"", "{}'-{}-{}/64\"", "{} ft {} {}/64 in"]),
)
def test_feet_inches_and_fractions_add_up(feet, inches, top, mark):
    """Every feet-inch-fraction spelling is twelve inches a foot, and exact on the grid."""
    length = parse_length(mark.format(feet, inches, top), "mm")
    assert length == (12 * feet + inches + Fraction(top, 64)) * MM_PER_INCH
    assert to_mm(to_steps(length)) == length


@given(
    value=st.one_of(
        st.integers(-(10**9), 10**9),
        st.floats(-1e12, 1e12, allow_nan=False),
        st.decimals(-10_000, 10_000, places=4).map(float),
        st.integers(-(10**9), 10**9).map(lambda half: half / (2 * STEPS_PER_MM)),
    ),
    unit=st.sampled_from(["mm", "in"]),
)
def test_the_quick_way_to_steps_is_the_exact_way(value, unit):
    """Plain numbers give the same steps by floats as by fractions, halves included."""
    assert parse_steps(value, unit) == to_steps(parse_length(value, unit, signed=True))


@pytest.mark.parametrize(
    ("millimetres", "steps"),
    [
        (Fraction(1, 2 * STEPS_PER_MM), 1),
        (Fraction(-1, 2 * STEPS_PER_MM), -1),
        (Fraction(999, 2000 * STEPS_PER_MM), 0),
        (Fraction(3, 2 * STEPS_PER_MM), 2),
        (Fraction(0), 0),
    ],
)
def test_halves_of_a_step_go_away_from_zero(millimetres, steps):
    """The one rounding rule at the door takes halves away from zero, both ways."""
    assert to_steps(millimetres) == steps


@given(st.integers(-(2**40), 2**40))
def test_steps_and_millimetres_go_both_ways(steps):
    """Steps made millimetres and steps again are the same steps."""
    assert to_steps(to_mm(steps)) == steps


@pytest.mark.parametrize(
    ("steps", "text"),
    [
        (0, "0"),
        (8000, "1"),
        (8000 * 1200, "1200"),
        (4, "0.001"),
        (3, "0"),
        (-3, "0"),
        (-4, "-0.001"),
        (3175, "0.397"),
        (12_903_200, "1612.9"),
    ],
)
def test_millimetres_are_shown_to_a_micrometre(steps, text):
    """Millimetres show at most three decimals, none that is a trailing zero, and no minus zero."""
    assert mm_text(steps) == text


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [("2.5", 0, "3"), ("-2.5", 0, "-3"), ("1000", 0, "1000"), ("0.5", 3, "0.5"), ("-0.1", 0, "0")],
)
def test_a_number_is_rounded_once(value, decimals, text):
    """Halves go away from zero and whole numbers keep their zeros."""
    assert decimal_text(Fraction(value), decimals) == text
