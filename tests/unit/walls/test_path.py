"""Where a wall lies in plan: the walk, the panels' outlines, and whether it closes."""

import math

import pytest
from handjob import MM
from wallfiles import KIOSK, WALL, change_wall, load_wall

from nesting.walls.cladding import Corner, divide_wall
from nesting.walls.path import closing_gap, face_middle, panel_rings, turning, walk_axis


def area_mm2(ring):
    """Return the area of an outline by the shoelace rule."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2 / MM**2


def test_the_walk_turns_left_around_an_arc_toward_the_inner_side(tmp_path):
    """A wing of 1980 mm, then a quarter round about a centre 3100 mm to the left of the axis."""
    start, wing, end = walk_axis(load_wall(tmp_path))
    assert (start.x, start.y, start.heading) == (0, 0, 0)
    assert (wing.x / MM, wing.y / MM) == (1980, 0)
    assert (end.x / MM, end.y / MM) == pytest.approx((1980 + 3100, 3100))
    assert end.heading == pytest.approx(math.pi / 2)


def test_a_turn_toward_the_outer_side_goes_right(tmp_path):
    """The same arc toward the outer side mirrors its end; the axis radius is 2900 mm there."""
    text = change_wall(("angle = 90", 'angle = 90\ntoward = "outer"'))
    _, _, end = walk_axis(load_wall(tmp_path, text))
    assert (end.x / MM, end.y / MM) == pytest.approx((1980 + 2900, -2900))


def test_panels_in_plan_have_the_area_of_face_and_back(tmp_path):
    """A ring of an arc is its mean length times its thickness; a flat one a rectangle."""
    wall = load_wall(tmp_path)
    for stretch in divide_wall(wall):
        mean = 1.0
        if stretch.radius:
            back = stretch.radius + (1 if stretch.shape == "concave" else -1) * 25 * MM
            mean = (1 + back / stretch.radius) / 2
        for ring in panel_rings(wall, stretch):
            assert area_mm2(ring) == pytest.approx(mean * stretch.width / MM * 25, rel=3e-4)


def test_a_closed_square_closes_and_its_corners_are_mitred(tmp_path):
    """Four sides of 3 m; the outlines of its skin, corners closed, are 3 m square less the room."""
    wall = load_wall(tmp_path, KIOSK)
    assert closing_gap(wall) == pytest.approx(0, abs=1e-6)
    assert turning(wall) == pytest.approx(math.tau)
    legs = [s for s in divide_wall(wall) if isinstance(wall.parts[s.part], Corner)]
    assert len(legs) == 4
    for stretch in legs:
        for ring in panel_rings(wall, stretch):
            assert area_mm2(ring) == pytest.approx(20 * (250 + 230) / 2)


@pytest.mark.parametrize("text", [WALL, KIOSK], ids=["apse", "kiosk"])
def test_no_two_panels_overlap_in_plan(tmp_path, text):
    """Interiors of panels are apart: shapely finds no area shared."""
    from shapely import Polygon

    wall = load_wall(tmp_path, text)
    rings = [Polygon(ring) for s in divide_wall(wall) for ring in panel_rings(wall, s)]
    shared = [
        one.intersection(other).area / MM**2
        for index, one in enumerate(rings)
        for other in rings[:index]
    ]
    assert max(shared) < 0.01


def test_the_middle_of_a_face_looks_away_from_the_back(tmp_path):
    """The inner skin of the wing looks to the left, the outer one to the right."""
    wall = load_wall(tmp_path)
    inner, outer, *_ = divide_wall(wall)
    (x, y), away = face_middle(panel_rings(wall, inner)[0])
    assert (x / MM, y / MM) == pytest.approx((inner.width / 2 / MM, 100))
    assert away == pytest.approx((0, 1))
    assert face_middle(panel_rings(wall, outer)[0])[1] == pytest.approx((0, -1))


def test_the_middle_of_a_mitred_leg_looks_square_to_its_face(tmp_path):
    """The first corner return of the square looks down on one leg and right on the other."""
    wall = load_wall(tmp_path, KIOSK)
    legs = next(s for s in divide_wall(wall) if s.mark == "B")
    found = [face_middle(ring) for ring in panel_rings(wall, legs)]
    for (middle, away), spot, square in zip(
        found, [(2875, 0), (3000, 125)], [(0, -1), (1, 0)], strict=True
    ):
        assert (middle[0] / MM, middle[1] / MM) == pytest.approx(spot)
        assert away == pytest.approx(square)


def test_a_full_circle_of_one_panel_has_a_middle(tmp_path):
    """Its face begins and ends at one point; the middle is half a circle on."""
    text = change_wall(("angle = 90", "angle = 360"), ("panels = 4", "panels = 1"))
    text = text[: text.index("[[part]]")] + text[text.rindex("[[part]]") :]
    text = text.replace("radius = 3000", "radius = 500")
    wall = load_wall(tmp_path, text)
    (x, y), away = face_middle(panel_rings(wall, divide_wall(wall)[0])[0])
    assert (x / MM, y / MM) == pytest.approx((0, 600 + 500), abs=0.01)
    assert away == pytest.approx((0, -1), abs=1e-3)
