"""Codes, and how a finding names its place."""

import re
from pathlib import Path

import pytest
from handjob import MM, place

from nesting.checking.findings import CODES, Finding, at_panel, mm, size

DOCS = Path(__file__).parents[3] / "docs" / "check-codes.md"


def test_the_docs_list_every_code_in_the_same_words():
    """The table in docs/check-codes.md is the table in the code."""
    rows = re.findall(r"^\| (\d{3}) \| (.+) \|$", DOCS.read_text(encoding="utf-8"), re.MULTILINE)
    assert {int(code): text for code, text in rows} == dict(CODES)
    assert [int(code) for code, _ in rows] == sorted(CODES)


def test_a_finding_of_no_known_code_cannot_be_made():
    """A code outside the table is a slip in the checker itself."""
    with pytest.raises(ValueError, match=r"must be one of .*, got 999"):
        Finding(999, "layout 1", "it is wrong")


def test_a_panel_is_named_by_mark_and_place(schedule):
    """A mark may stand twice in a layout; its place tells which is meant."""
    panel = place("A1", 825, 0.5, 10, 10, "l")
    where = at_panel(schedule.layouts[0], panel)
    assert where == "layout 1, panel 'A1' at (825, 0.5) mm"


def test_lengths_are_written_to_the_step():
    """One step shows, and nothing is padded."""
    assert (mm(1), mm(0), mm(1200 * MM)) == ("0.000125 mm", "0 mm", "1200 mm")
    assert size(1200 * MM, 8001) == "1200 x 1.000125 mm"
