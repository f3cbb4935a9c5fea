"""The strip: nothing leaves it, whatever is written in it."""

import pytest
from printtime import STAMP

from nesting.drawings.record import Rect, Text, bounds_of
from nesting.templates.tiles import lay_grid
from nesting.templates.tilestrip import FOOT, MIRRORED_FOOT, Said, draw_tile_strip


def strip(width=165.0, rows=1, columns=1, mirrored=False, cell=(0, 0), **said):
    """Return the ground and the shapes of a strip."""
    place = Rect(10, 10, 10 + width, 10 + (MIRRORED_FOOT if mirrored else FOOT))
    grid = lay_grid(Rect(0, 0, 174 * columns, 227 * rows), 190, 243, 16)
    usual = {"title": "Bath house, foyer", "notes": ("Flat liner measures.",), "units": "mm"}
    words = Said(subject="Dam 2 of layout 1", mirrored=mirrored, stamp=STAMP.words, **usual | said)
    return place, draw_tile_strip(place, words, grid, tuple(grid.cells), cell)


@pytest.mark.parametrize("width", [165.0, 190.0, 1200.0])
@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("grid", [(1, 1), (14, 6), (1, 200), (150, 1)])
def test_everything_stays_inside(width, mirrored, grid):
    """From the narrowest strip to the widest, one tile or two hundred."""
    place, shapes = strip(width, *grid, mirrored=mirrored, cell=(grid[0] - 1, grid[1] - 1))
    assert all(place.grown(0.001).holds(bounds_of([shape])) for shape in shapes)


def test_a_long_title_is_shortened():
    """Both of its ends stay."""
    place, shapes = strip(title="Ferry terminal " * 20)
    words = [shape.words for shape in shapes if isinstance(shape, Text)]
    assert any(each.startswith("Ferry") and "..." in each for each in words)
    assert all(place.holds(shape.rect) for shape in shapes if isinstance(shape, Text))


def test_it_says_how_to_print_and_how_to_join():
    """Every sheet can be used without the terminal's words."""
    shapes = strip(units="in")[1]
    words = " ".join(shape.words for shape in shapes if isinstance(shape, Text))
    for part in (
        "In inches.",
        "100 %",
        "no fit to page",
        "measure the bar",
        "cross on cross",
        "dashed joins",
    ):
        assert part in words


def test_a_second_note_takes_the_title_s_line():
    """Warmth and shrinkage are said on the sheet; the title goes up beside the subject."""
    place = Rect(10, 10, 200, 10 + FOOT)
    grid = lay_grid(Rect(0, 0, 100, 100), 190, 243, 16)
    said = Said(
        "Foyer",
        "Layout 1",
        ("Flat.", "Panels are cast larger."),
        "mm",
        mirrored=False,
        stamp=STAMP.words,
    )
    shapes = draw_tile_strip(place, said, grid, ((0, 0),), (0, 0))
    words = [shape.words for shape in shapes if isinstance(shape, Text)]
    assert {"Layout 1, Foyer", "Flat.", "Panels are cast larger.", f"Drawn {STAMP.words}."} <= set(
        words
    )
