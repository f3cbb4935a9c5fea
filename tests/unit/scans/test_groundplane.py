"""The ground of a scan: tilt, level, noise, whatever stands on it."""

from fractions import Fraction

import numpy as np
import pytest
from makescans import box_mask, leafy_scan, plane, scan_of

from nesting.scans.groundplane import above_ground, find_ground
from nesting.scans.heightmap import HeightMap


@pytest.mark.parametrize("raised_share", [0.0, 0.2, 0.45, 0.7])
def test_raised_ground_does_not_draw_the_plane_up(raised_share):
    """Over ground that is up to 70 % covered by tops of many heights, the plane stays put."""
    rng = np.random.default_rng(1)
    shape = (300, 400)
    heights = plane(*shape, 0.01, -0.004, 7) + rng.normal(0, 0.05, shape)
    covered = 0
    while covered < raised_share * heights.size:
        x, y = rng.integers(0, 380), rng.integers(0, 280)
        block = box_mask(shape, (x, y, x + 20, y + 20))
        heights[block] += rng.uniform(1, 8)
        covered += 400
    ground = find_ground(scan_of(heights))
    assert ground.slope_x == pytest.approx(0.01, abs=2e-5)
    assert ground.slope_y == pytest.approx(-0.004, abs=2e-5)
    assert ground.level == pytest.approx(7, abs=0.01)
    assert ground.noise == pytest.approx(0.05, rel=0.1)
    assert ground.scatter == pytest.approx(0.05, rel=0.25)


def test_a_dome_beside_the_ground_does_not_tilt_it():
    """Slopes that rise slowly from the ground on one side bias it by far less than the noise."""
    y, x = np.mgrid[0:200, 0:300]
    dome = np.maximum(0, 9 - ((x - 250) ** 2 + (y - 100) ** 2) / 400)
    heights = dome + np.random.default_rng(3).normal(0, 0.05, dome.shape)
    ground = find_ground(scan_of(heights))
    rest = above_ground(scan_of(heights), ground)[dome == 0]
    assert abs(rest.mean()) < 0.005
    assert max(abs(ground.slope_x), abs(ground.slope_y)) < 1e-4


def test_slopes_are_per_mm_whatever_the_pixel():
    """The same readings at half the pixel are twice as steep."""
    heights = plane(40, 60, 0.02, 0.01, 3)
    whole, half = (find_ground(scan_of(heights, Fraction(side))) for side in ("1", "1/2"))
    assert half.slope_x == pytest.approx(2 * whole.slope_x)
    assert whole.slope_x == pytest.approx(0.02, abs=1e-6)


def test_coarse_grains_do_not_hide_the_tilt():
    """A scan of 256 levels gives slopes nearly as well as a fine one."""
    heights = plane(200, 300, 0.01, 0.006, 0) + np.random.default_rng(0).normal(0, 0.03, (200, 300))
    grain = 14 / 255
    ground = find_ground(scan_of(np.rint(heights / grain) * grain, grain=grain))
    assert ground.slope_x == pytest.approx(0.01, abs=1e-4)
    assert ground.noise >= grain / 12**0.5


def test_heights_above_the_ground_keep_missing_readings():
    """Ground comes to zero, what stands on it to its height, no reading to no reading."""
    heights, true = leafy_scan(2, noise=0.0)
    heights[5:9, 7:11] = np.nan
    scan = scan_of(heights)
    above = above_ground(scan, find_ground(scan))
    assert np.isnan(above[5:9, 7:11]).all()
    assert np.isnan(above).sum() == 16
    assert np.abs(above[~true & ~np.isnan(heights)]).max() < 1e-3
    assert set(np.round(above[true & ~np.isnan(heights)]).tolist()) <= {-3.0, 4.0, 9.0}


def test_a_level_scan_and_a_thin_one_have_a_ground():
    """Equal heights everywhere, and the smallest scan, are no trouble."""
    level = find_ground(HeightMap(np.full((8, 8), 5.0), Fraction(1)))
    assert (level.slope_x, level.slope_y) == pytest.approx((0, 0), abs=1e-9)
    assert level.level == pytest.approx(5)
    spotted = np.full((9, 9), np.nan)
    spotted[4, 4] = 3.0
    assert find_ground(HeightMap(spotted, Fraction(1))).level == pytest.approx(3)
