"""The command ``nesting check``: findings as text and as JSON, and the code it ends with."""

import json
from dataclasses import replace

import pytest
from ferry import make_ferry_job
from standins import stand_in

from nesting.checking.findings import Finding
from nesting.cli import run
from nesting.errors import InputError
from nesting.schedules.stamps import code_plan
from nesting.values.casts import totals


@pytest.fixture
def shop(monkeypatch):
    """Put the stand-ins in place of the pieces."""
    return stand_in(monkeypatch)


def test_check_passes_a_schedule_without_fault(shop, capsys):
    """No finding is exit 0 and a line that says so, then the sheet code."""
    assert run(["check", "job.toml", "schedule.json"]) == 0
    told, trouble = capsys.readouterr()
    first, second = told.splitlines()
    assert first == "schedule.json: no fault found; every rule is kept."
    assert (
        second == f"Its drawings have the sheet code {code_plan(make_ferry_job(), shop.schedule)}."
    )
    assert trouble == ""


def test_check_prints_each_finding_with_its_code(shop, capsys):
    """Findings are exit 5 and one line each, after the sheet code."""
    shop.findings = (
        Finding(206, "layout 1, dam 3", "it stands along no panel"),
        Finding(401, "mark 'A1'", "the casts yield 6 of 7 panels"),
    )
    assert run(["check", "job.toml", "schedule.json"]) == 5
    assert capsys.readouterr().out.splitlines() == [
        "schedule.json: 2 faults found.",
        f"Its drawings have the sheet code {code_plan(make_ferry_job(), shop.schedule)}.",
        "206 layout 1, dam 3: it stands along no panel.",
        "401 mark 'A1': the casts yield 6 of 7 panels.",
    ]


def test_check_judges_the_totals_a_file_states(shop, capsys):
    """A schedule whose file states another idle area than its casts have is at fault."""
    shop.stated = replace(totals(shop.schedule), idle_area=1)
    assert run(["check", "job.toml", "schedule.json"]) == 5
    assert "\n502 schedule: idle_area must total" in capsys.readouterr().out


@pytest.mark.parametrize("count", [0, 1])
def test_check_gives_findings_as_json(shop, capsys, count):
    """The document says whether the schedule passed, and lists code and text of each finding."""
    shop.findings = (Finding(206, "dam 3", "it stands along no panel"),) * count
    assert run(["check", "job.toml", "schedule.json", "--json"]) == 5 * count
    assert json.loads(capsys.readouterr().out) == {
        "format": "nesting-findings",
        "version": 1,
        "job": "Ferry terminal, waiting hall",
        "passed": count == 0,
        "sheet_code": code_plan(make_ferry_job(), shop.schedule),
        "findings": [{"code": 206, "text": "206 dam 3: it stands along no panel."}] * count,
    }


def test_check_reports_a_schedule_it_cannot_read(shop, capsys):
    """A schedule that cannot be read is exit 2, not a fault of the schedule."""
    shop.trouble["read"] = InputError("schedule.json", "must be JSON")
    assert run(["check", "job.toml", "schedule.json"]) == 2
    assert capsys.readouterr().err == "nesting: schedule.json: must be JSON.\n"
