"""What holds for the ties of every wall with two skins."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from handjob import MM
from hypothesis import assume, given
from hypothesis import strategies as st
from tiedwalls import pond, tie_rule, tied_wall

from nesting.errors import InputError
from nesting.walls.cladding import Corner, WallArc, WallRun, divide_wall
from nesting.walls.ties import tie_skins
from nesting.walls.twins import worst_miss
from nesting.walls.widths import EXACT, WidthRule

pytestmark = pytest.mark.long

_SIDES = st.sampled_from(["inner", "outer"])
_FACES = st.sampled_from(["inner", "outer", "axis"])
_RUNS = st.builds(WallRun, st.just("r"), st.integers(1500, 5000).map(lambda x: x * MM), _FACES)
_ARCS = st.builds(
    WallArc,
    st.just("a"),
    st.integers(1500 * MM, 9000 * MM),
    st.floats(0.4, 2.5),
    _FACES,
    _SIDES,
)
_CORNERS = st.builds(
    Corner, st.just("c"), st.floats(0.3, 1.8), _SIDES, st.sampled_from([0, 250 * MM])
)
_WIDTHS = st.sampled_from(
    [EXACT, WidthRule(5 * MM, "joints", 99 * MM), WidthRule(5 * MM, "closing panel", 0, 300 * MM)]
)


@st.composite
def walls(draw):
    """Make a wall: a run, what follows it, a run; two or three panels in each part."""
    middle = draw(st.one_of(_ARCS, _CORNERS))
    parts = [draw(_RUNS), middle, draw(_RUNS)]
    named = [
        replace(part, name=name, **({} if isinstance(part, Corner) else {"panels": 2 + number % 2}))
        for number, (name, part) in enumerate(zip("ABC", parts, strict=True))
    ]
    ties = tie_rule(draw(st.integers(150, 900)), draw(st.integers(1, 4)), draw(st.integers(0, 90)))
    widths, units = draw(_WIDTHS), draw(st.sampled_from(["mm", "in"]))
    return tied_wall(*named, ties=ties, widths=widths, units=units)


def tie(wall, ground=None):
    """Return the stretches and the ties of a wall that can be built."""
    try:
        stretches = divide_wall(wall)
        return stretches, tie_skins(wall, stretches, ground)
    except InputError:
        assume(False)


@given(walls())
def test_every_insert_faces_its_twin_and_keeps_its_distances(wall):
    """In plan to a thousandth; in from the edges, spaced, and one tie fewer would not do."""
    _, tied = tie(wall)
    assert worst_miss(wall, tied.pairs) < 0.001
    rule = wall.ties
    for pair in tied.pairs:
        for back, skin in ((pair.inner, "inner"), (pair.outer, "outer")):
            spots = [getattr(each, skin) for each in pair.ties if each.row == 1]
            low, high = rule.edge_distance - 3, float(back.width) - rule.edge_distance + 3
            assert all(low <= x <= high for x, _ in spots)
            xs = sorted(x for x, _ in spots)
            assert all(b - a <= rule.spacing + 1 for a, b in pairwise(xs))
        heights = sorted({each.inner[1] for each in pair.ties})
        assert len(heights) == rule.rows
        assert rule.edge_distance <= heights[0]
        assert heights[-1] <= wall.row_height - rule.edge_distance


@given(walls(), st.integers(50, 900), st.integers(0, 500), st.integers(10, 120))
def test_moved_ties_are_twins_still_and_keep_clear(wall, x, y, width):
    """A pond on every panel: every insert is clear of it by arithmetic, moved or not."""
    ground = pond("pond", x, y, width, 90)
    marks = [each.mark for each in divide_wall_or_none(wall)]
    _, tied = tie(wall, {mark: [ground] for mark in marks})
    assert worst_miss(wall, tied.pairs) < 0.001
    for pair in tied.pairs:
        for each in pair.ties:
            for back, spot in ((pair.inner, each.inner), (pair.outer, each.outer)):
                ring = back.behind(ground.rings[0])
                xs, ys = [point[0] for point in ring], [point[1] for point in ring]
                aside = max(min(xs) - spot[0], spot[0] - max(xs), 0)
                above = max(min(ys) - spot[1], spot[1] - max(ys), 0)
                assert math.hypot(aside, above) >= wall.ties.hollow_distance


def divide_wall_or_none(wall):
    """Return the stretches of a wall, of one that cannot be built none."""
    try:
        return divide_wall(wall)
    except InputError:
        return ()
