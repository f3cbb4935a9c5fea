"""Errors: one clear line each, and the exit code it ends with."""

import pickle

import pytest

from nesting.errors import (
    FaultyScheduleError,
    InputError,
    InputErrors,
    NestingError,
    NoScheduleError,
    RefusedError,
    naming,
    shown,
)


@pytest.mark.parametrize(
    ("parts", "line"),
    [
        (("job.toml:5: liner.thickness", "must be > 0 mm"), "job.toml:5: liner.thickness: must be"),
        (("", "must be > 0 mm"), "must be > 0 mm."),
        (("Panel 'P7'", "width must be > 0 mm", "-40 mm"), "> 0 mm, got -40 mm."),
        (("units", "unknown", "'cm'", "use mm or in"), "units: unknown, got 'cm'; use mm or in."),
        (("units", "is missing", "", "write mm or in"), "units: is missing; write mm or in."),
    ],
)
def test_a_mistake_is_one_sentence_of_its_parts(parts, line):
    """Where, the rule, the value and the remedy stand in this order; what is empty is left out."""
    text = str(InputError(*parts))
    assert line in text
    assert text.endswith(".")
    assert "\n" not in text


def test_the_parts_of_a_mistake_can_be_read():
    """A caller that sorts or shows mistakes elsewhere needs no parsing."""
    error = InputError("liner.outline", "must not cross itself", "a crossing", "move a point")
    assert (error.where, error.rule) == ("liner.outline", "must not cross itself")
    assert (error.got, error.remedy) == ("a crossing", "move a point")


def test_all_mistakes_of_a_file_stand_one_a_line_in_order():
    """The text of several mistakes is their lines; the mistakes themselves are kept."""
    one, two = InputError("a", "must be > 0"), InputError("b", "is missing")
    both = InputErrors(error for error in (one, two))
    assert str(both) == "a: must be > 0.\nb: is missing."
    assert both.errors == (one, two)
    assert one.errors == (one,)


def test_whoever_catches_one_mistake_catches_several():
    """Several are told by the parts of the first where only one is looked at."""
    one, two = InputError("a", "must be > 0", "-1", "raise it"), InputError("b", "is missing")
    with pytest.raises(InputError, match="b: is missing") as caught:
        raise InputErrors([one, two])
    first = caught.value
    assert (first.where, first.rule, first.got, first.remedy) == (
        "a",
        "must be > 0",
        "-1",
        "raise it",
    )


@pytest.mark.parametrize(
    "error",
    [
        InputError("a", "must be > 0", "-1", "raise it"),
        InputErrors([InputError("a", "must be > 0"), InputError("b", "is missing")]),
        NoScheduleError(["Panel 'A1' is too wide."]),
        RefusedError([101]),
        FaultyScheduleError("schedule.json", [101, 202]),
    ],
    ids=lambda error: type(error).__name__,
)
def test_an_error_is_the_same_in_another_process(error):
    """Text and attributes are sent along, so that work done elsewhere tells what went wrong."""
    sent = pickle.loads(pickle.dumps(error))
    assert (type(sent), str(sent)) == (type(error), str(error))
    assert {key: str(value) for key, value in vars(sent).items()} == {
        key: str(value) for key, value in vars(error).items()
    }


def test_reasons_and_findings_are_kept_and_shown():
    """A missing schedule says why, a refused one what is wrong with it, one line each."""
    none = NoScheduleError(["Panel 'A1' is too wide.", "Panel 'B1' is too high."])
    assert none.reasons == ("Panel 'A1' is too wide.", "Panel 'B1' is too high.")
    assert str(none).splitlines() == list(none.reasons)
    refused = RefusedError([101, 202])
    assert refused.findings == (101, 202)
    assert str(refused).splitlines()[1:] == ["101", "202"]
    assert str(refused).startswith("Our own checker refused our own schedule; nothing was written.")


@pytest.mark.parametrize(
    ("error", "code", "builtin"),
    [
        (NestingError("x"), 1, Exception),
        (InputError("a", "b"), 2, ValueError),
        (InputErrors([InputError("a", "b")]), 2, InputError),
        (NoScheduleError([]), 3, NestingError),
        (RefusedError([]), 4, NestingError),
    ],
)
def test_each_kind_of_trouble_has_its_exit_code(error, code, builtin):
    """0 is for success; wrong input is also a ValueError, for those who catch that."""
    assert error.exit_code == code
    assert isinstance(error, builtin)
    assert isinstance(error, NestingError)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("two\nlines", r"'two\nlines'"),
        ("it's", '"it\'s"'),
        ((1, 2, 3), "a list of 3"),
        ({"x": 1}, "a table"),
        (False, "false"),
        (None, "null"),
        (-40, "-40"),
        (1e300, "1e+300"),
        (10**30 - 1, "9" * 30),
        (10**30, "a number of more than 30 digits"),
        (-(10**4000), "a number of more than 30 digits"),
        ("a" * 58, repr("a" * 58)),
        ("a" * 59, "'" + "a" * 55 + " ..."),
    ],
)
def test_a_value_is_shown_short_and_on_one_line(value, text):
    """Text stands in quotes, long text is cut to 60 letters, lists and tables are only named."""
    assert shown(value) == text
    assert len(shown(value)) <= 60


def test_a_value_is_cut_where_it_is_told():
    """The longest text allowed is the caller's to say."""
    assert shown("abcdefghij", longest=8) == "'abc ..."


def test_a_mistake_is_told_of_the_place_that_is_named():
    """Rule, value and remedy stay; where nothing is wrong nothing happens."""
    with naming("--start"):
        pass
    with (
        pytest.raises(InputError, match=r"^--start: must be so, got 1; do that\.$"),
        naming("--start"),
    ):
        raise InputError("date", "must be so", "1", "do that")
