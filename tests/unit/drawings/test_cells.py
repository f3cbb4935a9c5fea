"""Small drawings side by side: their grid, their scale, and numbers for small panels."""

from dataclasses import replace
from itertools import combinations

import pytest
from drawjobs import CASES

from nesting.drawings.cells import CAPTION, GAP, draw_cells, grid_on, list_numbers, number_marks
from nesting.drawings.record import Area, Rect, Text, bounds_of

GROUND = Rect(0, 0, 186, 120)


def test_cells_fill_their_ground_and_lie_apart():
    """Five cells in two columns: the rooms touch the ground's ends and are a gap apart."""
    rooms = [grid_on(GROUND, 2, 5).room(index) for index in range(5)]
    assert all(GROUND.grown(1e-9).holds(room) for room in rooms)
    assert not any(
        a.grown(GAP / 2).overlaps(b.grown(GAP / 2 - 1e-6)) for a, b in combinations(rooms, 2)
    )
    assert (rooms[0].x0, rooms[0].y1) == (0, 120)
    assert rooms[1].x1 == pytest.approx(186)
    assert rooms[4].y0 == pytest.approx(0)


def test_a_grid_too_low_has_no_room():
    """Captions alone take the ground."""
    assert not grid_on(GROUND._replace(y1=CAPTION), 1, 1).has_room
    assert grid_on(GROUND, 1, 1).has_room


def test_the_liner_fills_a_cell_one_way():
    """At its scale the liner is within its cell, and less than 5 % short of it."""
    job, schedule = CASES["ferry"]()
    grid = grid_on(GROUND, 2, 2)
    layers, wanting = draw_cells(job, schedule, grid, grid.scale(job), {})
    assert wanting == set()
    for index, layer in enumerate(layers):
        (liner,) = (s for s in layer.shapes if isinstance(s, Area) and s.style == "liner")
        assert grid.room(index).grown(1e-6).holds(bounds_of([liner]))
        assert bounds_of([liner]).width > grid.cell[0] / 1.05


def test_panels_too_small_for_their_marks_bear_numbers():
    """Of thirty bays in 89 mm some want a number; with numbers every panel is named."""
    job, schedule = CASES["crowded"]()
    grid = grid_on(GROUND, 2, 2)
    _, wanting = draw_cells(job, schedule, grid, grid.scale(job), {})
    numbers = number_marks(job, wanting)
    layers, still = draw_cells(job, schedule, grid, grid.scale(job), numbers)
    words = {text.words for text in layers[1].shapes if isinstance(text, Text)}
    marks = {panel.mark for panel in schedule.layouts[0].panels}
    assert len(wanting) > 3
    assert still == set()
    assert marks - words <= wanting
    assert {str(numbers[mark]) for mark in wanting} <= words


def test_numbers_follow_the_order_and_are_no_marks(job):
    """The first mark of the order has the first number that no panel is called by."""
    first, *_ = job.panels
    job = replace(job, panels=(first, replace(first, mark="1"), replace(first, mark="north")))
    assert number_marks(job, {"north", first.mark}) == {first.mark: 2, "north": 3}
    assert number_marks(job, set()) == {}


def test_a_key_shortens_what_is_too_long():
    """Both ends of a long mark stay."""
    (entry,) = list_numbers({"north side-light of the hall, second row, left": 12}, 70)
    assert entry.startswith("12: north")
    assert entry.endswith("left")
