"""A scan as a value: what it refuses, and its size."""

from fractions import Fraction

import numpy as np
import pytest

from nesting.scans.heightmap import HeightMap


def test_width_and_height_are_exact():
    """Pixels times their side, in exact numbers."""
    scan = HeightMap(np.zeros((10, 30)), Fraction(127, 50))
    assert (scan.columns, scan.rows) == (30, 10)
    assert (scan.width, scan.height) == (Fraction(381, 5), Fraction(127, 5))


@pytest.mark.parametrize(
    ("heights", "told"),
    [
        (np.zeros((7, 30)), "at least 8 pixels"),
        (np.zeros((1, 1)), "at least 8 pixels"),
        (np.full((9, 9), np.nan), "at least one pixel of a scan has a height"),
        (np.broadcast_to(np.float32(0), (5001, 5000)), "at most 25 million pixels"),
    ],
)
def test_what_cannot_be_a_scan_is_refused(heights, told):
    """Too few pixels, too many, or none with a height."""
    with pytest.raises(ValueError, match=told):
        HeightMap(heights, Fraction(1))
