"""The same panels, laid so that the least length of dam is needed."""

import random
from itertools import pairwise

import pytest
from tinysheets import every_layout, is_free, placed, sheet

from nesting.search import dam_length
from nesting.search.dam_length import shorten_dams
from nesting.search.solver import Deadline


def lengths_of(instance, length):
    """Return so much dam for every place."""
    return dict.fromkeys(range(len(instance.owner)), length)


def shared_length(instance, layout, dam):
    """Return the length that neighbours one dam apart share: boxes include the dam on two sides."""
    total = 0
    boxes = [tuple(instance.boxes[place]) for place in layout]
    for ax0, ay0, ax1, ay1 in boxes:
        for bx0, by0, bx1, by1 in boxes:
            if ax1 == bx0:
                total += max(0, min(ay1, by1) - max(ay0, by0) - dam)
            if ay1 == by0:
                total += max(0, min(ax1, bx1) - max(ax0, bx0) - dam)
    return total


def test_panels_move_together_to_share_a_dam():
    """Three of 9 x 5 with dams of 1 can lie in a row, where two dams of 5 are shared."""
    instance = placed((10, 6, 3, [(0, 0), (10, 0), (20, 0), (27, 0), (50, 0), (13, 20)]))
    layout = shorten_dams(instance, (0, 3, 4), lengths_of(instance, 28), 1, Deadline())
    xs = sorted(int(instance.boxes[place][0]) for place in layout)
    assert xs == [0, 10, 20]
    assert all(b - a == 10 for a, b in pairwise(xs))


def test_a_place_on_the_rim_is_shorter():
    """It needs fewer dams of its own, which counts more than nothing shared."""
    instance = placed((10, 6, 1, [(0, 0), (11, 7), (30, 7)]))
    assert shorten_dams(instance, (2,), {0: 14, 1: 28, 2: 28}, 1, Deadline()) == (0,)


def test_corners_that_meet_share_nothing():
    """Only sides that face each other share a dam; a dam's width of overlap is corner only."""
    instance = placed((10, 6, 2, [(0, 0), (10, 5), (10, 4), (40, 40)]))
    layout = shorten_dams(instance, (0, 3), lengths_of(instance, 28), 1, Deadline())
    assert layout == (0, 2)


def test_what_is_shared_counts_without_the_corner():
    """Facing each other over 50 of 60, of which 10 is the dam at the corner, saves 40, not 50."""
    instance = placed((100, 60, 1, [(0, 0)]), (100, 60, 1, [(100, 10), (400, 400)]))
    lengths = {0: 280, 1: 280, 2: 235}
    assert shorten_dams(instance, (0, 1), lengths, 10, Deadline()) == (0, 2)
    assert shorten_dams(instance, (0, 2), {**lengths, 2: 245}, 10, Deadline()) == (0, 1)


def test_items_stay_as_many_as_they_were():
    """Other items' places are not touched, and no panel is added."""
    instance = sheet(9, 6, (4, 3, 9), (3, 2, 9), (2, 2, 9))
    owner = instance.owner.tolist()
    layout = (0, owner.index(1) + 29)
    assert is_free(instance, layout)
    found = shorten_dams(instance, layout, lengths_of(instance, 10), 1, Deadline())
    assert instance.counts(found) == (1, 1, 0)
    assert is_free(instance, found)


@pytest.mark.parametrize("seed", range(8))
def test_no_layout_of_the_same_items_is_shorter(seed):
    """Against every layout there is."""
    pick = random.Random(seed)
    instance = sheet(pick.randint(6, 8), pick.randint(4, 5), (3, 2, 9), (2, 3, 9))
    lengths = {place: pick.randint(5, 15) for place in range(len(instance.owner))}
    start = pick.choice([lay for lay in every_layout(instance) if 2 <= len(lay) <= 4])
    found = shorten_dams(instance, start, lengths, 1, Deadline())

    def length(layout):
        return sum(lengths[place] for place in layout) - shared_length(instance, layout, 1)

    same = [lay for lay in every_layout(instance) if instance.counts(lay) == instance.counts(start)]
    assert is_free(instance, found)
    assert instance.counts(found) == instance.counts(start)
    assert length(found) == min(map(length, same))


def test_with_too_many_places_the_layout_stays(monkeypatch):
    """It is only a tie that is not broken."""
    monkeypatch.setattr(dam_length, "LARGEST", 5)
    instance = placed((10, 6, 3, [(0, 0), (10, 0), (20, 0), (27, 0), (50, 0), (13, 20)]))
    lengths = lengths_of(instance, 28)
    assert shorten_dams(instance, (0, 3, 4), lengths, 1, Deadline()) == (0, 3, 4)


def test_no_time_loses_no_panel():
    """The layout given, or a shorter one."""
    instance = placed((10, 6, 3, [(0, 0), (10, 0), (20, 0), (27, 0), (50, 0), (13, 20)]))
    found = shorten_dams(instance, (0, 3, 4), lengths_of(instance, 28), 1, Deadline(0))
    assert len(found) == 3
    assert is_free(instance, found)
