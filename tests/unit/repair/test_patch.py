"""The least ground to be made plain, by hand and against every place tried."""

import random
from dataclasses import replace

import pytest
from handjob import hand_job
from makemotifs import MM, grid_motif

from nesting.maps.bans import ring_strips
from nesting.maps.ground import survey
from nesting.maps.positions import has_place, map_positions
from nesting.maps.sizes import wish_of
from nesting.repair.patch import find_patch, lay_patch
from nesting.search.solver import Deadline
from nesting.shapes.geometry import Box, Polygon, polygon_of, subtract
from nesting.values.casts import Sides
from nesting.values.liner import KeepClear
from nesting.values.motif import make_job
from nesting.values.panels import Panel


@pytest.fixture(scope="module")
def job():
    """Return a liner of 2 x 2 ornaments with plain strips of 20 mm between them, dams of 25."""
    motif = grid_motif(3, 2, 2, 0)
    return make_job(motif, tuple(20 * MM for _ in motif.strips))


def cost_at(job, panel, box, sides):
    """Return what stands in the way of a panel at a place, by polygons and the rules as written."""
    rules, liner = job.rules, job.liner
    beyond, margins = (
        sides.widths(rules.dam_width + rules.dam_clearance),
        sides.widths(rules.edge_margin),
    )
    outer = Box(box.x0 - beyond[0], box.y0 - beyond[2], box.x1 + beyond[1], box.y1 + beyond[3])
    inner = Box(box.x0 + margins[0], box.y0 + margins[2], box.x1 - margins[1], box.y1 - margins[3])
    gone = []
    for each in liner.ornaments:
        shape = each.outline.bounds
        meets = (
            outer.x0 < shape.x1
            and shape.x0 < outer.x1
            and outer.y0 < shape.y1
            and shape.y0 < outer.y1
        )
        if meets and not inner.contains(shape):
            gone.append(each.outline)
    ring = [
        polygon_of(Box(s.x0 + box.x0, s.y0 + box.y0, s.x1 + box.x0, s.y1 + box.y0))
        for s in ring_strips(box.width, box.height, sides, rules.dam_width)
    ]
    plain = (
        [zone.outline for zone in liner.zones] if liner.unmarked == "detail" else [liner.outline]
    )
    bare = subtract(ring, plain) if ring else ()
    return sum(part.area for part in subtract([*bare, *gone], [])) if (*bare, *gone) else 0


def try_places(job, panel, step):
    """Return the least cost over a grid of places with dams on all sides, and on the left rim."""
    frame, dam, best = job.liner.outline.bounds, job.rules.dam_width, None
    for left in ("edge", "dam"):
        sides = Sides(left, "dam", "dam", "dam")
        xs = [0] if left == "edge" else range(dam, frame.x1 - panel.width - dam + 1, step)
        for x in xs:
            for y in range(dam, frame.y1 - panel.height - dam + 1, step):
                box = Box(x, y, x + panel.width, y + panel.height)
                found = cost_at(job, panel, box, sides)
                best = found if best is None else min(best, found)
    return best


@pytest.mark.parametrize("seed", range(4))
def test_no_place_tried_asks_for_less(job, seed):
    """Over a grid of 15 mm, and the patch asks for what the place it names does."""
    dice = random.Random(seed)
    frame = job.liner.outline.bounds
    width, height = (dice.randrange(100, side // MM - 60, 5) * MM for side in (frame.x1, frame.y1))
    panel = Panel("N", width, height, 1, "flat")
    patch = find_patch(job, panel, (), Deadline())
    assert patch.proved
    assert patch.area == cost_at(job, panel, patch.box, patch.sides)
    tried = try_places(job, panel, 15 * MM)
    assert tried is None or patch.area <= tried


@pytest.mark.parametrize("kind", ["detail", "blank"])
@pytest.mark.parametrize("wish", ["", "show", "hide"])
def test_the_panel_has_its_place_once_the_ground_is_plain(job, kind, wish):
    """And what it must show is still there."""
    job = replace(job, liner=replace(job.liner, unmarked=kind))
    wishes = {f"must_{wish}": ("o0.0",)} if wish else {}
    box = job.liner.ornaments[0].outline.bounds
    panel = Panel("N", box.width + 40 * MM, box.height + 40 * MM, 1, "flat", **wishes)
    patch = find_patch(job, panel, (), Deadline())
    mended = lay_patch(job.liner, patch)
    if wish == "show":
        assert "o0.0" not in patch.removed
    ground = survey(mended, job.rules)
    kept = replace(panel, must_hide=tuple(set(panel.must_hide) - set(patch.removed)))
    assert has_place(ground, panel.width, panel.height, wish_of(ground, kept))


def test_a_strip_too_narrow_is_made_wider_under_the_dam_only():
    """By hand: 780 wide, its dam to 805, plain from 790; the zone north is 50 of the 800."""
    job = hand_job()
    panel = Panel("N", 780 * MM, 800 * MM, 1, job.beds[0].name)
    patch = find_patch(job, panel, (), Deadline())
    assert (patch.area, patch.removed, patch.proved) == (10 * 750 * MM**2, (), True)
    assert patch.box == Box(0, 0, 780 * MM, 800 * MM)
    assert {part.bounds.x1 for part in patch.ground} == {790 * MM}


def test_what_must_stay_is_not_taken_away(job):
    """A panel over the whole liner but its dams has no place with an ornament that stays."""
    frame = job.liner.outline.bounds
    panel = Panel("N", frame.x1 - 100 * MM, frame.y1 - 100 * MM, 1, "flat", must_hide=("o0.0",))
    assert "o0.0" in find_patch(job, panel, (), Deadline()).removed
    assert find_patch(job, panel, {"o0.0"}, Deadline()) is None


def test_a_slanted_ornament_taken_away_leaves_the_least_not_proved(job):
    """A place where it stays may lie closer to its slanted side; far from it nothing is lost."""
    first, *others = job.liner.ornaments
    x0, y0, x1, y1 = first.outline.bounds
    slanted = replace(first, outline=Polygon(((x0, y0), (x1, y0), (x0, y1))))
    job = replace(job, liner=replace(job.liner, ornaments=(slanted, *others)))
    frame = job.liner.outline.bounds
    panel = Panel("N", frame.x1 - 100 * MM, frame.y1 - 100 * MM, 1, "flat", must_hide=("o0.0",))
    assert not find_patch(job, panel, (), Deadline()).proved
    box = next(each for each in others if each.name == "o1.1").outline.bounds
    width, height = box.width + 40 * MM, box.height + 40 * MM
    far = replace(panel, width=width, height=height, must_hide=(), must_show=("o1.1",))
    assert find_patch(job, far, (), Deadline()).proved


def test_only_a_rectangular_liner_is_looked_at(job):
    """Others get single changes only."""
    corner = Polygon(
        ((0, 0), (800 * MM, 0), (800 * MM, 300 * MM), (300 * MM, 800 * MM), (0, 800 * MM))
    )
    assert (
        find_patch(
            replace(job, liner=replace(job.liner, outline=corner)),
            Panel("N", 9, 9, 1, "flat"),
            (),
            Deadline(),
        )
        is None
    )


@pytest.mark.parametrize("seed", range(4))
def test_no_dam_comes_too_near_to_a_kept_place(job, seed):
    """Whatever is made plain; far from it the least is what it was, near it never less."""
    dice = random.Random(seed)
    frame = job.liner.outline.bounds
    x, y = (dice.randrange(0, side) for side in (frame.x1, frame.y1))
    loop = KeepClear("loop", Box(x, y, x, y), 70 * MM)
    kept = replace(job, liner=replace(job.liner, keep_clear=(loop,)))
    width, height = (dice.randrange(100, side // MM - 60, 5) * MM for side in (frame.x1, frame.y1))
    panel = Panel("N", width, height, 1, "flat")
    free, patch = find_patch(job, panel, (), Deadline()), find_patch(kept, panel, (), Deadline())
    assert patch.area >= free.area
    mended = lay_patch(kept.liner, patch)
    ground = survey(mended, job.rules)
    sheets = map_positions(ground, width, height).sheets
    assert any(
        sheet.sides == patch.sides and sheet.holds(patch.box.x0, patch.box.y0) for sheet in sheets
    )
