"""What a panel of open size must keep off, worked out on paper."""

import numpy as np
import pytest
from handjob import MM, hand_job

from nesting.maps.bans import OPEN_SIZE
from nesting.maps.ends import (
    ACROSS,
    FAR,
    NEAR,
    extents_between,
    list_all_ends,
    list_ends,
    open_bans,
    tie,
)
from nesting.maps.ground import survey
from nesting.maps.positions import NO_WISH, Wish


def hand_ground():
    """Return the ground of the hand-sized job."""
    job = hand_job()
    return survey(job.liner, job.rules)


def extents(obstacles, near=(0, 100), far=(0, 100), least=1):
    """Return the runs of extents among obstacles given as (kind, first, last)."""
    array = np.array(obstacles, dtype=np.int64).reshape(-1, 3).T
    from_, to = extents_between(*array, near, far, least)
    return sorted(zip(from_.tolist(), to.tolist(), strict=True))


def test_each_axis_has_four_ways_to_be_stopped():
    """One rim at each end: dam to dam, rim to dam, dam to rim, rim to rim."""
    found = list(list_ends(((0, 0, 8),), ((100, 0, 8),), 0, 100, 5))
    assert [(each.near_side, each.far_side, each.near, each.far) for each in found] == [
        ("dam", "dam", (5, 100), (0, 95)),
        ("edge", "dam", (0, 0), (0, 95)),
        ("dam", "edge", (5, 100), (100, 100)),
        ("edge", "edge", (0, 0), (100, 100)),
    ]
    assert [each.across for each in found[1:]] == [(0, 8)] * 3


def test_rims_in_the_wrong_order_are_no_pair():
    """A left rim beyond a right one stops no panel with it."""
    found = list(list_ends(((60, 0, 8),), ((40, 0, 8),), 0, 100, 5))
    assert [(each.near_side, each.far_side) for each in found] == [
        ("dam", "dam"),
        ("edge", "dam"),
        ("dam", "edge"),
    ]


def test_a_shown_ornament_lies_between_the_sides():
    """The heron, x 300 to 520: the left side is at most 300 and the right one at least 520."""
    ends = list(list_all_ends(hand_ground(), Wish(show=frozenset({0}))))
    assert max(x.near[1] for x, _ in ends) == 300 * MM
    assert min(x.far[0] for x, _ in ends) == 520 * MM
    assert max(y.near[1] for _, y in ends) == 200 * MM
    assert len(list(list_all_ends(hand_ground(), NO_WISH))) == 16


@pytest.mark.parametrize(
    ("low", "high", "kind"),
    [(-25, 0, NEAR), (OPEN_SIZE, OPEN_SIZE + 25, FAR), (-25, OPEN_SIZE + 25, ACROSS)],
)
def test_a_strip_is_tied_where_its_ends_are(low, high, kind):
    """A strip is tied to the near side, the far side, or one end to each."""
    assert tie(low, high)[0] == kind


def test_bans_name_the_hidden_ornament_with_the_whole_panel():
    """A hidden ornament is barred from the panel itself, of open width and height."""
    ground = hand_ground()
    x, y = next(list_all_ends(ground, NO_WISH))
    bans = open_bans(ground, x, y, Wish(hide=frozenset({0})))
    hidden, body = bans[-1]
    assert body == (0, 0, OPEN_SIZE, OPEN_SIZE)
    assert (hidden.boxes / MM).tolist() == [[300, 200, 520, 600]]


def test_without_obstacles_every_extent_is_there():
    """Two sides free from 0 to 100 give 1 to 100."""
    assert extents([]) == [(1, 100)]


def test_near_and_far_sides_keep_out_of_what_is_forbidden():
    """Near side not from 11 to 100, far side not from 0 to 89: extents 80 to 100."""
    assert extents([(NEAR, 11, 100), (FAR, 0, 89)]) == [(80, 100)]


def test_an_obstacle_across_lies_before_or_beyond():
    """Begin at 61 or later, or end before 40."""
    assert extents([(ACROSS, 40, 60)]) == [(1, 39), (1, 39)]


def test_no_near_side_no_extent():
    """Where one side can lie nowhere nothing is left."""
    assert extents([(NEAR, -5, 200)]) == []


def test_touching_sides_give_one_extent():
    """A near side at 10 only and a far side at 35 only are 25 apart."""
    assert extents([], near=(10, 10), far=(35, 35)) == [(25, 25)]
    assert extents([], near=(10, 10), far=(35, 35), least=26) == []
