"""Slopes in layers: wide ones miss no place, narrow ones hold only real ones."""

import random
from itertools import product

import numpy as np
import pytest
import shapely
from handjob import MM, rect, sides
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.maps.ground import survey
from nesting.maps.layers import LayeredSheet, layer_map, layer_sheet
from nesting.maps.positions import Sheet, Wish, map_positions
from nesting.shapes.convex import joined, pieces_of_boxes, pieces_of_rings
from nesting.shapes.geometry import Box, Polygon, convex_hull
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner, Ornament

pytestmark = pytest.mark.long

RULES = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)
RAMP = pieces_of_rings([((0, 0), (20, 0), (0, 20))])


def sheet_of(pieces, domain=Box(0, 0, 30, 30)):  # noqa: B008  (a value, never changed)
    """Return a sheet with these pieces."""
    return Sheet(sides("lrbt"), domain, pieces)


def places(sheet):
    """Return every place of a small sheet."""
    return {spot for spot in product(range(-1, 32), repeat=2) if sheet.holds(*spot)}


@pytest.mark.parametrize("step", [1, 3, 7, 100])
@pytest.mark.parametrize("wide", [True, False])
def test_axis_parallel_ground_loses_and_gains_nothing(step, wide):
    """However high the layers are."""
    exact = sheet_of(pieces_of_boxes([Box(4, 5, 12, 13), Box(10, 9, 25, 21), Box(-5, 25, 9, 40)]))
    assert places(layer_sheet(exact, step, wide=wide)) == places(exact)


def test_a_ramp_in_layers_of_ten():
    """On the lines 0, 10, 20 both are exact; between, each takes one end of the layer for all.

    At y the ramp forbids every x with 0 < x and x + y < 20.
    """
    exact = sheet_of(RAMP)
    wide, narrow = (layer_sheet(exact, 10, wide=kind) for kind in (True, False))
    for y in (0, 10, 20, 30):
        assert wide.runs_at_y(y) == narrow.runs_at_y(y) == exact.runs_at_y(y)
    assert exact.runs_at_y(4) == [(0, 0), (16, 30)]
    assert wide.runs_at_y(4) == [(0, 0), (11, 30)]
    assert narrow.runs_at_y(4) == [(0, 0), (19, 30)]


def test_layers_of_one_step_are_exact():
    """Every line is a layer of its own."""
    exact = sheet_of(joined([RAMP, pieces_of_rings([((12, 25), (22, 9), (28, 27))])]))
    for wide in (True, False):
        assert places(layer_sheet(exact, 1, wide=wide)) == places(exact)


CORNERS = st.tuples(st.integers(-4, 34), st.integers(-4, 34))
RINGS = (
    st.lists(CORNERS, min_size=3, max_size=6, unique=True)
    .filter(lambda points: shapely.MultiPoint(points).convex_hull.area > 0)
    .map(convex_hull)
)


@given(st.lists(RINGS, min_size=1, max_size=4), st.integers(1, 15), st.booleans())
@settings(max_examples=60)
def test_real_places_lie_between_narrow_and_wide(rings, step, turned):
    """For any convex obstacles: narrow is within the exact places, and these are within wide."""
    exact = sheet_of(joined([pieces_of_rings(rings), pieces_of_boxes([Box(3, 3, 6, 9)])]))
    exact = exact.turned_over() if turned else exact
    wide, narrow = (layer_sheet(exact, step, wide=kind) for kind in (True, False))
    for y in range(-1, 32):
        inner, real, outer = (
            {x for a, b in sheet.runs_at_y(y) for x in range(a, b + 1)}
            for sheet in (narrow, exact, wide)
        )
        assert inner <= real <= outer


@given(st.lists(RINGS, min_size=1, max_size=3), st.integers(1, 12))
@settings(max_examples=40)
def test_narrow_layers_miss_only_what_is_near_a_slope(rings, step):
    """A place is kept when nothing slanted is within a layer's height above or below it."""
    narrow = layer_sheet(sheet_of(pieces_of_rings(rings)), step, wide=False)
    slopes = shapely.union_all([shapely.Polygon(ring) for ring in rings])
    for x, y in product(range(0, 31, 3), repeat=2):
        if not slopes.intersects(shapely.LineString([(x, y - step), (x, y + step)])):
            assert narrow.holds(x, y)


def slanted_liner():
    """Return a liner with leaves, a zone with a slanted rim, and a corner cut off."""
    outline = [(-40, 0), (560, 0), (600, 40), (600, 400), (-40, 400)]
    zones = [[(0, 0), (200, 0), (230, 400), (0, 400)], [(-40, 0), (600, 0), (600, 150), (-40, 210)]]
    leaves = [[(60, 250), (120, 240), (150, 300), (90, 330)], [(330, 40), (390, 55), (350, 110)]]

    def shape(ring):
        return Polygon(tuple((x * MM, y * MM) for x, y in ring))

    return Liner(
        "reeds",
        shape(outline),
        13 * MM,
        "detail",
        tuple(Ornament(f"leaf {k}", shape(ring)) for k, ring in enumerate(leaves)),
        (*(BlankZone(f"z{k}", shape(ring)) for k, ring in enumerate(zones)),
         BlankZone("far", rect(420, 0, 180, 400))),
    )  # fmt: skip


@pytest.mark.parametrize("step", [8 * MM, MM // 2])
@pytest.mark.parametrize("wish", [Wish(), Wish(hide=frozenset([1]))], ids=["", "hides"])
def test_maps_of_slanted_ground_lie_between_their_layers(step, wish):
    """At random places and at the ends of runs, where a step decides."""
    exact = map_positions(survey(slanted_liner(), RULES), 150 * MM, 120 * MM, wish)
    wide, narrow = (layer_map(exact, step, wide=kind) for kind in (True, False))
    pick = random.Random(1)
    spots = [(pick.randint(-60 * MM, 600 * MM), pick.randint(0, 400 * MM)) for _ in range(1500)]
    for sheet in exact.sheets:
        for _ in range(40):
            y = pick.randint(sheet.domain.y0, sheet.domain.y1)
            spots += [(x + d, y) for run in sheet.runs_at_y(y) for x in run for d in (-1, 0, 1)]
    held = [[m.sheet_at(*spot) is not None for spot in spots] for m in (narrow, exact, wide)]
    assert all(inner <= real <= outer for inner, real, outer in zip(*held, strict=True))
    assert any(held[0])
    assert not all(held[2])


def test_finer_layers_come_closer():
    """Between layers of 1/4 mm fewer places are in doubt than between those of 8 mm."""
    exact = map_positions(survey(slanted_liner(), RULES), 150 * MM, 120 * MM)

    def doubtful(step):
        wide, narrow = (layer_map(exact, step, wide=kind) for kind in (True, False))
        spots = product(range(-40 * MM, 600 * MM, 9 * MM + 11), range(0, 400 * MM, 11 * MM + 5))
        return sum(
            (wide.sheet_at(*s) is not None) != (narrow.sheet_at(*s) is not None) for s in spots
        )

    assert doubtful(MM // 4) < doubtful(8 * MM) / 4


def test_a_line_of_places_is_kept():
    """A domain that is a segment has one layer, and one that is a point has one place."""
    segment = layer_sheet(sheet_of(RAMP, Box(0, 5, 30, 5)), 8, wide=False)
    assert segment.boxes.tolist() == [[0, 5, 0, 5], [15, 5, 30, 5]]
    point = layer_sheet(sheet_of(RAMP, Box(25, 5, 25, 5)), 8, wide=False)
    assert point.boxes.tolist() == [[25, 5, 25, 5]]


def test_sheets_without_places_are_left_out():
    """Then the map is empty."""
    liner = Liner("reeds", rect(0, 0, 400, 300), 13 * MM, "detail")
    exact = map_positions(survey(liner, RULES), 100 * MM, 100 * MM)
    assert exact.sheets
    assert layer_map(exact, MM, wide=False).sheets == ()
    assert layer_map(exact, MM, wide=False).sheet_at(0, 0) is None


def test_a_layered_sheet_answers_like_any_other():
    """Runs are merged, ends are those of its boxes, the shadow is all x; turned over, y is x."""
    boxes = [[0, 0, 10, 4], [5, 4, 20, 9], [11, 0, 12, 4]]
    sheet = LayeredSheet(sides("lrbt"), Box(0, 0, 20, 9), np.array(boxes))
    assert sheet.runs_at_y(4) == [(0, 20)]
    assert sheet.runs_at_y(2) == [(0, 12)]
    assert sheet.runs_at_y(10) == []
    assert sorted(sheet.ends(far=False).tolist()) == [0, 5, 11]
    assert sorted(sheet.ends(far=True).tolist()) == [10, 12, 20]
    assert sheet.shadow() == [(0, 20)]
    turned = sheet.turned_over()
    assert turned.domain == Box(0, 0, 9, 20)
    assert turned.runs_at_y(7) == [(0, 9)]
    assert turned.runs_at_y(15) == [(4, 9)]
