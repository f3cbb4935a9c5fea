"""Every layout that matters, by its counts."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, is_free, largest_counts, sheet

from nesting.search import listing as listings
from nesting.search.diagram import draw_diagram
from nesting.search.listing import list_layouts
from nesting.search.solver import Deadline

EVERYTHING = np.array([10**9])


def listed(instance, prices=None, short=EVERYTHING):
    """Return the listing of an instance; without prices everything is alike."""
    prices = np.zeros((1, len(instance.items)), dtype=np.int64) if prices is None else prices
    return list_layouts(draw_diagram(instance), prices, short, Deadline())


def cut_down(instance):
    """Return the largest counts by trying everything, none beyond the demand."""
    least = {tuple(np.minimum(c, instance.demand).tolist()) for c in largest_counts(instance)}
    return {one for one in least if not any(o != one and np.all(np.array(o) >= one) for o in least)}


@pytest.mark.parametrize("seed", range(10))
def test_the_list_is_what_trying_everything_gives(seed):
    """No count vector is missing, and none is there that another holds."""
    instance = by_chance(random.Random(seed))
    found = listed(instance)
    assert found.whole
    assert sorted(map(tuple, found.counts.tolist())) == sorted(cut_down(instance))


@pytest.mark.parametrize("seed", range(10))
def test_every_entry_leads_to_a_layout(seed):
    """It is free of conflicts and holds at least the counts told."""
    instance = by_chance(random.Random(50 + seed), items=2)
    found = listed(instance)
    for index, counts in enumerate(found.counts):
        layout = found.layout(index)
        assert is_free(instance, layout)
        assert np.all(np.array(instance.counts(layout)) >= counts)


@pytest.mark.parametrize("seed", range(6))
def test_light_layouts_are_left_out_and_no_others(seed):
    """At two prices at once."""
    pick = random.Random(80 + seed)
    instance = by_chance(pick)
    prices = np.array([[pick.randint(1, 5) for _ in instance.items] for _ in range(2)])
    heaviest = draw_diagram(instance).completions(prices)[0]
    short = np.array([3, 5])
    wanted = {c for c in cut_down(instance) if np.all(prices @ np.array(c) >= heaviest - short)}
    assert set(map(tuple, listed(instance, prices, short).counts.tolist())) == wanted


def test_too_many_are_cut_to_the_heaviest_and_it_is_said(monkeypatch):
    """What is left is real and heavy, and no more claims to be all."""
    instance = sheet(6, 4, (2, 2, 30), (3, 1, 30), (1, 3, 30))
    prices = np.array([[4, 3, 3]])
    full = listed(instance, prices, np.array([20]))
    monkeypatch.setattr(listings, "MOST_ROWS", 40)
    part = listed(instance, prices, np.array([20]))
    assert full.whole
    assert not part.whole
    assert set(map(tuple, part.counts.tolist())) < set(map(tuple, full.counts.tolist()))
    assert all(is_free(instance, part.layout(k)) for k in range(len(part.counts)))


def test_a_list_that_ends_early_claims_nothing(monkeypatch):
    """Where nothing may fall short already, there is no cutting down: the list is not all."""
    instance = sheet(6, 4, (2, 2, 30), (3, 1, 30), (1, 3, 30))
    monkeypatch.setattr(listings, "MOST_ROWS", 40)
    assert not listed(instance, short=np.array([0])).whole


def test_without_time_the_list_claims_nothing():
    """It may be empty."""
    instance = sheet(6, 4, (2, 2, 30), (3, 1, 30))
    prices = np.zeros((1, 2), dtype=np.int64)
    assert not list_layouts(draw_diagram(instance), prices, EVERYTHING, Deadline(0)).whole
