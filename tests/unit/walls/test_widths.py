"""How panels share a face: equal or rounded widths, what takes the rest, and exact sums."""

from fractions import Fraction
from itertools import pairwise

import pytest
from handjob import MM
from hypothesis import given
from hypothesis import strategies as st

from nesting.errors import InputError
from nesting.walls.widths import EXACT, End, Room, WidthRule, count_fewest, share_out

HALF = End(0, Fraction(1, 2))
ENDS = st.sampled_from([End(), HALF, End(250 * MM, Fraction(1))])
ROOMS = st.builds(
    Room,
    st.integers(3000 * MM, 20_000 * MM),
    st.tuples(ENDS, ENDS),
    st.integers(10 * MM, 30 * MM),
)
RULES = st.sampled_from(
    [
        EXACT,
        WidthRule(MM, "joints", 900 * MM),
        WidthRule(25 * MM, "joints", 900 * MM),
        WidthRule(1270, "closing panel", 0, 1),
        WidthRule(25 * MM, "closing panel", 0, 1),
    ]
)


@given(ROOMS, st.integers(2, 6), RULES)
def test_panels_and_joints_come_to_the_face_exactly(room, count, rule):
    """Legs, joints, widths: their sum is the face; joints of a row differ by a step at most."""
    spans = share_out(room, count, rule)
    start, end = spans[0][0] - room.ends[0].leg, room.length - spans[-1][1] - room.ends[1].leg
    between = [after[0] - before[1] for before, after in pairwise(spans)]
    widths = [high - low for low, high in spans]
    assert len(spans) == count
    assert room.legs + start + sum(between) + sum(widths) + end == room.length
    assert max(between) - min(between) <= 1
    for gap, part in ((start, room.ends[0].joints), (end, room.ends[1].joints)):
        assert abs(gap - part * Fraction(sum(between), count - 1)) <= 2
    assert min(between) >= room.joint - 1


@given(ROOMS, st.integers(2, 6), RULES)
def test_all_but_a_closing_panel_are_on_the_division(room, count, rule):
    """Every width is a whole number of divisions and the same; a closing panel is never wider."""
    *others, last = [high - low for low, high in share_out(room, count, rule)]
    assert len({*others}) == 1
    assert others[0] % rule.division == 0
    assert last <= others[0]
    assert rule.rest == "closing panel" or last == others[0]


@given(ROOMS, st.integers(400 * MM, 3000 * MM), RULES)
def test_the_fewest_panels_are_no_wider_than_the_widest(room, widest, rule):
    """Whatever takes the rest, no panel is wider; one fewer would be, joints as asked for."""
    count = count_fewest(room, widest, rule)
    assert max(high - low for low, high in share_out(room, count, rule)) <= widest
    if count > 1 and rule.rest == "joints":
        assert room.for_panels(count - 1) / (count - 1) > widest


def test_one_panel_takes_its_room_where_a_closing_panel_takes_the_rest():
    """It is the closing panel, and no other is there to be rounded."""
    room = Room(1003 * MM, (End(), End()), 20 * MM)
    assert share_out(room, 1, WidthRule(10 * MM, "closing panel")) == ((0, 1003 * MM),)


def test_one_panel_between_open_ends_has_no_joint_for_the_rest():
    """3 mm have nowhere to go; beside a half joint on either side they have."""
    rule = WidthRule(10 * MM, "joints")
    with pytest.raises(InputError, match=r"one panel between open ends has no joint .* got 3 mm"):
        share_out(Room(1003 * MM, (End(), End()), 20 * MM), 1, rule)
    spans = share_out(Room(1003 * MM, (HALF, HALF), 20 * MM), 1, rule)
    assert spans == ((Fraction(23, 2) * MM, Fraction(1003 - 11.5) * MM),)


def test_joints_grow_to_the_limit_and_no_further():
    """Two panels of 480 in 990 leave 30, one and a half joints; a millimetre more is refused."""
    rule = WidthRule(20 * MM, "joints")
    assert share_out(Room(990 * MM, (End(), End()), 20 * MM), 2, rule)[1][0] == 510 * MM
    with pytest.raises(InputError, match=r"joints must be <= 30 mm, got 31 mm; give a smaller"):
        share_out(Room(991 * MM, (End(), End()), 20 * MM), 2, rule)


def test_a_closing_panel_is_refused_below_half_the_others():
    """Two panels in 770 mm: 500 and 250 are allowed, 500 and 249 are not."""
    rule = WidthRule(500 * MM, "closing panel")
    assert share_out(Room(770 * MM, (End(), End()), 20 * MM), 2, rule)[1] == (520 * MM, 770 * MM)
    with pytest.raises(InputError, match=r"closing panel must be >= 250 mm wide, got 249 mm; give"):
        share_out(Room(769 * MM, (End(), End()), 20 * MM), 2, rule)
