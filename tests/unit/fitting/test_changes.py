"""The smallest change to the hand-sized liner that gives a size a place."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_liner, rect

from nesting.fitting.changes import SIDES, Change, change_ground, find_change
from nesting.maps.ground import survey
from nesting.maps.positions import Wish, has_place
from nesting.values.liner import Ornament

JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)


@pytest.mark.parametrize(
    ("size", "name", "side", "amount"),
    [
        ((850, 650), "east", "right", 15),
        ((750, 650), "east", "left", 40),
        ((800, 670), "north", "top", 5),
        ((600, 650), "east", "left", 190),
    ],
)
def test_the_zone_side_that_is_nearest_is_widened_by_what_is_lacking(size, name, side, amount):
    """One step less is not enough, on any side of any zone."""
    width, height = (side * MM for side in size)
    found = find_change(GROUND, (width, height))
    assert (found.name, found.side, found.amount) == (name, side, amount * MM)
    assert has_place(change_ground(GROUND, [found]), width, height)
    for index, zone in enumerate(JOB.liner.zones):
        for other in SIDES:
            less = Change("zone", index, zone.name, other, found.amount - 1)
            assert not has_place(change_ground(GROUND, [less]), width, height)


@pytest.mark.parametrize(("width", "lacking"), [(300, 16), (323, 39)])
def test_where_only_an_ornament_is_in_the_way_it_is_cut_back(width, lacking):
    """A panel that must leave out a post 315 mm along lacks up to all but 1 mm of its 40 mm."""
    outline = rect(0, 0, 360, 400)
    post = Ornament("post", rect(315, 150, 40, 100))
    liner = replace(hand_liner(), outline=outline, unmarked="blank", zones=(), ornaments=(post,))
    ground = survey(liner, JOB.rules)
    # A dam of 25 mm and a clearance of 6 mm must end at 315: the panel ends at 284 at most.
    found = find_change(ground, (width * MM, 400 * MM), Wish(hide=frozenset({0})))
    assert (found.kind, found.name, found.side, found.amount) == (
        "ornament",
        "post",
        "left",
        lacking * MM,
    )


def test_no_change_is_offered_where_none_helps():
    """A panel longer than the liner stays too long."""
    assert find_change(GROUND, (1300 * MM, 650 * MM)) is None


def test_a_slanted_zone_is_widened_along_its_slope():
    """The ground a triangle sweeps is blank afterwards, its own slope moved along."""
    triangle = replace(rect(0, 0, 1, 1), shell=((0, 0), (100 * MM, 0), (0, 100 * MM)))
    zones = (replace(JOB.liner.zones[0], outline=triangle),)
    ground = survey(replace(JOB.liner, zones=zones, ornaments=()), JOB.rules)
    wider = change_ground(ground, [Change("zone", 0, "east", "right", 50 * MM)])
    assert wider.no_dam.hold(120 * MM, 20 * MM).any() == ground.no_dam.hold(10 * MM, 20 * MM).any()
    assert ground.no_dam.hold(120 * MM, 20 * MM).any()
