"""What one value may be: `nesting.files.readers` and `lengths`. Whole files: test_bad_input.py."""

from fractions import Fraction

import pytest
from handjob import MM, rect

from nesting.errors import InputError, InputErrors
from nesting.files.lengths import MAX_LENGTH, LengthReaders, read_polygon
from nesting.files.readers import (
    is_printable,
    read_choice,
    read_each,
    read_half,
    read_name,
    read_names,
    read_text,
    read_whole,
)

MILLIMETRES = LengthReaders("mm")
INCHES = LengthReaders("in")
INCH = 203_200


@pytest.mark.parametrize(
    ("read", "value", "result"),
    [
        (MILLIMETRES.signed, -1.5, -12_000),
        (MILLIMETRES.signed, "-1 1/2 in", -3 * INCH // 2),
        (MILLIMETRES.signed, 33_000, MAX_LENGTH),
        (MILLIMETRES.not_negative, 0, 0),
        (MILLIMETRES.positive, 0.000125, 1),
        (MILLIMETRES.radius, 10_000_000, 10_000_000 * MM),
        (INCHES.size, [2, "1 ft"], (2 * INCH, 12 * INCH)),
        (INCHES.tolerance, ["-1/8 in", 0], (-INCH // 8, 0)),
        (MILLIMETRES.sized_box, [3, 2], rect(0, 0, 3, 2)),
        (MILLIMETRES.rect, [-1, -2, 3, 4], rect(-1, -2, 3, 4)),
        (MILLIMETRES.outline, [[0, 0], [3, 0], [3, 2], [0, 2]], rect(0, 0, 3, 2)),
        (MILLIMETRES.rings, [], ()),
        (MILLIMETRES.rings, [[[0, 0], [3, 0], [3, 2], [0, 2]]], (rect(0, 0, 3, 2).shell,)),
        (read_half, 0, Fraction(0)),
        (read_half, 0.1, Fraction(1, 10)),
        (read_half, 0.5, Fraction(1, 2)),
        (read_whole(1, 3), 3, 3),
        (read_choice("a", "b"), "b", "b"),
        (read_each(read_half), [0, 0.5], (Fraction(0), Fraction(1, 2))),
        (read_names, [], ()),
        (read_names, ["a", "b"], ("a", "b")),
        (read_text, "it's <b>", "it's <b>"),
    ],
)
def test_a_value_within_its_rule_is_read(read, value, result):
    """Readers give steps, polygons, fractions, words and texts, up to their limits."""
    assert read(value) == result


@pytest.mark.parametrize(
    ("read", "value", "message"),
    [
        (MILLIMETRES.not_negative, -1, "must be >= 0 mm, got -1 mm."),
        (INCHES.positive, 0, "must be > 0 in, got 0 in."),
        (INCHES.positive, 1300, "must be at most 1299.2126 in, got 1300 in."),
        (MILLIMETRES.signed, -33_001, "must be >= -33000 mm, got -33001 mm."),
        (MILLIMETRES.positive, None, "must be a length: a number of mm, or text with a unit, got"),
        (MILLIMETRES.tolerance, [-1], "must be [low, high], got a list of 1."),
        (read_whole(1, 3), True, "must be a whole number from 1 to 3, got true."),
        (read_choice("a", "b"), ["a"], "must be one of a, b, got a list of 1."),
        (read_half, float("nan"), "must be a number from 0 to 0.5, got nan."),
        (read_half, True, "must be a number from 0 to 0.5, got true."),
        (read_name, "a/b", "must have no slashes, quotes or angle brackets, got 'a/b'"),
        (read_text, "", "must have 1 to 200 characters, got 0 characters."),
        (read_names, ["a", "b", "a"], "must name each one once, got 'a' more than once."),
    ],
)
def test_a_value_outside_its_rule_is_refused(read, value, message):
    """The message gives the rule in the file's own unit and the value as it was written."""
    with pytest.raises((InputError, InputErrors)) as caught:
        read(value)
    assert str(caught.value).startswith(message)


def test_every_mistake_of_a_list_is_told_with_its_place():
    """Places count from 1 and nest."""
    with pytest.raises(InputErrors, match="must be a whole number") as caught:
        read_each(read_each(read_whole(0, 1)))([[0, 5], [1], 7, [6]])
    assert [error.where for error in caught.value.errors] == ["[1][2]", "[3]", "[4][1]"]


def test_points_and_lengths_are_told_in_the_files_unit():
    """Messages give a point in the unit the file is written in."""
    assert MILLIMETRES.place_text(8000, -4000) == "(1 mm, -0.5 mm)"
    assert INCHES.place_text(INCH, INCH // 64) == "(1 in, 0.0156 in)"


def test_holes_become_part_of_the_polygon():
    """A polygon is made with its holes, and its reason told where it is not simple."""
    shell, hole = rect(0, 0, 9, 9).shell, rect(1, 1, 2, 2).shell
    assert read_polygon(shell, [hole]).area == (81 - 4) * MM**2
    with pytest.raises(InputError, match=r"got self-intersection at \(9, "):
        read_polygon(shell, [rect(5, 5, 9, 2).shell])


@pytest.mark.parametrize(
    ("text", "printable"),
    [
        ("", True),
        ("heron 3", True),
        ("\N{ZERO WIDTH JOINER}", True),
        ("\N{LINE SEPARATOR}", False),
        ("\N{RIGHT-TO-LEFT OVERRIDE}", False),
        ("\x7f", False),
        ("\ufdd0", False),
        ("\U0001ffff", False),
        ("\ud800", False),
    ],
)
def test_text_that_steers_or_breaks_what_shows_it_is_not_printable(text, printable):
    """Control and format characters, lone surrogates and noncharacters are refused."""
    assert is_printable(text) == printable
