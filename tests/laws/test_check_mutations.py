"""A checker never seen to fail is no checker: one thing broken, that code and no other."""

from dataclasses import replace

import pytest
from handjob import MM, dam, masked_bay
from mutations import (
    A1,
    ABOVE_A1,
    MUTATIONS,
    UPRIGHT,
    with_dam_over_c1,
    with_leaf,
    with_loop,
    with_one,
)

from nesting.checking.findings import CODES
from nesting.checking.schedule import check_schedule, check_totals
from nesting.values.casts import totals
from nesting.values.job import DamStock


@pytest.mark.parametrize(
    ("codes", "break_it"),
    [pytest.param(codes, broken, id=name) for codes, name, broken in MUTATIONS],
)
def test_one_fault_gives_its_code_and_no_other(codes, break_it):
    """A schedule broken in one way is found wrong in that way only."""
    job, schedule = break_it()
    assert {finding.code for finding in check_schedule(job, schedule)} == codes


def test_every_code_is_reached():
    """Each code has a mutation; 502 and the stated casts of 403 have tests of their own below."""
    assert set().union(*(codes for codes, _, _ in MUTATIONS)) | {502} == CODES.keys()


TOTALS = [
    ({403}, {"casts": 3}),
    ({502}, {"panels": (("A1", 1), ("B1", 1), ("C1", 2))}),
    ({502}, {"liner_area": 1}),
    ({502}, {"panel_area": 1}),
    ({502}, {"idle_area": 1}),
]


@pytest.mark.parametrize(("codes", "changes"), TOTALS)
def test_a_wrong_total_is_found(schedule, codes, changes):
    """Totals stated in a file are held against the layouts; right ones give nothing."""
    stated = totals(schedule)
    assert check_totals(schedule, stated) == ()
    wrong = replace(stated, **changes)
    assert {finding.code for finding in check_totals(schedule, wrong)} == codes


def test_the_hand_made_schedules_are_sound(job, schedule):
    """Nothing is wrong with the good schedule, nor with one that masks a bay."""
    assert check_schedule(job, schedule) == ()
    assert check_schedule(*masked_bay()) == ()


def test_touching_a_limit_is_allowed():
    """A leaf exactly dam_clearance above the dam, or edge_margin below it, is no fault."""
    assert check_schedule(*with_leaf(681, 30, 6, shown=False)) == ()
    assert check_schedule(*with_leaf(600, 38, 12, shown=True)) == ()


@pytest.mark.parametrize(("x", "y", "distance"), [(400, 685, 10), (828, 804, 5), (400, 300, 300)])
def test_a_dam_at_its_distance_from_a_keep_clear_place_is_allowed(x, y, distance):
    """Square to its side, from its corner as the crow flies; and a panel may lie over the place."""
    assert check_schedule(*with_loop(x, y, distance)) == ()


def test_a_dam_wider_than_dam_width_is_allowed():
    """It may fill its zone where the shop has such strips, to 0.05 mm, or others may be."""
    thick = dam("dam 1", 0, 650, 1200, 40, "east north", 50)
    job, schedule = with_dam_over_c1(thick)
    for width, codes in ((40 * MM, []), (40 * MM - 400, []), (40 * MM - 401, [211])):
        listed = replace(job, dams=DamStock((25 * MM, width)))
        assert [finding.code for finding in check_schedule(listed, schedule)] == codes
    free = replace(job, rules=replace(job.rules, other_widths=True))
    assert check_schedule(free, schedule) == ()


def test_an_open_corner_between_two_dams_is_found():
    """Two dams that leave the corner square open are as good as none."""
    upright = replace(UPRIGHT, height=650 * MM)
    job, schedule = with_one(A1, dams=(upright, ABOVE_A1))
    found = [finding for finding in check_schedule(job, schedule) if finding.code == 203]
    assert len(found) == 2
    assert "right side" in found[0].text
    assert "top side" in found[1].text
