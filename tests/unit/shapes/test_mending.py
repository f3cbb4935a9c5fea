"""Nesting of rings, rings that meet themselves, cutting at the rim, zones without holes."""

import pytest
import shapely
from handjob import rect

from nesting.shapes.geometry import Polygon, to_shapely
from nesting.shapes.mending import (
    cut_to,
    fill,
    find_parents,
    holds_spots,
    is_simple,
    mend_ring,
    part_holes,
)

SQUARE = [(0.0, 0.0), (9e4, 0.0), (9e4, 9e4), (0.0, 9e4)]
INNER = [(1e4, 1e4), (5e4, 1e4), (5e4, 5e4), (1e4, 5e4)]
INMOST = [(2e4, 2e4), (3e4, 2e4), (3e4, 3e4)]
ASIDE = [(5e5, 0.0), (6e5, 0.0), (6e5, 9e4)]
EIGHT = [(0.0, 0.0), (9e4, 9e4), (9e4, 0.0), (0.0, 9e4)]


def test_the_parent_is_the_smallest_ring_around():
    """Not the largest; rings apart and the outermost have none."""
    assert find_parents([SQUARE, INMOST, ASIDE, INNER]) == [None, 3, None, 0]


def test_of_equal_rings_the_later_lies_in_the_earlier():
    """So a shape drawn twice by other means counts once."""
    assert find_parents([SQUARE, SQUARE[1:] + SQUARE[:1]]) == [None, 0]


def test_a_ring_holds_what_lies_on_it():
    """Its corners and its inside, not what is beyond."""
    assert holds_spots(SQUARE, [*SQUARE, (4e4, 4e4)])
    assert not holds_spots(SQUARE, [(4e4, 4e4), (1e5, 4e4)])


def test_a_crossed_ring_is_not_simple():
    """A figure of eight meets itself."""
    assert is_simple(SQUARE)
    assert not is_simple(EIGHT)


def test_all_a_crossed_ring_encloses_is_held_outward():
    """One polygon around both halves of an eight, moved outward."""
    (found,) = mend_ring(EIGHT, 400.0, outward=True)
    lower = [(0.0, 0.0), (45e3, 45e3), (0.0, 9e4)]
    upper = [(9e4, 9e4), (45e3, 45e3), (9e4, 0.0)]
    halves = shapely.MultiPolygon([shapely.Polygon(lower), shapely.Polygon(upper)])
    assert to_shapely(found).covers(halves.buffer(399))


def test_a_crossed_ring_gives_its_halves_inward():
    """Two polygons within the halves of an eight, moved inward."""
    found = mend_ring(EIGHT, 400.0, outward=False)
    assert len(found) == 2
    assert all(part.area < 9e4 * 9e4 / 4 for part in found)


def test_nothing_may_be_left_inward():
    """A ring thinner than twice the way inward has no ground to give."""
    assert (
        mend_ring([(0.0, 0.0), (9e4, 0.0), (9e4, 500.0), (0.0, 500.0)], 400.0, outward=False) == ()
    )


def test_a_polygon_is_cut_at_the_rim():
    """The parts on the ground are kept, the largest first."""
    ground = Polygon(rect(0, 0, 100, 100).shell, (rect(40, 0.5, 10, 99).shell,))
    parts = cut_to(rect(20, 20, 200, 10), ground)
    assert [part.bounds for part in parts] == [
        rect(50, 20, 50, 10).bounds,
        rect(20, 20, 20, 10).bounds,
    ]
    assert cut_to(rect(300, 0, 5, 5), ground) == ()


@pytest.mark.parametrize("holes", [1, 3])
def test_parts_without_holes_fill_the_same_ground(holes):
    """They are as large together, none has a hole, and they do not overlap."""
    rings = tuple(rect(10 + 20 * number, 10 + 5 * number, 10, 10).shell for number in range(holes))
    whole = Polygon(rect(0, 0, 100, 50).shell, rings)
    parts = part_holes(whole)
    assert all(not part.holes for part in parts)
    assert sum(part.area for part in parts) == whole.area
    assert shapely.unary_union([to_shapely(part) for part in parts]).equals(to_shapely(whole))


def test_a_filled_polygon_has_no_holes():
    """Its shell stays."""
    assert fill(Polygon(rect(0, 0, 9, 9).shell, (rect(1, 1, 2, 2).shell,))) == rect(0, 0, 9, 9)
