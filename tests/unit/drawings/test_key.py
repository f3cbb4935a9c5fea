"""The key: what each mark means, the dams to cut, notes."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace

import pytest
from ferry import MM, make_ferry_job, make_ferry_schedule

from nesting.drawings.key import KeyRow, draw_key, key_rows, lines_needed, rows_width
from nesting.drawings.lettering import words_width
from nesting.drawings.record import Area, Line, Text
from nesting.drawings.sheet import SheetNeed, sheets_for
from nesting.drawings.terrain import frame_of
from nesting.shapes.geometry import Box
from nesting.values.liner import KeepClear

FERRY, LAYOUT = make_ferry_job(), make_ferry_schedule().layouts[0]
ROWS = tuple(KeyRow((f"row {index}",), is_heading=index == 5) for index in range(12))


def words(rows):
    """Return the words of the rows, cells joined."""
    return [" | ".join(row.cells) for row in rows]


def draw(rows):
    """Return the sheet for a drawing with these rows, and the key's shapes on it."""
    lines = tuple(lines_needed(rows, columns) for columns in range(1, 5))
    need = SheetNeed(frame_of(FERRY), 4, 4, (15, 15), (15, 15), 5, rows_width(rows), lines)
    sheet = next(sheets_for(need, "mm"))
    return sheet, draw_key(sheet, rows)


def test_the_ferry_key_by_hand():
    """Every mark used is explained, every dam listed as cut, every note written."""
    assert words(key_rows(FERRY, LAYOUT, ["Mind the step."])) == [
        "Panel: mark, flat size",
        "Dam, name in a frame",
        "Masked, not sprayed",
        "Ornament",
        "Blank zone",
        "Joint of two dams",
        "Edge side: rim, no dam",
        "Rim of the liner",
        "Datum corner 0,0",
        "Panel edge",
        "Other dam face, rim",
        "Dams to cut, mm",
        "D1: 900 × 25 | D2: 1525 × 25",
        "Notes",
        "Mind the step.",
    ]


def test_marks_that_are_not_used_are_not_explained():
    """Without ornament, zones and dams their marks are missing from the key, and so is the list."""
    job = replace(FERRY, liner=replace(FERRY.liner, ornaments=(), zones=()))
    rows = words(key_rows(job, replace(LAYOUT, dams=()), []))
    assert not {"Ornament", "Blank zone", "Joint of two dams", "Panel edge"} & set(rows)
    assert not [row for row in rows if "Dam" in row and row != "Datum corner 0,0"][1:]


def test_a_place_that_dams_keep_off_is_explained_where_there_is_one():
    """After the blank zones."""
    loop = KeepClear("loop", Box(MM, MM, MM, MM), MM)
    rows = words(
        key_rows(replace(FERRY, liner=replace(FERRY.liner, keep_clear=(loop,))), LAYOUT, [])
    )
    assert rows[rows.index("Blank zone") + 1] == "Place that dams keep off"
    assert len(rows) == len(key_rows(FERRY, LAYOUT, [])) + 1


def test_panels_are_listed_where_asked():
    """The list of panels gives each mark and flat size once."""
    twice = replace(LAYOUT, panels=LAYOUT.panels * 2)
    rows = words(key_rows(FERRY, twice, [], list_panels=True))
    assert rows[rows.index("Panels, flat size, mm") + 1] == "A1: 1500 × 900 | "
    assert "Panels, flat size, mm" not in words(key_rows(FERRY, twice, []))


def test_kept_dams_are_not_to_be_cut():
    """A layout that keeps another's dams lists them as in place."""
    rows = words(key_rows(FERRY, replace(LAYOUT, same_dams_as=3), []))
    assert "Dams in place, mm" in rows
    assert "Dams to cut, mm" not in rows


def test_a_long_mark_leaves_room_for_its_size():
    """In the list a long mark is shortened, its size never."""
    panel = replace(LAYOUT.panels[0], mark="w" * 60)
    rows = words(key_rows(FERRY, replace(LAYOUT, panels=(panel,)), [], list_panels=True))
    assert any(row.startswith("ww") and row.endswith("ww: 1500 × 900") for row in rows)


def test_a_long_size_leaves_its_dam_a_name():
    """Inches with their rest in mm are long; the key grows wider before a name is lost."""
    dam = replace(LAYOUT.dams[0], width=25 * MM, height=round(780.4 * MM))
    rows = key_rows(replace(FERRY, units="in"), replace(LAYOUT, panels=(), dams=(dam,)), [])
    assert "D1: 30 3/4 (-0.65 mm) × 1 (-0.40 mm)" in words(rows)
    assert rows_width(rows) > rows_width(key_rows(FERRY, LAYOUT, []))


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
        "joint",
        "edge_side",
        "rim",
        "datum",
    }


def test_the_column_is_as_wide_as_its_widest_row():
    """A row asks for the room of its words; columns are never narrower than a usual row."""
    long = KeyRow(("w" * 30,))
    assert long.width == words_width("w" * 30, 3.5)
    assert rows_width([long]) == pytest.approx(min(long.width, 120))
    assert rows_width([KeyRow(("a",))]) == 96
