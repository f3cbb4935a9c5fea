"""The verdict as a whole; each code has its mutation in tests/laws/test_check_mutations.py."""

from dataclasses import replace

import pytest
from handjob import (
    MM,
    change_layout,
    change_panel,
    dam,
    hand_job,
    hand_schedule,
    place,
    rect,
    sides,
)
from mutations import ABOVE_A1, UPRIGHT

from nesting.checking.schedule import check_schedule
from nesting.shapes.geometry import Polygon
from nesting.values.bed import Bed
from nesting.values.casts import Schedule
from nesting.values.job import DamStock, Job
from nesting.values.liner import Ornament

DRUM = Bed("table", "convex", radius=1000 * MM)
"""Under 50 mm of liner the face radius is 1050 mm, the neutral one 1025 mm."""


def codes(job: Job, schedule: Schedule) -> list[int]:
    """Return the codes found, in order."""
    return [finding.code for finding in check_schedule(job, schedule)]


def test_findings_come_by_layout_then_by_code(job, schedule):
    """Faults of the schedule as a whole come last."""
    schedule = change_layout(job, schedule, 1, dams=(ABOVE_A1,))
    schedule = change_layout(job, schedule, 2, panels=(), dams=())
    assert codes(job, schedule) == [203, 203, 203, 401]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"title": "Library"}, "it must belong to job 'Library', belongs to 'Bath house, foyer'"),
        (
            {"panels": (replace(hand_job().panels[0], mark="Z1"),)},
            "its panels must be of job 'Bath house, foyer', none is in the order, as 'A1'",
        ),
        (
            {"liner": replace(hand_job().liner, outline=rect(0, 0, 1201, 800))},
            "it must be made for the job's liner of 960800 mm2 as it lies now, is for 960000 mm2",
        ),
    ],
    ids=["title", "marks", "liner"],
)
def test_a_schedule_of_another_job_is_told_alone(change, told):
    """Title, marks and liner tell; its hundred other faults would only hide that."""
    findings = check_schedule(replace(hand_job(), **change), hand_schedule())
    assert [str(each) for each in findings] == [f"408 schedule: {told}."]


def test_an_empty_schedule_only_lacks_its_panels(job, schedule):
    """Nothing cast: each mark is missing, nothing else can be said."""
    bare = Schedule(job=job.title, lower_bound=0, layouts=())
    assert codes(job, bare) == [401, 401, 401]


def test_a_finding_says_rule_and_value(job, schedule):
    """The sentence names the dam's side, the limit, the ornament and the distance found."""
    leaf = Ornament("leaf", rect(100, 680, 30, 30))
    job = replace(job, liner=replace(job.liner, ornaments=(*job.liner.ornaments, leaf)))
    lines = [str(finding) for finding in check_schedule(job, schedule)]
    assert lines[0] == (
        "102 layout 1, panel 'A1' at (0, 0) mm: its top dam must be >= 6 mm from 'leaf', got 5 mm."
    )


def test_sizes_on_a_curved_bed_are_judged_flat():
    """A1 measures 800 mm flat: 800 * 1050 / 1025 mm of face, and no other length will do."""
    job = replace(hand_job(), beds=(DRUM,))
    job = replace(job, liner=replace(job.liner, thickness=50 * MM))
    face = {"A1": 800, "B1": 375, "C1": 1200}
    for mark, flat in face.items():
        job = change_panel(job, mark, width=round(flat * MM * 1050 / 1025))
    assert codes(job, hand_schedule()) == []
    assert codes(change_panel(job, "A1", width=820 * MM), hand_schedule()) == [303]


def test_a_size_within_its_tolerance_passes_when_it_is_stated():
    """B1 one mm narrow is sound with off_nominal -1 mm, and wrong with any other."""
    job = change_panel(hand_job(), "B1", tolerance=(-2 * MM, 0))
    job = replace(job, dams=DamStock((25 * MM, 26 * MM)))
    narrow = replace(place("B1", 826, 0, 374, 800, "l"), off_nominal=(-MM, 0))
    dams = (dam("dam 1", 800, 0, 26, 800, "east north", 280), ABOVE_A1)
    panels = hand_schedule().layouts[0].panels[:1]
    good = change_layout(job, hand_schedule(), 1, panels=(*panels, narrow), dams=dams)
    assert codes(job, good) == []
    silent = replace(narrow, off_nominal=(0, 0))
    assert codes(job, change_layout(job, good, 1, panels=(*panels, silent))) == [303]
    wide = replace(narrow, x=narrow.x - 1, width=narrow.width + 1)
    assert 303 in codes(job, change_layout(job, good, 1, panels=(*panels, wide)))
    beyond = replace(narrow, off_nominal=(-3 * MM, 0))
    assert codes(job, change_layout(job, good, 1, panels=(*panels, beyond))) == [303]


def test_a_panel_without_area_is_a_wrong_size(job, schedule):
    """Nothing else is asked of it, and nothing breaks."""
    flat = replace(schedule.layouts[0].panels[1], width=-5)
    panels = (schedule.layouts[0].panels[0], flat)
    assert codes(job, change_layout(job, schedule, 1, panels=panels)) == [303]


def test_a_shared_dam_keeps_clear_for_both_its_panels(job, schedule):
    """An ornament in B1 12 mm from its side clears the margin, but A1's dam needs 15 mm."""
    leaf = Ornament("leaf", rect(837, 100, 30, 30))
    job = replace(job, liner=replace(job.liner, ornaments=(*job.liner.ornaments, leaf)))
    a1, b1 = schedule.layouts[0].panels
    dams = (replace(UPRIGHT, clearance=12 * MM), ABOVE_A1)
    schedule = change_layout(job, schedule, 1, panels=(a1, replace(b1, shows=("leaf",))), dams=dams)
    schedule = change_layout(
        job, schedule, 2, panels=(place("C1", 0, 0, 1200, 650, "t", "heron", "leaf"),)
    )
    assert codes(job, schedule) == []
    strict = replace(job, rules=replace(job.rules, dam_clearance=15 * MM))
    (finding,) = check_schedule(strict, schedule)
    assert (finding.code, "'A1'" in finding.where) == (102, True)


def test_a_mark_is_known_by_its_letters(job, schedule):
    """What a schedule read from a file places is held against the order of the same mark."""
    job = change_panel(job, "B1", must_show=("heron",), must_hide=())
    a1, b1 = schedule.layouts[0].panels
    read = change_layout(job, schedule, 1, panels=(a1, replace(b1, mark=str(b"B1", "ascii"))))
    assert codes(job, read) == [104]


def test_an_ornament_cut_is_told_as_cut_and_not_as_near_a_dam(job, schedule):
    """Even where the dam along the cut is none of the panel's, whose top is said to be rim."""
    leaf = Ornament("leaf", rect(100, 640, 30, 20))
    job = replace(job, liner=replace(job.liner, ornaments=(*job.liner.ornaments, leaf)))
    a1, b1 = schedule.layouts[0].panels
    wrong = change_layout(job, schedule, 1, panels=(replace(a1, sides=sides("r")), b1))
    told = [f.code for f in check_schedule(job, wrong) if "layout 1" in f.where]
    assert 101 in told
    assert 102 not in told


def test_a_slanted_ornament_may_touch_the_limit_with_its_tip(job, schedule):
    """A leaf's tip exactly 6 mm above the dam; one step lower is too near."""
    for drop, expected in ((0, []), (1, [102, 102])):
        tip = 681 * MM - drop
        leaf = Polygon(((100 * MM, tip), (120 * MM, 700 * MM), (90 * MM, 700 * MM)))
        liner = replace(job.liner, ornaments=(*job.liner.ornaments, Ornament("leaf", leaf)))
        near = tuple(
            replace(strip, clearance=6 * MM - drop) if strip.y == 650 * MM else strip
            for strip in (*schedule.layouts[0].dams, *schedule.layouts[1].dams)
        )
        changed = change_layout(job, schedule, 1, dams=near[:2])
        changed = change_layout(job, changed, 2, dams=near[2:])
        assert codes(replace(job, liner=liner), changed) == expected


def test_a_bound_is_the_quotient_whatever_method_is_named(job, schedule):
    """Half the demand proves half the casts; a named method adds nothing one can check."""
    weak = replace(schedule.proofs[0], prices=(("A1", 1),), demand=1, method="all layouts listed")
    assert codes(job, replace(schedule, proofs=(weak,))) == [405]
    honest = replace(weak, lower_bound=1)
    assert codes(job, replace(schedule, proofs=(honest,), lower_bound=1)) == []


def test_only_layouts_listed_in_full_raise_a_bound_above_the_quotient(job, schedule):
    """With them 2 of a quotient of 1 is taken; without them, or below the quotient, it is not."""
    weak = replace(schedule.proofs[0], prices=(("A1", 1),), demand=1)
    assert codes(job, replace(schedule, proofs=(replace(weak, enumerated=5),))) == []
    assert codes(job, replace(schedule, proofs=(weak,))) == [405]
    low = replace(schedule.proofs[0], enumerated=5, lower_bound=1)
    assert codes(job, replace(schedule, proofs=(low,), lower_bound=1)) == [405]


def test_points_below_nothing_are_told_as_such(job, schedule):
    """However the sum comes out, no mark may take points away."""
    wrong = replace(schedule.proofs[0], prices=(("A1", 3), ("B1", 0), ("C1", -1)))
    (finding,) = check_schedule(job, replace(schedule, proofs=(wrong,)))
    assert "points must be >= 0" in str(finding)


def test_a_bound_above_the_casts_is_told_as_such(job, schedule):
    """The first thing said of it is the plain contradiction."""
    found = check_schedule(job, replace(schedule, lower_bound=3))
    assert found[0].text == "the lower bound must be <= 2 casts, got 3"


def test_two_proofs_for_a_bed_are_told_as_such(job, schedule):
    """One proof too many is said once, not as a wrong sum."""
    (finding,) = check_schedule(job, replace(schedule, proofs=schedule.proofs * 2))
    assert finding.text.startswith("there must be at most one proof for each bed of the order")


def test_the_given_values_are_left_alone(job, schedule):
    """Judging changes neither job nor schedule."""
    check_schedule(job, schedule)
    assert (job, schedule) == (hand_job(), hand_schedule())
