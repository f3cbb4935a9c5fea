"""Tables read key by key: `nesting.files.tomlcheck`."""

import pytest

from nesting.errors import InputError, InputErrors
from nesting.files.tomlcheck import Mistakes, Table, complete, path_text, whole


def number(value):
    """Read a whole number."""
    if not isinstance(value, int):
        raise InputError("", "must be a number", got=repr(value))
    return value


def both_wrong(value):
    """Refuse any value twice."""
    raise InputErrors([InputError("[1]", "first"), InputError("[2]", "second")])


def make(values, text=""):
    """Return a table and where its mistakes go."""
    mistakes = Mistakes("f.toml", text)
    return Table(values, (), mistakes), mistakes


def lines(mistakes):
    """Return the mistakes as lines."""
    return [str(error) for error in mistakes.located()]


def test_a_value_is_what_its_reader_gives():
    """Values, defaults and texts come out; a table read whole has no mistakes."""
    table, mistakes = make({"a": 1, "t": {"b": 2}, "r": [{"c": 3}, {"c": 4}], "name": "x"})
    assert table.take("a", number) == 1
    assert table.take("z", number, 9) == 9
    assert table.table("t").take("b", number) == 2
    assert [row.take("c", number) for row in table.tables("r")] == [3, 4]
    assert table.raw_text("name") == "x"
    assert table.raw_text("a") is None
    assert table.table("u", needed=False) is None
    assert table.tables("v") == []
    assert table.keys == ("a", "t", "r", "name")
    assert not table.is_mistaken("a")
    assert lines(mistakes) == []


def test_a_table_that_may_be_absent_is_empty_then():
    """What lacks in it is told at the path it would have; what is no table gives None."""
    table, mistakes = make({"t": {"b": 2}, "x": 5})
    assert table.table_or_empty("t").take("b", number) == 2
    assert table.table_or_empty("x") is None
    table.table_or_empty("u").take("b", number)
    table.close()
    assert lines(mistakes) == [
        "f.toml: x: must be a table, got 5.",
        "f.toml: u.b: this key is needed.",
    ]


def test_mistakes_are_collected_and_give_none():
    """Every mistake is noted with its key path, and reading goes on."""
    table, mistakes = make({"a": "x", "b": 1, "t": 5, "r": [1], "extra": 1})
    assert table.take("a", number) is None
    assert table.take("b", both_wrong) is None
    assert table.take("c", number) is None
    assert table.table("t") is None
    assert table.tables("r", remedy="begin each one with [[r]]") == []
    table.close()
    assert table.is_mistaken("a")
    assert len(mistakes) == 7
    assert lines(mistakes) == [
        "f.toml: a: must be a number, got 'x'.",
        "f.toml: b[1]: first.",
        "f.toml: b[2]: second.",
        "f.toml: c: this key is needed.",
        "f.toml: t: must be a table, got 5.",
        "f.toml: r: must be a list of tables, got a list of 1; begin each one with [[r]].",
        "f.toml: extra: unknown key; known keys here: a, b, c, t, r.",
    ]


def test_mistakes_come_in_the_order_of_the_file():
    """With the text at hand, mistakes are sorted by line and told with it."""
    table, mistakes = make({"a": "x", "b": "y"}, "b = 'y'\na = 'x'")
    table.take("a", number)
    table.take("b", number)
    assert lines(mistakes) == [
        "f.toml:1: b: must be a number, got 'y'.",
        "f.toml:2: a: must be a number, got 'x'.",
    ]


@pytest.mark.parametrize(
    ("values", "value", "mistakes"),
    [
        ({"a": 1}, 1, []),
        ({"b": 2}, 2, []),
        ({}, None, ["f.toml: give either a or b, got neither."]),
        ({"a": 1, "b": 2}, None, ["f.toml: b: give either a or b, got both."]),
        ({"a": "x"}, None, ["f.toml: a: must be a number, got 'x'."]),
    ],
)
def test_one_of_two_keys_is_taken(values, value, mistakes):
    """Exactly one of two keys that mean the same must be given."""
    table, noted = make(values)
    assert table.take_one(a=number, b=number) == value
    table.close()
    assert lines(noted) == mistakes


def test_a_key_that_has_no_place_is_refused_once():
    """A refused key is a mistake where it is given, and not an unknown key besides."""
    table, mistakes = make({"a": 1})
    table.refuse("a", "a flat bed has none", "drop it")
    table.refuse("b", "a flat bed has none", "drop it")
    table.close()
    assert lines(mistakes) == ["f.toml: a: a flat bed has none; drop it."]


def test_after_many_mistakes_no_nearest_key_is_sought():
    """Names are compared only for the mistakes that are listed."""
    table, mistakes = make({f"key{index}": 1 for index in range(5_000)})
    table.close()
    told = lines(mistakes)
    assert len(told) == 101
    assert told[-1] == "f.toml: 4900 more mistakes."


def test_a_whole_is_made_of_parts_without_mistakes():
    """None among the parts, or among the items, gives None."""
    assert whole(dict, a=1, b=0) == {"a": 1, "b": 0}
    assert whole(dict, a=1, b=None) is None
    assert complete([1, 0]) == (1, 0)
    assert complete([1, None]) is None
    assert complete([]) == ()


def test_odd_keys_are_told_in_quotes():
    """A key that is no plain word is quoted, shortened and kept on one line."""
    assert path_text(("panel", 0, "a\nb")) == "panel[1].'a\\nb'"
    assert len(path_text(("x" * 10_000,))) < 70
    assert path_text(()) == ""
