"""Hatches by number."""

from itertools import combinations

import pytest

from nesting.drawings.hatching import HATCHES, hatch
from nesting.drawings.record import Rect

GROUND = Rect(11, 7, 33, 19)


@pytest.mark.parametrize("number", range(1, HATCHES))
def test_every_line_runs_across_the_ground(number):
    """Both ends of each line are on the rim of the rectangle, and there are several."""
    lines = hatch(GROUND, number)
    assert len(lines) >= 3
    for line in lines:
        for x, y in line.points:
            assert GROUND.grown(0.001).holds(Rect(x, y, x, y))
            rim = (abs(x - GROUND.x0), abs(x - GROUND.x1), abs(y - GROUND.y0), abs(y - GROUND.y1))
            assert min(rim) < 0.001


def test_no_two_hatches_are_alike():
    """Seven kinds of ground are told apart; the eighth looks like the first."""
    hatches = [hatch(GROUND, number) for number in range(HATCHES)]
    assert all(one != other for one, other in combinations(hatches, 2))
    assert hatches[0] == hatch(GROUND, HATCHES) == ()
