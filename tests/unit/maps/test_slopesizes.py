"""Which size fits between slopes, nominal or within tolerance, on a liner with one slope."""

from functools import cache

import pytest
from handjob import MM, rect

from nesting.maps.ground import survey
from nesting.maps.sizehunt import HuntingGround
from nesting.maps.slopesizes import choose_on_slopes
from nesting.shapes.geometry import Polygon
from nesting.values.bed import Bed
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament
from nesting.values.panels import Panel

TABLE = Bed("table")


@cache
def sail():
    """Return 400 x 300 mm of blank ground with its upper right corner cut off at 45 degrees."""
    corner = Polygon(tuple((x * MM, y * MM) for x, y in ((400, 300), (200, 300), (400, 100))))
    liner = Liner("corner", rect(0, 0, 400, 300), 13 * MM, "blank", (Ornament("sail", corner),))
    ground = survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    return ground, HuntingGround(ground)


def choose(width, height, tolerance=(0, 0)):
    """Return the size to use and the y of a place; the limits are in mm."""
    ground, ready = sail()
    low, high = (round(limit * MM) for limit in tolerance)
    panel = Panel("P", round(width * MM), round(height * MM), 1, "table", tolerance=(low, high))
    return choose_on_slopes(ground, panel, TABLE, ready)


def test_the_nominal_size_is_used_where_it_has_a_place():
    """Flush with the datum corner, dam corner 31 mm out on x + y = 500: w + h is 438 at most."""
    size, row = choose(268, 170)
    assert (size.map.width, size.map.height, size.off_nominal) == (268 * MM, 170 * MM, (0, 0))
    assert any(sheet.runs_at_y(row) for sheet in size.map.sheets)


def test_the_nearest_size_within_tolerance_is_used_else():
    """270 x 171 are 3 mm too much, so both give up 1.5 mm, which touches nothing but the slope."""
    size, row = choose(270, 171, (-2, 2))
    off = [change / MM for change in size.off_nominal]
    assert off == [pytest.approx(-1.5, abs=0.01)] * 2
    assert any(sheet.runs_at_y(row) for sheet in size.map.sheets)


def test_a_size_beyond_its_tolerance_has_none():
    """1.4 mm of each side are not enough, nor is more of what is too much."""
    assert choose(270, 171, (-1.4, 3)) is None
    assert choose(270, 171) is None
