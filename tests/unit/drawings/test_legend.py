"""What the key of a masking layout lists."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace

from ferry import MM, make_ferry_job, make_ferry_schedule

from nesting.drawings.key import rows_width
from nesting.drawings.legend import key_rows
from nesting.values.job import DamStock

FERRY, LAYOUT = make_ferry_job(), make_ferry_schedule().layouts[0]


def words(rows):
    """Return the words of the rows, cells joined."""
    return [" | ".join(row.cells) for row in rows]


def test_the_ferry_key_by_hand():
    """Every mark used is explained, every dam listed as cut, every note written."""
    assert words(key_rows(FERRY, LAYOUT, ["Mind the step."])) == [
        "Panel: mark, flat size",
        "Dam, name in a frame",
        "Masked, not sprayed",
        "Ornament",
        "Blank zone",
        "Where two dams meet",
        "Edge side: rim, no dam",
        "Rim of the liner",
        "Datum corner 0,0",
        "Panel edge",
        "Other dam face, rim",
        "Dams to cut, mm",
        "dam 1: 900 × 25",
        "dam 2: 1525 × 25",
        "Notes",
        "Mind the step.",
    ]


def test_marks_that_are_not_used_are_not_explained():
    """Without ornament, zones and dams their marks are missing from the key, and so is the list."""
    job = replace(FERRY, liner=replace(FERRY.liner, ornaments=(), zones=()))
    rows = words(key_rows(job, replace(LAYOUT, dams=()), []))
    assert not {"Ornament", "Blank zone", "Where two dams meet", "Panel edge"} & set(rows)
    assert not [row for row in rows if "Dam" in row and row != "Datum corner 0,0"][1:]


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
    """Fractions with their words are long; the key grows wider before a name is lost."""
    dam = replace(LAYOUT.dams[0], width=round(24_999.4 * MM), height=round(25_382.4 * MM))
    job = replace(FERRY, units="in", dams=DamStock((FERRY.rules.dam_width, dam.height, dam.width)))
    rows = key_rows(job, replace(LAYOUT, panels=(), dams=(dam,)), [])
    assert "dam 1: 999 5/16 scant × 984 15/64 scant" in words(rows)
    assert rows_width(rows) > rows_width(key_rows(FERRY, LAYOUT, []))
