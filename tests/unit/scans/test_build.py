"""From a scan to a liner: outlines over ornaments, zones beside them, names and figures."""

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from makescans import (
    MM,
    RULES,
    box_mask,
    found_on,
    leafy_scan,
    pixels_of,
    plane,
    zone_boxes,
    zone_mask,
)

from nesting.scans.ornaments import NoisyError

SHAPE = (200, 300)


def ground(noise=0.03, seed=0):
    """Return tilted, noisy ground."""
    return plane(*SHAPE, 0.01, 0.003, 5) + np.random.default_rng(seed).normal(0, noise, SHAPE)


def raised(*boxes, height=5.0):
    """Return ground with boxes (x0, y0, x1, y1) on it."""
    heights = ground()
    heights[box_mask(SHAPE, *boxes)] += height
    return heights


@pytest.mark.parametrize("seed", range(5))
def test_every_ornament_pixel_is_inside_and_no_zone_touches_one(seed):
    """On strewn leaves, outlines cover all of each, and zones keep a pixel off the leaves."""
    heights, true = leafy_scan(seed)
    found = found_on(heights)
    covered = np.zeros(true.shape, bool)
    for ornament in found.liner.ornaments:
        covered |= pixels_of(ornament.outline, true.shape)
    zones = zone_mask(found, true.shape)
    assert not (true & ~covered).any()
    assert not (zones & covered).any()
    near = np.pad(true, 1)
    near = np.any([near[y : y + SHAPE[0] + 40, x : x + 420] for y in range(3) for x in range(3)], 0)
    assert not (zones & near).any()
    assert zones.sum() > 0.3 * true.size


@pytest.mark.parametrize("width", [28, 33, 60])
def test_a_band_of_known_width_is_found_within_one_pixel(width):
    """Between two ornaments, a zone begins and ends one pixel off them, never nearer."""
    x0 = 120
    found = found_on(raised((90, 0, x0, 200), (x0 + width, 0, x0 + width + 30, 200)))
    assert (x0 + 1, 0, x0 + width - 1, 200) in zone_boxes(found)
    assert all(box[2] <= 89 or box[0] >= x0 + 1 for box in zone_boxes(found))


def test_a_band_too_narrow_for_a_dam_wherever_it_lies_is_none():
    """27 pixels less a pixel of doubt on either side leave 25, and a dam of 25 mm may meet 26."""
    found = found_on(raised((90, 0, 120, 200), (147, 0, 177, 200)))
    assert [box for box in zone_boxes(found) if 100 < box[0] < 170] == []


def test_names_and_heights_are_told():
    """Ornaments are numbered from the left; relief is the greatest height, up or down."""
    heights = raised((40, 40, 80, 160))
    heights[box_mask(SHAPE, (150, 40, 190, 160))] -= 4
    found = found_on(heights)
    first, second = found.liner.ornaments
    assert (first.name, second.name) == ("ornament 1", "ornament 2")
    assert [part.name for part in found.parts] == ["ornament 1", "ornament 2"]
    assert found.parts[0].rise == pytest.approx(5, abs=0.2)
    assert found.parts[0].sink == 0
    assert found.parts[1].sink == pytest.approx(4, abs=0.2)
    assert found.parts[1].rise == 0
    assert found.parts[1].sink <= second.relief / MM < found.parts[1].sink + 0.0101
    assert found.parts[0].area == 40 * 120
    assert first.outline.bounds == (39 * MM, 39 * MM, 81 * MM, 161 * MM)


def test_the_threshold_follows_the_noise_unless_given():
    """Six standard deviations, at least 0.1 mm; a given one is taken as it is."""
    assert found_on(ground(noise=0.1)).threshold == pytest.approx(0.6, rel=0.1)
    assert found_on(ground(noise=0.001)).threshold == pytest.approx(0.1)
    given = found_on(raised((40, 40, 80, 160)), replace(RULES, threshold=7 * MM))
    assert given.threshold == 7
    assert given.liner.ornaments == ()


def test_zones_are_rounded_inward_where_pixels_are_no_whole_steps():
    """A pixel of a third of a millimetre never makes a zone reach past its pixels."""
    found = found_on(raised((100, 0, 160, 200)), replace(RULES, dam_width=10 * MM), Fraction(1, 3))
    left = max(z.outline.bounds.x1 for z in found.liner.zones if z.outline.bounds.x0 == 0)
    assert left <= Fraction(99, 3) * MM < left + 1
    assert found.liner.outline.bounds[2:] == (100 * MM, 200 * MM // 3)


def test_the_liner_is_what_was_measured_and_has_its_own_datum():
    """Missing readings all around are cut off, and everything is measured from the new corner."""
    heights = raised((100, 60, 140, 120))
    heights[:20] = heights[:, :30] = heights[:, 290:] = np.nan
    found = found_on(heights)
    assert found.liner.outline.bounds == (0, 0, 258 * MM, 179 * MM)
    assert found.liner.ornaments[0].outline.bounds == (68 * MM, 38 * MM, 110 * MM, 100 * MM)
    assert found.beyond == 200 * 300 - 258 * 179


def test_missing_readings_inside_are_unread_and_no_zone_touches_them():
    """A hole in the scan is named apart, has no relief, and is kept off."""
    heights = ground()
    heights[90:110, 140:160] = np.nan
    found = found_on(heights)
    (part,), (ornament,) = found.parts, found.liner.ornaments
    assert (part.name, part.unread, ornament.relief) == ("unread 1", 1, 0)
    zones = zone_mask(found, SHAPE)
    assert not zones[89:111, 139:161].any()


def test_specks_are_kept_off_by_zones():
    """A spike of one pixel is no ornament, and no zone holds it or a pixel beside it."""
    heights = ground()
    heights[100, 150] += 3
    found = found_on(heights)
    assert (found.specks, found.liner.ornaments) == (1, ())
    zones = zone_mask(found, SHAPE)
    assert not zones[99:102, 149:152].any()


def test_ornaments_at_the_frame_end_there():
    """An ornament that runs off the scan is cut at the liner's rim."""
    found = found_on(raised((0, 40, 30, 80), (280, 190, 300, 200)))
    first, second = (o.outline.bounds for o in found.liner.ornaments)
    assert first == (0, 39 * MM, 31 * MM, 81 * MM)
    assert second == (279 * MM, 189 * MM, 300 * MM, 200 * MM)


def test_tints_tell_where_it_is_high_and_low():
    """Ground above and below has tints of its own, level ground has none."""
    heights = raised((40, 40, 80, 160))
    heights[box_mask(SHAPE, (150, 40, 190, 160))] -= 4
    depths = [shade.depth for shade in found_on(heights).shades]
    assert depths == [-1, 1, 2, 3]
    assert found_on(ground()).shades == ()


def test_noise_that_nothing_can_be_told_from_is_refused():
    """A threshold below the noise ends with the number of parts."""
    with pytest.raises(NoisyError, match="separate"):
        found_on(ground(noise=0.5), replace(RULES, threshold=MM // 2, speck=0, join=0))


def test_noise_range_is_eleven_deviations():
    """The spread of even ground is told, to be held against the seal gap."""
    assert found_on(ground(noise=0.1)).noise_range == pytest.approx(1.1, rel=0.1)
