"""The page on Python: every example of it is run."""

import re
from pathlib import Path

import pytest

import nesting

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "python.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


def test_the_examples_run_in_turn(tmp_path, monkeypatch, capsys):
    """In one namespace, in an empty folder; the plan is proved and fifty orders are planned."""
    monkeypatch.chdir(tmp_path)
    names = {}
    for block in BLOCKS:
        exec(compile(block, "docs/python.md", "exec"), names)
    assert names["plan"].proved
    assert names["plan"].casts == 3
    assert names["svg"].startswith("<?xml")
    assert (tmp_path / "out" / "schedule.json").is_file()
    idle = names["idle"]
    assert ((idle > 0) & (idle < 1)).all()
    assert len(set(idle)) > 10
    printed = capsys.readouterr().out
    assert "panel[1].size" in printed
    assert "must be > 0 mm" in printed


@pytest.mark.parametrize("name", nesting.__all__)
def test_every_name_of_the_front_door_leads_somewhere(name):
    """It can be had, has a docstring, and is on the page or an error said there to be one."""
    assert getattr(nesting, name).__doc__
    assert name in dir(nesting)
