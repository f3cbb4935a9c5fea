"""Lettering: how much room words take, and how they are cut to it."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.drawings.lettering import clean, shorten, words_depth, words_rise, words_width, wrap

DEJAVU_SANS = {
    "0": (0.636, 0.696),
    "1": (0.636, 0.696),
    " ": (0.318, 0.348),
    "A": (0.684, 0.774),
    "M": (0.863, 0.995),
    "W": (0.989, 1.103),
    "i": (0.278, 0.343),
    "m": (0.974, 1.042),
    "r": (0.411, 0.493),
    "%": (0.950, 1.002),
    "&": (0.780, 0.872),
    "<": (0.838, 0.838),
    "×": (0.838, 0.838),
    "é": (0.615, 0.678),
    "Œ": (1.070, 1.167),
    "Щ": (1.094, 1.326),
}
"""Advance widths in em, plain and bold, read from the font files of DejaVu Sans."""


@pytest.mark.parametrize("letter", DEJAVU_SANS)
def test_no_letter_is_wider_than_told(letter):
    """In the widest usual face a letter is never wider than the table says, plain or bold."""
    plain, bold = DEJAVU_SANS[letter]
    assert words_width(letter, 0.72) >= plain
    assert words_width(letter, 0.72, bold=True) >= bold


def test_a_letter_is_not_told_much_wider_than_it_is():
    """The table is no wider than needed: figures are told at most a tenth too wide."""
    assert words_width("1234567890", 0.72) < 1.1 * 10 * 0.636


def test_height_is_that_of_a_capital():
    """Width grows with the height of a capital, which is 0.72 of the type size."""
    assert words_width("heron", 7.0) == pytest.approx(2 * words_width("heron", 3.5))
    assert words_rise("H", 3.5) == pytest.approx(3.5 * 0.78 / 0.72)


def test_words_with_tails_hang_lower_and_accents_reach_higher():
    """Figures stand on the line, letters such as g hang below it, an accent stands above it."""
    assert words_depth("1525", 3.5) < words_depth("heron g", 3.5)
    assert words_rise("1525", 3.5) == words_rise("1525 × 25", 3.5) < words_rise("É", 3.5)


@pytest.mark.parametrize(
    ("given_words", "kept"),
    [
        ("A\x001", "A1"),
        ("A\n\t 1", "A 1"),
        ("\x0b\x1f ", ""),
        ("a\ud800b", "ab"),
        ("\ufffe\uffff", ""),
        ("a\u202eb", "ab"),
        ("<&\">'", "<&\">'"),
    ],
)
def test_what_no_drawing_can_hold_is_dropped(given_words, kept):
    """Control, unpaired and direction characters go, breaks become spaces, markup stays."""
    assert clean(given_words) == kept


@given(st.text(max_size=80), st.floats(0, 200), st.sampled_from([3.5, 5.0]), st.booleans())
def test_shortened_words_fit_their_room(words, room, height, bold):
    """What is left is never wider than the room, and nothing is left out where all fits."""
    short = shorten(words, room, height, bold=bold)
    assert words_width(short, height, bold=bold) <= room + 1e-5
    if words_width(clean(words), height, bold=bold) <= room:
        assert short == clean(words)


def test_shortened_words_keep_both_ends():
    """Marks that differ at one end differ after shortening too."""
    short = [shorten("north elevation, bay " + number, 40, 3.5) for number in "12"]
    assert short == ["north e...bay 1", "north e...bay 2"]


@given(st.text(max_size=200), st.floats(20, 120))
def test_wrapped_lines_fit_and_keep_the_order(words, room):
    """Every line fits the room, and the lines hold no word that was not given."""
    lines = wrap(words, room, 3.5)
    assert all(words_width(line, 3.5) <= room + 1e-5 for line in lines)
    if all("..." not in line for line in lines):
        assert all(word in clean(words) for line in lines for word in line.split())
