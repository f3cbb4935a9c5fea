"""What rises and sinks: parts, joins, specks, missing readings."""

import numpy as np
import pytest
from makescans import box_mask

from nesting.scans import ornaments as scanornaments
from nesting.scans.ornaments import NoisyError, find_relief

SHAPE = (60, 90)


def heights(*parts):
    """Return level ground with boxes (x0, y0, x1, y1, height) on it."""
    ground = np.zeros(SHAPE, np.float32)
    for x0, y0, x1, y1, height in parts:
        ground[y0:y1, x0:x1] = height
    return ground


def test_an_outline_covers_its_pixels_and_one_more_around():
    """A block read on 10 x 6 pixels has an outline of 12 x 8."""
    (part,) = find_relief(heights((20, 30, 30, 36, 5)), 0.5, 0, 1).raised
    assert part.outline.bounds == (19, 29, 31, 37)
    assert part.outline.area == 96
    assert (part.rise, part.sink, part.measured, part.unmeasured) == (5, 0, 60, 0)


def test_what_sinks_is_ornament_too():
    """A groove has its depth; a part that does both has both."""
    (part,) = find_relief(heights((5, 5, 15, 9, -2), (15, 5, 20, 9, 3)), 0.5, 0, 1).raised
    assert (part.rise, part.sink) == (3, 2)


@pytest.mark.parametrize(("join", "count"), [(0, 2), (5, 2), (6, 2), (7, 1), (12, 1)])
def test_parts_less_than_the_join_apart_are_one(join, count):
    """Two blocks six pixels apart are one ornament where more than six pixels are bridged."""
    found = find_relief(heights((10, 10, 20, 30, 4), (26, 10, 36, 30, 4)), 0.5, join, 1)
    assert len(found.raised) == count


def test_a_joined_ornament_is_one_outline_over_both():
    """Joined blocks side by side are filled between; corner to corner they are bridged."""
    side = find_relief(heights((10, 10, 20, 30, 4), (24, 10, 34, 30, 4)), 0.5, 9, 1).raised[0]
    assert side.outline.bounds == (9, 9, 35, 31)
    assert side.outline.area == 26 * 22
    corner = find_relief(heights((10, 10, 20, 20, 4), (26, 26, 36, 36, 4)), 0.5, 9, 1).raised[0]
    assert corner.outline.geom_type == "Polygon"
    assert corner.measured == 200


def test_small_groups_are_specks_that_zones_keep_off():
    """A group no larger than the speck is counted and marked, not outlined."""
    found = find_relief(heights((10, 10, 13, 12, 4), (40, 10, 44, 12, 4)), 0.5, 0, 3)
    assert found.speck_count == 1
    assert (found.specks == box_mask(SHAPE, (10, 10, 13, 12))).all()
    assert [part.outline.bounds for part in found.raised] == [(39, 9, 45, 13)]


def test_crumbs_beside_an_ornament_belong_to_it():
    """What is small is a speck on its own, and part of an ornament as near as specks are large."""
    near = find_relief(heights((10, 10, 30, 20, 4), (32, 14, 33, 15, 4)), 0.5, 0, 3)
    assert near.speck_count == 0
    assert sum(part.measured for part in near.raised) == 201
    far = find_relief(heights((10, 10, 30, 20, 4), (35, 14, 36, 15, 4)), 0.5, 9, 3)
    assert (far.speck_count, far.raised[0].measured) == (1, 200)


def test_specks_join_nothing():
    """Two ornaments with a row of specks between them stay two."""
    dots = [(x, 20, x + 1, 21, 4) for x in range(35, 56, 5)]
    found = find_relief(heights((10, 10, 30, 30, 4), (60, 10, 80, 30, 4), *dots), 0.5, 9, 2)
    assert (len(found.raised), found.speck_count) == (2, 5)


def test_very_many_parts_are_one_field(monkeypatch):
    """Dots set close are one ornament; more of them than are bridged take the ground between."""
    dots = [(x, y, x + 4, y + 4, 4) for x in range(10, 70, 10) for y in range(10, 50, 10)]
    one = find_relief(heights(*dots), 0.5, 8, 1).raised
    assert len(one) == 1
    monkeypatch.setattr(scanornaments, "MOST_BRIDGED", 3)
    (field,) = find_relief(heights(*dots), 0.5, 8, 1).raised
    assert field.outline.covers(one[0].outline)
    assert field.measured == 24 * 16


def test_parts_come_from_left_to_right():
    """The order rests on places alone."""
    found = find_relief(
        heights((50, 5, 60, 15, 1), (20, 40, 30, 50, 1), (20, 5, 30, 15, 1)), 0.5, 0, 1
    )
    assert [part.outline.bounds[:2] for part in found.raised] == [(19, 4), (19, 39), (49, 4)]


def test_missing_readings_inside_are_outlined_and_at_the_frame_cut_off():
    """A hole in the scan is a part without height; at the frame it is beyond the liner."""
    ground = heights((30, 20, 40, 30, np.nan), (0, 0, 8, 60, np.nan))
    found = find_relief(ground, 0.5, 0, 1)
    (part,) = found.raised
    assert (part.measured, part.unmeasured, part.rise, part.sink) == (0, 100, 0, 0)
    (outer,) = found.beyond
    assert outer.bounds == (-1, -1, 9, 61)


def test_ground_all_around_without_readings_keeps_its_opening():
    """A frame of missing readings leaves the liner inside it alone."""
    ground = np.full(SHAPE, np.nan, np.float32)
    ground[10:50, 12:80] = 0
    (outer,) = find_relief(ground, 0.5, 25, 1).beyond
    assert len(outer.interiors) == 1
    assert outer.interiors[0].bounds == (13, 11, 79, 49)


def test_missing_readings_beside_an_ornament_belong_to_it():
    """A top the scanner did not see is part of its ornament."""
    (part,) = find_relief(heights((20, 20, 40, 30, 6), (28, 22, 32, 26, np.nan)), 0.5, 0, 1).raised
    assert (part.measured, part.unmeasured) == (184, 16)


def test_noise_instead_of_ornament_is_refused(monkeypatch):
    """More runs or parts than any liner carries end at once, with their number."""
    noise = np.random.default_rng(0).normal(size=SHAPE).astype(np.float32)
    monkeypatch.setattr(scanornaments, "MOST_RUNS", 100)
    with pytest.raises(NoisyError, match=r"[0-9]+ separate rows of pixels"):
        find_relief(noise, 0.5, 0, 1)
    monkeypatch.setattr(scanornaments, "MOST_RUNS", 10**6)
    monkeypatch.setattr(scanornaments, "MOST_PARTS", 3)
    with pytest.raises(NoisyError, match=r"[0-9]+ separate parts"):
        find_relief(noise, 1.5, 0, 0)


def test_one_hot_reading_does_not_make_the_relief():
    """A spike in an ornament counts as far as its neighbours; a ridge of one pixel counts whole."""
    heights = np.zeros((60, 80))
    heights[20:40, 20:40] = 6.0
    heights[30, 30], heights[25, 22] = 50.0, -40.0
    (part,) = find_relief(heights, 0.5, 5, 3).raised
    assert (part.rise, part.sink) == (6.0, 0.0)
    heights[20:40, 35] = 9.0
    (part,) = find_relief(heights, 0.5, 5, 3).raised
    assert part.rise == 9.0


def test_a_part_at_the_corner_of_the_scan_has_its_relief():
    """Beyond the frame there is no neighbour to ask."""
    heights = np.zeros((40, 50))
    heights[:10, :10] = -3.0
    heights[30:, 40:] = 2.0
    first, second = find_relief(heights, 0.5, 5, 3).raised
    assert (first.sink, second.rise) == (3.0, 2.0)
