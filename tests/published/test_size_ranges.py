"""Every size a liner can give, held against looking at every size there is.

No outside figures exist for these regions. What is held against them is a second way of working
the same thing out: the position map of each size in turn, and the rules read from sets of cells,
which share nothing with either (tests/smalljobs.py).
"""

import random
from dataclasses import replace
from functools import cache

import pytest
from smalljobs import CELL, KINDS, places_by_rule, small_job
from widthruns import heights_at, widths_at

from nesting.maps.ground import survey
from nesting.maps.positions import map_positions
from nesting.maps.sizerange import make_stepped, map_sizes
from nesting.maps.sizeregion import part_sizes
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament

pytestmark = pytest.mark.long


NONE = 9
LEAF = ((300, 150), (420, 170), (480, 300), (400, 420), (280, 330))
WAVE = ((700, 250), (820, 190), (860, 330), (760, 400))


@cache
def small(kind):
    """Return a small job, its ground, a wish and the boxes of its sizes."""
    job = small_job(kind, 1, width=13, height=9)
    ground = survey(job.liner, job.rules)
    wish = wish_of(ground, job.panels[0])
    return job, ground, wish, map_sizes(ground, *runs(ground), wish)


def runs(ground):
    """Return all widths and heights there can be."""
    return (0, ground.frame.width), (0, ground.frame.height)


def grid(job, ground, pitch):
    """Return every size on the pitch that the edge margin allows."""
    least = max(CELL, job.rules.edge_margin)
    return [
        (width, height)
        for width in range(least, ground.frame.width + 1, pitch)
        for height in range(least, ground.frame.height + 1, pitch)
    ]


def least_dams(ground, size, wish):
    """Return the fewest dams with which the size has a place by its position map."""
    sheets = map_positions(ground, *size, wish).sheets
    return min((s.sides.count("dam") for s in sheets if s.first_place()), default=NONE)


@pytest.mark.parametrize("kind", KINDS)
def test_every_half_cell_agrees_with_its_position_map(kind):
    """A size is in a box exactly where its map has a place, with the same fewest dams."""
    job, ground, wish, boxes = small(kind)
    sizes = grid(job, ground, CELL // 2)
    ours = [min((b.dams for b in boxes if b.holds(*s)), default=NONE) for s in sizes]
    assert ours == [least_dams(ground, size, wish) for size in sizes]
    assert len(set(ours)) > 1


@pytest.mark.parametrize("kind", KINDS)
def test_every_cell_agrees_with_the_rules_read_from_cells(kind):
    """A size of whole cells is in a box exactly where the rules allow it somewhere."""
    job, ground, _, boxes = small(kind)
    sizes = grid(job, ground, CELL)
    panel = job.panels[0]
    by_rule = [bool(places_by_rule(job, replace(panel, width=w, height=h))) for w, h in sizes]
    assert [any(box.holds(*size) for box in boxes) for size in sizes] == by_rule
    assert any(by_rule)


@pytest.mark.parametrize("kind", KINDS)
def test_widths_and_heights_are_those_of_the_boxes(kind):
    """The runs at one height, and at one width, hold the sizes the boxes hold there."""
    job, ground, wish, boxes = small(kind)
    sizes = grid(job, ground, CELL // 2)
    across = {height: widths_at(ground, height, wish) for height in {h for _, h in sizes}}
    up = {width: heights_at(ground, width, wish) for width in {w for w, _ in sizes}}
    ours = [any(box.holds(*size) for box in boxes) for size in sizes]
    assert [within(across[height], width) for width, height in sizes] == ours
    assert [within(up[width], height) for width, height in sizes] == ours


def within(found, length):
    """Whether one of the runs holds the length."""
    return any(low <= length <= high for low, high in found)


@cache
def slanted():
    """Return ground with two slanted ornaments, and the boxes around and inside them."""
    liner = Liner(
        "leaf and wave",
        polygon_of(Box(0, 0, 1000 * MM, 600 * MM)),
        13 * MM,
        "blank",
        tuple(
            Ornament(name, Polygon(tuple((x * MM, y * MM) for x, y in ring)))
            for name, ring in (("leaf", LEAF), ("wave", WAVE))
        ),
    )
    ground = survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    around, inside = (make_stepped(ground, 3, around=side) for side in (True, False))
    return ground, map_sizes(around, *runs(ground)), map_sizes(inside, *runs(ground))


def test_certain_sizes_are_possible_ones():
    """No size around the stairs is missing from those inside them, by whole areas."""
    _, certain, possible = slanted()
    assert part_sizes(4, certain, possible).is_empty
    assert not part_sizes(4, possible, certain).is_empty


def test_certain_sizes_have_a_place_and_others_have_none():
    """On a random 120 sizes: inside certain ones is a place, outside possible ones is none."""
    ground, certain, possible = slanted()
    pick = random.Random(5)
    told = []
    for _ in range(120):
        size = pick.randrange(12, 1000) * MM, pick.randrange(12, 600) * MM
        has_place = map_positions(ground, *size).first_place() is not None
        if any(box.holds(*size) for box in certain):
            told.append((True, has_place))
        elif not any(box.holds(*size) for box in possible):
            told.append((False, has_place))
    assert all(ours == theirs for ours, theirs in told)
    assert min(sum(ours for ours, _ in told), sum(not ours for ours, _ in told)) > 5
