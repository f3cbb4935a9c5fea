"""docs/file-format.md is true: its job is read, its keys are the reader's, its lines are real."""

import re
import tomllib
from pathlib import Path

import pytest
from jobtext import change, list_mistakes, write_job

from nesting.files.tomlcheck import Table
from nesting.jobs.read import read_job
from nesting.units import parse_length

PAGE = (Path(__file__).parents[2] / "docs" / "file-format.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)[1]
CURVED = '[[bed]]\nname = "vat"\nform = "concave"\nradius = 500\n'


def list_documented():
    """Return the keys of each table of the job by the table's name, as the page lists them."""
    found = {}
    for heading, body in re.findall(
        r"(?:### )?Keys of (?:the )?(\S+?):?\n\n(\| key.*?)\n\n", PAGE, re.DOTALL
    ):
        cells = [row.split(" | ")[0].strip("| ") for row in body.splitlines()[2:]]
        names = [name for cell in cells for name in re.findall("`([^`]+)`", cell)]
        table = "" if heading == "job" else heading.strip("`[]")
        found[table] = {name.strip("[]").rpartition(".")[2] for name in names}
    return found


def test_the_example_is_a_job(tmp_path):
    """The job on the page is read without a mistake and uses flat and curved beds."""
    job = read_job(write_job(tmp_path, EXAMPLE))
    assert [bed.form for bed in job.beds] == ["flat", "convex"]
    assert [panel.mark for panel in job.panels] == ["A1", "B1"]


def test_every_key_of_the_reader_is_on_the_page_and_no_other(tmp_path, monkeypatch):
    """The keys each table is asked for are the keys the page lists for it."""
    asked = {}

    def remember(table):
        name = ".".join(part for part in table.path if isinstance(part, str))
        asked.setdefault(name, set()).update(table._known)

    monkeypatch.setattr(Table, "close", remember)
    read_job(write_job(tmp_path, EXAMPLE + CURVED))
    for table, key in (("panel", "outline"), ("batch", "casts_per_day"), ("rubber", "set_hours")):
        asked[table].remove(key)  # asked for only to refuse it
    asked["liner"].add("file")  # asked for only where it is given
    assert asked == list_documented()


def test_every_spelling_of_a_length_on_the_page_is_read():
    """The table of lengths shows text that the reader takes."""
    table = PAGE[PAGE.index("| written |") : PAGE.index("Inches, feet, and")]
    texts = re.findall(r"`('''.*?'''|\".*?\")`", table)
    assert len(texts) > 10
    for text in texts:
        assert parse_length(tomllib.loads(f"length = {text}")["length"], "mm") > 0


@pytest.mark.parametrize(
    "line", re.search(r"```text\n(job.toml.*?)```", PAGE, re.DOTALL)[1].splitlines()
)
def test_the_mistakes_on_the_page_are_told_so(tmp_path, line):
    """Each line shown is what a file with that mistake gives."""
    text = change(
        ("thickness = 13", 'thickness = "13,5 mm"'),
        ("dam_clearance", "dam_clearence"),
        ("size = [800, 650]", "size = [-800, 650]"),
        ('must_show = ["heron"]', 'must_show = ["heron"]\nbed = "tabel"'),
    )
    assert line in list_mistakes(write_job(tmp_path, text))
