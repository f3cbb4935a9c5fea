"""The ground of a scan: tilt, level, noise, whatever stands on it."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from makescans import MM, RULES, box_mask, ellipse, leafy_scan, pixels_of, plane, scan_of

from nesting.scans.build import UnevenError, find_liner
from nesting.scans.ground import LEAST_RADIUS, Bow, above_ground, find_ground, first_bow
from nesting.scans.heightmap import HeightMap

pytestmark = pytest.mark.long


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


SHAPE = (150, 300)
PIXEL = Fraction(8)  # 2400 x 1200 mm
SAG = [(2.0, 0.0, 0.0), (-2.0, 0.0, 0.0), (0.0, 1.5, 0.0), (0.0, 0.0, 1.5), (1.0, -0.5, 0.7)]
"""Sag along x and along y, twist: from the middle to an end of the scan [mm]."""


def sagging(along_x, along_y, twist, relief=2.0, noise=0.02):
    """Return heights of a tilted ground with a sag and two ornaments, and the ornaments' mask."""
    v, u = np.meshgrid(np.linspace(-1, 1, SHAPE[0]), np.linspace(-1, 1, SHAPE[1]), indexing="ij")
    heights = 3 + 2 * u + v + along_x * u**2 + along_y * v**2 + twist * u * v
    true = ellipse(SHAPE, (70, 60), (30, 22)) | ellipse(SHAPE, (220, 100), (40, 25), 0.5)
    heights += np.where(true, relief, 0) + np.random.default_rng(5).normal(0, noise, SHAPE)
    return heights, true


@pytest.mark.parametrize("sag", SAG)
def test_what_stands_on_a_sagging_ground_is_found(sag):
    """Ornaments of 2 mm on a liner that sags as much: all of them, no zone on any, relief right."""
    heights, true = sagging(*sag)
    found = find_liner(scan_of(heights, PIXEL), RULES, "reeds", 13 * MM)
    held = np.zeros(SHAPE, bool)
    for ornament in found.liner.ornaments:
        held |= pixels_of(ornament.outline, SHAPE, 8.0)
        assert ornament.relief / MM == pytest.approx(2.0, abs=0.13)
    assert len(found.liner.ornaments) == 2
    assert held[true].all()
    for zone in found.liner.zones:
        assert not (pixels_of(zone.outline, SHAPE, 8.0) & true).any()


@pytest.mark.parametrize("sag", SAG)
def test_the_bow_is_taken_off_to_within_the_noise(sag):
    """What is left of the ground is noise about nought."""
    heights, true = sagging(*sag)
    scan = scan_of(heights, PIXEL)
    ground = find_ground(scan)
    rest = above_ground(scan, ground)[~true]
    assert ground.scatter == pytest.approx(0.02, rel=0.2)
    assert np.abs(rest).max() < 6 * 0.02
    assert abs(rest.mean()) < 0.002


def test_a_plane_ground_has_no_bow():
    """Nothing is taken off that is not there, with ornaments over much of it too."""
    heights, _ = sagging(0, 0, 0, relief=9.0)
    assert find_ground(scan_of(heights, PIXEL)).bow == Bow()


def test_a_shape_of_the_model_is_no_bow():
    """What bends more than on a circle of 25 m is not taken off; nothing is found on it unasked."""
    u = np.linspace(-150, 150, 300)  # pixels of 1 mm
    bent = np.broadcast_to(u**2 / (2 * LEAST_RADIUS / 5), (200, 300)) + 0.0
    bent += np.random.default_rng(1).normal(0, 0.02, bent.shape)
    bent[box_mask(bent.shape, (50, 50, 90, 90))] += 2
    assert find_ground(scan_of(bent)).bow == Bow()
    with pytest.raises(UnevenError, match="so ornament of less than"):
        find_liner(scan_of(bent), RULES, "reeds", 13 * MM)
    found = find_liner(scan_of(bent), replace(RULES, threshold=MM), "reeds", 13 * MM)
    assert found.liner.ornaments


def test_second_differences_give_a_pure_bow():
    """Whatever the plane under it, to the last digits."""
    bow = Bow(3e-5, -2e-5, 1e-5)
    v, u = np.mgrid[0:60, 0:80]
    found = first_bow(bow.heights((60, 80)) + 0.1 * u - 0.2 * v + 7)
    for name in ("xx", "xy", "yy"):
        assert getattr(found, name) == pytest.approx(getattr(bow, name), rel=1e-9)
