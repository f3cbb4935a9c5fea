"""What lies beyond an outline: `nesting.shapes.geometry.sticks_out`."""

import pytest
from handjob import MM, rect

from nesting.shapes.geometry import Box, Polygon
from nesting.shapes.mending import sticks_out

SQUARE = rect(0, 0, 100, 100)
FRAME = Polygon(SQUARE.shell, (rect(40, 40, 20, 20).shell,))
RAKED = Polygon(((0, 0), (100 * MM, 0), (70 * MM, 100 * MM), (0, 100 * MM)))


def box(x0, y0, x1, y1):
    """Return a box given in mm."""
    return Box(*(value * MM for value in (x0, y0, x1, y1)))


@pytest.mark.parametrize(
    ("inner", "outer", "part"),
    [
        (rect(10, 10, 20, 20), SQUARE, None),
        (rect(0, 0, 100, 100), SQUARE, None),
        (rect(80, 80, 30, 10), SQUARE, box(100, 80, 110, 90)),
        (rect(200, 0, 10, 10), SQUARE, box(200, 0, 210, 10)),
        (rect(-5, -5, 110, 110), SQUARE, box(-5, -5, 105, 105)),
        (rect(20, 40, 20, 20), FRAME, None),
        (rect(30, 40, 20, 10), FRAME, box(40, 40, 50, 50)),
        (rect(30, 30, 40, 40), FRAME, box(40, 40, 60, 60)),
        (rect(0, 0, 70, 100), RAKED, None),
        (rect(0, 0, 85, 100), RAKED, box(70, 50, 85, 100)),
    ],
)
def test_the_part_beyond_the_rim_is_boxed(inner, outer, part):
    """What lies within, up to the rim, gives nothing; what does not gives the box around it."""
    assert sticks_out([inner], outer) == (part,)


def test_a_point_rounded_past_a_slanted_rim_is_on_it():
    """A vertex on a slanted rim, rounded to the grid, may lie a part of a step outside."""
    rim = Polygon(((0, 0), (700_001, 0), (300_000, 900_007), (0, 900_000)))
    x, y = round(700_001 - 400_001 / 3) + 1, round(900_007 / 3)
    inner = Polygon(((0, 0), (x, y), (0, 900_000)))
    assert sticks_out([inner], rim) == (None,)
    further = Polygon(((0, 0), (x + 4, y), (0, 900_000)))
    assert sticks_out([further], rim) != (None,)


def test_many_are_answered_in_order():
    """One answer for each polygon, none for none."""
    assert sticks_out([], SQUARE) == ()
    assert sticks_out([rect(200, 0, 1, 1), rect(0, 0, 1, 1)], SQUARE) == (box(200, 0, 201, 1), None)
