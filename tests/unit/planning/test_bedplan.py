"""The plan for one bed: casts, settled panels, dams and the account of each layout."""

from dataclasses import replace

import pytest
from handjob import MM, change_panel, hand_job, hand_schedule, place
from smalljobs import small_job

from nesting.maps.ground import survey
from nesting.maps.sizes import choose_size
from nesting.planning.bedplan import plan_bed, shows
from nesting.planning.dams import account, place_dams
from nesting.planning.strips import strip_rule
from nesting.search.solver import Deadline, silent
from nesting.values.bend import bend_of


def planned(job, limit=None):
    """Return the plan of all the job's panels on its first bed."""
    ground = survey(job.liner, job.rules)
    sizes = [choose_size(ground, panel, bend_of(job, "table")) for panel in job.panels]
    return plan_bed(ground, "table", sizes, strip_rule(job.rules), Deadline(limit), silent)


def test_the_hand_sized_job_is_planned_as_on_paper():
    """Two layouts, cast once each, with the panels, dams and areas of the drawing."""
    plan = planned(hand_job())
    by_dams = sorted(plan.layouts, key=lambda layout: -len(layout.dams))
    for layout, wanted in zip(by_dams, hand_schedule().layouts, strict=True):
        assert (layout.repeats, layout.bed, layout.same_dams_as) == (1, "table", None)
        assert layout.panels == wanted.panels
        assert layout.dams == wanted.dams
        assert layout.areas == wanted.areas
    assert [layout.number for layout in plan.layouts] == [1, 2]


def test_the_proof_holds_by_adding_up():
    """Demand is price times quantity, the bound its quotient by the heaviest, rounded up."""
    plan, job = planned(hand_job()), hand_job()
    proof = plan.proof
    assert [mark for mark, _ in proof.prices] == ["A1", "B1", "C1"]
    assert proof.demand == sum(price * job.panel(mark).quantity for mark, price in proof.prices)
    assert proof.lower_bound == -(-proof.demand // proof.heaviest) == 2
    assert proof.casts == 2
    assert sum(weight for *_, weight in proof.points) == proof.heaviest
    assert proof.method == "weights on spots of the liner"


def test_what_is_proved_is_said():
    """Of layouts only at the fewest casts; of dam length where a panel lies alone on most rims."""
    plan = planned(hand_job())
    assert plan.layouts_proved
    assert plan.layouts_bound == 2
    assert not plan.shortest
    assert not plan.stopped_early
    alone = replace(hand_job(), panels=hand_job().panels[2:])
    assert planned(alone).shortest


def test_repeats_come_first_and_numbers_follow():
    """A layout cast more often stands before one cast once."""
    plan = planned(change_panel(hand_job(), "C1", quantity=5))
    assert [layout.repeats for layout in plan.layouts] == [5, 1]
    assert [len(layout.panels) for layout in plan.layouts] == [1, 2]


def test_a_surplus_bay_is_masked_under_the_same_dams():
    """Three A1 and one B1: one setting of the dams, in two of its casts the bay of B1 is masked."""
    job = change_panel(hand_job(), "A1", quantity=3)
    plan = planned(job)
    first, second, third = plan.layouts
    assert [(p.mark) for p in first.panels] == ["A1", "B1"]
    assert (first.repeats, first.same_dams_as) == (1, None)
    assert [(p.mark) for p in second.panels] == ["A1"]
    assert (second.repeats, second.same_dams_as) == (2, first.number)
    assert second.dams == first.dams
    assert second.areas.masked == first.areas.masked + 375 * 800 * MM**2
    assert third.same_dams_as is None


@pytest.mark.parametrize("kind", ["bands", "islands", "wishes", "corner", "hole"])
def test_every_layout_has_its_dams_and_its_account(kind):
    """Dams are those of all bays of the setting; panels stand upward, then to the right."""
    job = small_job(kind, 60, sizes=3, most=4)
    plan = planned(job)
    settings = {}
    for layout in plan.layouts:
        base = layout.same_dams_as or layout.number
        settings.setdefault(base, layout)
        assert layout.dams == settings[base].dams
        assert layout.areas == account(job.liner, layout.panels, layout.dams)
        assert list(layout.panels) == sorted(layout.panels, key=lambda p: (p.y, p.x))
    for layout in settings.values():
        assert layout.dams == place_dams(job.liner, strip_rule(job.rules), layout.panels)
    made = {panel.mark: 0 for panel in job.panels}
    for layout in plan.layouts:
        for panel in layout.panels:
            made[panel.mark] += layout.repeats
    assert made == {panel.mark: panel.quantity for panel in job.panels}


def test_neighbours_are_moved_together_to_share_a_dam():
    """Three panels from rim to rim could have four dams of 800 each; three are the least."""
    job = hand_job()
    liner = replace(job.liner, ornaments=(), unmarked="blank")
    narrow = replace(job.panels[1], mark="S", quantity=3, must_hide=(), width=300 * MM)
    plan = planned(replace(job, liner=liner, panels=(narrow,)))
    (layout,) = plan.layouts
    assert len(layout.panels) == 3
    assert [dam.length / MM for dam in layout.dams] == [800, 800, 800]


def test_a_panel_shows_what_lies_inside_it():
    """Whole; ornaments beyond are not listed, one on its rim is."""
    ground = survey(hand_job().liner, hand_job().rules)
    assert shows(ground, place("A1", 0, 0, 800, 650, "rt")) == ("heron",)
    assert shows(ground, place("X", 300, 200, 220, 400, "lrbt")) == ("heron",)
    assert shows(ground, place("B1", 825, 0, 375, 800, "l")) == ()


@pytest.mark.parametrize("limit", [0, 0.001])
def test_no_time_still_gives_a_plan(limit):
    """Its bound is honest and it says that it was stopped."""
    job = small_job("bands", 61)
    hasty, plan = planned(job, limit), planned(job)
    assert hasty.stopped_early
    assert hasty.proof.lower_bound <= plan.proof.casts <= hasty.proof.casts
    assert plan.proof.lower_bound <= hasty.proof.casts
