"""Places on the backs of panels, and the rays through them."""

from fractions import Fraction

import pytest
from handjob import MM
from tiedwalls import HERON, cornered_wall, flat_wall, round_wall

from nesting.walls.backs import list_backs
from nesting.walls.cladding import divide_wall


def backs_of(wall, part=0):
    """Return the backs of both skins of a part."""
    stretches = divide_wall(wall)
    return (list_backs(wall, stretches, part, skin) for skin in ("inner", "outer"))


def test_backs_of_a_run_are_as_wide_as_its_faces():
    """A ray 100 mm along meets the outer back 100 mm from the right, seen from behind."""
    (inner,), (outer,) = backs_of(flat_wall())
    assert (inner.width, outer.width) == (800 * MM, 800 * MM)
    assert (inner.along(Fraction(100 * MM)), outer.along(Fraction(100 * MM))) == (
        100 * MM,
        700 * MM,
    )
    assert outer.ray(700 * MM) == 100 * MM


@pytest.mark.parametrize(("toward", "radii"), [("inner", (3025, 3175)), ("outer", (2975, 2825))])
def test_backs_of_an_arc_lie_in_the_cavity(toward, radii):
    """They differ by the cavity of 150 mm, and a back's length is its angle times its radius."""
    inner, outer = backs_of(round_wall(toward=toward))
    assert (inner[0].radius, outer[0].radius) == tuple(each * MM for each in radii)
    for back in (*inner, *outer):
        assert back.width == back.stretch.width * Fraction(back.radius, back.face_radius)
        assert back.ray(back.along(back.ends[0])) == back.ends[0]
    assert [back.number for back in outer] == [1, 2, 3]


def test_a_mitre_at_an_arris_moves_the_end_of_the_back():
    """Inside the right angle backs are 25 mm longer than faces, outside 25 mm shorter."""
    (inner,), (outer,) = backs_of(cornered_wall())
    # the axis is 1000 long, faces lie 100 and backs 75 beside it
    assert [float(each.width) / MM for each in (inner, outer)] == pytest.approx([925, 1075])
    assert [each.stretch.width / MM for each in (inner, outer)] == pytest.approx([900, 1100])
    (inner,), (outer,) = backs_of(cornered_wall(), 2)
    assert [float(each.width) / MM for each in (inner, outer)] == pytest.approx([925, 1075])
    assert inner.clear_ends(60 * MM)[0] - inner.face_ends[0] == pytest.approx(60 * MM, abs=1)


def test_a_corner_has_no_back():
    """Its legs, if it has any, face nothing across the cavity."""
    assert [list(each) for each in backs_of(cornered_wall(), 1)] == [[], []]


def test_ground_on_the_face_lies_behind_it_along_the_rays():
    """On a convex face of 3200 mm the back has 3175: 300 mm from the left is 297.65625 there."""
    _, outer = backs_of(round_wall())
    (x, y), *_ = outer[0].behind(HERON.rings[0])
    assert (x / MM, y / MM) == (300 * 3175 / 3200, 200)
