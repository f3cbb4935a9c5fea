"""Regions of strip widths."""

import random
from dataclasses import replace
from itertools import product

import pytest
from makemotifs import MM, grid_motif, small_motif
from motiffiles import load_motif

from nesting.values.motif import Strip, liner_size
from nesting.zones.region import Ways, in_steps
from nesting.zones.sharing import join_needs
from nesting.zones.strips import prepare


@pytest.fixture
def ways(tmp_path):
    """Return the ways of the small motif, with those of its one pair."""
    setting = prepare(load_motif(tmp_path))
    found = Ways(setting.motif, setting.needs, MM)
    found.add(join_needs(setting.field, setting.needs, 20 * MM))
    return found


def test_the_least_widths_of_all_are_those_of_the_least_liner(ways):
    """52: every size has a place there, the pair has not, but somewhere has."""
    root = ways.root()
    assert ways.widths(root) == (52,)
    assert ways.met(root).tolist() == [True, True, False]
    assert ways.possible(root).all()


def test_a_region_is_parted_where_a_need_begins_to_be_met(ways):
    """From 52 to 59 without the pair, from 60 on with it."""
    root = ways.root()
    below, beyond = sorted(ways.split(root, ways.cut_for(root, 2)), key=ways.widths)
    assert (ways.widths(below), ways.widths(beyond)) == ((52,), (60,))
    assert [bool(ways.possible(each)[2]) for each in (below, beyond)] == [False, True]
    assert ways.met(beyond).all()


def test_a_region_held_to_less_than_any_liner_is_empty(ways):
    """51 along x is too little; 52 is one liner."""
    root = ways.root()
    assert ways.hold(root, (51, 0)) is None
    assert ways.widths(ways.hold(root, (52, 0))) == (52,)


@pytest.mark.parametrize("seed", [3, 8, 12, 17])
def test_cut_after_cut_loses_no_liner(seed):
    """Wherever random cuts part the widths, those that meet all needs are in just one part."""
    dice = random.Random(seed)
    motif = small_motif(seed)
    setting = prepare(motif)
    grid = setting.grid
    ways = Ways(motif, setting.needs, grid)
    parts = [ways.root()]
    for _ in range(12):
        part = parts.pop(dice.randrange(len(parts)))
        axis = dice.choice([a for a in (0, 1) if len(part.low[a]) > 1])
        i, j = sorted(dice.sample(range(len(part.low[axis])), 2))
        parts += ways.split(part, (axis, i, j, dice.randrange(0, 6)))
        if not parts:
            break
    held = sum(count_liners(motif, setting, ways, part) for part in parts)
    assert held == count_liners(motif, setting, ways, ways.root()) > 0


def count_liners(motif, setting, ways, region):
    """Return how many liners of a region's limits meet all needs, each tried."""
    grid = setting.grid
    ranges = [range(-(-s.least // grid), s.greatest // grid + 1) for s in motif.strips]
    found = 0
    for counts in product(*ranges):
        widths = in_steps(counts, grid)
        size = liner_size(motif, widths)
        names = [strip.name for strip in motif.strips]
        twins = all(
            not strip.as_wide_as or count == counts[names.index(strip.as_wide_as)]
            for strip, count in zip(motif.strips, counts, strict=True)
        )
        if not twins or size[0] > motif.greatest[0] or size[1] > motif.greatest[1]:
            continue
        if holds(motif, region, counts) and all(n.ways_met(motif, widths) for n in setting.needs):
            found += 1
    return found


def holds(motif, region, counts):
    """Whether widths [grid] keep the limits of a region."""
    for axis, name in enumerate("xy"):
        at = [0]
        for number in motif.along(name):
            at.append(at[-1] + counts[number])
        far = region.far[axis]
        if any(at[j] - at[i] > far[i, j] for i in range(len(at)) for j in range(len(at))):
            return False
    return True


def test_strips_as_wide_are_as_wide_at_the_least_total():
    """Along one axis by a small program, across both by a cut."""
    motif = grid_motif(1, 3, 2, 3)
    first, second, third = motif.strips
    motif = replace(motif, strips=(first, replace(second, as_wide_as="x1"), third))
    setting = prepare(motif)
    ways = Ways(motif, setting.needs, setting.grid)
    widths = ways.widths(ways.root())
    assert widths[0] == widths[1] > 0
    free = (Strip("x1", "x", first.at, 10 * MM, 90 * MM), Strip("y1", "y", third.at, 0, 90 * MM))
    across = replace(motif, strips=(free[0], replace(free[1], as_wide_as="x1")))
    ways = Ways(across, (), MM)
    assert ways.widths(ways.root()) == (10, 10)


def test_a_cut_between_a_strip_and_none(ways):
    """One strip in use is too many for none; from 52 on there is no liner without it."""
    root = ways.root()
    assert ways.least_used(root) == 1
    assert ways.cut_for_strip(root, 1) is None
    assert ways.cut_for_strip(root, 0) is None
