"""A rectangle grown with round corners: exact on its sides, never within the arc at its corners."""

import pytest

from nesting.shapes.geometry import Box, doubled_area, edges
from nesting.shapes.rounded import round_around
from nesting.units import STEPS_PER_MM as MM

BOXES = [Box(0, 0, 0, 0), Box(-3, 7, -3, 7), Box(5 * MM, -MM, 9 * MM, 3), Box(0, 0, 1, 2400 * MM)]


@pytest.mark.parametrize("box", BOXES)
@pytest.mark.parametrize("distance", [1, 7, 159, MM, 12_345, 50 * MM, 123_456_7, 1_000 * MM])
def test_it_holds_the_round_and_hardly_more(box, distance):
    """Each side keeps the distance from every corner of the box, in whole numbers."""
    ring = round_around(box, distance)
    assert doubled_area(ring) > 0
    for (x0, y0), (x1, y1) in edges(ring):
        dx, dy = x1 - x0, y1 - y0
        for x, y in box.ring:
            beyond = dx * (y - y0) - dy * (x - x0)
            assert beyond > 0
            assert beyond**2 >= distance**2 * (dx**2 + dy**2)
    for x, y in ring:
        gap = max(box.x0 - x, 0, x - box.x1), max(box.y0 - y, 0, y - box.y1)
        assert (gap[0] ** 2 + gap[1] ** 2) ** 0.5 <= distance + 0.02 * MM


def test_its_straight_sides_lie_at_the_distance():
    """So what only keeps off square to it loses no step."""
    ring = round_around(Box(10, 20, 30, 40), 50 * MM)
    xs, ys = zip(*ring, strict=True)
    assert (min(xs), max(xs)) == (10 - 50 * MM, 30 + 50 * MM)
    assert (min(ys), max(ys)) == (20 - 50 * MM, 40 + 50 * MM)


def test_at_no_distance_it_is_the_box():
    """Four corners, no more."""
    assert set(round_around(Box(1, 2, 30, 40), 0)) == set(Box(1, 2, 30, 40).ring)
