"""docs/zones-format.md is true: its motif is read and answered, and its keys are the reader's."""

import re
from pathlib import Path

from motiffiles import load_motif

from nesting.files.tomlcheck import Table
from nesting.zones.strips import plan_zones, prepare

PAGE = (Path(__file__).parents[2] / "docs" / "zones-format.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)[1]


def list_documented():
    """Return the keys of each table by its name, as the page lists them."""
    return {
        name: set(re.findall(r"^\| `([^`]+)` ", body, re.MULTILINE))
        for name, body in re.findall(
            r"Keys of `\[+(\w+)\]+`[^\n]*:\n\n(\| key.*?)\n\n", PAGE, re.DOTALL
        )
    }


def test_the_example_is_a_motif_with_an_answer(tmp_path):
    """The motif on the page is read without a mistake and some liner gives its sizes."""
    motif = load_motif(tmp_path, EXAMPLE)
    found = plan_zones(prepare(motif))
    assert found.widths[0] == found.widths[1] > 0
    assert [place.mark for place in found.places] == ["A1", "A2"]


def test_every_key_of_the_reader_is_on_the_page_and_no_other(tmp_path, monkeypatch):
    """The keys of the tables a job does not have are the keys the page lists for them."""
    asked = {}

    def remember(table):
        name = ".".join(part for part in table.path if isinstance(part, str))
        asked.setdefault(name, set()).update(table._known)

    monkeypatch.setattr(Table, "close", remember)
    load_motif(tmp_path, EXAMPLE)
    own = {"zones", "strip", "group", "centred"}
    assert asked[""] - own == {"title", "units", "liner", "rules", "bed", "panel"}
    assert {name: keys for name, keys in asked.items() if name in own} == list_documented()
