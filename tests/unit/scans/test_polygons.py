"""Boxes of pixels become few zones: nothing lost where they overlap, nothing won by rounding."""

from fractions import Fraction

import numpy as np
import pytest
import shapely
from makescans import MM

from nesting.scans.polygons import merge_boxes


def area_of(zones):
    """Return all zones as one area [steps], by the geometry library alone."""
    return shapely.union_all([shapely.Polygon(zone.shell, zone.holes) for zone in zones])


def test_what_overlaps_or_touches_is_one_zone():
    """A cross, and a box beside it along a whole side; another far off stays apart."""
    zones = merge_boxes(
        [(0, 4, 30, 8), (10, 0, 16, 20), (30, 4, 40, 8), (60, 0, 62, 2)], Fraction(1)
    )
    assert [zone.area / MM**2 for zone in zones] == [40 * 4 + 6 * 16, 4]
    assert len(zones[0].shell) == 12


def test_what_has_a_hole_is_cut_through_its_middle():
    """Four bands around an ornament are two zones that touch along the cut."""
    bands = [(0, 0, 40, 5), (0, 25, 40, 30), (0, 0, 10, 30), (30, 0, 40, 30)]
    zones = merge_boxes(bands, Fraction(1))
    assert [zone.bounds for zone in zones] == [
        (0, 0, 20 * MM, 30 * MM),
        (20 * MM, 0, 40 * MM, 30 * MM),
    ]
    assert all(not zone.holes for zone in zones)
    around = shapely.box(0, 0, 40, 30) - shapely.box(10, 5, 30, 25)
    assert shapely.transform(area_of(zones), lambda points: points / MM).equals(around)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("pixel", [Fraction(1), Fraction(7, 10), Fraction(2400, 1777)])
def test_zones_are_the_boxes_less_a_step_at_most(seed, pixel):
    """Whatever the pixel: never beyond a box, and no seam between two of them."""
    rng = np.random.default_rng(seed)
    low = rng.integers(0, 60, (12, 2))
    boxes = [tuple(map(int, each)) for each in np.hstack((low, low + rng.integers(6, 40, (12, 2))))]
    true = shapely.union_all([shapely.box(*np.array(box) * float(pixel * MM)) for box in boxes])
    found = area_of(merge_boxes(boxes, pixel))
    assert true.buffer(1e-3).covers(found)
    assert found.buffer(1.01, join_style="mitre").covers(true)
    assert len(shapely.get_parts(found)) == len(shapely.get_parts(true))


def test_no_box_gives_no_zone():
    """A scan may have no ground for a dam."""
    assert merge_boxes([], Fraction(1)) == ()
