"""Limits on how far segments may move apart."""

from nesting.zones.choices import TotalLimits
from nesting.zones.spans import limit, moved_apart, spread, tighten


def test_limits_on_a_run_limit_its_parts():
    """Three strips of up to 5: 13 in all leaves each at least 3, and two at least 8."""
    far = spread([0, 0, 0], [5, 5, 5])
    limit(far, [((0, 3), TotalLimits(13, 15))])
    assert tighten(far)
    assert [-int(far[n + 1, n]) for n in range(3)] == [3, 3, 3]
    assert -int(far[2, 0]) == 8


def test_limits_that_clash_are_kept_by_nothing():
    """Two strips of at most 5 make no 11."""
    far = spread([0, 0], [5, 5])
    limit(far, [((0, 2), TotalLimits(11, 20))])
    assert not tighten(far)


def test_limits_are_rounded_to_the_unit_without_loss():
    """From 21 to 39 in tens is from 3 to 3."""
    far = spread([0], [9])
    limit(far, [((0, 1), TotalLimits(21, 39))], 10)
    assert (int(far[0, 1]), -int(far[1, 0])) == (3, 3)


def test_segments_lie_as_far_apart_as_their_shifts_differ():
    """Each against each."""
    assert moved_apart((0, 2, 7)).tolist() == [[0, 2, 7], [-2, 0, 5], [-7, -5, 0]]
