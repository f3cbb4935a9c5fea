"""The scale of a scan: what a pixel measures and what its numbers mean."""

from fractions import Fraction

import numpy as np
import pytest

from nesting.errors import InputError
from nesting.scans.scale import ScanScale, scale_heights

GREY = np.linspace(0, 65535, 200).astype(np.uint16).reshape(10, 20)
DECIMALS = np.linspace(0, 9, 200).reshape(10, 20)
WIDE = Fraction(400)


def test_black_to_white_is_the_relief():
    """The least number is 0 mm, the greatest the relief; the first row ends up on top."""
    scan = scale_heights("s", GREY, ScanScale(width=WIDE, relief=Fraction(14)))
    assert scan.heights.max() == pytest.approx(14)
    assert scan.heights[0, 0] > scan.heights[-1, 0] == 0
    assert (scan.pixel, scan.grain) == (20, pytest.approx(14 / 65535))
    coarse = scale_heights(
        "s", (GREY // 257).astype(np.uint8), ScanScale(WIDE, relief=Fraction(14))
    )
    assert (coarse.heights.max(), coarse.grain) == (pytest.approx(14), pytest.approx(14 / 255))


def test_decimals_are_millimetres_unless_told_otherwise():
    """Heights of a float scan are taken as they are, or times the unit."""
    plain = scale_heights("s", DECIMALS, ScanScale(pixel=Fraction(2)))
    assert plain.heights.max() == 9
    assert plain.grain == 0
    inches = scale_heights("s", DECIMALS, ScanScale(WIDE, height_unit=Fraction(127, 5)))
    assert inches.heights.max() == pytest.approx(228.6)


def test_numbers_for_no_reading_are_none():
    """The number given, the file's own, and whatever is not finite count as not measured."""
    values = DECIMALS.copy()
    values[0, :3] = [-9999, np.inf, np.nan]
    scan = scale_heights("s", values, ScanScale(WIDE, no_data=-9999))
    assert np.isnan(scan.heights).sum() == 3
    grey = scale_heights("s", GREY, ScanScale(WIDE, relief=Fraction(14), no_data=0), hidden=65535)
    assert np.isnan(grey.heights).sum() == 2


@pytest.mark.parametrize(
    ("values", "scale", "told"),
    [
        (GREY, ScanScale(relief=WIDE), "s: a scan needs its scale, got none; give --width"),
        (GREY, ScanScale(WIDE, WIDE, WIDE), "one scale, got --width and --pixel"),
        (GREY, ScanScale(WIDE), "needs its height, got none; give with --relief"),
        (DECIMALS, ScanScale(WIDE, relief=WIDE), "--relief is for whole numbers"),
        (GREY, ScanScale(WIDE, relief=WIDE, height_unit=WIDE), "--height-units is for decimal"),
        (DECIMALS * 1000, ScanScale(WIDE), "must differ by at most 1000 mm, got 0 to 9000 mm"),
        (DECIMALS + 1e9, ScanScale(WIDE), "must differ by at most 1000 mm"),
        (DECIMALS, ScanScale(Fraction(40_000)), "at most 33000 mm long, got 40000 x 20000 mm"),
        (DECIMALS[:5], ScanScale(WIDE), "at least 8 pixels along either side, got 20 x 5"),
        (np.full((9, 9), np.nan), ScanScale(WIDE), "at least one pixel of a scan has a height"),
    ],
)
def test_what_does_not_go_together_is_refused(values, scale, told):
    """Each mistake has one line with what to do."""
    with pytest.raises(InputError, match=r"^s: ") as caught:
        scale_heights("s", values, scale)
    assert told in str(caught.value)
