"""docs/wall-format.md is true: its wall is read, and its keys are the reader's."""

import re
from pathlib import Path

from wallfiles import load_wall

from nesting.files.tomlcheck import Table
from nesting.walls.cladding import Corner, WallArc, WallRun, divide_wall

PAGE = (Path(__file__).parents[2] / "docs" / "wall-format.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)[1]


def list_documented():
    """Return the keys of each table by its name, as the page lists them."""
    return {
        name: set(re.findall(r"^\| `([^`]+)` ", body, re.MULTILINE))
        for name, body in re.findall(r"Keys of `\[+(\w+)\]+`:\n\n(\| key.*?)\n\n", PAGE, re.DOTALL)
    }


def test_the_example_is_a_wall(tmp_path):
    """The wall on the page is read without a mistake and has parts of each form."""
    wall = load_wall(tmp_path, EXAMPLE)
    assert {type(part) for part in wall.parts} == {WallRun, WallArc, Corner}
    assert len(divide_wall(wall)) == 10


def test_every_key_of_the_reader_is_on_the_page_and_no_other(tmp_path, monkeypatch):
    """The keys each table is asked for are the keys the page lists for it."""
    asked = {}

    def remember(table):
        name = ".".join(part for part in table.path if isinstance(part, str))
        asked.setdefault(name, set()).update(table._known)

    monkeypatch.setattr(Table, "close", remember)
    load_wall(tmp_path, EXAMPLE)
    assert asked.pop("") == {"title", "units", "liner", "wall", "widths", "ties", "part"}
    assert asked == list_documented()
