"""A ground that sags or twists a little: found whatever stands on it, taken off, never a shape."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from makescans import MM, RULES, box_mask, ellipse, pixels_of, scan_of

from nesting.scans.build import UnevenError, find_liner
from nesting.scans.groundbow import LEAST_RADIUS, Bow, first_bow
from nesting.scans.groundplane import above_ground, find_ground

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
