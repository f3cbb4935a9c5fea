"""Whether a point keeps clear of ground, and how far it must move at least."""

import pytest
from handjob import MM
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon
from tiedwalls import HERON, pond

from nesting.walls.clearing import Forbidden


@pytest.mark.parametrize(
    ("x", "y", "short"),
    [(260, 300, 0), (261, 300, 1), (560, 300, 0), (400, 160, 0), (400, 640, 0), (310, 400, 50)],
)
def test_a_point_beside_a_side_is_measured_square_to_it(x, y, short):
    """40 mm from the heron is allowed, a millimetre nearer is not; inside the way out counts."""
    found = HERON.shortfall((x * MM, y * MM), 40 * MM)
    assert (found > 0) == (short > 0)
    assert found <= short * MM <= found + 1


def test_a_point_off_a_corner_is_measured_to_the_corner():
    """3, 4 and 5: 30 beside and 40 below the corner is 50 away."""
    ground = pond("pond", 0, 0, 10, 10)
    assert ground.shortfall((-30 * MM, -40 * MM), 50 * MM) == 0
    assert ground.shortfall((-30 * MM, -40 * MM + 1), 50 * MM) > 0


def test_a_hole_in_the_ground_is_free():
    """The middle of a ring 100 mm wide inside may hold an insert that needs 50 mm, no more."""
    shell, hole = pond("", 0, 0, 300, 300).rings[0], pond("", 100, 100, 100, 100).rings[0]
    ring = Forbidden("ring", (shell, hole))
    assert ring.shortfall((150 * MM, 150 * MM), 50 * MM) == 0
    assert ring.shortfall((150 * MM, 150 * MM), 51 * MM) > 0
    assert ring.shortfall((50 * MM, 150 * MM), 0) > 0


@given(
    st.lists(st.tuples(st.integers(0, 999), st.integers(0, 999)), min_size=3, max_size=7),
    st.tuples(st.integers(-300, 1300), st.integers(-300, 1300)),
    st.integers(1, 400),
)
def test_the_verdict_is_that_of_a_second_library(ring, point, distance):
    """Clear or not as shapely says, touching aside; and no farther move is asked than is needed."""
    shape = Polygon(ring)
    if not shape.is_valid or not shape.area:
        return
    far = shape.distance(Point(point))
    found = Forbidden("pond", (tuple(ring),)).shortfall(point, distance)
    if abs(far - distance) > 1e-6:
        assert (found == 0) == (far > distance)
    if far:
        assert found <= max(1, distance - far + 1)
