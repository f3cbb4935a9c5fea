"""Sheets: which way the paper lies, and what margins and overlap must leave of it."""

import pytest

from nesting.drawings.papers import find_paper
from nesting.drawings.record import Rect
from nesting.errors import InputError
from nesting.templates.sheets import PaperChoice, tile_lines


def setting(paper="a4", margin=10.0, overlap=16.0, foot=34.0, way=None):
    """Return a setting a little unlike the usual one."""
    return PaperChoice(find_paper(paper), margin, overlap, foot, way)


def box(width, height):
    """Return the lines around a box."""
    return [((0, 0), (width, 0), (width, height), (0, height), (0, 0))]


def test_window_and_strip_fill_the_sheet_within_its_margins():
    """On A4 with 10 mm margins a window is 190 x 243 mm above a strip of 34 mm."""
    tiling = tile_lines(box(100, 100), setting())
    assert (tiling.width, tiling.height) == (210, 297)
    assert tiling.window_place == Rect(10, 44, 200, 287)
    assert tiling.strip_place == Rect(10, 10, 200, 44)
    assert tiling.cells == ((0, 0),)


@pytest.mark.parametrize(
    ("size", "way"), [((1000, 25), "landscape"), ((25, 900), "portrait"), ((100, 100), "portrait")]
)
def test_the_paper_lies_the_way_that_takes_fewer_sheets(size, way):
    """A long dam runs along the sheets."""
    tiling = tile_lines(box(*size), setting())
    assert (tiling.width > tiling.height) == (way == "landscape")


def test_a_way_that_is_asked_for_is_kept():
    """Even where it takes more sheets."""
    free, bound = (tile_lines(box(1000, 25), setting(way=way)) for way in (None, "portrait"))
    assert bound.width < bound.height
    assert len(bound.cells) > len(free.cells)


def test_a_line_of_1000_mm_takes_four_sheets_of_a4():
    """Four windows of 277 mm that share 16 mm show 1060 mm."""
    assert len(tile_lines(box(1000, 25), setting()).cells) == 4


def test_a_sheet_of_a_roll_is_as_long_as_it_must_be():
    """A liner of 2400 x 1200 mm takes two sheets of 914 mm wide paper, 2430 mm long."""
    tiling = tile_lines(box(2400, 1200), setting("roll:914mm"))
    assert (tiling.width, tiling.height, len(tiling.cells)) == (2430, 914, 2)


def test_a_long_template_splits_the_roll_into_sheets_alike():
    """12 m take three sheets, each below 5 m."""
    tiling = tile_lines(box(12_000, 500), setting("roll:914mm"))
    assert len(tiling.cells) == 3
    assert 4000 < tiling.width < 5000
    assert tiling.grid.window((0, 2)).x1 >= 12_000


@pytest.mark.parametrize("margin", [23, 50, 105, 400])
def test_margins_must_leave_room_for_the_strip(margin):
    """The message names the margin, the paper and what must be left."""
    match = (
        f"--margin: margins must leave 165 mm .* got {margin} mm on A4 .*smaller margins or larger"
    )
    with pytest.raises(InputError, match=match):
        tile_lines(box(100, 100), setting(margin=float(margin), way="portrait"))


@pytest.mark.parametrize("overlap", [0, 7.9, 96, 1000])
def test_an_overlap_must_hold_a_cross_and_leave_half_a_window(overlap):
    """The limits are in the message."""
    match = f"--overlap: must be 8 mm or more and at most half .* 95 mm, got {overlap} mm"
    with pytest.raises(InputError, match=match):
        tile_lines(box(100, 100), setting(overlap=float(overlap), way="portrait"))


@pytest.mark.parametrize("size", [(4000, 3000), (30_000, 30_000)])
def test_too_many_sheets_are_refused_with_advice(size):
    """More than 200 sheets are no template anyone lays."""
    grid = [((x, 0), (x, size[1])) for x in range(0, size[0], 100)]
    match = "at most 200 sheets, got [0-9]+ sheets of A4; take larger paper or a roll"
    with pytest.raises(InputError, match=match):
        tile_lines(grid, setting())
