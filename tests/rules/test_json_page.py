"""docs/json.md is true: it has every command with --json, and every key that any of them prints."""

import json
import re
from pathlib import Path

import pytest
from handjob import hand_job, hand_schedule
from motiffiles import MOTIF

from nesting.cli import nesting, run
from nesting.schedules.write import schedule_to_json

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "json.md").read_text(encoding="utf-8")
FERRY = "examples/ferry-terminal.toml"
SCHEDULE = ["--schedule", "output_svg/ferry-terminal/schedule.json"]
SCAN = ["examples/scans/reeds-and-heron.png", "--width", "2400", "--relief", "14"]
PRINTED = {
    "Plan": ["plan", "examples/garden-court.toml"],
    "Check": ["check", FERRY, "output_svg/bath-house-frieze/schedule.json"],
    "Fit": ["fit", FERRY, "1200x700"],
    "Wall": ["wall", "examples/walls/reading-room-drum.toml"],
    "Quantities": ["quantities", FERRY, *SCHEDULE],
    "Strips": ["strips", FERRY, *SCHEDULE],
    "Template": ["template", FERRY, *SCHEDULE, "--layout", "1"],
    "Packet": ["packet", FERRY, *SCHEDULE, "-o", "OUT"],
    "Range": ["range", FERRY],
    "Liner": ["liner", "examples/drawings/herons.svg", "--thickness", "13"],
    "Scan": ["liner", *SCAN, "--thickness", "13"],
    "Calendar": ["calendar", FERRY, *SCHEDULE],
    "Zones": ["zones", "MOTIF"],
    "Zones --keep": ["zones", "--keep", FERRY, "1750x900"],
}
NAMES = {"panels": "marks of the order", "widths": "names of strips"}
"""Keys whose object has names of the user's for keys."""


def list_keys(value, key=""):
    """Return every key of a document, at any depth, but names of the user's."""
    if isinstance(value, list):
        return {found for each in value for found in list_keys(each)}
    if isinstance(value, dict):
        own = set() if key in NAMES else set(value)
        return own.union(*(list_keys(inner, name) for name, inner in value.items()))
    return set()


@pytest.fixture(scope="module")
def commands(tmp_path_factory):
    """Return the words of each command, with files of its own."""
    folder = tmp_path_factory.mktemp("json")
    (folder / "motif.toml").write_text(MOTIF, encoding="utf-8")
    names = {"OUT": str(folder / "out"), "MOTIF": str(folder / "motif.toml")}
    return {title: [names.get(word, word) for word in words] for title, words in PRINTED.items()}


def test_every_command_that_prints_json_is_listed():
    """The table names the commands that have the option, and no other; each has a section."""
    table = PAGE.split("\n## ")[0]
    names = set(re.findall(r"^\| `(\w+)", table, re.MULTILINE)) - {"format"}
    having = {
        name
        for name, command in nesting.commands.items()
        if any("--json" in param.opts for param in command.params)
    }
    assert names == having
    assert {words[0] for words in PRINTED.values()} == having
    assert re.findall(r"^## (.*)", PAGE, re.MULTILINE) == list(PRINTED)


@pytest.mark.parametrize("title", PRINTED)
def test_every_key_is_told_in_its_section(title, commands, monkeypatch, capsys):
    """Format and version come first, others sorted; each key is told behind the heading."""
    monkeypatch.chdir(ROOT)
    assert run([*commands[title], "--json"]) == (5 if title == "Check" else 0)
    text = capsys.readouterr().out
    document = json.loads(text)
    assert list(document) == ["format", "version", *sorted(set(document) - {"format", "version"})]
    assert text == json.dumps(document, indent=1, ensure_ascii=False) + "\n"
    assert f"| `{document.pop('format')}` |" in PAGE
    assert document.pop("version") == 1
    section = re.search(rf"^## {title}\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL)[1]
    told = set(re.findall(r"`(\w+)`", section))
    assert list_keys(document) - told == set()


def test_the_schedule_on_the_page_is_the_hand_sized_one():
    """Figures shown are those of the schedule worked out on paper."""
    document = json.loads(schedule_to_json(hand_schedule(), hand_job()))
    shown = re.search(r'"area": (\{.*?\})', PAGE)[1]
    assert json.loads(shown) == document["layouts"][0]["area"]
    totals = re.search(r'"totals": (\{.*?\}.*?\})', PAGE, re.DOTALL)[1]
    assert json.loads(totals) == document["totals"]
