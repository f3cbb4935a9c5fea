"""Settling one number of casts by listing all layouts heavy enough to matter."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, every_layout, fewest_casts, is_free, largest_counts, strip

from nesting.search import closing
from nesting.search.closing import cast_with, fill_casts, list_heavy
from nesting.search.conflicts import find_points
from nesting.search.pricing import Pricer
from nesting.search.solver import Deadline


def heavy_of(instance, prices, least, seconds=None):
    """Return what `list_heavy` lists."""
    pricer = Pricer(instance, find_points(instance))
    return list_heavy(pricer, prices, instance.demand, least, Deadline(seconds))


@pytest.mark.parametrize("seed", range(15))
def test_every_heavy_layout_is_held_by_one_of_the_list(seed):
    """Of those that yield no more of an item than is ordered."""
    pick = random.Random(seed)
    instance = by_chance(pick)
    prices = [pick.randint(0, 9) for _ in instance.items]
    least = pick.randint(1, 25)
    listed = heavy_of(instance, prices, least)
    for layout in every_layout(instance):
        counts = np.array(instance.counts(layout))
        is_heavy = counts @ prices >= least and (counts <= instance.demand).all()
        if is_heavy:
            assert any((counts <= known).all() for known in map(np.array, listed))
    for counts, layout in listed.items():
        assert is_free(instance, layout)
        assert instance.counts(layout) == counts
        assert np.array(counts) @ prices >= least


def test_where_none_is_heavy_the_list_is_empty():
    """That is a proof, not a failure."""
    assert heavy_of(strip(5, (2, 3)), [1], 3) == {}


def test_a_list_that_grows_too_long_or_takes_too_long_is_given_up(monkeypatch):
    """Then nothing is proved."""
    assert heavy_of(strip(5, (2, 3)), [1], 1, seconds=0) is None
    instance = strip(9, (1, 9), (2, 4), (4, 2))
    assert len(heavy_of(instance, [1, 2, 4], 8)) > 2
    monkeypatch.setattr(closing, "MOST", 1)
    assert heavy_of(instance, [1, 2, 4], 8) is None


@pytest.mark.parametrize("seed", range(15))
def test_all_layouts_there_are_settle_any_number_of_casts(seed):
    """The fewest do, one less is refuted."""
    instance = by_chance(random.Random(seed))
    layouts, fewest = sorted(largest_counts(instance)), fewest_casts(instance)
    casts, refuted = cast_with(layouts, instance.demand, fewest, Deadline())
    assert not refuted
    assert sum(repeats for repeats, _ in casts) == fewest
    made = sum(repeats * np.array(counts) for repeats, counts in casts)
    assert (made >= instance.demand).all()
    assert cast_with(layouts, instance.demand, fewest - 1, Deadline()) == (None, True)


def test_without_layouts_no_number_of_casts_does():
    """An empty list of heavy layouts refutes."""
    assert cast_with([], (1, 2), 5, Deadline()) == (None, True)


def filled(instance, casts, demand=None):
    """Return what `fill_casts` makes of an instance."""
    wanted = instance.demand if demand is None else demand
    return fill_casts(instance, find_points(instance), wanted, casts, Deadline())


@pytest.mark.parametrize("seed", range(12))
def test_the_fewest_casts_do_and_one_less_does_not(seed):
    """By trying all layouts there are."""
    instance = by_chance(random.Random(seed), items=2)
    fewest = fewest_casts(instance)
    layouts, refuted = filled(instance, fewest)
    assert (len(layouts), refuted) == (fewest, False)
    assert all(is_free(instance, layout) for layout in layouts)
    made = [sum(instance.counts(layout)[item] for layout in layouts) for item in (0, 1)]
    assert all(got >= wanted for got, wanted in zip(made, instance.demand, strict=True))
    if fewest > 1:
        assert filled(instance, fewest - 1) == (None, True)


def test_items_not_wanted_take_no_place():
    """A part of the order is asked for, as is left when diving."""
    layouts, _ = filled(strip(5, (3, 6), (2, 6)), 2, demand=(2, 0))
    assert [strip(5, (3, 6), (2, 6)).counts(layout) for layout in layouts] == [(1, 0), (1, 0)]


def test_no_casts_and_too_many_columns_claim_nothing(monkeypatch):
    """Neither found nor refuted."""
    instance = strip(5, (3, 2))
    assert filled(instance, 0) == (None, False)
    monkeypatch.setattr(closing, "LARGEST", 5)
    assert filled(instance, 1) == (None, True)
    assert filled(instance, 2) == (None, False)
