"""Keys of tables: one list for the reader, the writer and the schema."""

from handjob import MM, rect

from nesting.files.keys import ONE_OF, SHAPE, Inner, Key, Keys, table_schema, take_keys, write_keys
from nesting.files.lengths import LengthReaders
from nesting.files.readers import read_name, read_whole
from nesting.files.tomlcheck import Mistakes, Table

LEAF = Keys({"count": Key(read_whole(0, 9), "how many", 1)})


def keys(units="mm"):
    """Return a table of every kind of key."""
    lengths = LengthReaders(units)
    return Keys(
        {
            "name": Key(read_name, "what it is called"),
            "rect": Key(lengths.rect, "where", ONE_OF),
            "outline": Key(lengths.outline, "where", ONE_OF),
            "wide": Key(lengths.positive, "how wide", 2 * MM),
            "side": Key(lengths.positive, "always told", MM, stated=True),
            "note": Key(read_name, "a remark", None),
            "leaf": Inner(LEAF, "one table"),
            "stem": Inner(LEAF, "one table", stated=True),
            "rush": Inner(LEAF, "many", many=True, needed=True),
        },
        {"maxProperties": 5},
    )


VALUES = {"name": "reed", SHAPE: rect(1, 2, 3, 4), "wide": 2 * MM, "side": MM, "note": None}


def test_what_is_at_its_default_is_not_written():
    """But for what is stated; tables without a key are left out, too, unless they say something."""
    lines = ['name = "reed"', "rect = [1, 2, 3, 4]", "side = 1"]
    assert write_keys(keys(), VALUES) == lines
    inner = {"leaf": {"count": 1}, "stem": {"count": 1}, "rush": [{"count": 1}, {"count": 2}]}
    told = ["", "[stem]", "", "[[rush]]", "", "[[rush]]", "count = 2"]
    assert write_keys(keys(), VALUES | inner) == [*lines, *told]
    assert write_keys(keys(), {"leaf": {"count": 3}}, "a") == ["", "[a.leaf]", "count = 3"]


def test_a_shape_is_written_as_the_first_key_that_can():
    """A rectangle by its sides, anything else point by point."""
    corners = ((0, 0), (MM, 0), (0, MM))
    triangle = {SHAPE: type(rect(0, 0, 1, 1))(corners)}
    assert write_keys(keys(), triangle) == ["outline = [\n    [0, 0], [1, 0], [0, 1],\n]"]


def test_values_are_read_with_their_defaults_and_inner_tables_left_aside():
    """The shape stands under one name, whichever key gave it."""
    mistakes = Mistakes("f")
    table = Table({"name": "reed", "rect": [1, 2, 3, 4], "leaf": {}}, (), mistakes)
    assert take_keys(table, keys(), leave=("side",)) == {
        "name": "reed",
        "wide": 2 * MM,
        "note": None,
        SHAPE: rect(1, 2, 3, 4),
    }
    assert take_keys(Table({}, (), mistakes), keys())["name"] is None
    assert [each.rule for each in mistakes.located()] == [
        "this key is needed",
        "give either rect or outline",
    ]


def test_the_schema_tells_defaults_that_hold_in_any_units():
    """2 mm is told in neither, as it is no round figure of both; what is needed is required."""
    schema = table_schema(keys(), keys("in"))
    assert schema["required"] == ["name", "rush"]
    assert schema["oneOf"] == [{"required": ["rect"]}, {"required": ["outline"]}]
    assert (schema["additionalProperties"], schema["maxProperties"]) == (False, 5)
    assert schema["properties"]["name"]["description"] == "what it is called"
    assert "default" not in schema["properties"]["wide"]
    assert schema["properties"]["rush"]["items"]["properties"]["count"]["default"] == 1
