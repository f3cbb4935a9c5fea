"""Sheets of a template: art through the window, crosses on both sides, words clear of words."""

from itertools import combinations, pairwise

import pytest
from handjob import hand_job
from templates import draw, hand_layout, hand_template, long_dam_template, tile

from nesting.drawings.record import Area, Line, Rect, Text, bounds_of
from nesting.templates.content import dam_template
from nesting.templates.fullsize import FullSize
from nesting.templates.tiledrawing import draw_tiles
from nesting.templates.tilestrip import Said

TEMPLATES = {
    "layout": lambda: draw(hand_template()),
    "mirrored": lambda: draw(hand_template(FullSize(mirrored=True)), mirrored=True),
    "long dam": lambda: draw(long_dam_template()),
    "letter": lambda: draw(hand_template(), "letter"),
    "a1": lambda: draw(hand_template(), "a1"),
    "roll": lambda: draw(hand_template(), "roll:914mm"),
}


@pytest.fixture(params=TEMPLATES)
def sheets(request):
    """Return the tiling and the sheets of one template."""
    return TEMPLATES[request.param]()


def layer(drawing, name):
    """Return a layer by its name."""
    return next(each for each in drawing.layers if each.name == name)


def test_every_sheet_shows_its_part_of_one_picture(sheets):
    """Art is the same on every sheet, shifted so that the tile's window comes into place."""
    tiling, drawings = sheets
    assert len(drawings) == len(tiling.cells)
    for cell, drawing in zip(tiling.cells, drawings, strict=True):
        art, window = layer(drawing, "art"), tiling.grid.window(cell)
        assert art.shapes is layer(drawings[0], "art").shapes
        assert art.window == tiling.window_place
        assert window.x0 + art.origin[0] == pytest.approx(art.window.x0)
        assert window.y1 + art.origin[1] == pytest.approx(art.window.y1)


def test_all_ink_is_within_the_margins(sheets):
    """Nothing is printed where a printer cannot reach."""
    tiling, drawings = sheets
    margin = tiling.setting.margin
    room = Rect(0, 0, tiling.width, tiling.height).grown(-margin + 0.001)
    for drawing in drawings:
        loose = [shape for each in drawing.layers[1:] if not each.window for shape in each.shapes]
        assert all(room.holds(bounds_of([shape])) for shape in loose)


def test_no_words_overlap(sheets):
    """Words of a sheet are clear of each other."""
    _, drawings = sheets
    for drawing in drawings:
        texts = [text for each in drawing.layers if not each.window for text in each.shapes]
        rects = [text.rect.grown(-0.05) for text in texts if isinstance(text, Text)]
        assert not any(a.overlaps(b) for a, b in combinations(rects, 2))


def test_every_sheet_has_its_name_its_order_and_its_bars(sheets):
    """The bars are 100 mm and 4 in long, ink to ink."""
    tiling, drawings = sheets
    for number, drawing in enumerate(drawings, start=1):
        words = [text.words for text in drawing.texts]
        assert drawing.name.removeprefix("template-") in words
        assert f"{number} of {len(drawings)}" in words
        assert {"100 mm", "4 in"} <= set(words)
        parts = [bounds_of([each]) for each in layer(drawing, "strip").shapes if is_bar(each)]
        by_row = {}
        for part in parts:
            by_row.setdefault(part.y0 > tiling.setting.margin + 6, []).append(part)
        for row, length in ((True, 100), (False, 101.6)):
            row_parts = by_row[row]
            extent = max(part.x1 for part in row_parts) - min(part.x0 for part in row_parts)
            assert extent == pytest.approx(length, abs=2e-3)


def is_bar(shape):
    """Whether a shape of the strip is a part of a bar."""
    return isinstance(shape, Area) and shape.style == "tile" and bounds_of([shape]).height < 1.5


def test_the_first_sheet_has_the_check_square_and_no_other():
    """It is 100 mm wide and high where there is room clear of every line."""
    _, drawings = draw(hand_template(), "a2")
    assert len(drawings) > 1
    squares = [
        [
            bounds_of([shape])
            for shape in layer(drawing, "words").shapes
            if isinstance(shape, Line) and len(shape.points) == 5
        ]
        for drawing in drawings
    ]
    (square,) = squares[0]
    assert (square.width, square.height) == (pytest.approx(100), pytest.approx(100))
    assert not any(squares[1:])


def test_a_crowded_first_sheet_has_a_smaller_square():
    """On lines 90 mm apart a square of 100 mm would cross some, one of 50 mm crosses none."""
    from dataclasses import replace

    template = long_dam_template()
    lines = [Line(((x, 0), (x, 500)), "trace") for x in range(0, 500, 90)]
    _, drawings = draw(replace(template, lines=tuple(lines), labels=()))
    (square,) = [
        bounds_of([each]) for each in layer(drawings[0], "words").shapes if isinstance(each, Line)
    ]
    assert square.width == pytest.approx(50)


def test_the_lowest_window_has_a_square_all_the_same():
    """60 mm high less its joins holds no square of 50 mm, so there is one of 25 mm to measure."""
    tiling, drawings = draw(long_dam_template(), margin=58.0, way="landscape", overlap=16.0)
    assert tiling.grid.height == 60
    (square,) = [
        bounds_of([each])
        for each in layer(drawings[0], "words").shapes
        if isinstance(each, Line) and len(each.points) == 5
    ]
    assert (square.width, square.height) == (pytest.approx(25), pytest.approx(25))


def test_a_cross_on_a_join_lies_on_both_sheets():
    """At the same place of the ground, so that cross comes to lie on cross."""
    tiling, drawings = draw(long_dam_template())
    crosses = [each for each in layer(drawings[0], "art").shapes if is_cross(each)]
    assert crosses
    for (a, b), (one, two) in zip(
        zip(tiling.cells, tiling.cells[1:], strict=False),
        pairwise(drawings),
        strict=True,
    ):
        shared = [
            bounds_of([each]).centre
            for each in crosses
            if tiling.grid.window(a).holds(bounds_of([each]))
            and tiling.grid.window(b).holds(bounds_of([each]))
        ]
        assert len(shared) >= 4
        assert layer(one, "art").origin != layer(two, "art").origin


def is_cross(shape):
    """Whether a shape is one stroke of a cross."""
    return isinstance(shape, Line) and shape.style == "cross"


def test_sheets_are_cut_where_they_are_laid_on():
    """A join is dashed on the sheet that lies on the one before, and thin on that one."""
    _, drawings = draw(long_dam_template())
    dashed = [
        [line for line in layer(drawing, "joins").shapes if getattr(line, "style", "") == "join"]
        for drawing in drawings
    ]
    assert [len(each) for each in dashed] == [0, 1, 1, 1]


def test_a_mirrored_sheet_says_so_in_large_letters():
    """8 mm capitals, on every sheet, and on none that is not."""
    for mirrored in (True, False):
        _, drawings = draw(hand_template(FullSize(mirrored=mirrored)), mirrored=mirrored)
        for drawing in drawings:
            large = [text.height for text in drawing.texts if text.words == "MIRRORED"]
            assert large == ([8.0] if mirrored else [])


def test_a_dam_too_narrow_for_words_has_them_beside():
    """A dam 2 mm wide is named with a leader."""
    from dataclasses import replace

    from handjob import MM

    layout = hand_layout()
    thin = replace(layout.dams[0], width=2 * MM)
    layout = replace(layout, dams=(thin,), panels=())
    template = dam_template(hand_job(), layout, thin, FullSize())
    _, drawings = draw(template)
    words = [text.words for drawing in drawings for text in drawing.texts]
    assert "dam 1" in words
    assert any(
        isinstance(each, Line) and each.style == "leader" and len(each.points) == 2
        for drawing in drawings
        for each in layer(drawing, "words").shapes
    )


def test_the_map_leaves_out_what_is_left_out():
    """Kept tiles are boxes, the sheet's own black, those left out grey."""
    tiling, drawings = draw(hand_template())
    kinds = [each.style for each in layer(drawings[3], "strip").shapes if isinstance(each, Area)]
    left_out = tiling.grid.rows * tiling.grid.columns - len(tiling.cells)
    assert kinds.count("left_out") == left_out > 0
    assert kinds.count("kept") == len(tiling.cells) - 1


def test_an_inch_job_has_the_bar_of_4_in_alone_and_a_check_square_of_whole_inches():
    """Nothing on its sheets is to be measured in mm: the square's diagonal is 5 21/32 in."""
    template = hand_template()
    tiling = tile(template, "a2")
    drawings = draw_tiles(
        template, tiling, Said("Foyer", template.subject, (), "in", mirrored=False, stamp="now")
    )
    words = [text.words for drawing in drawings for text in drawing.texts]
    assert {"4 in", "Check square 4 in", "diagonals 5 21/32 in"} <= set(words)
    assert "100 mm" not in words
    (square,) = [
        bounds_of([each])
        for each in layer(drawings[0], "words").shapes
        if isinstance(each, Line) and len(each.points) == 5
    ]
    assert square.width == pytest.approx(101.6)
