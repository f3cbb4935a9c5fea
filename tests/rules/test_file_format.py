"""docs/file-format.md is true: its job is read, its keys are the reader's, its lines are real."""

import re
import tomllib
from pathlib import Path

import pytest
from jobtext import change, list_mistakes, write_job

from nesting.checking.schedule import check_schedule
from nesting.files.keys import Inner
from nesting.files.lengths import LengthReaders
from nesting.files.tomlcheck import NEEDED, Table
from nesting.jobs.keys import job_keys
from nesting.jobs.read import read_job
from nesting.planning.schedule import schedule_casts
from nesting.units import parse_length

PAGE = (Path(__file__).parents[2] / "docs" / "file-format.md").read_text(encoding="utf-8")
EXAMPLE = re.search(r"```toml\n(.*?)```", PAGE, re.DOTALL)[1]
KEYS = job_keys(LengthReaders("mm"))
CURVED = '[[bed]]\nname = "vat"\nform = "concave"\nradius = 500\n'


def list_rows():
    """Return the rows of the table of keys of each table of the job, by its name."""
    tables = re.findall(r"(?:### )?Keys of (?:the )?(\S+?):?\n\n(\| key.*?)\n\n", PAGE, re.DOTALL)
    return {
        "" if heading == "job" else heading.strip("`[]"): body.splitlines()[2:]
        for heading, body in tables
    }


def list_documented():
    """Return the keys of each table of the job by the table's name, as the page lists them."""
    found = {}
    for table, rows in list_rows().items():
        cells = [row.split(" | ")[0].strip("| ") for row in rows]
        names = [name for cell in cells for name in re.findall("`([^`]+)`", cell)]
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
    refused = {
        "panel": {"outline", "seen_from"},
        "batch": {"casts_per_day"},
        "rubber": {"set_hours"},
    }
    for table, keys in refused.items():  # asked for only to refuse them
        assert keys <= asked[table]
        asked[table] -= keys
    asked["liner"].add("file")  # asked for only where it is given
    assert asked == list_documented()


def list_keys_told(keys, table=""):
    """Return (table, name, key) of every key of a job."""
    told = [(table, name, key) for name, key in keys.rows.items()]
    for _, name, key in tuple(told):
        if isinstance(key, Inner):
            told += list_keys_told(key.keys, f"{table}.{name}".strip("."))
    return told


@pytest.mark.parametrize(
    ("table", "name", "key"),
    [pytest.param(*told, id=".".join(told[:2])) for told in list_keys_told(KEYS)],
)
def test_the_page_says_what_the_schema_says(table, name, key):
    """Word for word beside more, and which keys are needed; the second mix is told by the first."""
    rows = [
        [cell.strip() for cell in re.split(r" \| ", row.strip("| "))]
        for row in list_rows()["mix.face" if table == "mix.backing" else table]
    ]
    (row,) = (row for row in rows if re.search(rf"[`.\[]{name}[`\]]", row[0]))
    assert key.says in row[1]
    is_needed = key.needed if isinstance(key, Inner) else key.default is NEEDED
    assert not is_needed or row[2].startswith("needed")


def test_the_example_is_planned(tmp_path):
    """Every size has a place, and the checker finds no fault."""
    job = read_job(write_job(tmp_path, EXAMPLE))
    schedule = schedule_casts(job)
    assert schedule.proved
    assert schedule.panels == {"A1": 7, "B1": 2}
    assert check_schedule(job, schedule) == ()


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
