"""Lengths as a tape reads them: `nesting.tape`."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.tape import CLOSE, FULL_OR_SCANT, Tape, explain_beside
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, has_feet, parse_steps, to_steps

STEPS = st.integers(-(2**31), 2**31)


def read(text, units):
    """Return the mark a text names [steps], and whether the length is more (1) or less (-1)."""
    found = re.fullmatch(r"(-?)(.*?)(?: (full|scant))?", text)
    side = {None: 0, "full": 1, "scant": -1}[found[3]]
    sign = -1 if found[1] else 1
    words = found[2] if found[2].endswith(units) else f"{found[2]} {units}"
    return sign * parse_steps(words, units), sign * side


@given(STEPS, st.sampled_from([1, 2, 4, 8, 16, 32, 64]), st.booleans())
def test_inches_are_told_to_half_a_sixty_fourth_and_on_the_right_side(steps, division, with_unit):
    """Text back to a length: off by at most 1/128 in, and full or scant where it says so."""
    tape = Tape("in", STEPS_PER_INCH // division)
    text = tape.words(steps) if with_unit else tape.figure(steps)
    assert "." not in text
    assert "mm" not in text
    mark, side = read(text, "in")
    assert 128 * abs(steps - mark) <= STEPS_PER_INCH
    assert abs(steps - mark) <= CLOSE if side == 0 else side * (steps - mark) > CLOSE


@given(STEPS, st.sampled_from([1, 2, 4, 5, 10]))
def test_millimetres_are_told_to_half_a_mark_and_on_the_right_side(steps, parts):
    """A whole mm is off by at most half of one; a finer set-out has finer marks."""
    tape = Tape("mm", STEPS_PER_MM // parts)
    mark, side = read(tape.figure(steps), "mm")
    assert 2 * parts * abs(steps - mark) <= STEPS_PER_MM
    assert mark % (STEPS_PER_MM // parts) == 0
    assert abs(steps - mark) <= CLOSE if side == 0 else side * (steps - mark) > CLOSE


@given(STEPS, st.sampled_from([1, 5, 10]))
def test_a_set_out_of_several_mm_still_has_the_marks_of_whole_mm(steps, whole):
    """A tape has every mm, whatever the shop marks to."""
    assert Tape("mm", whole * STEPS_PER_MM).figure(steps) == Tape("mm").figure(steps)


@given(st.integers(0, 10**6).map(lambda sixty_fourths: sixty_fourths * 3175), st.booleans())
def test_what_is_stated_in_feet_is_read_back(steps, in_feet):
    """Every 1/64 in is written exactly, with feet where they are asked for and reach one."""
    text = Tape("in").stated(steps, in_feet=in_feet)
    assert parse_steps(text, "in") == steps
    assert has_feet(text) == (in_feet and steps >= 12 * STEPS_PER_INCH)


@pytest.mark.parametrize(
    ("steps", "units", "set_out", "text"),
    [
        (0, "in", 0, "0 in"),
        (STEPS_PER_INCH * 63 + 7 * 12_700, "in", 12_700, "63 7/16 in"),
        (STEPS_PER_MM * 2438, "in", 12_700, "95 63/64 in"),
        (STEPS_PER_MM * 2437, "in", 12_700, "95 15/16 in full"),
        (-STEPS_PER_INCH // 2, "in", 12_700, "-1/2 in"),
        (STEPS_PER_INCH // 10 * 3, "in", STEPS_PER_INCH // 10, "3/10 in"),
        (STEPS_PER_INCH // 10 * 3, "in", STEPS_PER_INCH // 16, "19/64 in full"),
        (1000, "in", 0, "0 in full"),
        (CLOSE, "in", 0, "0 in"),
        (-CLOSE, "mm", 0, "0 mm"),
        (12_900_000, "mm", 4000, "1612.5 mm"),
        (12_900_000, "mm", STEPS_PER_MM, "1613 mm scant"),
        (20_000, "mm", 20_000, "2.5 mm"),
        (12_700, "mm", 12_700, "2 mm scant"),
    ],
)
def test_a_length_is_told_by_the_marks_of_the_tape(steps, units, set_out, text):
    """The set-out's marks come first, then 1/64 in or whole mm; a division no tape has is none."""
    assert Tape(units, set_out).words(steps) == text


def test_amounts_and_sizes_keep_the_decimals_they_were_stated_with():
    """A thickness of 12.5 mm stays 12.5 mm, and a change has its sign."""
    tape = Tape("mm", STEPS_PER_MM)
    assert tape.stated_words(100_000) == "12.5 mm"
    assert tape.signed(100_000) == "+12.5"
    assert tape.signed(-4000, words=True) == "-0.5 mm"
    assert Tape("in").signed(to_steps(Fraction("25.4"))) == "+1"


def test_a_size_has_its_unit_once():
    """Width first; in words the unit stands behind both."""
    width, height = STEPS_PER_INCH * 3 // 2, STEPS_PER_INCH
    assert Tape("in").size(width, height) == "1 1/2 x 1"
    assert Tape("in").size_words(width, height) == "1 1/2 x 1 in"


def test_exact_values_are_listed_where_the_tape_has_no_mark():
    """What lies on a mark to the last step needs no decimals."""
    lengths = {"left": STEPS_PER_MM, "right": 12_903_200}
    assert Tape("mm").list_exact(lengths) == "right 1612.9"
    assert Tape("mm").list_exact({"left": STEPS_PER_MM}) == "-"


def test_full_and_scant_are_explained_where_they_stand():
    """Nothing is explained that is not there."""
    assert explain_beside("dam 1  5 7/32 scant") == FULL_OR_SCANT
    assert explain_beside("1613 mm scant") == FULL_OR_SCANT
    assert explain_beside("1 full-size sheet") == ""
