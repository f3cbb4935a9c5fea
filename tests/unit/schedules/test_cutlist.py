"""The cut list as tables: what each dam is cut to, and the curve of those sawn from sheet."""

from dataclasses import replace

from handjob import MM, dam, hand_job, hand_schedule, place

from nesting.schedules.cutlist import curve_table, cut_table
from nesting.values.bed import Bed
from nesting.values.job import DamStock

ACROSS = dam("dam 1", 800, 0, 25, 675, "east", None)
ALONG = dam("dam 2", 0, 650, 800, 25, "north", None)
LAYOUT = replace(
    hand_schedule().layouts[0],
    dams=(ACROSS, ALONG),
    panels=(place("A1", 0, 0, 800, 650, "rt"), place("B1", 825, 0, 375, 800, "l")),
)


def job_on(bed, **stock):
    """Return the hand-sized job on a bed."""
    return replace(hand_job(), beds=(bed,), dams=DamStock(**stock))


def columns(table, *names):
    """Return these columns of a table, row by row."""
    at = [list(table.head).index(name) for name in names]
    return [[row[index] for index in at] for row in table.rows]


def test_on_a_flat_bed_dams_are_strips():
    """No kind and no top edge; their height is the panel's thickness."""
    table = cut_table(job_on(Bed("table")), LAYOUT)
    assert table.title == "Dams to cut, in mm; 1475 of strip in all"
    assert table.rows[0] == ["dam 1", "675", "25", "19", "y", "east"]
    assert table.rows[1] == ["dam 2", "800", "25", "19", "x", "north"]


def test_on_a_curved_bed_each_dam_has_its_kind():
    """Across straight, along bent: foot and top edge of a strip that follows 1013 mm."""
    table = cut_table(job_on(Bed("table", "convex", 1000 * MM)), LAYOUT)
    assert columns(table, "dam", "kind", "length", "top edge") == [
        ["dam 1", "straight", "675", "675"],
        ["dam 2", "bent", "805 full", "820 full"],
    ]


def test_sheet_is_no_strip():
    """Dams cut to the curve are not counted among the strips."""
    table = cut_table(job_on(Bed("table", "convex", 1000 * MM), on_curve="cut"), LAYOUT)
    assert table.title == "Dams to cut, in mm; 675 of strip in all"
    assert columns(table, "kind") == [["straight"], ["cut"]]


def test_plumb_ends_lean_out_on_a_convex_and_in_in_a_concave_bed():
    """On either side of the dam by half of panel and dam, 412.5 and 200 mm, over the radius."""
    for form, way in (("convex", "out"), ("concave", "in")):
        table = cut_table(job_on(Bed("table", form, 6000 * MM, ends="plumb")), LAYOUT)
        assert columns(table, "sides lean") == [[f"3.9° {way} | 1.9° {way}"], ["-"]]
        top = "27 scant" if form == "convex" else "23 full"
        assert columns(table, "width", "top width") == [["25", top], ["25", "25"]]


def test_sides_that_meet_below_the_top_are_told():
    """Leaning in by 3.9 and 1.9 degrees, a dam of 25 mm has no top 300 mm up."""
    bed = Bed("table", "concave", 6000 * MM, ends="plumb")
    table = cut_table(job_on(bed, height=300 * MM), LAYOUT)
    assert columns(table, "top width")[0] == ["none: give lower dams"]


def test_a_dam_beside_unlike_panels_leans_by_each():
    """Two panels one above the other on its left: both angles are told, no one top width."""
    panels = (place("A1", 0, 0, 800, 300, "r"), place("A1", 300, 325, 500, 325, "r"))
    job = job_on(Bed("table", "convex", 6000 * MM, ends="plumb"))
    table = cut_table(job, replace(LAYOUT, panels=panels))
    assert columns(table, "top width", "sides lean")[0] == ["varies", "3.9° out, 2.5° out | 0"]


def test_the_curve_of_a_cut_dam_is_told_whole():
    """Radii, foot, chord, rise, top edge, the sheet of a piece and where it is parted."""
    bed = Bed("table", "convex", 1000 * MM)
    table = curve_table(job_on(bed, height=20 * MM, on_curve="cut", stock=(500 * MM,)), LAYOUT)
    (row,) = table.rows
    assert row[:4] == ["dam 2", "1013", "1033", "805 full"]
    assert row[-1] == "403"
    assert curve_table(job_on(bed), LAYOUT).rows == []


def test_a_dam_that_cannot_be_parted_says_so():
    """Corners every 60 mm leave no place."""
    small = tuple(place("A1", x, 590, 60, 60, "t") for x in range(0, 800, 60))
    job = job_on(Bed("table", "convex", 1000 * MM), on_curve="cut", stock=(500 * MM,))
    (row,) = curve_table(job, replace(LAYOUT, panels=small)).rows
    assert row[-1] == "nowhere: corners of panels are too near; take a longer sheet"
