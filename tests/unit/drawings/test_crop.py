"""Clipping: what of a line lies inside a rectangle."""

import pytest

from nesting.drawings.crop import crop_line, crop_segment
from nesting.drawings.record import Rect

ROOM = Rect(0, 0, 10, 10)


@pytest.mark.parametrize(
    ("ends", "inside"),
    [
        (((2, 3), (4, 5)), ((2, 3), (4, 5))),
        (((-5, -5), (15, 15)), ((0, 0), (10, 10))),
        (((5, 20), (5, -20)), ((5, 10), (5, 0))),
        (((-5, 0), (15, 0)), ((0, 0), (10, 0))),
        (((-5, 5), (5, -5)), ((0, 0), (0, 0))),
        (((-5, 4), (4, -5)), None),
        (((11, 0), (11, 10)), None),
        (((12, 5), (20, 5)), None),
    ],
)
def test_a_segment_is_cut_at_the_sides(ends, inside):
    """The sides belong to the rectangle, and what only passes by is nothing."""
    assert crop_segment(ROOM, *ends) == inside


def test_a_line_that_leaves_and_returns_gives_two_runs():
    """Runs keep the order and the direction of the line."""
    line = [(1, 1), (1, 20), (5, 20), (5, 1), (6, 1)]
    assert crop_line(ROOM, line) == (((1, 1), (1, 10)), ((5, 10), (5, 1), (6, 1)))


def test_touching_a_corner_gives_no_run():
    """A line without length is none."""
    assert crop_line(ROOM, [(-5, 5), (5, -5)]) == ()
    assert crop_line(ROOM, []) == ()
