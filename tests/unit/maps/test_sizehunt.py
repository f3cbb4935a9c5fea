"""The nearest sizes by branch and bound, against runs worked out on paper and line by line."""

import random
from functools import cache

import pytest
from handjob import MM, hand_job, rect
from smalljobs import CELL, small_job
from widthruns import heights_at, widths_at

from nesting.maps.ground import survey, turn_ground_over
from nesting.maps.positions import NO_WISH, Wish, has_place, map_positions
from nesting.maps.sizehunt import TOLERANCE, HuntingGround, Hunts, hunt_size, hunt_width
from nesting.maps.sizerange import map_sizes
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament

WIDTHS = [(12, 20), (340, 385), (790, 835), (1200, 1200)]
HEIGHTS = [(110, 135), (640, 665), (800, 800)]
RULES = Rules(25 * MM, 6 * MM, 12 * MM, MM)
LEAF = ((300, 150), (420, 170), (480, 300), (400, 420), (280, 330))
WAVE = ((700, 250), (820, 190), (860, 330), (760, 400))


@cache
def hand_ground(wish=NO_WISH, *, over=False):
    """Return the hand-sized job's ground made ready, or the same with x and y exchanged."""
    job = hand_job()
    ground = survey(job.liner, job.rules)
    return HuntingGround(turn_ground_over(ground) if over else ground, wish)


def nearest_member(runs, extent, sign):
    """Return the member of closed runs nearest to an extent on one side, None where none is."""
    below = [min(high, extent) for low, high in runs if low <= extent]
    above = [max(low, extent) for low, high in runs if high >= extent]
    return max(below, default=None) if sign < 0 else min(above, default=None)


def hunted(ready, width, height, sign):
    """Return the nearest width [mm]."""
    extent = hunt_width(ready, (width * MM, height * MM), sign).extent
    return extent and extent / MM


@pytest.mark.parametrize("sign", [-1, 1])
@pytest.mark.parametrize("height", [800, 650, 120])
def test_the_nearest_width_is_that_on_paper(height, sign):
    """At each height that has a place the same four runs of widths do."""
    for width in (15, 200, 360, 500, 800, 836, 1100, 1300):
        expected = nearest_member(WIDTHS, width, sign)
        assert hunted(hand_ground(), width, height, sign) == expected


@pytest.mark.parametrize("sign", [-1, 1])
def test_the_nearest_height_is_that_on_paper(sign):
    """With the ground turned over a width is a height."""
    for height in (100, 120, 300, 650, 700, 900):
        expected = nearest_member(HEIGHTS, height, sign)
        assert hunted(hand_ground(over=True), height, 800, sign) == expected


def test_a_wish_is_heeded():
    """With the heron shown the widths east of it are gone."""
    ready = hand_ground(Wish(show=frozenset({0})))
    assert (hunted(ready, 700, 650, -1), hunted(ready, 700, 650, 1)) == (None, 790)


def test_a_band_one_dam_wide_leaves_one_width():
    """A lone ornament with 87 mm beyond it, less 25 and 6: clear of it a panel is 56 wide."""
    liner = Liner(
        "plain", rect(0, 0, 300, 100), 13 * MM, "blank",
        (Ornament("reed", rect(0, 0, 213, 100)),),
    )  # fmt: skip
    ready = HuntingGround(survey(liner, RULES))
    assert (hunted(ready, 200, 100, -1), hunted(ready, 290, 100, 1)) == (56, 300)


@pytest.mark.parametrize("kind", ["bands", "islands", "corner", "hole"])
def test_both_sides_changed_are_those_of_all_sizes_mapped(kind):
    """To the step: the least greater change, then the least sum."""
    job = small_job(kind, 2)
    ground = survey(job.liner, job.rules)
    ready = HuntingGround(ground)
    boxes = map_sizes(ground, (0, ground.frame.width), (0, ground.frame.height))
    pick = random.Random(3)
    for _ in range(3):
        size = pick.randrange(2, 25) * CELL, pick.randrange(2, 17) * CELL + 1
        for signs in ((-1, -1), (1, 1), (-1, 1)):
            found = hunt_size(ready, size, signs)
            assert found.within == 0
            assert rank(size, found.size) == min(
                (rank(size, near) for box in boxes if (near := clamped(box, size, signs))),
                default=None,
            )


def rank(size, other):
    """Return the greater change and the sum of changes."""
    if other is None:
        return None
    by = [abs(a - b) for a, b in zip(size, other, strict=True)]
    return max(by), sum(by)


def clamped(box, size, signs):
    """Return the size of a box nearest to one on the sides the signs allow."""
    near = []
    for (low, high), side, sign in zip((box.widths, box.heights), size, signs, strict=True):
        if (low > side) if sign < 0 else (high < side):
            return None
        near.append(min(side, high) if sign < 0 else max(side, low))
    return tuple(near)


@cache
def leaves():
    """Return ground with two slanted ornaments."""
    ornaments = tuple(
        Ornament(name, Polygon(tuple((x * MM, y * MM) for x, y in ring)))
        for name, ring in (("leaf", LEAF), ("wave", WAVE))
    )
    frame = polygon_of(Box(0, 0, 1000 * MM, 600 * MM))
    return survey(Liner("leaf and wave", frame, 13 * MM, "blank", ornaments), RULES)


def test_between_slopes_no_size_on_lines_one_millimetre_apart_is_nearer():
    """By more than the tolerance; and every size found lies at a place the exact map holds."""
    ground = leaves()
    ready, over = HuntingGround(ground), HuntingGround(turn_ground_over(ground))
    for size in ((560, 380),):
        width, height = (side * MM for side in size)
        for sign in (-1, 1):
            across, up = (
                hunt_width(ready, (width, height), sign),
                hunt_width(over, (height, width), sign),
            )
            assert {across.within, up.within} == {TOLERANCE}
            on_lines = (
                nearest_member(widths_at(ground, height), width, sign),
                nearest_member(heights_at(ground, width), height, sign),
            )
            for found, known in zip((across, up), on_lines, strict=True):
                if known is not None:
                    assert sign * (found.extent - known) <= TOLERANCE
            both = hunt_size(ready, (width, height), (sign, sign))
            assert both.size is None or lies(ground, both.size, both.y)
            assert across.size is None or lies(ground, across.size, across.y)


def lies(ground, size, y):
    """Whether a size has a place on one line."""
    return any(sheet.runs_at_y(y) for sheet in map_positions(ground, *size).sheets)


def test_between_slopes_the_nearest_of_both_is_that_of_plain_geometry():
    """A corner cut at 45 degrees: w + h less than the sum that touches its slope, and equal."""
    corner = Polygon(tuple((x * MM, y * MM) for x, y in ((400, 300), (200, 300), (400, 100))))
    frame = polygon_of(Box(0, 0, 400 * MM, 300 * MM))
    liner = Liner("corner", frame, 13 * MM, "blank", (Ornament("sail", corner),))
    ready = HuntingGround(survey(liner, RULES))
    # Flush with the datum corner, dams right and top: their outer corner, 31 mm out, lies on
    # x + y = 500, so w + h = 438; from 300 x 200 both give up 31 mm.
    found = hunt_size(ready, (300 * MM, 200 * MM), (-1, -1))
    assert max(abs(a / MM - b) for a, b in zip(found.size, (269, 169), strict=True)) <= 0.01


def test_the_widest_in_a_pocket_is_found_and_a_little_more_has_no_place():
    """Between two slopes one panel fits at 0.4 mm of play, on no whole millimetre."""
    left = ((0, 0), (60, 0), (0, 300.4))
    outline = tuple((round(x * MM), round(y * MM)) for x, y in left)
    liner = Liner("pocket", polygon_of(Box(0, 0, 400 * MM, 300 * MM + 3200)), 13 * MM, "blank",
                  (Ornament("wedge", Polygon(outline)),))  # fmt: skip
    ground = survey(liner, RULES)
    width = hunt_width(HuntingGround(ground), (399 * MM, 100 * MM), -1).extent
    assert has_place(ground, width, 100 * MM)
    assert not has_place(ground, width + TOLERANCE + 1, 100 * MM)


def test_a_ground_is_made_ready_once_for_each_wish_and_way():
    """Heights are hunted with x and y exchanged."""
    job = hand_job()
    hunts, wish = Hunts(survey(job.liner, job.rules)), Wish(hide=frozenset([0]))
    assert hunts.across(NO_WISH) is hunts.across(NO_WISH)
    assert hunts.across(wish) is not hunts.across(NO_WISH)
    assert hunt_width(hunts.across(NO_WISH), (845 * MM, 640 * MM), -1).extent == 835 * MM
    assert hunt_width(hunts.up(NO_WISH), (670 * MM, 803 * MM), -1).extent == 665 * MM


def test_no_side_changes_by_more_than_its_reach():
    """10 mm narrower and 2 mm higher are 10 and 2 within reach; 9 mm are not."""
    size = 845 * MM, 638 * MM
    found = hunt_size(hand_ground(), size, (-1, 1), reach=(10 * MM, 2 * MM))
    assert found.size == (835 * MM, 640 * MM)
    assert hunt_size(hand_ground(), size, (-1, 1), reach=(9 * MM, 2 * MM)).size is None
