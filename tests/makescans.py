"""Scans made for tests: seeded, with what is true of each known to the pixel.

Arrays have row 0 lowest, as a height map has; pictures are written with it last.
"""

from fractions import Fraction

import numpy as np

from nesting.scans.build import ScanRules, find_liner
from nesting.scans.heightmap import HeightMap

MM = 8000
RULES = ScanRules(dam_width=25 * MM, seal_gap=1 * MM, join=25 * MM, speck=3 * MM)


def plane(rows, columns, slope_x=0.0, slope_y=0.0, level=0.0):
    """Return heights of a plane, asked for at the middle of each pixel, slopes per pixel."""
    y, x = np.mgrid[0:rows, 0:columns] + 0.5
    return level + slope_x * x + slope_y * y


def box_mask(shape, *boxes):
    """Return a mask with the boxes (x0, y0, x1, y1) set."""
    mask = np.zeros(shape, bool)
    for x0, y0, x1, y1 in boxes:
        mask[y0:y1, x0:x1] = True
    return mask


def ellipse(shape, centre, half, angle=0.0):
    """Return the pixels whose middle lies in an ellipse."""
    y, x = np.mgrid[0 : shape[0], 0 : shape[1]] + 0.5
    x, y = x - centre[0], y - centre[1]
    u = x * np.cos(angle) + y * np.sin(angle)
    v = y * np.cos(angle) - x * np.sin(angle)
    return (u / half[0]) ** 2 + (v / half[1]) ** 2 <= 1


def leafy_scan(seed, shape=(240, 420), leaves=7, noise=0.05):
    """Return a tilted, noisy scan with leaves that rise or sink, and the mask of the leaves."""
    rng = np.random.default_rng(seed)
    heights = plane(*shape, rng.uniform(-0.01, 0.01), rng.uniform(-0.01, 0.01), rng.uniform(0, 20))
    heights += rng.normal(0, noise, shape)
    true = np.zeros(shape, bool)
    for _ in range(leaves):
        centre = rng.uniform(0, shape[1]), rng.uniform(0, shape[0])
        leaf = ellipse(shape, centre, (rng.uniform(4, 12), rng.uniform(15, 40)), rng.uniform(0, 3))
        heights[leaf & ~true] += rng.choice([-3.0, 4.0, 9.0])
        true |= leaf
    return heights, true


def scan_of(heights, pixel=Fraction(1), grain=0.0):
    """Return the heights as a scan."""
    return HeightMap(np.asarray(heights, np.float32), Fraction(pixel), grain)


def found_on(heights, rules=RULES, pixel=Fraction(1)):
    """Return the liner found on a scan."""
    return find_liner(scan_of(heights, pixel), rules, "reeds", 13 * MM)


def pixels_of(polygon, shape, pixel=1.0):
    """Return the pixels whose middle a polygon [steps] holds, by ray casting afresh."""
    y, x = np.mgrid[0 : shape[0], 0 : shape[1]] + 0.5
    x, y = x * pixel * MM, y * pixel * MM
    inside = np.zeros(shape, bool)
    ring = polygon.shell
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if y0 != y1:
            crosses = (y0 <= y) != (y1 <= y)
            inside ^= crosses & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
    return inside


def zone_mask(found, shape):
    """Return the pixels of 1 mm whose middle lies in a zone."""
    masks = [pixels_of(zone.outline, shape) for zone in found.liner.zones]
    return np.any(masks, axis=0)


def zone_boxes(found):
    """Return the boxes around the zones [mm], in their order."""
    bounds = [zone.outline.bounds for zone in found.liner.zones]
    return [tuple(side / MM for side in box) for box in bounds]


def reeds_and_heron():
    """Return the heights [mm] of the example: a heron between reeds, plain bands around them.

    150 x 300 pixels of 8 mm, tilted by 3 mm, noise of 0.03 mm, in grains of 14 / 4096 mm.
    """
    shape = (150, 300)
    rng = np.random.default_rng(7)
    relief = np.zeros(shape)

    def raise_part(mask, height):
        relief[mask] = np.maximum(relief[mask], height)

    for centre in (34, 90, 236, 280):
        for _ in range(6):
            foot = centre + rng.uniform(-13, 13)
            lean, tall = rng.uniform(-0.12, 0.12), rng.uniform(60, 92)
            stalk = ellipse(shape, (foot - lean * tall / 2, 8 + tall / 2), (1.6, tall / 2), lean)
            raise_part(stalk, rng.uniform(3, 6))
            raise_part(ellipse(shape, (foot - lean * tall, 8 + tall), (2.6, 7.5), lean), 7.5)
    raise_part(ellipse(shape, (160, 62), (20, 11), 0.35), 9.0)
    raise_part(ellipse(shape, (176, 84), (4, 20), -0.25), 8.0)
    raise_part(ellipse(shape, (184, 104), (8, 4.5), 0.2), 8.5)
    raise_part(ellipse(shape, (197, 106), (9, 1.6), 0.05), 6.0)
    raise_part(ellipse(shape, (155, 32), (1.7, 24), 0.05), 5.0)
    raise_part(ellipse(shape, (166, 32), (1.7, 24), -0.05), 5.0)
    raise_part(ellipse(shape, (138, 52), (12, 4), 0.5), 6.5)
    grain = 14 / 4096
    heights = relief + plane(*shape, 0.006, 0.008) + rng.normal(0, 0.03, shape)
    return np.rint((heights - heights.min()) / grain) * grain


def example_grey():
    """Return the example as grey numbers of 16 bits, uppermost row first; white is 14 mm."""
    grey = np.rint(reeds_and_heron() / 14 * 65536).astype(int)
    return np.clip(grey, 0, 65535).astype(np.uint16)[::-1]
