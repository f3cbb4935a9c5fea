"""The title strip and its scale bar."""

from fractions import Fraction

import pytest

from nesting.drawings.record import Area, Line, Rect, Text, bounds_of
from nesting.drawings.strip import draw_strip
from nesting.drawings.view import View

STRIP = Rect(10, 10, 410, 40)
ROWS = [["Ferry terminal", "Layout 1 of 3", "Cast 7 times"], ["Liner reeds", "Bed table"], ["A3"]]


def texts(shapes):
    """Return the texts among the shapes."""
    return [shape for shape in shapes if isinstance(shape, Text)]


@pytest.mark.parametrize(
    ("units", "scale", "words"),
    [
        ("mm", "10", "50 mm on paper, 500 mm on the liner"),
        ("mm", "83/10", "50 mm on paper, 415 mm on the liner"),
        ("in", "12", "2 in on paper, 24 in on the liner"),
        ("in", "33/4", "2 in on paper, 16 1/2 in on the liner"),
    ],
)
def test_the_bar_is_as_long_as_it_says(units, scale, words):
    """Its parts join without gaps and are together 50 mm or 2 in long, as its words say."""
    shapes = draw_strip(STRIP, ROWS, View(Fraction(scale), 0, 0), units)
    parts = [shape for shape in shapes if isinstance(shape, Area)]
    assert [text.words for text in texts(shapes) if "on paper" in text.words] == [words]
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


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_words_touch_no_line_between_rows(count):
    """Letters that hang and rise stay between the lines, in up to four rows of 24 mm."""
    strip = STRIP._replace(y1=STRIP.y0 + 24)
    shapes = draw_strip(strip, [["gj|(A", "Ägb"]] * count, None, "mm")
    lines = {shape.points[0][1] for shape in shapes if isinstance(shape, Line)} - {strip.y0}
    assert len(texts(shapes)) == 2 * count
    for text in texts(shapes):
        room = text.rect.grown(-0.01)
        assert not any(room.y0 < y < room.y1 for y in lines)
        assert strip.holds(room)
