"""Terrain: the liner, its relief and what lies on it, as shapes."""

import math
from dataclasses import replace
from fractions import Fraction
from functools import reduce

import pytest
from drawjobs import CASES
from ferry import MM, make_ferry_job, make_ferry_schedule
from shapely import Polygon as Shape
from shapely import symmetric_difference

from nesting.drawings.record import Area, Line
from nesting.drawings.terrain import (
    datum_shapes,
    frame_of,
    has_meetings,
    layout_layers,
    quarter_disc,
)
from nesting.drawings.view import View
from nesting.shapes.geometry import Box, polygon_of
from nesting.values.liner import KeepClear

VIEW = View(Fraction(10), 50, 60)


def shapes_of(job, layout, style, **options):
    """Return the shapes of one style, whatever their layer."""
    layers = layout_layers(job.liner, layout, VIEW, **options)
    return [shape for layer in layers for shape in layer.shapes if shape.style == style]


def area(shapes):
    """Return the ground the areas cover, rings counted even-odd [square mm of sheet]."""
    return sum(
        reduce(symmetric_difference, [Shape(ring) for ring in shape.rings]).area for shape in shapes
    )


@pytest.mark.parametrize("case", CASES)
def test_masked_panel_and_dam_areas_add_up_to_the_liner(case):
    """What is hatched, sprayed and under dams is the liner, each part as the account has it."""
    job, schedule = CASES[case]()
    layout = schedule.layouts[-1]
    square = (10 * MM) ** 2
    masked, panels, dams, liner = (
        area(shapes_of(job, layout, style)) for style in ("masked", "panel", "dam", "liner")
    )
    assert masked == pytest.approx(layout.areas.masked / square, rel=1e-4, abs=0.5)
    assert masked + panels + dams == pytest.approx(liner, rel=1e-4)
    assert liner == pytest.approx(layout.areas.liner / square, rel=1e-4)


def test_the_bare_liner_has_neither_panels_nor_masks():
    """For no layout only the liner, its zones and its ornaments are drawn."""
    layers = layout_layers(make_ferry_job().liner, None, VIEW)
    styles = {shape.style for layer in layers for shape in layer.shapes}
    assert styles == {"liner", "zone", "ornament", "rim"}


def test_panels_that_touch_at_a_corner_are_drawn_all_the_same():
    """Masked ground that meets itself in a point is no trouble."""
    job, layout = make_ferry_job(), make_ferry_schedule().layouts[0]
    first = replace(layout.panels[0], x=0, y=0, width=100 * MM, height=100 * MM)
    corner = replace(first, x=100 * MM, y=100 * MM)
    (masked,) = shapes_of(job, replace(layout, panels=(first, corner), dams=()), "masked")
    assert area([masked]) == pytest.approx(240 * 120 - 200)


def test_edge_sides_lie_just_inside_their_panel():
    """Panel A1 lies on the rim with its left and lower side; both have a line inside the panel."""
    lines = shapes_of(make_ferry_job(), make_ferry_schedule().layouts[0], "edge_side")
    room = VIEW.rect(Box(0, 0, 1500 * MM, 900 * MM))
    assert len(lines) == 2
    assert all(
        room.x0 < x < room.x1 and room.y0 < y < room.y1 for line in lines for x, y in line.points
    )
    assert (
        shapes_of(make_ferry_job(), make_ferry_schedule().layouts[0], "edge_side", details=False)
        == []
    )


def test_dams_that_meet_have_a_joint():
    """Dam 1 ends under dam 2: the meeting is the line they share; at a touching corner is none."""
    job, layout = make_ferry_job(), make_ferry_schedule().layouts[0]
    assert shapes_of(job, layout, "meeting") == [
        Line((VIEW.at((1500 * MM, 900 * MM)), VIEW.at((1525 * MM, 900 * MM))), "meeting")
    ]
    corner = replace(layout.dams[0], x=1525 * MM, y=925 * MM)
    apart = replace(layout, dams=(layout.dams[1], corner))
    assert has_meetings(layout)
    assert not has_meetings(apart)


def test_the_frame_holds_liner_and_datum():
    """Where the liner does not reach the datum, the frame does."""
    job = make_ferry_job()
    assert frame_of(job) == Box(0, 0, 2400 * MM, 1200 * MM)
    away = polygon_of(Box(100 * MM, 50 * MM, 500 * MM, 400 * MM))
    job = replace(job, liner=replace(job.liner, outline=away))
    assert frame_of(job) == Box(0, 0, 500 * MM, 400 * MM)


def test_the_datum_mark_points_at_the_datum():
    """A quarter disc lies below and left of the datum with its corner on it."""
    mark, words = datum_shapes(VIEW)
    assert isinstance(mark, Area)
    assert mark == quarter_disc((50, 60), 5.0)
    assert mark.rings[0][0] == (50, 60)
    assert all(x <= 50 and y <= 60 for x, y in mark.rings[0])
    assert words.words == "0,0"
    assert not words.rect.overlaps(VIEW.rect(Box(0, 0, 2400 * MM, 1200 * MM)))


def test_a_place_that_dams_keep_off_is_a_cross_in_a_dashed_rim():
    """The rim is the distance from it; where the liner has no such place nothing is drawn."""
    job = make_ferry_job()
    loop = KeepClear("loop", Box(500 * MM, 300 * MM, 500 * MM, 300 * MM), 40 * MM)
    assert shapes_of(job, None, "keep_clear") == []
    kept = replace(job, liner=replace(job.liner, keep_clear=(loop,)))
    (rim,) = shapes_of(kept, None, "keep_clear")
    xs, ys = zip(*rim.points, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (96, 104, 86, 94)
    assert all(abs(math.hypot(x - 100, y - 90) - 4) < 0.003 for x, y in rim.points)
    first, second = shapes_of(kept, None, "leader")
    assert first.points == ((99, 89), (101, 91))
    assert second.points == ((101, 89), (99, 91))
