"""What causes the ledges of the region, worked out on paper for the hand-sized job."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, rect

from nesting.maps.ground import survey
from nesting.maps.sizeledges import EDGE_MARGIN, Ledge, name_ledges
from nesting.maps.sizeregion import map_region
from nesting.shapes.geometry import Box
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament


def ledges_of(liner, rules):
    """Return (axis, at, is_most) of every ledge with its cause, at in mm."""
    region = map_region(survey(liner, rules))
    return {(ledge.axis, ledge.at // MM, ledge.is_most): ledge.cause for ledge in region.ledges}


@pytest.mark.parametrize(
    ("axis", "at", "is_most", "cause"),
    [
        ("width", 790, False, "rim to zone 'east'"),
        ("width", 835, True, "rim to zone 'east'"),
        ("width", 340, False, "zone 'east' to rim"),
        ("width", 385, True, "zone 'east' to rim"),
        ("width", 20, True, "zone 'east' to zone 'east'"),
        ("width", 12, False, EDGE_MARGIN),
        ("height", 665, True, "rim to zone 'north'"),
        ("height", 110, False, "zone 'north' to rim"),
        ("height", 800, True, "rim to rim"),
    ],
)
def test_ledges_of_the_hand_job_are_named_by_rims_and_zones(axis, at, is_most, cause):
    """Each edge of the region has the two things that stop the panel there."""
    job = hand_job()
    assert ledges_of(job.liner, job.rules)[axis, at, is_most] == cause


def test_ornaments_and_dams_along_the_rim_are_named():
    """A reed over the left 213 mm: a panel right of it is 56 wide, one around it 225 to 275."""
    ornaments = (Ornament("reed", rect(0, 0, 213, 60)),)
    liner = Liner("plain", rect(0, 0, 300, 100), 13 * MM, "blank", ornaments)
    found = ledges_of(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    assert found["width", 56, True] == "ornament 'reed' to rim"
    assert found["width", 225, False] == "rim to ornament 'reed'"
    assert found["width", 275, True] == "rim to a dam along the rim"


def test_short_edges_are_left_out():
    """On a liner 1200 wide an edge of 19 mm along x is no ledge, one of 20 is."""
    job = hand_job()
    ground = survey(job.liner, job.rules)
    lines = [Box(0, 800 * MM, length * MM, 800 * MM) for length in (19, 20)]
    assert [ledge.span[1] // MM for ledge in name_ledges(ground, [], lines)] == [20]


def test_where_no_place_shows_a_cause_none_is_told():
    """A size without a place has no stops to name."""
    job = hand_job()
    (ledge,) = name_ledges(survey(job.liner, job.rules), [], [Box(500 * MM, 0, 500 * MM, 99 * MM)])
    assert ledge.cause == ""


def test_a_step_is_scaled_along_its_own_axis():
    """A width is scaled as a width and its run of heights as heights."""
    ledge = Ledge("width", 10, (20, 30), True, "rim to rim")
    scaled = ledge.scaled(lambda width: 2 * width, lambda height: height + 1)
    assert scaled == replace(ledge, at=20, span=(21, 31))
    lying = replace(ledge, axis="height").scaled(lambda width: 2 * width, lambda height: height + 1)
    assert (lying.at, lying.span) == (11, (40, 60))
