"""Outlines of pixels: what they cover, and how far they may lie outside."""

import numpy as np
import pytest
import shapely
from makescans import ellipse

from nesting.shapes.rasteroutline import (
    MOST_POINTS,
    SLACK,
    all_rings,
    bridge_parts,
    burn,
    clip,
    cover_runs,
    part_frame,
    ring_points,
    shift,
    simplify,
    simplify_outward,
)
from nesting.shapes.rasters import find_runs


def pixels(mask):
    """Return the union of a mask's pixels."""
    return shapely.union_all(cover_runs(find_runs(mask)))


@pytest.mark.parametrize("angle", [0.0, 0.3, 0.8, 1.57, 2.2])
def test_simplified_outlines_cover_their_pixels_and_little_more(angle):
    """No pixel is lost, the rim lies within three times the slack, and points are few."""
    whole = pixels(ellipse((120, 160), (80, 60), (15, 50), angle))
    found, slack = simplify_outward(whole)
    assert slack == SLACK
    assert found.covers(whole)
    assert whole.buffer(3 * slack).covers(found)
    assert len(found.exterior.coords) < 0.7 * len(whole.exterior.coords)


def test_a_rectangle_of_pixels_stays_as_it_is():
    """Straight sides cost nothing."""
    mask = np.zeros((9, 9), bool)
    mask[2:5, 3:8] = True
    found, _ = simplify_outward(pixels(mask))
    assert found.equals(shapely.box(3, 2, 8, 5))


def test_a_ragged_outline_gets_few_points_with_more_slack():
    """Where points would be too many the slack doubles, and the pixels are still covered."""
    mask = np.zeros((1200, 8), bool)
    mask[:, 3:5] = True
    mask[::2, 2] = mask[1::4, 6] = mask[1::4, 5] = True
    comb = np.kron(mask, np.ones((3, 3), bool))
    whole = shapely.Polygon(cover_runs(find_runs(comb))[0].exterior)
    found, slack = simplify_outward(whole)
    assert slack > SLACK
    assert len(found.exterior.coords) <= MOST_POINTS
    assert found.covers(whole)


def test_holes_are_kept_where_asked_and_shrink():
    """A frame of pixels keeps its opening, which never grows."""
    ring = shapely.box(0, 0, 30, 30).difference(pixels(ellipse((30, 30), (15, 15), (9, 9))))
    found, _ = simplify_outward(ring)
    assert found.covers(ring)
    assert len(found.interiors) == 1
    assert len(all_rings(found)) == 2


def test_parts_become_one_polygon():
    """Parts that touch need no bridge, others get one a pixel wide; openings are filled."""
    near = bridge_parts([shapely.box(0, 0, 4, 9), shapely.box(4, 0, 9, 9)])
    assert near.equals(shapely.box(0, 0, 9, 9))
    far = bridge_parts([shapely.box(0, 0, 4, 9), shapely.box(20, 0, 24, 9)])
    assert far.covers(shapely.box(0, 0, 4, 9))
    assert far.covers(shapely.box(20, 0, 24, 9))
    assert 16 <= far.area - 72 <= 18
    holed = shapely.box(0, 0, 9, 9).difference(shapely.box(3, 3, 5, 5))
    assert bridge_parts([holed]).equals(shapely.box(0, 0, 9, 9))


def test_burning_sets_what_is_met_and_not_what_is_touched():
    """A square on the borders of pixels burns its own pixels only; a hair more burns the next."""
    mask = np.zeros((8, 8), bool)
    burn(mask, [shapely.box(2, 3, 5, 6)])
    assert mask.sum() == 9
    assert mask[3:6, 2:5].all()
    burn(mask, [shapely.box(2, 3, 5.01, 6)])
    assert mask.sum() == 12


@pytest.mark.parametrize("seed", range(5))
def test_burning_is_what_shapely_says_of_each_pixel(seed):
    """A pixel is set exactly where its inside meets the polygon."""
    rng = np.random.default_rng(seed)
    polygon = shapely.MultiPoint(rng.uniform(-3, 23, (9, 2))).convex_hull
    mask = np.zeros((20, 20), bool)
    burn(mask, [polygon])
    for row in range(20):
        for column in range(20):
            met = polygon.intersection(shapely.box(column, row, column + 1, row + 1)).area
            assert mask[row, column] == (met > 0) or met < 1e-4


def test_the_frame_is_parted_by_what_reaches_across():
    """The largest part is kept, the rest told; nothing left is an error."""
    rim, rest = part_frame(20, 10, [shapely.box(5, 0, 7, 10)])
    assert rim.equals(shapely.box(7, 0, 20, 10))
    assert sum(part.area for part in rest) == 70
    assert part_frame(20, 10, []) == (shapely.box(0, 0, 20, 10), ())
    with pytest.raises(ValueError, match="no ground is left"):
        part_frame(20, 10, [shapely.box(-1, -1, 21, 11)])


def test_outlines_are_clipped_to_the_rim():
    """What lies beyond the rim is cut off, crumbs below one pixel dropped."""
    rim = shapely.box(0, 0, 10, 10)
    (kept,) = clip(shapely.box(8, 3, 14, 6), rim)
    assert kept.equals(shapely.box(8, 3, 10, 6))
    assert clip(shapely.box(9.5, 3, 14, 4), rim) == ()
    assert clip(rim, rim) == (rim,)


def test_points_can_be_moved():
    """Points come open, moved out where asked; an outline is shifted by whole pixels."""
    square = shapely.box(0, 0, 2, 2)
    assert len(ring_points(square)) == 4
    assert ring_points(square, 1).min() == -1
    assert shift(square, 3, 4).bounds == (3, 4, 5, 6)
    assert simplify(square, 0.5).equals(square)
