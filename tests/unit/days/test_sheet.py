"""The sheet of a calendar divided."""

import itertools

import pytest

from nesting.days.sheet import divide_sheet
from nesting.drawings.key import KeyRow


def divide(days, **changes):
    """Return the sheet of so many working days."""
    given = {"rows": 4, "lanes": 1, "label": 30, "key": [KeyRow(("a row",))] * 5}
    return divide_sheet("mm", [1.0] * days, **{**given, **changes})


@pytest.mark.parametrize("days", [1, 20, 33, 34, 90, 400, 3000])
def test_every_day_is_in_one_band_and_bands_are_on_the_sheet(days):
    """Bands follow one another down the sheet, above the key, each within the margins."""
    sheet = divide(days)
    assert [day for band in sheet.bands for day in band] == list(range(days))
    grids = [sheet.grid(band) for band in range(len(sheet.bands))]
    assert all(upper.y0 > lower.y1 for upper, lower in itertools.pairwise(grids))
    assert grids[-1].y0 > sheet.key.y1
    assert all(sheet.inside.holds(grid) for grid in grids)
    assert all(11 <= right - left <= 26.001 for left, right in map(sheet.column, range(days)))


def test_short_calendars_are_on_the_smallest_paper():
    """Twenty days fit A3, three thousand take a sheet cut to measure."""
    assert (divide(20).width, divide(20).height) == (420, 297)
    assert divide(3000).height > 841


def test_rows_and_lanes_lie_in_their_band():
    """Rows fill the grid from above, due dates stand over it."""
    sheet = divide(10)
    grid = sheet.grid(0)
    assert sheet.row(0, 0)[1] == pytest.approx(grid.y1)
    assert sheet.row(0, 3)[0] == pytest.approx(grid.y0)
    assert grid.y1 < sheet.lane(0, 0) < sheet.head(0)
