"""The title strip and its scale bar."""

from fractions import Fraction

import pytest

from nesting.drawings.record import Area, Rect, Text, bounds_of
from nesting.drawings.strip import bar_length, draw_strip
from nesting.drawings.view import View

STRIP = Rect(10, 10, 410, 40)
ROWS = [["Ferry terminal", "Layout 1 of 3", "Cast 7 times"], ["Liner reeds", "Bed table"], ["A3"]]


def texts(shapes):
    """Return the texts among the shapes."""
    return [shape for shape in shapes if isinstance(shape, Text)]


@pytest.mark.parametrize(
    ("units", "scale", "length", "parts"),
    [
        ("mm", "1", 50, 5),
        ("mm", "5/2", 100, 5),
        ("mm", "5", 200, 4),
        ("mm", "10", 500, 5),
        ("mm", "20", 1000, 5),
        ("mm", "50", 2000, 4),
        ("in", "1", 2, 2),
        ("in", "8", 12, 4),
        ("in", "12", 24, 4),
        ("in", "48", 60, 5),
    ],
)
def test_the_bar_has_a_round_length_and_fits(units, scale, length, parts):
    """The bar is the longest round length that takes at most 60 mm of paper."""
    assert bar_length(View(Fraction(scale), 0, 0), units) == (length, parts)


@pytest.mark.parametrize(("units", "scale"), [("mm", 10), ("in", 12)])
def test_the_bar_is_as_long_as_it_says(units, scale):
    """Its parts join without gaps and are together as long on paper as its words say."""
    shapes = draw_strip(STRIP, ROWS, View(Fraction(scale), 0, 0), units)
    parts = [shape for shape in shapes if isinstance(shape, Area)]
    words = [text.words for text in texts(shapes) if "on paper" in text.words]
    assert words == [
        {"mm": "500 mm on the liner, 50 mm on paper", "in": "24 in on the liner, 2 in on paper"}[
            units
        ]
    ]
    assert bounds_of(parts).width == pytest.approx({"mm": 50, "in": 50.8}[units], abs=0.002)
    ends = [(bounds_of([part]).x0, bounds_of([part]).x1) for part in parts]
    assert [end for _, end in ends[:-1]] == [start for start, _ in ends[1:]]
    assert {part.style for part in parts} == {"bar", "gap"}


@pytest.mark.parametrize("width", [277, 400, 800])
@pytest.mark.parametrize("title", ["A", "Ferry terminal, waiting hall", "W" * 200])
def test_texts_stay_in_the_strip_and_apart(width, title):
    """However long the title, the strip's texts stay inside it and do not overlap."""
    strip = STRIP._replace(x1=10 + width)
    rows = [
        [title, *ROWS[0][1:]],
        [title, title, "Idle 53.1 %"],
        ["Scale 1:10 on A3", "Figures in mm"],
    ]
    rects = [text.rect for text in texts(draw_strip(strip, rows, View(Fraction(10), 0, 0), "mm"))]
    assert all(strip.holds(rect) for rect in rects)
    assert not any(a.overlaps(b) for n, a in enumerate(rects) for b in rects[:n])


def test_short_cells_are_written_whole():
    """Only what does not fit is shortened: a long title leaves the other cells whole."""
    shapes = draw_strip(STRIP, [["W" * 200, *ROWS[0][1:]], ["A3"]], View(Fraction(10), 0, 0), "mm")
    words = [text.words for text in texts(shapes)]
    assert words[1:3] == ["Layout 1 of 3", "Cast 7 times"]
    assert "..." in words[0]
