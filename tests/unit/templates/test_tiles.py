"""Tiles: their grid, their cores, which are needed, and the crosses that join them."""

import itertools

import pytest

from nesting.drawings.record import Rect
from nesting.templates.tiles import (
    choose_cells,
    count_windows,
    cross_spots,
    lay_grid,
    tile_name,
)

GRID = lay_grid(Rect(0.5, 0.25, 500.25, 300), 190, 240, 16)


def test_sheets_are_named_by_row_and_column():
    """Counted from 1, with the word of their kind, so that no sheet is taken for a panel."""
    assert [tile_name((row, 2)) for row in (0, 25)] == ["sheet 1-3", "sheet 26-3"]


def test_the_grid_starts_at_the_upper_left_on_whole_mm():
    """Windows of 190 x 240 mm that share 16 mm: three columns, two rows."""
    assert (GRID.x0, GRID.y1, GRID.rows, GRID.columns) == (0, 300, 2, 3)
    assert GRID.window((0, 0)) == Rect(0, 60, 190, 300)
    assert GRID.window((1, 2)) == Rect(348, -164, 538, 76)


def test_cores_part_the_ground():
    """Neighbouring cores share a side in the middle of the overlap; outer ones reach the end."""
    assert GRID.core((0, 0)) == Rect(0, 68, 182, 300)
    assert GRID.core((0, 1)) == Rect(182, 68, 356, 300)
    assert GRID.core((1, 2)) == Rect(356, -164, 538, 68)
    area = sum(GRID.core(cell).width * GRID.core(cell).height for cell in GRID.cells)
    assert area == 538 * (300 + 164)


@pytest.mark.parametrize(
    ("extent", "count"), [(0, 1), (100, 1), (100.1, 2), (190, 2), (190.1, 3), (1000, 11)]
)
def test_windows_are_as_few_as_show_the_extent(extent, count):
    """Windows of 100 that share 10 add 90 each after the first."""
    assert count_windows(extent, 100, 10) == count


def test_only_cells_with_a_line_in_their_core_are_needed():
    """A line along the upper rim needs the upper row; where it ends early, only that far."""
    assert choose_cells(GRID, [[(1, 290), (499, 290)]]) == (((0, 0), (0, 1), (0, 2)), ())
    assert choose_cells(GRID, [[(1, 290), (181, 290)]]) == (((0, 0),), ())


def test_a_line_in_the_overlap_needs_one_sheet_only():
    """What both neighbours would show is needed on the one whose core holds it."""
    assert choose_cells(GRID, [[(178, 200), (178, 250)]]) == (((0, 0),), ())
    assert choose_cells(GRID, [[(182, 200), (182, 250)]]) == (((0, 1),), ())
    assert choose_cells(GRID, [[(20, 68), (30, 68)]]) == (((1, 0),), ())


def test_a_slanted_line_needs_the_cells_it_crosses_and_no_other():
    """Cells beside the diagonal's way are left out."""
    cells, bridges = choose_cells(GRID, [[(10, 290), (530, -150)]])
    assert cells == ((0, 0), (0, 1), (1, 1), (1, 2))
    assert bridges == ()


def test_islands_are_joined():
    """Two lines far apart get the sheet between them, named as without a line."""
    lines = [[(10, 290), (20, 290)], [(400, 290), (420, 290)]]
    assert choose_cells(GRID, lines) == (((0, 0), (0, 1), (0, 2)), ((0, 1),))
    assert choose_cells(GRID, []) == ((), ())


def test_crosses_stand_where_joins_meet_and_at_their_ends():
    """Each join has a cross near the grid's end and one where it meets another join."""
    spots = cross_spots(GRID)
    assert {(182, 68), (356, 68), (182, 288), (182, -152), (12, 68), (526, 68)} <= set(spots)
    assert all(x in (182, 356) or y == 68 for x, y in spots)
    assert cross_spots(lay_grid(Rect(0, 0, 100, 100), 190, 240, 16)) == ()


def test_a_long_join_has_crosses_between():
    """No two crosses along a join are more than 300 mm apart."""
    grid = lay_grid(Rect(0, 0, 4000, 1500), 4900, 860, 16)
    xs = sorted(x for x, _ in cross_spots(grid))
    assert xs[0] == 12
    assert xs[-1] == 4900 - 12
    assert all(0 < b - a <= 300 for a, b in itertools.pairwise(xs))
