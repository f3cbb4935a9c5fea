"""Candidates: finitely many places that are enough."""

import random
from itertools import product

import pytest
from handjob import MM, hand_job, sides
from smalljobs import CELL, small_job

from nesting.maps.candidates import find_candidates
from nesting.maps.ground import survey
from nesting.maps.positions import PositionMap, Sheet, map_positions
from nesting.maps.sizes import wish_of
from nesting.search.conflicts import find_points
from nesting.search.instance import Instance, Item
from nesting.search.pricing import Pricer
from nesting.search.solver import Deadline
from nesting.shapes.convex import pieces_of_boxes
from nesting.shapes.geometry import Box


def plain(width, height, frame, *obstacles):
    """Return the map of a panel on ground with these obstacles to its lower left corner."""
    x0, y0, x1, y1 = frame
    domain = Box(x0, y0, x1 - width, y1 - height)
    return PositionMap(width, height, (Sheet(sides("lrbt"), domain, pieces_of_boxes(obstacles)),))


def test_on_plain_ground_one_size_lies_in_rows_and_columns():
    """Panels 30 long with dams of 5 on 100: pushed left at 0 and 35, pushed right at 70 and 35.

    35 is the far end of the near half and the near end of the far half; up, one row at 0 or at 20,
    where the middle of the panel decides which.
    """
    frame = Box(0, 0, 100, 40)
    (places,) = find_candidates([plain(30, 20, frame)], 5, frame)
    assert places == ((0, 0), (0, 20), (35, 0), (35, 20), (70, 0), (70, 20))


def test_the_half_a_panel_leans_in_is_that_of_its_middle():
    """Panels 60 long with dams of 5 on 200: those at 65 lean left, those at 75 right.

    The left face of the panel at 75 lies left of the liner's middle, and the right face of the one
    at 65 lies right of it; each leans on a panel of its own half all the same. Upward likewise.
    """
    frame = Box(0, 0, 200, 40)
    (places,) = find_candidates([plain(60, 40, frame)], 5, frame)
    assert places == ((0, 0), (65, 0), (75, 0), (140, 0))
    upright = Box(0, 0, 40, 200)
    (places,) = find_candidates([plain(40, 60, upright)], 5, upright)
    assert places == ((0, 0), (0, 65), (0, 75), (0, 140))


def test_a_panel_alone_lies_in_the_corners():
    """Pushed from its half, along x as along y, nothing but the liner's ends stops it."""
    frame = Box(0, 0, 100, 40)
    (places,) = find_candidates([plain(80, 30, frame)], 5, frame)
    assert places == ((0, 0), (0, 10), (20, 0), (20, 10))


def test_places_are_stopped_by_obstacles():
    """A panel pushed left stops at the right face of a piece, one pushed right at the left face."""
    frame = Box(0, 0, 200, 10)
    wall = Box(10, -5, 40, 15)
    (places,) = find_candidates([plain(20, 10, frame, wall)], 5, frame)
    xs = {x for x, _ in places}
    assert {0, 40, 65, 180, 155} <= xs
    assert not xs & set(range(11, 40))


def test_a_place_needs_a_neighbour_that_can_stop_it():
    """A chain value is left out where the neighbour it comes from cannot lie beside it."""
    frame = Box(0, 0, 300, 100)
    low = PositionMap(30, 20, (Sheet(sides("lrbt"), Box(0, 0, 0, 0), pieces_of_boxes(())),))
    high = PositionMap(40, 20, (Sheet(sides("lrbt"), Box(0, 80, 60, 80), pieces_of_boxes(())),))
    first, second = find_candidates([low, high], 5, frame)
    assert first == ((0, 0),)
    assert second == ((0, 80), (45, 80))


def test_a_size_without_places_has_no_candidates():
    """The others keep theirs."""
    frame = Box(0, 0, 100, 40)
    none = PositionMap(30, 20, ())
    assert find_candidates([none], 5, frame) == ((),)
    found = find_candidates([none, plain(100, 40, frame)], 5, frame)
    assert found == ((), ((0, 0),))


def test_a_point_and_a_segment_are_kept():
    """Closed domains count, however thin."""
    frame = Box(0, 0, 100, 40)
    point = PositionMap(30, 20, (Sheet(sides("lrbt"), Box(7, 9, 7, 9), pieces_of_boxes(())),))
    assert find_candidates([point], 5, frame) == (((7, 9),),)
    line = PositionMap(30, 20, (Sheet(sides("lrbt"), Box(3, 9, 50, 9), pieces_of_boxes(())),))
    (places,) = find_candidates([line], 5, frame)
    assert {y for _, y in places} == {9}
    assert {3, 50} <= {x for x, _ in places}


def test_the_hand_sized_job_has_one_candidate_each():
    """No panel of it can move at all."""
    job = hand_job()
    assert candidates_of(job) == [{(0, 0)}, {(825 * MM, 0)}, {(0, 0)}]


def test_moving_the_ground_moves_the_candidates():
    """The halves are those of the liner, not of the plane."""
    frame, moved = Box(0, 0, 100, 40), Box(-370, 1000, -270, 1040)
    (here,) = find_candidates([plain(30, 20, frame)], 5, frame)
    (there,) = find_candidates([plain(30, 20, moved)], 5, moved)
    assert there == tuple((x - 370, y + 1000) for x, y in here)


def maps_of(job):
    """Return the job's ground and the map of each panel."""
    ground = survey(job.liner, job.rules)
    return ground, [
        map_positions(ground, panel.width, panel.height, wish_of(ground, panel))
        for panel in job.panels
    ]


def candidates_of(job):
    """Return the candidates of each panel."""
    ground, maps = maps_of(job)
    return [set(places) for places in find_candidates(maps, job.rules.dam_width, ground.frame)]


@pytest.mark.parametrize("kind", ["bands", "islands", "wishes", "corner", "hole"])
def test_candidates_are_places(kind):
    """Each is on its map, each once and in order, and a map with a place has a candidate."""
    for seed in range(20, 24):
        ground, maps = maps_of(small_job(kind, seed))
        for panel_map, places in zip(maps, find_candidates(maps, CELL, ground.frame), strict=True):
            assert places
            assert list(places) == sorted(set(places))
            assert all(panel_map.sheet_at(*place) for place in places)


def heaviest(sizes, places, prices, limits):
    """Return what the heaviest cast weighs that uses these places."""
    items = [Item(*size, 1, tuple(sorted(at))) for size, at in zip(sizes, places, strict=True)]
    instance = Instance(tuple(items))
    priced = Pricer(instance, find_points(instance)).heaviest(prices, limits, Deadline())
    assert priced.weight == priced.limit
    return priced.weight


@pytest.mark.parametrize("kind", ["bands", "islands", "corner", "hole"])
@pytest.mark.parametrize("seed", range(3))
def test_nothing_is_lost_on_axis_parallel_ground(kind, seed):
    """At any prices the heaviest cast of candidates weighs as much as that of all places."""
    pick = random.Random(seed)
    job = small_job(kind, 50 + seed, width=16, height=11, sizes=3)
    _, maps = maps_of(job)
    cells = list(product(range(0, 16 * CELL, CELL), range(0, 11 * CELL, CELL)))
    everywhere = [{spot for spot in cells if m.sheet_at(*spot)} for m in maps]
    sizes = [(m.width + CELL, m.height + CELL) for m in maps]
    found = candidates_of(job)
    assert all(few <= many for few, many in zip(found, everywhere, strict=True))
    for _ in range(3):
        prices = [pick.randint(1, 30) for _ in maps]
        limits = tuple(pick.randint(1, 3) for _ in maps)
        best = heaviest(sizes, everywhere, prices, limits)
        assert heaviest(sizes, found, prices, limits) == best
