"""Scans against what is known outside: formulas of areas, other writers, plain least squares.

The relations are arithmetic: area of a disc pi r^2, of a rectangle width x height, of a ring; a
disc's polygon of n corners inside it. The writers are libraries that share nothing with the reader:
Pillow for PNG and TIFF, numpy for NPY, numpy-stl for STL, binary and text. Noise is numpy's own.
"""

import math
from fractions import Fraction

import numpy as np
import pytest
import shapely
from makescans import MM, RULES, box_mask, ellipse, found_on, plane, scan_of
from PIL import Image
from stl import Mode
from stl.mesh import Mesh

from nesting.scans.build import find_liner
from nesting.scans.ground import find_ground
from nesting.scans.read import read_scan
from nesting.scans.scale import ScanScale

pytestmark = pytest.mark.long

SHAPE = (300, 400)
SLACK = 3 * 0.75  # pixels: what an outline may lie outside its pixels and their doubt, at most


def zone_ground(found):
    """Return all zones as one area [mm]."""
    zones = [shapely.Polygon(zone.outline.shell) for zone in found.liner.zones]
    return shapely.transform(shapely.union_all(zones), lambda points: points / MM)


def outline_of(ornament, pixel=1.0):
    """Return an ornament's outline in pixels."""
    return shapely.Polygon(np.array(ornament.outline.shell) / (MM * pixel))


def disc_scan(centre, radius, mean):
    """Return a disc 5 mm high, read at the middle of each pixel or as a mean over it."""
    if not mean:
        return 5.0 * ellipse(SHAPE, centre, (radius, radius))
    fine = 4
    big = ellipse(
        (SHAPE[0] * fine, SHAPE[1] * fine),
        (centre[0] * fine, centre[1] * fine),
        (radius * fine, radius * fine),
    )
    return 5.0 * big.reshape(SHAPE[0], fine, SHAPE[1], fine).mean(axis=(1, 3))


@pytest.mark.parametrize("mean", [False, True])
@pytest.mark.parametrize(
    ("centre", "radius"), [((200.0, 150.0), 40.0), ((180.3, 140.8), 23.7), ((211.5, 99.1), 7.2)]
)
def test_the_outline_of_a_disc_covers_the_whole_disc(centre, radius, mean):
    """The true circle lies inside, whichever way the scanner reads, and the area errs outward.

    At most by the pixel read too much, the doubt and the slack all around: their corners count
    sqrt(2).
    """
    (ornament,) = found_on(disc_scan(centre, radius, mean)).liner.ornaments
    outline = outline_of(ornament)
    assert outline.covers(shapely.Point(centre).buffer(radius, 64))
    assert outline.area > math.pi * radius**2
    assert outline.area < math.pi * (radius + 2 * math.sqrt(2) + SLACK) ** 2


@pytest.mark.parametrize(("radius", "share"), [(40.0, 0.01), (90.0, 0.004)])
def test_the_pixels_of_a_disc_have_its_area(radius, share):
    """The area told for an ornament is that of its pixels, near pi r^2."""
    (part,) = found_on(disc_scan((200.0, 150.0), radius, False)).parts
    assert part.area == pytest.approx(math.pi * radius**2, rel=share)


def test_a_rectangle_on_pixel_borders_is_found_to_the_doubt():
    """100 x 60 mm gives pixels of just that, an outline of 102 x 62, and zones beside that."""
    heights = np.zeros(SHAPE)
    heights[box_mask(SHAPE, (150, 120, 250, 180))] = 7
    found = found_on(heights)
    assert found.parts[0].area == 6000
    assert outline_of(found.liner.ornaments[0]).equals(shapely.box(149, 119, 251, 181))
    beside = shapely.box(0, 0, 400, 300) - shapely.box(149, 119, 251, 181)
    assert zone_ground(found).equals(beside)
    assert found.held == found.sealing == 300 * 400 - 102 * 62


def test_a_rectangle_off_pixel_borders_is_still_covered():
    """With pixels of 0.7 mm the true rectangle lies inside the outline, and zones outside it."""
    pixel, true = 0.7, shapely.box(60.13, 50.4, 150.02, 95.66)
    y, x = (np.mgrid[0:300, 0:400] + 0.5) * pixel
    heights = 4.0 * ((x > 60.13) & (x < 150.02) & (y > 50.4) & (y < 95.66))
    found = found_on(heights, pixel=Fraction(7, 10))
    outline = outline_of(found.liner.ornaments[0], 1.0)
    assert outline.covers(true)
    assert outline.area < (89.89 + 4 * pixel) * (45.26 + 4 * pixel)
    assert not zone_ground(found).intersects(true)


def test_a_ring_has_no_zone_inside():
    """An ornament's outline has no opening, so what a ring encloses is not blank."""
    ring = ellipse(SHAPE, (200, 150), (90, 90)) & ~ellipse(SHAPE, (200, 150), (60, 60))
    found = found_on(6.0 * ring)
    assert found.parts[0].area == pytest.approx(math.pi * (90**2 - 60**2), rel=0.005)
    assert outline_of(found.liner.ornaments[0]).area > math.pi * 90**2
    centre = shapely.Point(200, 150)
    assert not zone_ground(found).intersects(centre)


@pytest.mark.parametrize("seed", range(3))
def test_the_plane_of_clean_ground_is_that_of_least_squares(seed):
    """Without ornaments, slopes and level are those of numpy's solver on all readings."""
    rng = np.random.default_rng(seed)
    slopes = rng.uniform(-0.02, 0.02, 2)
    heights = plane(120, 160, *slopes, 4) + rng.uniform(-0.05, 0.05, (120, 160))
    y, x = (np.mgrid[0:120, 0:160] + 0.5).reshape(2, -1)
    stated = np.float64(np.float32(heights)).ravel()
    fit = np.linalg.lstsq(np.column_stack((x, y, np.ones(x.size))), stated, rcond=None)[0]
    ground = find_ground(scan_of(heights))
    assert ground.share == 1
    assert (ground.slope_x, ground.slope_y, ground.level) == pytest.approx(fit, abs=1e-9)


def test_noise_is_that_of_its_maker():
    """Normal noise of a known standard deviation is measured within 3 %."""
    for sigma in (0.02, 0.1, 0.4):
        heights = np.random.default_rng(9).normal(0, sigma, SHAPE)
        assert find_ground(scan_of(heights)).noise == pytest.approx(sigma, rel=0.03)


def grey(heights, relief):
    """Return heights as grey numbers of 16 bits, uppermost row first."""
    return np.rint(heights[::-1] / relief * 65535).astype(np.uint16)


@pytest.mark.parametrize("name", ["a.png", "a.tif", "deflate.tif", "a.npy", "decimals.tif"])
def test_files_of_other_writers_are_read_as_written(tmp_path, name):
    """What Pillow and numpy wrote comes back to half a grain, each row in its place."""
    heights = plane(60, 90, 0.03, 0.05, 0.5)
    heights[box_mask(heights.shape, (10, 40, 30, 55))] += 4
    path, scale = tmp_path / name, ScanScale(pixel=Fraction(2), relief=Fraction(14))
    if name == "decimals.tif":
        Image.fromarray(heights[::-1].astype(np.float32)).save(path)
        scale = ScanScale(pixel=Fraction(2))
    elif name == "a.npy":
        np.save(path, grey(heights, 14))
    else:
        options = {"compression": "tiff_adobe_deflate"} if "deflate" in name else {}
        Image.fromarray(grey(heights, 14)).save(path, **options)
    scan = read_scan(path, scale)
    assert (scan.width, scan.height) == (180, 120)
    assert np.abs(scan.heights - heights).max() <= 14 / 65535 / 2 + 1e-6


@pytest.mark.parametrize("mode", [Mode.BINARY, Mode.ASCII])
def test_meshes_of_another_writer_are_read_as_written(tmp_path, mode):
    """A block on a tray, written by numpy-stl, comes back as its heights, and as a liner."""
    corners = []
    for x0, y0, x1, y1, z in ((0, 0, 400, 300, 2), (150, 120, 250, 180, 9)):
        ring = [(x0, y0, z), (x1, y0, z), (x1, y1, z), (x0, y1, z)]
        corners += [[ring[0], ring[1], ring[2]], [ring[0], ring[2], ring[3]]]
    data = np.zeros(len(corners), Mesh.dtype)
    data["vectors"] = corners
    Mesh(data).save(str(tmp_path / "tray.stl"), mode=mode)
    scan = read_scan(tmp_path / "tray.stl", ScanScale())
    expected = np.where(box_mask(SHAPE, (150, 120, 250, 180)), 7.0, 0.0)
    assert (scan.heights == expected).all()
    found = find_liner(scan, RULES, "tray", 13 * MM)
    assert outline_of(found.liner.ornaments[0]).equals(shapely.box(149, 119, 251, 181))
    assert found.parts[0].rise == pytest.approx(7)
