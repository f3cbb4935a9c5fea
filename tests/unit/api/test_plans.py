"""Plans and checks from Python: plain attributes in mm, and nothing the checker has not passed."""

import json
from dataclasses import replace
from xml.etree import ElementTree

import pytest

import nesting
from nesting.planning import schedule as planning


@pytest.fixture(scope="module")
def job():
    """Return a small job of two sizes."""
    liner = nesting.Liner(
        "reeds",
        size=(2400, 1200),
        thickness=13,
        ornaments=[nesting.Ornament("heron", rect=(300, 200, 220, 650))],
        zones=[
            nesting.BlankZone("east", rect=(1490, 0, 110, 1200)),
            nesting.BlankZone("north", rect=(0, 890, 2400, 60)),
        ],
    )
    order = [nesting.Panel("A1", (1500, 900), 3), nesting.Panel("A2", (1525, 920), 2)]
    rules = nesting.Rules(dam_width=25, dam_clearance=6, edge_margin=12)
    return nesting.Job("Foyer", liner, rules, order)


@pytest.fixture(scope="module")
def plan(job):
    """Return its plan."""
    return nesting.plan(job)


def test_a_plan_is_proved_and_in_mm(plan):
    """Five casts make the order; every figure is in mm."""
    assert (plan.casts, plan.lower_bound, plan.proved) == (5, 5, True)
    first = plan.layouts[0]
    a1 = next(panel for panel in first.panels if panel.mark == "A1")
    assert (a1.x, a1.y, a1.width, a1.height, a1.shows) == (0, 0, 1500, 900, ("heron",))
    assert {min(dam.width, dam.height) for dam in first.dams} == {25}
    assert all(dam.length == max(dam.width, dam.height) for dam in first.dams)


def test_areas_add_up(plan):
    """Idle area over the casts is what panels leave of the liner."""
    made = 3 * 1500 * 900 + 2 * 1525 * 920
    assert plan.idle_area == 5 * 2400 * 1200 - made
    assert plan.idle_share == pytest.approx(plan.idle_area / (5 * 2400 * 1200))
    assert sum(layout.repeats * layout.idle_area for layout in plan.layouts) == plan.idle_area


def test_a_plan_is_written_as_the_command_writes_it(job, plan, tmp_path):
    """And the files are found sound by check."""
    plan.write(tmp_path / "out")
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert {"schedule.json", "layout-01.svg", "overview.svg"} <= names
    assert (tmp_path / "out" / "schedule.json").read_text() == plan.to_json()
    assert nesting.check(job, tmp_path / "out" / "schedule.json") == ()
    assert nesting.layout_svg(plan, 1) == (tmp_path / "out" / "layout-01.svg").read_text()


def test_check_finds_what_is_wrong(job, plan):
    """A panel moved onto the next one is told with its code."""
    layout = plan.schedule.layouts[0]
    moved = replace(layout.panels[0], x=layout.panels[0].x + 8 * 8000)
    broken = replace(layout, panels=(moved, *layout.panels[1:]))
    schedule = replace(plan.schedule, layouts=(broken, *plan.schedule.layouts[1:]))
    findings = nesting.check(job, nesting.Plan(job, schedule))
    assert 205 in {finding.code for finding in findings}
    assert all(finding.where and finding.text for finding in findings)


def test_a_schedule_the_checker_refuses_is_not_given_out(job, plan, monkeypatch):
    """The error holds the findings."""
    empty = replace(plan.schedule, layouts=())
    monkeypatch.setattr("nesting.api.plans.schedule_casts", lambda *_, **__: empty)
    with pytest.raises(nesting.RefusedError) as caught:
        nesting.plan(job)
    assert caught.value.findings


def test_limits_and_progress_reach_the_search(job, monkeypatch):
    """They are handed on as they are."""
    seen = {}

    def spy(exact, *, time_limit, progress):
        seen.update(time_limit=time_limit, progress=progress)
        return planning.schedule_casts(exact)

    monkeypatch.setattr("nesting.api.plans.schedule_casts", spy)
    nesting.plan(job, time_limit=7, progress=print)
    assert seen == {"time_limit": 7, "progress": print}


def test_a_panel_without_a_place_has_its_reason(job):
    """NoScheduleError says which panel and why."""
    liner = nesting.Liner("small", size=(600, 400), thickness=13, unmarked="blank")
    rules = nesting.Rules(25, 6, 12)
    large = nesting.Job("Foyer", liner, rules, [nesting.Panel("B9", (1500, 300), 1)])
    with pytest.raises(nesting.NoScheduleError, match="B9") as caught:
        nesting.plan(large)
    assert len(caught.value.reasons) == 1


def test_plan_and_layout_show_themselves(plan):
    """As well-formed drawings."""
    for drawn in (plan._repr_svg_(), plan.layouts[0]._repr_svg_()):
        assert ElementTree.fromstring(drawn).tag.endswith("svg")


def test_a_layout_that_is_not_there_is_told(plan):
    """With the numbers there are."""
    with pytest.raises(nesting.InputError, match="got 99; give one of 1 to"):
        nesting.layout_svg(plan, 99)


def test_the_report_and_the_file_are_those_of_the_command(plan):
    """Text as printed, JSON with its format."""
    assert plan.report().startswith("Foyer: 5 casts")
    assert json.loads(plan.to_json())["format"] == "nesting-schedule"
    assert plan.notes == ()
