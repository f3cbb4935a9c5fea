"""Labels: spread along a line, and placed on ground that is partly taken."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.drawings.labels import Taken, beside, nearest_on, spread, within
from nesting.drawings.record import Rect

PLACES = st.lists(st.floats(0, 100), max_size=12).map(sorted)


def off(places, wanted):
    """Return the sum of squared shifts."""
    return sum((place - wish) ** 2 for place, wish in zip(places, wanted, strict=True))


@given(PLACES, st.floats(0, 8))
def test_spread_places_keep_their_pitch_bounds_and_order(wanted, pitch):
    """Places are at least the pitch apart, within the bounds, in the order wanted."""
    places = spread(wanted, pitch, 0, 100)
    assert len(places) == len(wanted)
    assert all(after - before >= pitch - 1e-9 for before, after in pairwise(places))
    assert all(-1e-9 <= place <= 100 + 1e-9 for place in places)


@given(PLACES, st.floats(0, 8), st.data())
def test_no_other_places_are_nearer(wanted, pitch, data):
    """Any other places that keep pitch and bounds are no nearer in the sum of squared shifts."""
    slack = 100 - max(len(wanted) - 1, 0) * pitch
    draws = data.draw(st.lists(st.floats(0, slack), min_size=len(wanted), max_size=len(wanted)))
    others = [place + index * pitch for index, place in enumerate(sorted(draws))]
    assert off(spread(wanted, pitch, 0, 100), wanted) <= off(others, wanted) + 1e-6


@pytest.mark.parametrize(
    ("wanted", "places"),
    [
        ((), ()),
        ((7,), (7,)),
        ((0, 20, 40), (0, 20, 40)),
        ((50, 50), (48, 52)),
        ((0, 1), (0, 4)),
        ((99, 100), (96, 100)),
        ((10, 12, 14, 60), (8, 12, 16, 60)),
    ],
)
def test_spread_by_hand(wanted, places):
    """Places worked out on paper, four apart between 0 and 100."""
    assert spread(wanted, 4, 0, 100) == pytest.approx(places)


def test_taken_ground_is_not_free_but_its_edge_is():
    """A label may touch what is taken and not overlap it, near and across cells."""
    taken = Taken()
    taken.take(Rect(5, 5, 45, 9))
    assert not taken.is_free(Rect(44, 8, 50, 12))
    assert taken.is_free(Rect(45, 5, 50, 9))
    assert taken.is_free(Rect(5, 9, 45, 20))


def test_avoided_ground_and_lines_cost_once():
    """Standing on avoided ground costs its price, and a line of many pieces costs once."""
    taken = Taken()
    taken.avoid(Rect(0, 0, 20, 20), 8.0)
    taken.draw([(0, 10), (5, 12), (10, 10), (15, 12), (30, 10)], 3.0)
    assert taken.cost(Rect(2, 8, 18, 14)) == 11.0
    assert taken.cost(Rect(2, 1, 18, 4)) == 8.0
    assert taken.cost(Rect(40, 40, 45, 45)) == 0.0


def test_a_leader_pays_for_what_it_crosses():
    """A leader pays where it crosses, and not where it ends on an edge."""
    taken = Taken()
    taken.avoid(Rect(10, 0, 12, 40), 100.0, 15.0)
    taken.draw([(20, 0), (20, 40)], 3.0, 20.0)
    taken.draw([(22, 0), (22, 40)], 3.0)
    assert taken.leader_cost((0, 5), (10, 5)) == 0.0
    assert taken.leader_cost((0, 5), (15, 5)) == 15.0
    assert taken.leader_cost((0, 5), (30, 9)) == 35.0


def test_a_leader_must_not_run_through_a_label():
    """A leader is clear where it passes a label or ends on its edge, not where it enters it."""
    taken = Taken()
    taken.take(Rect(10, 10, 20, 14))
    assert taken.is_clear((0, 0), (10, 12))
    assert taken.is_clear((0, 15), (40, 15))
    assert not taken.is_clear((0, 0), (40, 24))


def test_places_beside_stand_off_and_face_their_target():
    """Each place beside is clear of the target, and its point lies on the target's edge."""
    target = Rect(10, 10, 12.5, 60)
    for rect, spot in beside(target, 9, 5):
        assert not rect.overlaps(target)
        assert nearest_on(target, spot) == pytest.approx(spot)
        assert spot[0] in (target.x0, target.x1) or spot[1] in (target.y0, target.y1)


def test_places_within_stay_inside_from_the_middle_out():
    """The first place is the middle one; all lie inside; none where the room is too small."""
    room = Rect(0, 0, 40, 20)
    places = list(within(room, 10, 5))
    assert places[0].centre == pytest.approx(room.centre)
    assert all(room.grown(1e-9).holds(place) for place in places)
    assert list(within(room, 41, 5)) == []
