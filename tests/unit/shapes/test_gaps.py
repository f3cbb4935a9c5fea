"""A point outside convex pieces, be it in the narrowest pocket between slopes."""

import random

import pytest

from nesting.shapes.convex import pieces_of_boxes, pieces_of_rings
from nesting.shapes.gaps import find_gap
from nesting.shapes.geometry import Box, convex_hull

MUCH = 10**6


def test_plain_ground_has_a_point_and_covered_ground_none():
    """A box touched at its rim alone leaves that rim."""
    domain = Box(0, 0, 10, 10)
    assert find_gap(pieces_of_boxes([]), domain) is not None
    assert find_gap(pieces_of_boxes([Box(-1, -1, 11, 11)]), domain) is None
    x, y = find_gap(pieces_of_boxes([Box(0, 0, 10, 10)]), domain)
    assert {x, y} & {0, 10}
    assert find_gap(pieces_of_boxes([Box(-1, -1, 11, 10)]), domain) == (0, 10)


def test_a_domain_may_be_a_segment_or_a_point():
    """A panel flush with a rim moves along a line only."""
    slope = pieces_of_rings([((0, -1), (9, -1), (0, 80))])
    assert find_gap(slope, Box(1, 0, 1, 60)) is None
    assert find_gap(slope, Box(1, 0, 1, 71))[1] >= 70
    assert find_gap(slope, Box(1, 71, 1, 71)) == (1, 71)
    assert find_gap(slope, Box(1, 70, 1, 70)) is None


@pytest.mark.parametrize("seed", range(60))
def test_a_point_is_found_where_there_is_one_and_only_there(seed):
    """By trying every point of a small domain."""
    pick = random.Random(f"gaps {seed}")
    rings = []
    while len(rings) < 3 + seed % 9:
        x, y, reach = pick.randint(0, 40), pick.randint(0, 40), pick.randint(6, 34)
        ring = convex_hull(
            [(x + pick.randint(-reach, reach), y + pick.randint(-reach, reach)) for _ in range(5)]
        )
        if len(ring) > 2:
            rings.append(ring)
    pieces = pieces_of_rings(rings)
    domain = Box(8, 8, 8 + pick.randint(0, 20), 8 + pick.randint(0, 20))
    free = {
        (x, y)
        for x in range(domain.x0, domain.x1 + 1)
        for y in range(domain.y0, domain.y1 + 1)
        if not pieces.hold(x, y).any()
    }
    found = find_gap(pieces, domain)
    assert found in free if free else found is None


@pytest.mark.parametrize(("down", "found"), [(0, (MUCH, 0)), (1, None), (7, None), (999, None)])
def test_a_pocket_closes_to_the_step(down, found):
    """Slopes that cross at height 0 under a lid leave that one point, or none once it is lower."""
    left = (-MUCH, -2 * MUCH), (2 * MUCH, -2 * MUCH), (0, 2 * MUCH), (-MUCH, 2 * MUCH)
    right = (0, -3 * MUCH), (4 * MUCH, -3 * MUCH), (4 * MUCH, 3 * MUCH), (2 * MUCH, 3 * MUCH)
    lid = (-MUCH, -down), (4 * MUCH, -down), (4 * MUCH, 4 * MUCH), (-MUCH, 4 * MUCH)
    pieces = pieces_of_rings([left, right, lid])
    assert find_gap(pieces, Box(1, -MUCH, 3 * MUCH, 2 * MUCH)) == found


@pytest.mark.parametrize(("short", "is_open"), [(0, True), (1, False), (50, False)])
def test_a_long_slanted_slit_closes_at_once(short, is_open):
    """Parallel slopes that overlap by a step are no reason to look at a million lines."""
    left = (0, 0), (MUCH, 0), (3 * MUCH, 5 * MUCH), (0, 5 * MUCH)
    right = tuple((x + MUCH - short, y) for x, y in ((0, 0), (9 * MUCH, 0), (9 * MUCH, 5 * MUCH)))
    right = (*right, (3 * MUCH - short, 5 * MUCH))
    pieces = pieces_of_rings([convex_hull(list(ring)) for ring in (left, right)])
    found = find_gap(pieces, Box(1, 1, 9 * MUCH, 5 * MUCH - 1))
    assert (found is not None) == is_open
