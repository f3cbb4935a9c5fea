"""The liner as the checker sees it: what meets what, distances, blank ground."""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
import shapely
from handjob import MM, hand_liner, rect
from hypothesis import given
from hypothesis import strategies as st

from nesting.checking.rects import StepRect
from nesting.checking.shapes import Outlines, shape_liner
from nesting.shapes.geometry import Polygon
from nesting.values.liner import BlankZone, Ornament

DAM = StepRect(0, 0, 1000, 25)
NUMBERS = st.integers(-60, 60)


@given(st.lists(st.tuples(NUMBERS, NUMBERS), min_size=3, max_size=3, unique=True))
def test_distance_is_the_least_square_distance_to_any_point(points):
    """Against exact fractions: the distance to a triangle's three sides, rounded down."""
    triangle = shapely.Polygon(points)
    if not triangle.is_valid or triangle.area == 0:
        return
    dam = StepRect(-20, -5, 20, 5)
    outlines = Outlines(["leaf"], [triangle])
    meets = shapely.relate_pattern(shapely.box(*dam), triangle, "T********")
    exact = min(side_distance(dam, p, q) for p, q in combinations(points, 2))
    assert outlines.distance(dam) == (0 if meets else exact.__floor__())


def side_distance(dam, start, end):
    """Return the least over a segment of the greater of the distances along x and along y.

    Each is the largest of a few functions linear in the place along the segment, so the least
    value lies at an end or where two of them are equal.
    """
    (px, py), (qx, qy) = start, end
    lines = [
        (dam.x0 - px, px - qx),
        (px - dam.x1, qx - px),
        (dam.y0 - py, py - qy),
        (py - dam.y1, qy - py),
        (0, 0),
    ]
    places = {Fraction(0), Fraction(1)}
    for (a, b), (c, d) in combinations(lines, 2):
        if b != d:
            places.add(Fraction(c - a, b - d))
    return min(max(a + b * t for a, b in lines) for t in places if 0 <= t <= 1)


def test_distance_rounds_down_past_a_slanted_side():
    """The nearest point of a side that falls 1 in 5 lies as far along x as along y.

    From the dam's corner (1000, 25) go u along both: the side is at height (200 - u) / 5 there,
    so u = 200 / 6 = 33.3 steps.
    """
    leaf = shapely.Polygon([(1200, 25), (1000, 65), (1200, 65)])
    assert Outlines(["leaf"], [leaf]).distance(DAM) == 33


def test_distance_takes_the_nearest_of_many_on_either_side():
    """Above and below count alike; touching is 0, and so is overlapping."""

    def box(y0, y1):
        return shapely.box(100, y0, 200, y1)

    assert Outlines("ab", [box(60, 90), box(-90, -7)]).distance(DAM) == 7
    assert Outlines("a", [box(25, 90)]).distance(DAM) == 0
    assert Outlines("a", [box(10, 90)]).distance(DAM) == 0
    assert Outlines("", []).distance(DAM) is None


def test_touching_shapes_do_not_meet():
    """A slanted side through a corner, exactly, is no meeting; one step further is."""
    touching = shapely.Polygon([(1000, 25), (1100, 25), (1000, 125)])
    through = shapely.Polygon([(1003, 24), (997, 26), (1100, 125)])
    over = shapely.Polygon([(1003, 23), (997, 26), (1100, 125)])
    outlines = Outlines("tpo", [touching, through, over])
    assert list(outlines.met_by([DAM])) == [(0, 2)]


def test_an_outline_is_inside_cut_or_outside():
    """Inside may touch the edge; outside may too."""
    shapes = [shapely.box(0, 0, 10, 25), shapely.box(990, 0, 1010, 5), shapely.box(0, 25, 9, 30)]
    inside, cut = Outlines("abc", shapes).split([DAM, StepRect(5, 0, 6, 1)])
    assert inside == [{0}, set()]
    assert cut == [{1}, {0}]


def test_zones_together_are_blank_ground():
    """A dam may cross from zone to zone where they touch; one step of detail stops it."""
    liner = hand_liner()
    zones = (BlankZone("a", rect(0, 0, 500, 40)), BlankZone("b", rect(500, 0, 500, 40)))
    dam = StepRect(100 * MM, 0, 900 * MM, 25 * MM)
    assert shape_liner(replace(liner, zones=zones)).is_blank([dam]) == [True]
    gap = Polygon(tuple((x + 1, y) for x, y in zones[1].outline.shell))
    split = (zones[0], BlankZone("b", gap))
    assert shape_liner(replace(liner, zones=split)).is_blank([dam]) == [False]


@pytest.mark.parametrize(("gap", "blank"), [(0, True), (1, True), (3, False)])
def test_slanted_zones_may_leave_a_sliver(gap, blank):
    """Two zones that share a slanted side are one ground, up to two steps of rounding."""
    liner = hand_liner()
    left = Polygon(((0, 0), (503 * MM, 0), (500 * MM + 1, 40 * MM), (0, 40 * MM)))
    right = Polygon(
        ((503 * MM + gap, 0), (1000 * MM, 0), (1000 * MM, 40 * MM), (500 * MM + 1 + gap, 40 * MM))
    )
    shapes = shape_liner(replace(liner, zones=(BlankZone("a", left), BlankZone("b", right))))
    assert shapes.is_blank([StepRect(100 * MM, 0, 900 * MM, 25 * MM)]) == [blank]


def test_unmarked_ground_is_blank_where_the_liner_says_so():
    """Then a dam may lie anywhere on the liner, but not off it."""
    shapes = shape_liner(replace(hand_liner(), unmarked="blank", zones=()))
    on, off = StepRect(0, 0, 1200 * MM, 25 * MM), StepRect(0, 0, 1200 * MM + 1, 25 * MM)
    assert shapes.is_blank([on, off]) == [True, False]
    assert shape_liner(replace(hand_liner(), zones=())).is_blank([on]) == [False]


def test_the_edge_of_a_hole_is_a_rim():
    """A side along a lifting recess needs no dam, and no dam may lie across the recess."""
    hole = ((100, 100), (200, 100), (200, 150), (100, 150))
    outline = replace(
        rect(0, 0, 1, 1), shell=((0, 0), (900, 0), (900, 900), (0, 900)), holes=(hole,)
    )
    shapes = shape_liner(replace(hand_liner(), outline=outline))
    assert shapes.has_rim_along(StepRect(100, 110, 100, 150))
    assert not shapes.has_rim_along(StepRect(100, 110, 100, 151))
    assert shapes.holds([StepRect(0, 0, 100, 900), StepRect(0, 0, 101, 900)]) == [True, False]


def test_names_keep_the_liner_s_order():
    """Ornaments and zones are told apart by their place in the job."""
    liner = hand_liner()
    more = (*liner.ornaments, Ornament("leaf", rect(0, 0, 5, 5)))
    shapes = shape_liner(replace(liner, ornaments=more))
    assert shapes.ornaments.names == ("heron", "leaf")
    assert shapes.zones.names == ("east", "north")
