"""The keep-off rule, worked out on paper and cell by cell."""

from itertools import product

import pytest
from handjob import MM, hand_job, sides

from nesting.maps.bans import keep_off_strips, list_bans, list_obstacles, reach_of, ring_strips
from nesting.maps.ground import survey
from nesting.shapes.geometry import Box
from nesting.values.job import Rules

RULES = Rules(dam_width=25, dam_clearance=6, edge_margin=12, set_out=1)
ALL_SIDES = [
    "".join(letter for letter, is_dam in zip("lrbt", dams, strict=True) if is_dam)
    for dams in product((False, True), repeat=4)
]


def test_each_kind_of_obstacle_has_its_strips():
    """Ornament is kept off ring and margin, barred ground off the ring, the rest off the panel."""
    found = {}
    for kind, strip in list_bans(100, 80, sides("rt"), RULES):
        found.setdefault(kind, []).append(strip)
    assert list(found) == ["ornament", "no_dam", "keep_clear", "off_liner", "hidden"]
    assert found["ornament"] == keep_off_strips(100, 80, sides("rt"), RULES)
    assert found["no_dam"] == found["keep_clear"] == ring_strips(100, 80, sides("rt"), 25)
    assert found["off_liner"] == found["hidden"] == [Box(0, 0, 100, 80)]


def test_a_hidden_ornament_is_an_obstacle_of_its_own():
    """The heron of the hand-sized job, once more among those to be left out."""
    job = hand_job()
    ground = survey(job.liner, job.rules)
    obstacles = list_obstacles(ground, {0})
    assert (obstacles["hidden"].boxes / MM).tolist() == [[300, 200, 520, 600]]
    assert len(obstacles["ornament"]) == len(job.liner.ornaments)
    assert len(list_obstacles(ground)["hidden"]) == 0


@pytest.mark.parametrize(("clearance", "margin"), [(6, 12), (40, 3), (0, 0)])
def test_the_reach_of_a_rule_is_that_of_its_strips(clearance, margin):
    """Beyond a dam side the dam and its clearance, inside the margin; the body is whole inside."""
    rules = Rules(25, clearance, margin, 1)
    assert reach_of("ornament", rules) == (25 + clearance, margin)
    assert reach_of("no_dam", rules) == (25, 0)
    assert reach_of("hidden", rules)[0] == 0


def test_the_ring_is_four_strips_with_the_corners_in_the_upright_ones():
    """Disjoint, and together the panel grown by the dam less the panel."""
    strips = ring_strips(100, 80, sides("lrbt"), 25)
    assert strips == [
        Box(-25, -25, 0, 105),
        Box(100, -25, 125, 105),
        Box(0, -25, 100, 0),
        Box(0, 80, 100, 105),
    ]
    assert sum(strip.area for strip in strips) == 150 * 130 - 100 * 80


@pytest.mark.parametrize("dams", ALL_SIDES, ids=lambda dams: dams or "none")
def test_the_ring_stops_at_the_rims(dams):
    """It has the area of the panel grown on its dam sides, less the panel."""
    left, right, bottom, top = (25 * (side in dams) for side in "lrbt")
    strips = ring_strips(100, 80, sides(dams), 25)
    assert not any(a.overlaps(b) for n, a in enumerate(strips) for b in strips[:n])
    grown = Box(-left, -bottom, 100 + right, 80 + top)
    assert sum(strip.area for strip in strips) == grown.area - 100 * 80
    assert all(grown.contains(strip) for strip in strips)


@pytest.mark.parametrize("dams", ALL_SIDES, ids=lambda dams: dams or "none")
@pytest.mark.parametrize("margin", [0, 12, 60])
def test_ornament_is_kept_off_the_grown_ring_and_the_margin(dams, margin):
    """Cell by cell: within the ring and its clearance, not in the panel; and in the margins."""
    rules = Rules(25, 6, margin, 1)
    ring = [s.grown(6, 6, 6, 6) for s in ring_strips(100, 80, sides(dams), 25)]
    panel = Box(0, 0, 100, 80)
    inner = panel.grown(*(-margin * (side in dams) for side in "lbrt"))
    strips = keep_off_strips(100, 80, sides(dams), rules)
    for x, y in product(range(-40, 140, 2), range(-40, 120, 2)):
        cell = Box(x, y, x + 1, y + 1)
        is_off = any(s.overlaps(cell) for s in ring) and not panel.contains(cell)
        is_off |= panel.contains(cell) and not inner.contains(cell)
        assert any(s.overlaps(cell) for s in strips) == is_off, cell
