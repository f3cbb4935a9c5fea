"""The key: rows of swatches and words in columns."""

from dataclasses import replace

import pytest
from ferry import make_ferry_job, make_ferry_schedule

from nesting.drawings.key import (
    KeyRow,
    column_lines,
    divide_foot,
    draw_key,
    explain,
    heading,
    lines_needed,
    list_notes,
    rows_width,
    table,
)
from nesting.drawings.legend import key_rows
from nesting.drawings.lettering import words_width
from nesting.drawings.record import Area, Line, Rect, Text
from nesting.drawings.sheet import SheetNeed, sheets_for
from nesting.drawings.terrain import frame_of

FERRY, LAYOUT = make_ferry_job(), make_ferry_schedule().layouts[0]
ROWS = tuple(KeyRow((f"row {index}",), is_heading=index == 5) for index in range(12))


def draw(rows):
    """Return the sheet for a drawing with these rows, and the key's shapes on it."""
    need = SheetNeed(frame_of(FERRY), rows_width(rows), column_lines(rows))
    sheet = next(sheets_for(need, "mm"))
    return sheet, draw_key(sheet.key, sheet.key_columns, rows)


def test_a_heading_never_ends_a_column():
    """Six lines would end a column with the heading, so two columns take seven lines."""
    assert lines_needed(ROWS, 1) == 12
    assert lines_needed(ROWS, 2) == 7
    assert lines_needed((KeyRow(("a",)),), 3) == 1


@pytest.mark.parametrize("count", [1, 12, 60, 120])
def test_rows_stand_on_the_key_and_apart(count):
    """Every row is drawn inside the key, and no two texts overlap."""
    rows = tuple(replace(ROWS[index % 12], cells=(f"row {index}",)) for index in range(count))
    sheet, shapes = draw(rows)
    rects = [shape.rect for shape in shapes if isinstance(shape, Text)]
    assert len(rects) == count
    assert all(sheet.key.holds(rect) for rect in rects)
    assert not any(a.overlaps(b) for n, a in enumerate(rects) for b in rects[:n])


def test_every_swatch_is_drawn_in_its_own_style():
    """A swatch shows the style it explains, left of its words."""
    rows = key_rows(FERRY, LAYOUT, [])
    _, shapes = draw(rows)
    styles = {shape.style for shape in shapes if isinstance(shape, Area | Line)}
    assert styles >= {
        "panel",
        "dam",
        "masked",
        "ornament",
        "zone",
        "meeting",
        "edge_side",
        "rim",
        "datum",
    }


def test_the_column_is_as_wide_as_its_widest_row():
    """A row asks for the room of its words; columns are never narrower than a usual row."""
    long = KeyRow(("w" * 30,))
    assert long.width == words_width("w" * 30, 2.5)
    assert rows_width([long]) == 88 < long.width
    assert rows_width([KeyRow(("a",))]) == 70


def test_a_swatch_may_be_drawn_by_a_function():
    """What it draws stands left of the words; a blank swatch only moves them in."""

    def dot(place):
        return (Area((place.ring,), "datum"),)

    for swatch, count in ((dot, 1), ("blank", 0)):
        _, shapes = draw((KeyRow(("what it is",), swatch),))
        areas = [shape for shape in shapes if isinstance(shape, Area)]
        (text,) = [shape for shape in shapes if isinstance(shape, Text)]
        assert len(areas) == count
        assert all(x < text.x for area in areas for x, _ in area.rings[0])


def test_long_words_go_on_in_the_rows_below():
    """Only the first row has the swatch, and all of them fit the width."""
    rows = list(explain("a long tale of reeds and herons " * 5, 96, "ornament"))
    assert [row.swatch for row in rows] == ["ornament", *["blank"] * (len(rows) - 1)]
    assert len(rows) > 2
    assert all(row.width <= 96 for row in rows)


def test_notes_and_tables_have_a_heading_where_there_are_any():
    """None come to nothing; several short entries share a row."""
    assert list_notes([], 96) == table("Dams", [], 96) == []
    assert list_notes(["Mind the step."], 96) == [heading("Notes"), KeyRow(("Mind the step.",))]
    assert table("Dams", ["a", "b"], 20)[0] == heading("Dams")
    assert table("Dams", ["a", "b", "c"], 10)[1:] == [KeyRow(("a", "b")), KeyRow(("c", ""))]


def test_a_key_along_the_foot_is_as_low_as_its_columns_allow():
    """Five columns of 70 mm fit 380 mm, as there are 5 mm before, between and behind them."""
    columns, ground = divide_foot(Rect(10, 40, 390, 287), tuple(ROWS))
    assert columns == 5
    assert ground.height == pytest.approx(2 * 5 + 4.6 * lines_needed(ROWS, 5))


@pytest.mark.parametrize("length", [4, 5, 9])
def test_words_that_go_on_are_kept_in_one_column(length):
    """A heading, its first note and that note's further lines stand under one another."""
    notes = [f"first{n} second{n} third{n}" for n in range(5)]
    rows = [KeyRow(("Dam",), "dam"), *list_notes(notes, 22)]
    shapes = draw_key(Rect(0, 0, 400, 10 + 4.6 * length), 8, rows)
    column = {shape.words: shape.x for shape in shapes if isinstance(shape, Text)}
    assert len(rows) == len(column) == 2 + 3 * len(notes)
    assert column["Notes"] == column["first0"]
    for note in notes:
        assert len({column[word] for word in note.split()}) == 1
