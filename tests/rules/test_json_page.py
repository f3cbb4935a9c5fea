"""docs/json.md is true: it has every command with --json, and every key that its sections own."""

import json
import re
from pathlib import Path

import pytest

from nesting.cli import nesting, run

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "json.md").read_text(encoding="utf-8")
FERRY = "examples/ferry-terminal.toml"
SCHEDULE = ["--schedule", "output_svg/ferry-terminal/schedule.json"]
PRINTED = {
    "Range": ["range", FERRY],
    "Liner": ["liner", "examples/drawings/herons.svg", "--thickness", "13"],
    "Calendar": ["calendar", FERRY, *SCHEDULE],
    "Zones --keep": ["zones", "--keep", FERRY, "1750x900"],
}


def list_keys(value):
    """Return every key of a document, at any depth."""
    if isinstance(value, list):
        return {key for each in value for key in list_keys(each)}
    if isinstance(value, dict):
        return set(value).union(*map(list_keys, value.values()))
    return set()


def test_every_command_that_prints_json_is_listed():
    """The table names the commands that have the option, and no other."""
    table = PAGE.split("\n## ")[0]
    names = set(re.findall(r"^\| `(\w+)", table, re.MULTILINE)) - {"format"}
    having = {
        name
        for name, command in nesting.commands.items()
        if any("--json" in param.opts for param in command.params)
    }
    assert names == having


@pytest.mark.parametrize("title", PRINTED)
def test_every_key_is_told_in_its_section(title, monkeypatch, capsys):
    """The format stands in the table, every other key behind the section's heading."""
    monkeypatch.chdir(ROOT)
    assert run([*PRINTED[title], "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert f"| `{document.pop('format')}` |" in PAGE
    assert document.pop("version") == 1
    section = re.search(rf"^## {title}\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL)[1]
    told = set(re.findall(r"`(\w+)`", section))
    assert list_keys(document) - told == set()
