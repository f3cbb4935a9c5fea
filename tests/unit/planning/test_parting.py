"""Dam rings parted into strips of the widths there are."""

import random

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.planning.dams import place_dams
from nesting.planning.parting import part_region
from nesting.planning.strips import StripRule
from nesting.shapes.geometry import Box, Polygon, polygon_of, slabs
from nesting.values.casts import Placement, Sides
from nesting.values.liner import Liner


def check_parted(region, boxes):
    """Assert that the boxes are disjoint and fill the region."""
    assert not any(a.overlaps(b) for n, a in enumerate(boxes) for b in boxes[:n])
    assert sum(box.area for box in boxes) == region.area
    shape = shapely.Polygon(region.shell, region.holes)
    assert all(shape.covers(shapely.box(*box)) for box in boxes)


@pytest.mark.parametrize(
    ("ring", "boxes"),
    [
        (((0, 0), (40, 0), (40, 5), (0, 5)), [(0, 0, 40, 5)]),
        (((0, 0), (40, 0), (40, 5), (5, 5), (5, 30), (0, 30)), [(0, 0, 40, 5), (0, 5, 5, 30)]),
        (((0, 0), (9, 0), (9, 5), (5, 5), (5, 30), (0, 30)), [(0, 0, 9, 5), (0, 5, 5, 30)]),
        (
            ((0, 0), (30, 0), (30, 5), (20, 5), (20, 40), (15, 40), (15, 5), (0, 5)),
            [(0, 0, 30, 5), (15, 5, 20, 40)],
        ),
    ],
)
def test_a_region_is_parted_into_few_strips_short_in_total(ring, boxes):
    """A bar stays whole; of the strips at a corner that one runs through that makes them short."""
    region = Polygon(ring)
    found = part_region(region, StripRule(5, (5,)))
    assert sorted(found) == sorted(Box(*box) for box in boxes)
    check_parted(region, found)


def test_a_strip_thinner_than_a_dam_is_avoided():
    """Even where that takes strips more: a bar of 25 with a step of 5 along a part of it."""
    region = Polygon(
        ((0, 0), (200, 0), (200, 25), (105, 25), (105, 75), (200, 75), (200, 100), (0, 100),
         (0, 75), (75, 75), (75, 25), (0, 25))
    )  # fmt: skip
    found = part_region(region, StripRule(25, (25,)))
    check_parted(region, found)
    assert min(min(box.width, box.height) for box in found) >= 25
    assert len(found) == 4


def test_strips_two_dams_wide_are_laid_as_two():
    """Side by side, lying or standing, unless a strip of that width is listed."""
    bar, post = polygon_of(Box(0, 0, 400, 50)), polygon_of(Box(0, 0, 50, 400))
    one = StripRule(25, (25,))
    assert part_region(bar, one) == [Box(0, 0, 400, 25), Box(0, 25, 400, 50)]
    assert part_region(post, one) == [Box(0, 0, 25, 400), Box(25, 0, 50, 400)]
    assert part_region(bar, StripRule(25, (25, 50))) == [Box(0, 0, 400, 50)]


def test_a_thin_strip_is_avoided_where_no_listed_widths_fill_the_region():
    """Even then."""
    step = Polygon(((0, 0), (100, 0), (100, 25), (60, 25), (60, 30), (0, 30)))
    assert part_region(step, StripRule(25, (25,))) == [Box(0, 0, 60, 30), Box(60, 0, 100, 25)]


def test_no_thin_strip_matters_more_than_few_strips():
    """Rows would be two, one of them 5 thin; columns are three, none thinner than a dam."""
    tee = Polygon(((0, 0), (90, 0), (90, 25), (60, 25), (60, 30), (30, 30), (30, 25), (0, 25)))
    found = part_region(tee, StripRule(25, (25,)))
    check_parted(tee, found)
    assert [(box.width, box.height) for box in found] == [(30, 25), (30, 30), (30, 25)]


def test_of_strips_of_one_length_the_larger_is_laid_first():
    """The upright bar 15 wide stays whole, since the lying one as long is 10 wide."""
    zed = Polygon(((20, 35), (35, 35), (35, 25), (55, 25), (55, 65), (40, 65), (40, 45), (20, 45)))
    found = part_region(zed, StripRule(5, tuple(range(5, 60))))
    check_parted(zed, found)
    assert Box(40, 25, 55, 65) in found


@given(st.lists(st.tuples(*4 * (st.integers(0, 9),)), min_size=1, max_size=5))
@settings(max_examples=60)
def test_any_rectilinear_region_is_parted_whole(corners):
    """Whatever the shape, into rectangles no more than the plainest parting needs."""
    boxes = [shapely.box(10 * a, 10 * b, 10 * a + 7 + c, 10 * b + 7 + d) for a, b, c, d in corners]
    union = shapely.union_all(boxes)
    for part in shapely.get_parts(union):
        rings = [
            tuple((int(x), int(y)) for x, y in ring.coords[:-1])
            for ring in (part.exterior, *part.interiors)
        ]
        region = Polygon(rings[0], tuple(rings[1:]))
        found = part_region(region, StripRule(1, tuple(range(1, 200))))
        check_parted(region, found)
        assert len(found) <= len(slabs(region))


def test_a_box_is_not_parted():
    """One strip it stays."""
    assert part_region(polygon_of(Box(-5, 0, 40, 25)), StripRule(25, (25,))) == [Box(-5, 0, 40, 25)]


GROUND = Liner("plain", polygon_of(Box(0, 0, 500, 500)), 10)
ALL_DAMS = Sides(*4 * ["dam"])
WIDTHS = [(25,), (25, 40), (20, 30, 35), (25, 50), (25, 45, 49)]


def throw_panels(pick, rule):
    """Return panels thrown beside and corner to corner of each other as the rule allows."""
    panels = []
    most = pick.choice([2, 3, 4, 6])
    for _ in range(60):
        width, height = pick.randint(20, 150), pick.randint(20, 150)
        x, y = pick.randint(0, 500 - width), pick.randint(0, 500 - height)
        if panels and pick.random() < 0.9:
            old, gap, other = (
                pick.choice(panels),
                *pick.choices([*rule.held, 2 * rule.dam + 7], k=2),
            )
            beside = [old.x + old.width + gap, old.x - gap - width]
            level = [old.y, old.y + old.height - height, pick.randint(0, 500)]
            level += [old.y + old.height + other, old.y - other - height]
            x, y = pick.choice(beside), pick.choice(level)
            if pick.random() < 0.5:
                x, y, width, height = y, x, height, width
        new = Placement("A", x, y, width, height, ALL_DAMS)
        on_liner = GROUND.outline.bounds.contains(new.box)
        if on_liner and rule.keeps([*panels, new]):
            panels.append(new)
        if len(panels) == most:
            break
    return panels


@pytest.mark.long
@pytest.mark.parametrize("seed", range(400))
def test_panels_that_keep_the_rule_need_strips_of_listed_widths_only(seed):
    """However they lie beside and corner to corner of each other."""
    pick = random.Random(seed)
    widths = pick.choice(WIDTHS)
    rule = StripRule(widths[0], widths)
    dams = place_dams(GROUND, rule, throw_panels(pick, rule))
    assert [d for d in dams if d.width not in widths and d.height not in widths] == []
