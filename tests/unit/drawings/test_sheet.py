"""The sheet: paper, scale, and which ground serves for what."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.drawings.sheet import LEADER, PAD, SheetNeed, round_scale, sheets_for
from nesting.shapes.geometry import Box

MM = 8000
SMALL_NEED = SheetNeed(
    Box(0, 0, 2400 * MM, 1200 * MM), 96, (12, 6, 4), 6, 4, (15, 15), (15, 15), 4.8
)


def first_sheet(units="mm", **changes):
    """Return the sheet chosen for a need a little unlike the small one."""
    return next(sheets_for(replace(SMALL_NEED, **changes), units))


@pytest.mark.parametrize(
    ("width", "height", "scale", "paper"),
    [
        (200, 120, "1", (420, 297)),
        (2400, 1200, "67/10", (420, 297)),
        (6000, 300, "17", (420, 297)),
        (300, 6000, "18", (297, 420)),
        (20_000, 10_000, "56", (420, 297)),
    ],
)
def test_the_largest_scale_that_fits_a3_is_taken(width, height, scale, paper):
    """The liner is drawn as large as A3 allows, upright or lying."""
    sheet = first_sheet(frame=Box(0, 0, width * MM, height * MM))
    assert (sheet.view.scale, (sheet.width, sheet.height)) == (Fraction(scale), paper)


@pytest.mark.parametrize(
    ("width", "scale", "wide"), [(72, "5.5", False), (96, "7.5", False), (5, "1", True)]
)
def test_an_inch_job_has_inch_paper_and_a_scale_by_quarters(width, scale, wide):
    """Half as high as wide, liners are as large as 11 x 17 in allow; mm beside inches cost none."""
    inch = 203_200
    frame = Box(0, 0, width * inch, width * inch // 2)
    sheet = first_sheet("in", frame=frame, wide_depths=(40, 40))
    assert sheet.scale_words == f"Scale 1:{scale} on 11 x 17 in"
    assert sheet.wide == wide


@pytest.mark.parametrize("units", ["mm", "in"])
@given(least=st.fractions(Fraction(1, 10), 10**6))
def test_a_round_scale_is_the_first_of_two_digits(units, least):
    """It is never below the least and, of mm drawings, less than 5 % above it."""
    scale = round_scale(least, units)
    assert scale >= max(least, 1)
    assert scale < (1 + least if units == "in" else Fraction(21, 20) * max(least, 1))
    assert units == "mm" or (2 * scale).denominator in (1, 2)


def share_filled(width, height):
    """Return the share of the sheet's area that a liner of that size [mm] takes."""
    sheet = first_sheet(frame=Box(0, 0, width * MM, height * MM))
    liner = sheet.view.rect(Box(0, 0, width * MM, height * MM))
    return liner.width * liner.height / (sheet.width * sheet.height)


@pytest.mark.parametrize(
    ("width", "height", "share"),
    [
        (3000, 1500, 0.5),
        (3000, 1800, 0.45),
        (3000, 1200, 0.4),
        (3000, 1000, 0.33),
        (2000, 2000, 0.44),
    ],
)
def test_a_liner_fills_its_paper(width, height, share):
    """Of A3, a 3 m liner half as high takes half, with figures, key, strip and margins around."""
    assert share_filled(width, height) >= share


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


def test_ground_left_free_around_is_free_on_every_side():
    """With 50 mm asked for around it, the liner keeps off the ground's ends on all four sides."""
    sheets = list(sheets_for(replace(SMALL_NEED, across=0, up=0, depths=(0, 0)), "mm", (0.0, 50.0)))
    assert [sheet.paper for sheet in sheets[:4]] == ["A3", "A3", "A2", "A2"]
    liner, ground = sheets[1].view.rect(SMALL_NEED.frame), sheets[1].ground
    assert ground.grown(-50).holds(liner)
    assert not sheets[0].ground.grown(-50).holds(sheets[0].view.rect(SMALL_NEED.frame))


def test_a_frame_of_any_length_has_a_sheet():
    """A wall of 90 km is drawn on A3."""
    assert first_sheet(frame=Box(0, 0, 90_000_000 * MM, 10_000 * MM)).paper == "A3"
