"""What must be taken off or filled up, as text and as JSON."""

import json
from dataclasses import replace

import pytest
from handjob import hand_job
from makemotifs import MM

from nesting.repair.mend import LinerChange, Remedy, Repair
from nesting.repair.report import repairs_to_json, report_repairs, tell_change

JOB = hand_job()
PANEL = replace(JOB.panels[0], mark="N1", width=1000 * MM, height=500 * MM)
REMEDY = Remedy(LinerChange("widen", "east", "left"), 75 * MM, 75 * 1200 * MM**2)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (LinerChange("widen", "east", "right"), "widen zone 'east' to the right"),
        (LinerChange("widen", "east", "top"), "widen zone 'east' above"),
        (LinerChange("widen", "east", "bottom"), "widen zone 'east' below"),
        (LinerChange("trim", "heron", "bottom"), "trim ornament 'heron' from the bottom"),
        (LinerChange("remove", "heron"), "take away ornament 'heron'"),
    ],
)
def test_a_change_is_told_in_words(change, told):
    """What is done, to which, from which side."""
    assert tell_change(change) == told


def test_each_size_has_its_remedies_or_its_place():
    """Amount, area, and whether the least is proved."""
    text = report_repairs(
        JOB,
        [
            Repair(PANEL, True),
            Repair(PANEL, False),
            Repair(PANEL, False, (REMEDY,), 75 * MM, True),
            Repair(PANEL, False, (REMEDY,) * 9, 75 * MM, False),
        ],
    )
    assert "Panel 'N1' (1000 x 500 mm): has a place on the liner as it is." in text
    assert "no single change gives it a place" in text
    assert "  widen zone 'east' to the left  75 mm      900.0" in text
    assert "Least trim or widening 75 mm. PROVED: with every zone" in text
    assert "NOT PROVED least: several smaller changes" in text
    assert "  and 1 more" in text
    assert max(map(len, text.splitlines())) <= 100


def test_json_has_amounts_in_mm():
    """One entry for each panel, with its changes."""
    document = json.loads(repairs_to_json(JOB, [Repair(PANEL, False, (REMEDY,), 75 * MM, True)]))
    (entry,) = document["panels"]
    assert (entry["least"], entry["proved"]) == (75, True)
    assert entry["changes"] == [
        {"kind": "widen", "name": "east", "side": "left", "amount": 75, "area": 90000}
    ]


def test_a_time_limit_that_was_reached_is_told():
    """Whether anything was found by then or not."""
    short = Repair(PANEL, False, (REMEDY,), 75 * MM, True, stopped=True)
    text = report_repairs(JOB, [short, Repair(PANEL, False, stopped=True)])
    assert "  The time limit was reached: what was not tried may take less area.\n" in text
    assert "the time limit was reached before anything was found that gives it a place.\n" in text
    entries = json.loads(repairs_to_json(JOB, [short, Repair(PANEL, True)]))["panels"]
    assert [each["complete"] for each in entries] == [False, True]
