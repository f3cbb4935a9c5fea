"""Position maps as shapes."""

from dataclasses import replace
from itertools import product

import shapely
from handjob import MM, hand_job, hand_liner, rect

from nesting.maps.ground import survey
from nesting.maps.places import outline_places
from nesting.maps.positions import PositionMap, Sheet, map_positions
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.casts import Sides
from nesting.values.liner import Ornament

RULES = hand_job().rules


def places_of(liner, width, height):
    """Return the places of a size in mm."""
    return outline_places(map_positions(survey(liner, RULES), width * MM, height * MM))


def bare(**changes):
    """Return blank ground of 1200 x 800 mm without ornament."""
    return replace(hand_liner(), unmarked="blank", zones=(), ornaments=(), **changes)


def test_bare_ground_gives_the_whole_domain_and_the_rims():
    """With dams all around the corner runs from 25 mm to what size and dam leave."""
    places = places_of(bare(), 400, 300)
    assert places.areas == (rect(25, 25, 750, 450),)
    lows = {stretch for stretch in places.stretches if stretch[0][1] == 0 == stretch[1][1]}
    assert ((25 * MM, 0), (775 * MM, 0)) in lows


def test_a_place_without_width_is_a_stretch():
    """A1 has one place only: a stretch that is a point."""
    places = places_of(hand_liner(), 800, 650)
    assert places.areas == ()
    assert ((0, 0), (0, 0)) in places.stretches


def test_a_slanted_ornament_is_left_out_along_its_slope():
    """The area lost to a triangle is less than that lost to the box around it."""
    triangle = Polygon(((600 * MM, 300 * MM), (700 * MM, 300 * MM), (600 * MM, 400 * MM)))
    box = polygon_of(triangle.bounds)
    areas = [
        sum(
            p.area
            for p in places_of(
                replace(bare(), ornaments=(Ornament("leaf", shape),)), 100, 100
            ).areas
        )
        for shape in (triangle, box)
    ]
    assert areas[0] > areas[1] > 0


def polygon_mm(*points):
    """Return a polygon of points in mm."""
    return Polygon(tuple((x * MM, y * MM) for x, y in points))


def test_the_outline_of_places_beside_slopes_is_that_of_the_map():
    """At every spot of a lattice the areas say what the map says, whatever way a slope runs."""
    leaves = (
        polygon_mm((300, 150), (420, 170), (480, 300), (280, 330)),
        polygon_mm((700, 350), (820, 290), (760, 500)),
    )
    liner = replace(bare(), ornaments=tuple(Ornament(f"leaf {n}", o) for n, o in enumerate(leaves)))
    panel_map = map_positions(survey(liner, RULES), 100 * MM, 120 * MM)
    shape = shapely.union_all(
        [shapely.Polygon(a.shell, a.holes) for a in outline_places(panel_map).areas]
    )
    seen = set()
    for x, y in product(range(30, 1070, 13), range(30, 650, 13)):
        spot = x * MM + 321, y * MM + 123
        held = panel_map.sheet_at(*spot) is not None
        assert shape.contains(shapely.Point(spot)) == held, spot
        seen.add(held)
    assert seen == {True, False}


def test_a_gap_without_width_is_not_lost():
    """Two posts that leave a panel exactly its room: a sliver two steps wide."""
    posts = (Ornament("a", rect(0, 0, 100, 800)), Ornament("b", rect(562, 0, 100, 800)))
    places = places_of(replace(bare(), ornaments=posts), 400, 300)
    assert any(area.bounds.x0 == 131 * MM - 1 and area.bounds.width == 2 for area in places.areas)


def test_a_piece_rounded_until_it_has_no_area_cuts_nothing():
    """A needle two steps high, drawn one step small, is none."""
    needle = Polygon(((600 * MM, 300 * MM), (700 * MM, 300 * MM + 1), (600 * MM, 300 * MM + 2)))
    ground = survey(replace(bare(), ornaments=(Ornament("needle", needle),)), RULES)
    pieces = ground.ornaments[0]
    sheet = Sheet(Sides(*("dam",) * 4), Box(0, 0, 1000 * MM, 800 * MM), pieces)
    places = outline_places(PositionMap(0, 0, (sheet,)))
    assert places.areas == (polygon_of(sheet.domain),)
