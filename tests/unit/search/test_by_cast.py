"""A few casts in one model."""

import random

import pytest
from tinysheets import by_chance, fewest_casts, is_free, strip

from nesting.search import by_cast
from nesting.search.by_cast import fill_casts
from nesting.search.conflicts import find_points
from nesting.search.solver import Deadline


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
    monkeypatch.setattr(by_cast, "LARGEST", 5)
    assert filled(instance, 1) == (None, True)
    assert filled(instance, 2) == (None, False)
