"""Zones on a scan: every window in them seals, and bands are found whole."""

from fractions import Fraction

import numpy as np
import pytest
import shapely
from makescans import MM, box_mask

from nesting.scans.zones import find_plain, find_sealing, find_steps, maximal_boxes, merge_boxes


def level(shape=(80, 120)):
    """Return level ground and nothing barred."""
    return np.zeros(shape, np.float32), np.zeros(shape, bool)


def brute_boxes(mask):
    """Return every maximal rectangle, by trying all."""
    rows, columns = mask.shape
    full = {
        (x0, y0, x1, y1)
        for y0 in range(rows)
        for y1 in range(y0 + 1, rows + 1)
        for x0 in range(columns)
        for x1 in range(x0 + 1, columns + 1)
        if mask[y0:y1, x0:x1].all()
    }
    grown = ((-1, 0, 0, 0), (0, -1, 0, 0), (0, 0, 1, 0), (0, 0, 0, 1))
    return sorted(
        box for box in full if not any(tuple(np.add(box, step).tolist()) in full for step in grown)
    )


@pytest.mark.parametrize("seed", range(8))
def test_maximal_rectangles_are_all_of_them(seed):
    """Row by row gives what trying every rectangle gives."""
    mask = np.random.default_rng(seed).random((7, 9)) < 0.3 + 0.08 * seed
    assert [tuple(box) for box in maximal_boxes(mask).tolist()] == brute_boxes(mask)


@pytest.mark.parametrize("seed", range(6))
def test_every_window_in_the_union_of_zones_seals(seed):
    """On rough ground no window inside zones, or across two, differs by more than the gap."""
    rng = np.random.default_rng(seed)
    coarse = np.repeat(np.repeat(rng.choice([0, 0, 0, 0.7], (8, 12)), 20, 0), 20, 1)
    ramps = np.cumsum(rng.normal(0, 0.02, (160, 240)), axis=1)
    heights = (coarse + ramps).astype(np.float32)
    plain = find_plain(heights, np.zeros(heights.shape, bool), 0.6, 9)
    union = box_mask(heights.shape, *plain.boxes)
    assert len(plain.boxes) > 3
    assert union.sum() == plain.held <= plain.sealing
    for y in range(heights.shape[0] - 8):
        for x in range(heights.shape[1] - 8):
            if union[y : y + 9, x : x + 9].all():
                part = heights[y : y + 9, x : x + 9]
                assert part.max() - part.min() <= 0.6


def test_a_band_exactly_one_window_wide_is_found_whole():
    """A long band between two barred fields is one zone, however narrow."""
    heights, barred = level()
    barred[:30] = barred[39:] = True
    assert find_plain(heights, barred, 0.5, 9).boxes == ((0, 30, 120, 39),)
    barred[38] = True
    assert find_plain(heights, barred, 0.5, 9).boxes == ()


def test_crossing_bands_are_both_whole():
    """Where two bands cross, each zone runs through."""
    heights, barred = level()
    barred[:] = True
    barred[30:42] = barred[:, 50:64] = False
    assert set(find_plain(heights, barred, 0.5, 9).boxes) == {(0, 30, 120, 42), (50, 0, 64, 80)}


def test_a_step_keeps_zones_a_pixel_off_on_both_sides():
    """Two levels 2 mm apart give two zones; the pixels on either side of the step are in none."""
    heights, barred = level()
    heights[:, 60:] = 2
    assert find_plain(heights, barred, 0.5, 9).boxes == ((0, 0, 59, 80), (61, 0, 120, 80))
    assert find_steps(heights, 0.5).sum() == 2 * 80
    heights, barred = level()
    heights[50:] = 2
    assert find_plain(heights, barred, 0.5, 9).boxes == ((0, 0, 120, 49), (0, 51, 120, 80))
    assert find_steps(heights, 0.5)[49:51].all()


def test_a_slow_rise_is_no_bridge_between_two_levels():
    """Levels joined by a ramp too steep for a dam are not one zone, nor two that touch."""
    heights, barred = level()
    heights += np.clip(np.arange(120) - 55, 0, 10)[None, :] * np.float32(0.1)
    plain = find_plain(heights, barred, 0.5, 9)
    union = box_mask(heights.shape, *plain.boxes)
    seals = find_sealing(heights, barred, 0.5, 9)
    assert len(plain.boxes) == 2
    for y, x in zip(*np.nonzero(~seals), strict=True):
        assert not union[y : y + 9, x : x + 9].all()


def test_ground_without_readings_never_seals():
    """A single pixel without a reading keeps every window off it."""
    heights, barred = level()
    heights[40, 60] = np.nan
    plain = find_plain(heights, barred, 0.5, 9)
    assert not box_mask(heights.shape, *plain.boxes)[40, 60]
    assert not find_sealing(heights, barred, 0.5, 9)[32:41, 52:61].any()


def test_slivers_and_crumbs_are_no_zones():
    """Ground for a window or two beside a large zone is counted, and left out."""
    heights, barred = level()
    barred[:, 100:] = True
    barred[10:22, 105:117] = False
    plain = find_plain(heights, barred, 0.5, 9)
    assert plain.boxes == ((0, 0, 100, 80),)
    assert plain.sealing - plain.held == 144


def test_a_window_larger_than_the_scan_gives_no_zone():
    """Where no dam fits at all, nothing is found."""
    heights, barred = level((10, 30))
    assert find_plain(heights, barred, 0.5, 11).boxes == ()
    assert find_plain(heights, barred, 0.5, 10).boxes == ((0, 0, 30, 10),)


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
