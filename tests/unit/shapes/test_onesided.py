"""Polygons on one side of their curves: nothing lost, nothing farther off than stated."""

import math

import pytest
import shapely
from drawnliners import MM

from nesting.shapes.curves import Arc, Bezier, Segment, bulge_arc, cubic
from nesting.shapes.geometry import Polygon
from nesting.shapes.onesided import flatten_loop, round_ring, turn_loop


def circle(centre, radius):
    """Return a whole circle, counter-clockwise from its rightmost point."""
    return Arc(centre, (radius, 0.0), (0.0, radius), 0.0, math.tau)


ERROR = 400.0  # steps: 0.05 mm
LEAF = (
    cubic((0.0, 0.0), (300_000.3, 1_600_000.0), (400_000.0, -800_000.0), (800_000.0, 0.4)),
    cubic((800_000.0, 0.4), (1_200_000.0, 0.0), (1_200_000.0, -900_000.0), (800_000.0, -9e5)),
    cubic((8e5, -9e5), (8e5, -9e5), (8e5, -3e5), (7e5, -2e5)),
    Segment((7e5, -2e5), (0.0, 0.0)),
)
LOOPS = {
    "circle": (circle((1_234_567.8, 7_654_321.9), 1_000_000.0),),
    "ellipse": (circle((0.0, 0.0), 1.0).moved((9e5, 2e5, -3e4, 1e5, 3e6, 3e6)),),
    "half": (bulge_arc((0.0, 0.0), (8e5, 0.0), 1.0), Segment((8e5, 0.0), (0.0, 0.0))),
    "bite": (
        bulge_arc((0.0, 0.0), (8e5, 0.0), -0.6),
        Segment((8e5, 0.0), (4e5, 2e6)),
        Segment((4e5, 2e6), (0.0, 0.0)),
    ),
    "leaf": LEAF,
    "conic": (
        Bezier(((0.0, 0.0, 1.0), (4e5, 9e5, 2.5), (8e5, 0.0, 1.0))),
        Segment((8e5, 0.0), (0.0, 0.0)),
    ),
}


@pytest.fixture(params=LOOPS)
def loop(request):
    """Return one of the loops."""
    return LOOPS[request.param]


def polygon_of_loop(loop, *, outward, error=ERROR):
    """Return the rounded polygon as shapely has it."""
    ring = round_ring(flatten_loop(loop, error, outward=outward), outward=outward)
    return shapely.Polygon(Polygon(ring).shell)


def spots_on(loop, count=700):
    """Return points on the very curves."""
    return shapely.points([curve.point((n + 0.37) / count) for curve in loop for n in range(count)])


def test_a_polygon_around_a_loop_holds_every_point_of_it(loop):
    """Not one point of the curves lies outside, not by a millionth of a step."""
    around = polygon_of_loop(loop, outward=True)
    assert shapely.distance(around, spots_on(loop)).max() < 1e-6


def test_a_polygon_within_a_loop_holds_no_point_of_it(loop):
    """Not one point of the curves lies properly inside."""
    within = polygon_of_loop(loop, outward=False)
    spots = spots_on(loop)
    depth = shapely.distance(within.boundary, spots) * shapely.contains_properly(within, spots)
    assert depth.max() < 1e-6


@pytest.mark.parametrize("outward", [True, False])
@pytest.mark.parametrize("error", [40.0, 400.0, 8000.0])
def test_no_polygon_is_farther_off_than_stated(loop, outward, error):
    """Either way, up to two steps of rounding."""
    found = polygon_of_loop(loop, outward=outward, error=error)
    drawn = shapely.LinearRing([curve.point(n / 3000) for curve in loop for n in range(3000)])
    corners = shapely.points(shapely.get_coordinates(found.exterior))
    assert shapely.distance(drawn, corners).max() < error + 2.5
    assert shapely.distance(found.exterior, spots_on(loop)).max() < error + 2.5


def test_the_way_round_changes_nothing(loop):
    """A loop run clockwise gives the same polygon, up to the rounding of its corners."""
    for outward in (True, False):
        turned = polygon_of_loop(turn_loop(loop), outward=outward)
        assert turned.hausdorff_distance(polygon_of_loop(loop, outward=outward)) < 2.5


def test_a_polygon_has_the_bounds_of_its_curve():
    """Tangents and chords alike touch where a curve is farthest left, right, down or up."""
    for outward in (True, False):
        found = polygon_of_loop([circle((100.0 * MM, 50.0 * MM), 40.0 * MM)], outward=outward)
        assert found.bounds == (60 * MM, 10 * MM, 140 * MM, 90 * MM)


def test_straight_lines_stay_as_drawn():
    """Corners on whole steps are kept, however small the chord error."""
    corners = [(0.0, 0.0), (19_200_000.0, 0.0), (19_200_000.0, 9_600_000.0), (0.0, 9_600_000.0)]
    sides = [Segment(*ends) for ends in zip(corners, corners[1:] + corners[:1], strict=True)]
    for outward in (True, False):
        ring = flatten_loop(sides, 1.0, outward=outward)
        assert set(round_ring(ring, outward=outward)) == set(corners)


def test_few_points_do():
    """A circle takes about as many tangents as its angle asks for, rounded up at each quarter."""
    radius = 100.0 * MM
    least = math.pi / math.acos(radius / (radius + ERROR))
    ring = flatten_loop([circle((0.0, 0.0), radius)], ERROR, outward=True)
    assert least <= len(ring) <= 1.3 * least


def test_a_corner_off_the_grid_is_rounded_to_its_side():
    """A slanted side between two steps moves away from what it may not lose."""
    ring = [(0.0, 0.0), (1000.5, 3.3), (700.25, 900.75), (-3.4, 500.2)]
    for outward in (True, False):
        rounded = shapely.Polygon(round_ring(ring, outward=outward))
        drawn = shapely.Polygon(ring)
        bigger, smaller = (rounded, drawn) if outward else (drawn, rounded)
        assert bigger.buffer(1e-6).covers(smaller)
        assert rounded.hausdorff_distance(drawn) < 2.5


def test_a_drawn_corner_within_a_tenth_of_a_step_is_on_it():
    """The noise of a drawing program does not push a side by a step."""
    corners = [(0.04, -0.03), (800.02, 0.05), (800.0, 400.09), (-0.02, 400.0)]
    ends = zip(corners, corners[1:] + corners[:1], strict=True)
    ring = flatten_loop([Segment(*each) for each in ends], ERROR, outward=True)
    assert set(ring) == {(0, 0), (800, 0), (800, 400), (0, 400)}
