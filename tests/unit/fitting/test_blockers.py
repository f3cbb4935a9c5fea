"""What stands in a panel's way on the hand-sized liner."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, rect, sides

from nesting.fitting.blockers import find_zone, list_blockers
from nesting.maps.ground import survey
from nesting.values.liner import KeepClear

GROUND = survey(hand_job().liner, hand_job().rules)


def box(x, y, width, height):
    """Return a box given in mm."""
    return rect(x, y, width, height).bounds


@pytest.mark.parametrize(
    ("panel", "dams", "expected"),
    [
        ((0, 0, 800, 650), "rt", []),
        ((0, 0, 400, 650), "rt", ["cut ornament 'heron'", "its right dam would lie on ground"]),
        ((0, 0, 290, 650), "rt", ["crowd ornament 'heron'", "its right dam would lie on ground"]),
        ((0, 0, 800, 700), "rt", ["its top dam would lie on ground that is not blank"]),
    ],
)
def test_each_thing_in_the_way_is_named(panel, dams, expected):
    """Ornaments cut or crowded first, then dams without blank ground."""
    found = list_blockers(GROUND, box(*panel), sides(dams))
    assert len(found) == len(expected)
    assert all(words in text for words, text in zip(expected, found, strict=True))


def test_a_dam_lies_along_the_zone_that_holds_most_of_its_length():
    """The right dam runs along the east zone and only crosses the north one."""
    panel = box(0, 0, 800, 650)
    assert find_zone(GROUND, panel, sides("rt"), 1) == "east"
    assert find_zone(GROUND, panel, sides("rt"), 3) == "north"
    assert find_zone(GROUND, panel, sides("rt"), 0) == ""
    assert find_zone(GROUND, box(0, 0, 600, 650), sides("rt"), 1) == ""


def test_where_all_ground_is_blank_a_dam_can_only_leave_the_liner():
    """The panel's top is 10 mm below the rim, too little for a dam."""
    ground = survey(replace(hand_job().liner, unmarked="blank", zones=()), hand_job().rules)
    found = list_blockers(ground, box(0, 700, 100, 90), sides("rtb"))
    assert found == ["its top dam would reach beyond the liner"]


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        (box(400, 700, 1, 1), ["a dam would come too near to 'loop'"]),
        (box(840, 690, 1, 1), ["a dam would come too near to 'loop'"]),
        (box(400, 300, 90, 9), []),
        (box(850, 699, 1, 1), []),
    ],
)
def test_a_place_that_dams_keep_off_is_named(place, expected):
    """30 from the dam over A1, 675 high, or from its corner at 825; inside the panel it is free."""
    liner = replace(
        hand_job().liner, unmarked="blank", keep_clear=(KeepClear("loop", place, 30 * MM),)
    )
    ground = survey(liner, hand_job().rules)
    assert list_blockers(ground, box(0, 0, 800, 650), sides("rt")) == expected
