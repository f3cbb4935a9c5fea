"""The sheet: paper, scale, and which ground serves for what."""

from dataclasses import replace
from fractions import Fraction

import pytest

from nesting.drawings.record import Rect
from nesting.drawings.sheet import LEADER, PAD, SheetNeed, View, sheets_for
from nesting.shapes.geometry import Box, polygon_of

MM = 8000
SMALL_NEED = SheetNeed(
    Box(0, 0, 2400 * MM, 1200 * MM), 6, 4, (15, 15), (15, 15), 4.8, 96, (12, 6, 4)
)


def first_sheet(units="mm", **changes):
    """Return the sheet chosen for a need a little unlike the small one."""
    return next(sheets_for(replace(SMALL_NEED, **changes), units))


def test_a_view_scales_about_the_datum():
    """At 1:10 a point 1500 mm from the datum lies 150 mm from it on the sheet."""
    view = View(Fraction(10), 40, 90)
    assert view.at((1500 * MM, 25 * MM)) == (190, 92.5)
    assert view.length(1525 * MM) == 152.5
    assert view.rect(Box(0, 0, 2400 * MM, 1200 * MM)) == Rect(40, 90, 280, 210)
    assert view.rings(polygon_of(Box(0, 0, 10 * MM, 20 * MM))) == (
        ((40, 90), (41, 90), (41, 92), (40, 92)),
    )


@pytest.mark.parametrize(
    ("width", "height", "scale", "paper"),
    [
        (200, 120, "1", (420, 297)),
        (2400, 1200, "10", (420, 297)),
        (6000, 300, "20", (420, 297)),
        (300, 6000, "20", (297, 420)),
        (20_000, 10_000, "100", (420, 297)),
    ],
)
def test_the_largest_scale_that_fits_a3_is_taken(width, height, scale, paper):
    """The liner is drawn as large as A3 allows, upright or lying."""
    sheet = first_sheet(frame=Box(0, 0, width * MM, height * MM))
    assert (sheet.view.scale, (sheet.width, sheet.height)) == (Fraction(scale), paper)


@pytest.mark.parametrize(("width", "height", "wide"), [(72, 36, True), (96, 48, False)])
def test_an_inch_job_has_inch_paper_and_an_inch_scale(width, height, wide):
    """Liners are drawn at 1 1/2 in to the foot, with mm beside inches where that takes no scale."""
    inch = 203_200
    frame = Box(0, 0, width * inch, height * inch)
    sheet = first_sheet("in", frame=frame, wide_depths=(40, 40))
    assert sheet.scale_words == "Scale 1:8 on 11 x 17 in"
    assert sheet.wide == wide


def test_liner_figures_key_and_strip_have_ground_of_their_own():
    """Ground, key and strip fill the sheet within its margins and do not overlap."""
    sheet = first_sheet()
    parts = [sheet.ground, sheet.key, sheet.strip]
    assert not any(a.overlaps(b) for a in parts for b in parts if a is not b)
    covered = sum(part.width * part.height for part in parts)
    assert covered == pytest.approx(sheet.inside.width * sheet.inside.height)
    liner = sheet.view.rect(SMALL_NEED.frame)
    assert liner.x0 - LEADER - 15 >= sheet.ground.x0 + PAD - 1e-9
    assert liner.y0 - LEADER - 15 >= sheet.ground.y0 + PAD - 1e-9
    assert sheet.ground.holds(liner)


def test_more_figures_than_a_side_holds_stand_on_both():
    """Sixty figures along x fit one row, ninety take two."""
    assert first_sheet(across=50).both_ends == (False, False)
    assert first_sheet(across=90).both_ends[0]


def test_more_figures_than_a_sheet_holds_take_larger_paper():
    """Papers grow until the figures fit, and beyond the largest the sheet is cut to measure."""
    papers = [first_sheet(across=count).paper for count in (20, 180, 300, 600)]
    assert papers == ["A3", "A2", "A1", "a sheet cut to measure"]


def test_a_longer_key_takes_more_columns():
    """A key too long for one column takes two."""
    sheet = first_sheet(column_lines=(60, 30, 20), frame=Box(0, 0, 800 * MM, 800 * MM))
    assert sheet.key_columns >= 2


def test_each_paper_is_offered_once_the_smallest_first():
    """A drawing whose names find no place can go on to larger paper, at no smaller a scale."""
    sheets = list(sheets_for(SMALL_NEED, "mm"))
    assert [sheet.paper for sheet in sheets] == ["A3", "A2", "A1", "A0"]
    scales = [sheet.view.scale for sheet in sheets]
    assert scales == sorted(scales, reverse=True)
