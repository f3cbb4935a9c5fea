"""Stairs around a slanted outline and within it, against areas worked out by hand."""

import pytest

from nesting.shapes.geometry import Box, Polygon, is_rectilinear, polygon_of, subtract
from nesting.shapes.stairs import core, cover

TRIANGLE = Polygon(((0, 0), (80, 0), (0, 80)))
CORNER = Polygon(((0, 0), (60, 0), (60, 20), (20, 20), (20, 50), (0, 50)))


def test_an_outline_along_the_axes_is_its_own_cover():
    """An L is, a triangle is not."""
    assert is_rectilinear(CORNER)
    assert cover(CORNER, 4) == CORNER
    assert not is_rectilinear(TRIANGLE)


@pytest.mark.parametrize("steps", [1, 2, 4, 8])
def test_stairs_around_a_triangle(steps):
    """Over by half a step's square for each: 80 x 80 x (1 + 1 / steps) / 2."""
    around = cover(TRIANGLE, steps)
    assert is_rectilinear(around)
    assert around.area * 2 * steps == 80 * 80 * (steps + 1)
    assert subtract([TRIANGLE], [around]) == ()


def test_boxes_within_a_triangle():
    """Two of 40 high: 40 long and of no length; with the corners."""
    inside = core(TRIANGLE, 2)
    assert {Box(0, 0, 0, 0), Box(80, 0, 80, 0), Box(0, 80, 0, 80)} <= set(inside)
    assert [box for box in inside if box.area] == [Box(0, 0, 40, 40)]
    outside = subtract([polygon_of(box) for box in inside if box.area], [TRIANGLE])
    assert outside == ()
