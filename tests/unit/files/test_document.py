"""JSON is written in one way."""

import json
from fractions import Fraction

import pytest

from nesting.files.document import number, to_json, to_line


def test_format_and_version_come_first_and_other_keys_sorted():
    """At every depth, whatever the order they were given in; the text ends its line."""
    text = to_json("nesting-trial", 1, {"b": [{"z": 1, "a": 2}], "a": None})
    assert list(json.loads(text)) == ["format", "version", "a", "b"]
    assert list(json.loads(text)["b"][0]) == ["a", "z"]
    assert text.endswith("}\n")


def test_fractions_are_written_exactly_to_a_step():
    """A whole number has no point; a step of 1/8000 mm is told in full; a third to six decimals."""
    written = json.loads(
        to_json("t", 1, {"x": (Fraction(1600), Fraction(1, 8000), Fraction(1, 3))})
    )
    assert written["x"] == [1600, 0.000125, 0.333333]
    assert isinstance(number(Fraction(4)), int)


def test_letters_stay_as_they_are():
    """Names read as they were written; for a script of ours they are plain ASCII on one line."""
    assert '"jälki × 2"' in to_json("t", 1, {"mark": "jälki × 2"})  # noqa: RUF001
    line = to_line({"mark": "jälki", "at": [Fraction(1, 2)]})
    assert line == '{"at": [0.5], "mark": "j\\u00e4lki"}'


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_never_written(value):
    """JSON has no word for it."""
    with pytest.raises(ValueError, match="JSON compliant"):
        to_json("t", 1, {"x": value})
