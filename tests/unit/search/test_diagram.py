"""All layouts at once, as paths through a diagram."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, every_layout, placed, sheet, strip

from nesting.search import diagram as diagrams
from nesting.search.diagram import draw_diagram


@pytest.mark.parametrize("seed", range(8))
def test_the_heaviest_layout_is_that_of_all_there_are(seed):
    """At several prices at once, each by trying everything."""
    pick = random.Random(seed)
    instance = by_chance(pick)
    prices = np.array([[pick.randint(0, 9) for _ in instance.items] for _ in range(4)])
    counts = np.array([instance.counts(layout) for layout in every_layout(instance)])
    best = draw_diagram(instance).completions(prices)[0]
    assert best.tolist() == (counts @ prices.T).max(axis=0).tolist()


def test_nothing_lies_beyond_the_end():
    """The state with no place free has no way on and no weight to come."""
    drawn = draw_diagram(strip(5, (3, 1), (2, 1)))
    assert drawn.completions(np.array([[1, 1]]))[drawn.end].tolist() == [0]
    assert drawn.level_of[drawn.end] == len(drawn.levels)


def test_a_sweep_meets_few_states():
    """On a strip it meets no more than there are places, though layouts are many."""
    instance = strip(40, (2, 9), (3, 9), (5, 9))
    assert len(draw_diagram(instance).level_of) <= len(instance.owner)


def test_the_smaller_diagram_is_taken():
    """A strip turned a quarter is as small as the strip."""
    upright = sheet(1, 30, (1, 2, 5), (1, 3, 5))
    lying = sheet(30, 1, (2, 1, 5), (3, 1, 5))
    assert len(draw_diagram(upright).level_of) == len(draw_diagram(lying).level_of)


def test_a_diagram_too_large_is_not_drawn(monkeypatch):
    """Nor is one of nothing."""
    assert draw_diagram(placed((1, 1, 2, []))) is None
    monkeypatch.setattr(diagrams, "MOST_STATES", 5)
    assert draw_diagram(sheet(8, 6, (2, 2, 9), (3, 1, 9))) is None
