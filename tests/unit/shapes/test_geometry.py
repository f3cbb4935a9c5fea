"""Exact polygons: what an outline may be, and what is cut from what."""

import numpy as np
import pytest
import shapely
from handjob import MM, rect
from hypothesis import example, given, settings
from hypothesis import strategies as st

from nesting.shapes.geometry import (
    MAX_STEPS,
    MAX_VERTICES,
    Box,
    Polygon,
    bounds,
    convex_hull,
    convex_parts,
    doubled_area,
    edges,
    is_rectilinear,
    polygon_of,
    slabs,
    subtract,
    to_shapely,
    triangles,
    turn_over,
    unite,
)

SQUARE = ((0, 0), (10, 0), (10, 10), (0, 10))
ELL = Polygon(((0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)))
ARROW = Polygon(((0, 0), (8, 0), (4, 3), (8, 6), (0, 6)))
FRAME = Polygon(SQUARE, (((3, 3), (7, 3), (7, 7), (3, 7)),))
KITE_HOLE = Polygon(SQUARE, (((5, 2), (8, 5), (5, 8), (2, 5)),))
TOUCHED = Polygon(SQUARE, (((0, 5), (4, 2), (4, 7)),))
SHAPES = {
    "box": polygon_of(Box(-3, 2, 4, 9)),
    "ell": ELL,
    "arrow": ARROW,
    "frame": FRAME,
    "kite hole": KITE_HOLE,
    "hole touching the shell": TOUCHED,
    "box with a point along a side": Polygon(((0, 0), (5, 0), (10, 0), (10, 10), (0, 10))),
    "triangle": Polygon(((-5, -5), (20, -4), (3, 17))),
}
of_all_shapes = pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES)

# Boxes


def test_a_box_knows_its_extents_and_corners():
    """Width, height and area are whole numbers; corners run counter-clockwise from lower left."""
    box = Box(-2, 1, 4, 3)
    assert (box.width, box.height, box.area) == (6, 2, 12)
    assert box.ring == ((-2, 1), (4, 1), (4, 3), (-2, 3))


def test_a_box_moves_and_grows_by_steps():
    """Each side grows by its own number, in the order left, bottom, right, top."""
    assert Box(0, 0, 4, 3).moved(-1, 2) == Box(-1, 2, 3, 5)
    assert Box(0, 0, 4, 3).grown(1, 2, 3, 4) == Box(-1, -2, 7, 7)
    assert Box(0, 0, 4, 3).grown(-1, 0, -1, 0) == Box(1, 0, 3, 3)


@pytest.mark.parametrize(
    ("other", "overlaps", "contains"),
    [
        (Box(0, 0, 10, 10), True, True),
        (Box(2, 3, 4, 5), True, True),
        (Box(10, 0, 20, 10), False, False),
        (Box(10, 10, 20, 20), False, False),
        (Box(9, 9, 20, 20), True, False),
        (Box(0, 0, 0, 10), False, True),
        (Box(10, 10, 10, 10), False, True),
    ],
)
def test_touching_boxes_do_not_overlap_but_may_be_contained(other, overlaps, contains):
    """Interiors are open for overlap; a box contains what lies on its rim, segments and points."""
    box = Box(0, 0, 10, 10)
    assert (box.overlaps(other), other.overlaps(box)) == (overlaps, overlaps)
    assert box.contains(other) == contains


# Outlines


@pytest.mark.parametrize("start", range(4))
@pytest.mark.parametrize("step", [1, -1])
def test_an_outline_is_the_same_wherever_and_whichever_way_it_starts(start, step):
    """Shells run counter-clockwise and holes clockwise, each from its leftmost vertex."""
    ring = (SQUARE[start:] + SQUARE[:start])[::step]
    hole = tuple((x // 5 + 4, y // 5 + 4) for x, y in ring)
    assert Polygon(ring, (hole,)) == Polygon(SQUARE, (((4, 4), (6, 4), (6, 6), (4, 6)),))
    assert Polygon(ring).shell == SQUARE
    assert doubled_area(Polygon(ring, (hole,)).holes[0]) == -8


def test_holes_stand_in_one_order():
    """Two holes given the other way round are the same polygon."""
    left, right = ((1, 1), (2, 1), (2, 2)), ((5, 5), (6, 5), (6, 6))
    assert Polygon(SQUARE, (left, right)) == Polygon(SQUARE, (right, left))


def test_points_given_twice_in_a_row_count_once():
    """So a ring may be closed by its first point, as many programs write it."""
    doubled = tuple(point for point in SQUARE for _ in (1, 2))
    assert Polygon((*doubled, SQUARE[0])) == Polygon(SQUARE)


def test_points_along_a_straight_side_are_kept():
    """They change no area, and a box with one is still a box."""
    box = SHAPES["box with a point along a side"]
    assert len(box.shell) == 5
    assert box.area == 100
    assert box.is_box


@pytest.mark.parametrize(
    ("shell", "holes", "message"),
    [
        ([(0, 0), (10, 10), (10, 0), (0, 10)], [], r"^self-intersection at \(5, 5\) mm$"),
        ([(0, 0), (10, 0), (5, 5), (10, 10), (0, 10), (5, 5)], [], r"ring self-inter.*\(5, 5\) mm"),
        ([(0, 0), (10, 0), (10, 10), (5, 10), (5, 15), (5, 10)], [], r"self-inter.*\(5, 15\) mm"),
        ([(0, 0), (5, 0), (10, 0)], [], r"self-intersection at \(5, 0\) mm"),
        ([(0, 0), (10, 0)], [], "at least 3 different points, this one has 2"),
        ([(0, 0), (10, 0), (0, 0), (10, 0)], [], "at least 3 different points, this one has 2"),
        ([(4, 4)], [], "at least 3 different points, this one has 1"),
        ([], [], "at least 3 different points, this one has 0"),
        (SQUARE, [[(20, 2), (24, 2), (24, 4)]], r"hole lies outside shell at \(20, 2\) mm"),
        (SQUARE, [[(5, 5), (15, 5), (15, 7)]], r"self-intersection at \(10, 5\) mm"),
        (SQUARE, [[(0, 2), (4, 2), (4, 4), (0, 4)]], r"self-intersection at \(0, 2\) mm"),
        (SQUARE, [SQUARE], r"self-intersection at \(0, 0\) mm"),
        (SQUARE, [[(0, 5), (5, 0), (5, 5)]], r"interior is disconnected at \(0, 5\) mm"),
        (SQUARE, [[(2, 2), (4, 2), (4, 4)], [(3, 2), (6, 2), (6, 6)]], r"self-inter.*\(.* mm"),
        (SQUARE, [[(1, 1), (8, 1), (8, 8)], [(4, 2), (7, 2), (7, 4)]], r"nested at \(4, 2\) mm"),
        (SQUARE, [[(1, 1), (2, 2)]], "at least 3 different points, this one has 2"),
    ],
)
def test_rings_that_bound_no_simple_area_are_refused_with_the_place(shell, holes, message):
    """Bow ties, pinches, spikes, slivers and stray holes are named, and where they are, in mm."""

    def steps(ring):
        return tuple((x * MM, y * MM) for x, y in ring)

    with pytest.raises(ValueError, match=message):
        Polygon(steps(shell), tuple(map(steps, holes)))


def test_a_hole_may_touch_the_shell_at_one_point():
    """The ground around it is still in one piece."""
    assert TOUCHED.area == 100 - 10


def test_outlines_have_a_largest_reach():
    """Coordinates up to 2**28 steps, either way, are exact; beyond they are refused."""
    reach = Polygon(((-MAX_STEPS, -MAX_STEPS), (MAX_STEPS, -MAX_STEPS), (0, MAX_STEPS)))
    assert reach.area == 2 * MAX_STEPS**2
    with pytest.raises(ValueError, match="reach at most 33554 mm from the datum"):
        Polygon(((0, 0), (MAX_STEPS + 1, 0), (0, 5)))


def test_outlines_have_a_most_of_vertices():
    """5000 vertices are taken, one more is not."""
    arc = tuple((x, x * x // 10) for x in range(0, 10 * MAX_VERTICES, 10))
    assert len(Polygon(arc).shell) == MAX_VERTICES
    with pytest.raises(ValueError, match="at most 5000 points, this one has 5001"):
        Polygon((*arc, (0, MAX_STEPS)))


def test_areas_bounds_and_rings():
    """Holes count off; half a square step is dropped; bounds are the shell's."""
    assert FRAME.area == 84
    assert FRAME.rings == (FRAME.shell, FRAME.holes[0])
    assert Polygon(((0, 0), (1, 0), (0, 1))).area == 0
    assert ARROW.bounds == Box(0, 0, 8, 6)
    assert bounds([(3, -1), (-2, 5)]) == Box(-2, -1, 3, 5)


def test_only_a_rectangle_is_a_box():
    """Neither a frame nor a rectangle with the least corner cut off is one."""
    assert polygon_of(Box(-5, -5, 0, 2)).is_box
    assert not FRAME.is_box
    assert not ELL.is_box
    assert not Polygon(((0, 0), (100, 0), (100, 99), (99, 100), (0, 100))).is_box


def test_edges_close_the_ring():
    """The last edge leads back to the first vertex."""
    assert edges(((0, 0), (4, 0), (4, 3))) == [
        ((0, 0), (4, 0)),
        ((4, 0), (4, 3)),
        ((4, 3), (0, 0)),
    ]


def test_only_shapes_of_axis_parallel_edges_are_rectilinear():
    """A slanted hole is enough to make a square slanted."""
    assert is_rectilinear(ELL)
    assert is_rectilinear(FRAME)
    assert not is_rectilinear(ARROW)
    assert not is_rectilinear(KITE_HOLE)


@of_all_shapes
def test_turning_over_twice_changes_nothing(shape):
    """Once, x and y are exchanged and the area stays."""
    turned = turn_over(shape)
    x0, y0, x1, y1 = shape.bounds
    assert turned.bounds == Box(y0, x0, y1, x1)
    assert turned.area == shape.area
    assert turn_over(turned) == shape


# Parts


@of_all_shapes
def test_convex_parts_fill_the_shape(shape):
    """They are convex, disjoint, counter-clockwise, on the shape and together as large as it."""
    parts = convex_parts(shape)
    areas = [shapely.Polygon(part) for part in parts]
    assert all(doubled_area(part) > 0 for part in parts)
    assert all(part.convex_hull.area == part.area for part in areas)
    assert sum(map(doubled_area, parts)) == 2 * to_shapely(shape).area
    assert shapely.union_all(areas).symmetric_difference(to_shapely(shape)).area == 0


@pytest.mark.parametrize(
    ("shape", "count"), [("box", 1), ("ell", 2), ("arrow", 2), ("frame", 4), ("triangle", 1)]
)
def test_convex_parts_are_few(shape, count):
    """A convex shape is its own part; one reflex corner makes two."""
    assert len(convex_parts(SHAPES[shape])) == count


@of_all_shapes
def test_triangles_stand_on_the_vertices_of_the_shape(shape):
    """No new points arise, so nothing is rounded; n vertices and h holes give n + 2 h - 2."""
    vertices = {point for ring in shape.rings for point in ring}
    found = triangles(shape)
    assert all(len(triangle) == 3 and set(triangle) <= vertices for triangle in found)
    assert all(doubled_area(triangle) > 0 for triangle in found)
    assert sum(map(doubled_area, found)) == sum(map(doubled_area, shape.rings))


def test_slabs_run_from_left_to_right():
    """A frame is four rectangles; those of equal span that follow each other are one."""
    assert slabs(FRAME) == (Box(0, 0, 3, 10), Box(3, 0, 7, 3), Box(3, 7, 7, 10), Box(7, 0, 10, 10))
    assert slabs(ELL) == (Box(0, 0, 2, 5), Box(2, 0, 6, 2))
    assert slabs(SHAPES["box with a point along a side"]) == (Box(0, 0, 10, 10),)


@given(st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=3, max_size=12))
@settings(max_examples=60)
def test_the_hull_holds_every_point(points):
    """It is convex, counter-clockwise, on points given, and no point lies outside."""
    if shapely.MultiPoint(points).convex_hull.area == 0:
        points = [*points, (-99, 0), (99, 1), (0, 77)]
    hull = convex_hull(points)
    assert doubled_area(hull) > 0
    assert set(hull) <= set(points)
    for (x0, y0), (x1, y1) in edges(hull):
        assert all((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) >= 0 for x, y in points)


# Subtracting


def cells(polygons, reach):
    """Return how often each cell of a grid from -1 to reach is covered."""
    count = np.zeros((reach + 2, reach + 2), dtype=int)
    for polygon in polygons:
        for box in slabs(polygon):
            count[box.x0 + 1 : box.x1 + 1, box.y0 + 1 : box.y1 + 1] += 1
    return count


def left_over(shapes, cutters, reach):
    """Return the same by sets of cells."""
    kept = cells(map(polygon_of, shapes), reach) > 0
    return (kept & ~(cells(map(polygon_of, cutters), reach) > 0)).astype(int)


def rest_of(shapes, cutters, reach):
    """Return the cells of what `subtract` leaves of boxes."""
    return cells(subtract(*(list(map(polygon_of, boxes)) for boxes in (shapes, cutters))), reach)


def test_nothing_less_something_is_nothing():
    """So is a shape less itself, and a shape less nothing is itself."""
    assert subtract([], []) == ()
    assert subtract([], [FRAME]) == ()
    assert subtract([FRAME], [FRAME]) == ()
    assert subtract([ARROW], []) == (ARROW,)


def test_a_cut_through_leaves_two_and_a_cut_inside_a_hole():
    """What is left is disjoint and stands in one order."""
    through, inside = rect(4, -1, 2, 12), rect(3, 3, 4, 4)
    square = rect(0, 0, 10, 10)
    assert subtract([square], [through]) == (rect(0, 0, 4, 10), rect(6, 0, 4, 10))
    assert subtract([square], [inside]) == (Polygon(square.shell, (inside.shell,)),)


def test_what_stands_in_a_hole_is_found():
    """A post in the hole of a frame is a second polygon."""
    post = polygon_of(Box(4, 4, 6, 6))
    assert subtract([FRAME, post], []) == (FRAME, post)
    hole = polygon_of(Box(3, 3, 7, 7))
    assert subtract([polygon_of(Box(0, 0, 10, 10))], [*subtract([hole], [post])]) == (FRAME, post)


def test_overlapping_shapes_become_one_and_touching_sides_vanish():
    """Shapes that share a side are one polygon without that side."""
    left, right = polygon_of(Box(0, 0, 4, 3)), polygon_of(Box(4, 0, 9, 3))
    (both,) = subtract([left, right], [])
    assert both.is_box
    assert both.bounds == Box(0, 0, 9, 3)
    assert subtract([left, left], [right]) == (left,)


def test_boxes_that_meet_at_corners_close_off_ground():
    """Four boxes around a cell, meeting at corners only, keep that cell apart from the outside."""
    ring = [Box(2, 1, 3, 2), Box(1, 2, 2, 3), Box(3, 2, 4, 3), Box(2, 3, 3, 4)]
    left = subtract([polygon_of(Box(0, 0, 5, 5))], list(map(polygon_of, ring)))
    assert polygon_of(Box(2, 2, 3, 3)) in left
    assert sum(polygon.area for polygon in left) == 25 - 4
    assert rest_of([Box(0, 0, 5, 5)], ring, 5).tolist() == (
        left_over([Box(0, 0, 5, 5)], ring, 5).tolist()
    )
    assert rest_of(ring, [], 5).tolist() == left_over(ring, [], 5).tolist()


def test_two_boxes_that_meet_at_a_corner_are_two_polygons():
    """A pinched outline is parted where it touches itself."""
    two = subtract([polygon_of(Box(0, 0, 2, 2)), polygon_of(Box(2, 2, 4, 4))], [])
    assert two == (polygon_of(Box(0, 0, 2, 2)), polygon_of(Box(2, 2, 4, 4)))


def test_slanted_crossings_are_within_a_step():
    """Two slanted cuts cross between steps; what is left is off by less than a step there."""
    square, wedge = rect(0, 0, 10, 10), Polygon(((-MM, -MM), (11 * MM, 4 * MM), (11 * MM, -MM)))
    steep = Polygon(((3 * MM, -MM), (7 * MM, 11 * MM), (11 * MM, 11 * MM), (11 * MM, -MM)))
    rest = shapely.union_all([to_shapely(part) for part in subtract([square], [wedge, steep])])
    exact = to_shapely(square).difference(to_shapely(wedge)).difference(to_shapely(steep))
    assert rest.hausdorff_distance(exact) < 1
    assert rest.area == pytest.approx(exact.area, abs=30 * MM)


CORNERS = st.tuples(*4 * (st.integers(0, 6),)).filter(lambda c: c[0] != c[2] and c[1] != c[3])
BOXES = CORNERS.map(
    lambda c: Box(min(c[0], c[2]), min(c[1], c[3]), max(c[0], c[2]), max(c[1], c[3]))
)


@given(st.lists(BOXES, max_size=8))
@settings(max_examples=150)
def test_unions_of_boxes_cover_the_same_cells(shapes):
    """Disjoint, and every cell of any box once."""
    assert (rest_of(shapes, [], 6) == left_over(shapes, [], 6)).all()


FIVE_ZONES = [Box(1, 1, 7, 3), Box(0, 5, 3, 7), Box(5, 3, 8, 7), Box(1, 4, 6, 5), Box(1, 2, 4, 8)]


def test_ground_beside_zones_that_close_it_off_is_left():
    """Five zones that close off a cell between them leave that cell and all around them."""
    frame = Box(-1, -1, 9, 9)
    assert (rest_of([frame], FIVE_ZONES, 9) == left_over([frame], FIVE_ZONES, 9)).all()


@given(st.lists(BOXES, max_size=6), st.lists(BOXES, max_size=4))
@example([Box(0, 1, 3, 4), Box(0, 2, 3, 4), Box(0, 0, 1, 2)], [Box(0, 2, 4, 3), Box(0, 2, 3, 3)])
@example(
    [Box(2, 1, 4, 4), Box(2, 3, 3, 4), Box(0, 1, 4, 4), Box(1, 1, 4, 4)],
    [Box(3, 0, 4, 3), Box(0, 2, 1, 3), Box(1, 3, 3, 4)],
)
@settings(max_examples=200)
def test_the_rest_of_boxes_covers_the_same_cells(shapes, cutters):
    """Boxes less boxes, on a grid so coarse that many sides and corners coincide."""
    assert (rest_of(shapes, cutters, 6) == left_over(shapes, cutters, 6)).all()


def test_slanted_cutters_leave_whole_outlines():
    """Where several slanted sides all but meet in a point, what is left is still polygons."""
    corners = [
        ((0, 1), (6, 1), (6, 4)),
        ((1, 1), (5, 6), (3, 5), (1, 3)),
        ((4, 3), (6, 4), (6, 5)),
    ]
    cutters = [Polygon(tuple((x * MM, y * MM) for x, y in ring)) for ring in corners]
    square = rect(-5, -5, 20, 20)
    rest = shapely.union_all([to_shapely(part) for part in subtract([square], cutters)])
    exact = to_shapely(square).difference(shapely.union_all([to_shapely(c) for c in cutters]))
    assert rest.area == pytest.approx(exact.area, abs=100 * MM)


def test_shapes_that_share_a_side_are_united_without_spare_points():
    """Four squares around a missing one, and a bar above, are one polygon with one hole."""
    boxes = [Box(0, 0, 3, 1), Box(0, 1, 1, 2), Box(2, 1, 3, 2), Box(0, 2, 2, 3), Box(2, 2, 3, 3)]
    (whole,) = unite([polygon_of(box) for box in boxes])
    assert whole.shell == ((0, 0), (3, 0), (3, 3), (0, 3))
    assert [set(hole) for hole in whole.holes] == [{(1, 1), (1, 2), (2, 2), (2, 1)}]


def test_shapes_that_meet_in_a_point_stay_apart():
    """Two squares that touch corner to corner are two, and nothing united is nothing."""
    assert len(unite([polygon_of(Box(0, 0, 1, 1)), polygon_of(Box(1, 1, 2, 2))])) == 2
    assert unite([]) == ()
