"""Convex pieces: Minkowski sums with rectangles and exact cuts, against brute force."""

from itertools import pairwise, product
from math import floor

import numpy as np
import pytest
import shapely
from handjob import rect
from hypothesis import given, settings
from hypothesis import strategies as st
from makejobs import island_job

from nesting.shapes.convex import (
    Pieces,
    free_runs,
    joined,
    merged,
    pieces_of,
    pieces_of_boxes,
    pieces_of_rings,
    separations,
    square_distances,
)
from nesting.shapes.geometry import MAX_STEPS, Box, Polygon, convex_hull, polygon_of

REACH = 14
SPOTS = list(product(range(-REACH - 6, REACH + 7), repeat=2))
COORDINATE = st.integers(-REACH, REACH)
TRIANGLE = ((0, 0), (6, 2), (2, 8))


def lies_flat(points):
    """Whether the points span no area."""
    return shapely.MultiPoint(points).convex_hull.area == 0


RINGS = (
    st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=7, unique=True)
    .filter(lambda points: not lies_flat(points))
    .map(convex_hull)
)
SOME_RINGS = st.lists(RINGS, min_size=1, max_size=4)
STRIPS = st.tuples(*2 * (st.integers(-5, 5),), *2 * (st.integers(1, 6),)).map(
    lambda s: Box(s[0], s[1], s[0] + s[2], s[1] + s[3])
)


def interiors_meet(ring, box):
    """Whether the open insides of a ring and a box share ground, as shapely sees it."""
    return shapely.relate_pattern(shapely.Polygon(ring), shapely.box(*box), "T********")


def is_inside(ring, x, y):
    """Whether the point lies strictly inside the ring."""
    return shapely.contains_properly(shapely.Polygon(ring), shapely.Point(x, y))


# Pieces


def test_a_triangle_is_its_box_cut_by_its_slanted_sides():
    """Every side of a counter-clockwise ring leaves the inside on its left: a x + b y < c."""
    pieces = pieces_of_rings([TRIANGLE])
    assert pieces.boxes.tolist() == [[0, 0, 6, 8]]
    assert sorted(map(tuple, pieces.cuts[0].tolist())) == [(-8, 2, 0), (2, -6, 0), (6, 4, 44)]
    assert pieces.is_slanted().tolist() == [True]


def test_rectangles_have_no_cuts():
    """A stepped polygon is a few of them."""
    pieces = pieces_of([Polygon(((0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)))])
    assert pieces.boxes.tolist() == [[0, 0, 2, 5], [2, 0, 6, 2]]
    assert pieces.cuts.shape == (2, 0, 3)
    assert not pieces.is_slanted().any()


def test_joining_keeps_order_and_fills_up_with_what_is_always_true():
    """A rectangle beside a triangle still holds the points it held."""
    pieces = joined([pieces_of_boxes([Box(0, 0, 6, 8)]), pieces_of_rings([TRIANGLE])])
    assert len(pieces) == 2
    assert pieces.is_slanted().tolist() == [False, True]
    assert pieces.hold(5, 7).tolist() == [True, False]
    assert pieces.hold(2, 4).tolist() == [True, True]


@pytest.mark.parametrize("nothing", [pieces_of(()), pieces_of_boxes(()), joined([])])
def test_nothing_forbids_nothing(nothing):
    """The empty set goes through every question."""
    assert len(nothing) == 0
    assert not nothing.hold(0, 0).any()
    assert nothing.forbidden_at(0).tolist() == []
    assert len(nothing.swept(Box(0, 0, 5, 5)).near(Box(0, 0, 9, 9)).turned_over()) == 0
    assert separations(nothing, Box(0, 0, 1, 1)).shape == (0, 4)
    assert len(joined([nothing, pieces_of_boxes([Box(0, 0, 1, 1)])])) == 1


@given(RINGS)
@settings(max_examples=12)
def test_pieces_are_open(ring):
    """A point on the rim is not inside; every whole point is judged as shapely does."""
    pieces = pieces_of_rings([ring])
    inside = [bool(pieces.hold(x, y)[0]) for x, y in SPOTS]
    spots = shapely.points(SPOTS)
    assert inside == shapely.contains_properly(shapely.Polygon(ring), spots).tolist()


@given(RINGS, STRIPS)
@settings(max_examples=25)
def test_swept_pieces_hold_the_places_where_the_strip_meets_them(ring, strip):
    """That is the Minkowski sum with the mirrored strip, touching allowed, to the step."""
    swept = pieces_of_rings([ring]).swept(strip)
    x, y = np.array(SPOTS).T
    moved = shapely.box(x + strip.x0, y + strip.y0, x + strip.x1, y + strip.y1)
    meets = shapely.relate_pattern(shapely.Polygon(ring), moved, "T********")
    assert [bool(swept.hold(*spot)[0]) for spot in SPOTS] == meets.tolist()


def test_a_swept_rectangle_grows_by_the_strip():
    """A strip 3 wide and 2 high with its corner at (1, 0) may touch a rectangle on every side."""
    swept = pieces_of_boxes([Box(10, 10, 20, 15)]).swept(Box(1, 0, 4, 2))
    assert swept.boxes.tolist() == [[6, 8, 19, 15]]


def test_sums_are_exact_at_the_greatest_reach():
    """Products of coordinates up to 2**28 steps stay within 64 bits."""
    m = MAX_STEPS
    swept = pieces_of_rings([((-m, -m), (m, 1 - m), (m - 1, m))]).swept(Box(0, 0, m, m))
    assert swept.boxes.tolist() == [[-2 * m, -2 * m, m, m]]
    low, high = swept.ranges(np.array([[0]]))
    inside = [int(low[0, 0]), int(high[0, 0])]
    assert [bool(swept.hold(x, 0)[0]) for x in inside] == [True, True]
    assert [bool(swept.hold(x, 0)[0]) for x in (inside[0] - 1, inside[1] + 1)] == [False, False]


@given(SOME_RINGS)
@settings(max_examples=12)
def test_ranges_are_the_whole_x_strictly_inside(rings):
    """Piece by piece and line by line; none where the line misses the piece."""
    pieces = pieces_of_rings(rings)
    ys = np.arange(-REACH - 1, REACH + 2)
    low, high = pieces.ranges(ys[:, None])
    for line, y in enumerate(ys):
        for number, ring in enumerate(rings):
            inside = [x for x in range(-REACH, REACH + 1) if is_inside(ring, x, y)]
            found = range(int(low[line, number]), int(max(high[line, number], -99)) + 1)
            assert list(found) == inside


def test_ranges_take_a_line_per_piece():
    """So layers can be clipped to each piece."""
    pieces = pieces_of_boxes([Box(0, 0, 4, 4), Box(10, 10, 15, 12)])
    low, high = pieces.ranges(np.array([[2, 11], [4, 10]]))
    assert low[0].tolist() == [1, 11]
    assert high[0].tolist() == [3, 14]
    assert (high[1] < low[1]).all()


@given(SOME_RINGS, st.integers(-REACH, REACH))
@settings(max_examples=30)
def test_what_is_forbidden_at_a_line_is_what_pieces_hold_there(rings, y):
    """Runs left free by all pieces are the x that no piece holds."""
    pieces = pieces_of_rings(rings)
    runs = free_runs(-REACH, REACH, pieces.forbidden_at(y))
    free = [x for a, b in runs for x in range(a, b + 1)]
    assert free == [x for x in range(-REACH, REACH + 1) if not pieces.hold(x, y).any()]


@given(SOME_RINGS)
@settings(max_examples=40)
def test_apexes_are_the_stretch_of_the_outermost_x(rings):
    """Least and greatest y at the leftmost and at the rightmost x, whole since vertices are."""
    pieces = pieces_of_rings(rings)
    for far in (False, True):
        low, high = pieces.apexes(far=far)
        for number, ring in enumerate(rings):
            outermost = (max if far else min)(x for x, _ in ring)
            ys = [y for x, y in ring if x == outermost]
            assert (low[number], high[number]) == (min(ys), max(ys))


def test_apexes_of_swept_pieces_grow_by_the_strip():
    """The left apex of a rhombus swept with a strip is as high as the strip."""
    swept = pieces_of_rings([((0, 5), (5, 0), (10, 5), (5, 10))]).swept(Box(0, 0, 2, 3))
    assert [int(y[0]) for y in swept.apexes(far=False)] == [2, 5]
    assert [int(y[0]) for y in swept.apexes(far=True)] == [2, 5]


@given(SOME_RINGS, st.tuples(COORDINATE, COORDINATE, st.integers(0, 8), st.integers(0, 8)))
@settings(max_examples=30)
def test_near_keeps_every_piece_that_can_hold_a_point_of_the_domain(rings, spot):
    """And drops those whose box lies beside it; the domain may be a segment or a point."""
    x, y, wide, high = spot
    pieces, domain = pieces_of_rings(rings), Box(x, y, x + wide, y + high)
    near = pieces.near(domain)
    for a, b in product(range(x, x + wide + 1), range(y, y + high + 1)):
        assert near.hold(a, b).sum() == pieces.hold(a, b).sum()
    beside = pieces_of_boxes([Box(x + wide, y, x + wide + 3, y + 5), Box(x - 3, y, x, y + 5)])
    assert len(beside.near(domain)) == 0


@given(SOME_RINGS)
@settings(max_examples=10)
def test_turned_over_pieces_hold_the_points_exchanged(rings):
    """The axes change places, for lines too."""
    pieces = pieces_of_rings(rings)
    turned = pieces.turned_over()
    for x, y in SPOTS[::7]:
        assert turned.hold(y, x).tolist() == pieces.hold(x, y).tolist()
        row = turned.forbidden_at(x)
        assert any(a <= y <= b for a, b in row.tolist()) == bool(pieces.hold(x, y).any())


# Distances


def grown_until_it_touches(ring, box):
    """Return the least whole half-side by which the box meets the ring's inside, less 1."""
    by = -min(box.width, box.height) // 2
    while not interiors_meet(ring, box.grown(*4 * (by + 1,))):
        by += 1
    return by


@given(RINGS, st.tuples(COORDINATE, COORDINATE, st.integers(2, 9), st.integers(2, 9)))
@settings(max_examples=60)
def test_square_distances_say_how_far_a_box_may_grow(ring, spot):
    """By so much on every side it touches at most; by a step more it cuts."""
    x, y, wide, high = spot
    box = Box(x, y, x + wide, y + high)
    (distance,) = square_distances(pieces_of_rings([ring]), box).tolist()
    if distance >= 0:
        assert distance == grown_until_it_touches(ring, box)
    else:
        assert interiors_meet(ring, box)


def test_separations_are_measured_face_by_face():
    """Right of, left of, above, below, then beyond each slanted side, rounded down."""
    pieces = joined([pieces_of_boxes([Box(0, 0, 10, 10)]), pieces_of_rings([TRIANGLE])])
    found = separations(pieces, Box(13, 4, 15, 6))
    assert found[0, :4].tolist() == [3, -15, -6, -6]
    assert (found[0, 4:] < -(10**18)).all()
    assert found[1, :4].tolist() == [7, -15, -4, -6]
    slanted = {floor((a * (13 if a > 0 else 15) + b * (4 if b > 0 else 6) - c) / (abs(a) + abs(b)))
               for a, b, c in [(-8, 2, 0), (2, -6, 0), (6, 4, 44)]}  # fmt: skip
    assert set(found[1, 4:].tolist()) == slanted


def test_beside_a_slope_the_square_distance_is_more_than_that_of_the_boxes():
    """A box in the corner that a rhombus leaves free is beyond its slope, not beyond its box."""
    rhombus = ((0, 10), (10, 0), (20, 10), (10, 20))
    (distance,) = square_distances(pieces_of_rings([rhombus]), Box(0, 0, 2, 2)).tolist()
    assert distance == 3


@given(RINGS)
@settings(max_examples=30)
def test_a_turned_ring_is_as_far_from_a_turned_box(ring):
    """Nothing prefers x to y."""
    box = Box(2, -3, 5, 1)
    turned = pieces_of_rings([ring]).turned_over()
    across = square_distances(turned, Box(-3, 2, 1, 5))
    assert across.tolist() == square_distances(pieces_of_rings([ring]), box).tolist()


# Runs


@given(st.lists(st.tuples(st.integers(-5, 25), st.integers(-5, 25)), max_size=6))
@settings(max_examples=100)
def test_free_runs_are_what_no_range_covers(ranges):
    """Ranges may overlap, stick out, or be empty with the greatest below the least."""
    forbidden = np.array(ranges, dtype=np.int64).reshape(-1, 2)
    runs = free_runs(0, 20, forbidden)
    free = {x for a, b in runs for x in range(a, b + 1)}
    assert free == {x for x in range(21) if not any(a <= x <= b for a, b in ranges)}
    assert all(a <= b for a, b in runs)
    assert all(b + 1 < c for (_, b), (c, _) in pairwise(runs))


def test_a_line_of_one_point_is_a_run_or_none():
    """A panel flush between two rims has one place only."""
    assert free_runs(7, 7, np.zeros((0, 2), dtype=np.int64)) == [(7, 7)]
    assert free_runs(7, 7, np.array([[7, 7]])) == []


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 6)), max_size=6))
@settings(max_examples=60)
def test_merged_runs_cover_the_same_and_keep_apart(pairs):
    """Runs that overlap or follow each other without a gap become one."""
    runs = [(a, a + more) for a, more in pairs]
    found = merged(runs)
    assert {x for a, b in found for x in range(a, b + 1)} == {
        x for a, b in runs for x in range(a, b + 1)
    }
    assert all(b + 1 < c for (_, b), (c, _) in pairwise(found))


def test_polygons_are_cut_into_pieces_in_order():
    """The pieces of the first polygon come first."""
    pieces = pieces_of([rect(0, 0, 1, 1), polygon_of(Box(-5, -5, -1, -1))])
    assert pieces.boxes.tolist() == [[0, 0, 8000, 8000], [-5, -5, -1, -1]]
    assert isinstance(pieces, Pieces)


def test_one_line_is_cut_as_many_lines_are():
    """What a line is forbidden by slanted pieces is the same, asked alone or with others."""
    rings = [ornament.outline.shell for ornament in island_job(7, islands=15).liner.ornaments]
    pieces = pieces_of([Polygon(ring) for ring in rings])
    low, high = pieces.boxes[:, 1].min(), pieces.boxes[:, 3].max()
    for y in np.linspace(low, high, 97).astype(np.int64).tolist() + pieces.boxes[:, 3].tolist():
        meets = (pieces.boxes[:, 1] < y) & (y < pieces.boxes[:, 3])
        ends = pieces.ranges(np.array([[y]]))
        expected = np.stack([ends[0][0], ends[1][0]], axis=1)[meets]
        np.testing.assert_array_equal(pieces.forbidden_at(y), expected)
