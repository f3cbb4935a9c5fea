"""Panel sizes as people type them."""

import pytest
from handjob import MM

from nesting.errors import InputError
from nesting.files.sizes import is_size, parse_size


@pytest.mark.parametrize(
    ("text", "unit", "width", "height"),
    [
        ("1500x900", "mm", 1500, 900),
        ("1500 mm X 90 cm", "in", 1500, 900),
        ("10 \u00d7 20", "in", 254, 508),
        ("5 ft 3 in x 2 ft 11 1/2 in", "mm", 1600.2, 901.7),
    ],
)
def test_a_size_is_two_lengths_with_an_x_between(text, unit, width, height):
    """Plain numbers are in the unit given, others carry their own."""
    assert parse_size(text, unit) == (width * MM, height * MM)


@pytest.mark.parametrize("text", ["1600\u00d71200", "1600 x 1200", "63 in x 3\u00bd ft"])
def test_a_size_is_told_from_a_file(text, tmp_path, monkeypatch):
    """Unless a file of that name is there; names of files that are not there are no sizes."""
    monkeypatch.chdir(tmp_path)
    assert is_size(text)
    (tmp_path / text).touch()
    assert not is_size(text)
    assert not any(map(is_size, ["900", "mixed", "9x9.toml", "wax", "x9", "1x2x3", "\0x9"]))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("1500", r"Size: must be a width and a height with an x between, got '1500'; write it"),
        ("1x2x3", r"must be a width and a height"),
        ("15,5x9", r"Size '15,5x9': a length has no comma, got '15,5'; write it like 1500x900"),
        (
            "0x9",
            r"width and height must be > 0 mm and at most 33 m, got '0'; plain numbers are in mm",
        ),
        ("9x40 m", r"at most 33 m, got '40 m'"),
        ("", r"with an x between, got ''"),
    ],
)
def test_what_is_no_size_is_refused_in_one_line(text, message):
    """The line tells what was typed and how to write it."""
    with pytest.raises(InputError, match=message):
        parse_size(text, "mm")
