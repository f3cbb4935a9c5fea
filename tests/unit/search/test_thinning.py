"""Tens of thousands of places: a few are searched, the bound holds for all."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, sheet

from nesting.search import fewest, thinning
from nesting.search.fewest import find_casts, find_fewest
from nesting.search.solver import Deadline
from nesting.search.thinning import thin_places


@pytest.fixture
def thin(monkeypatch):
    """Thin to a place or two of each item, so that small sheets show it."""
    monkeypatch.setattr(thinning, "_FIRST", 1)
    monkeypatch.setattr(thinning, "_ADDED", 1)
    monkeypatch.setattr(thinning, "_ROUNDS", 2)
    monkeypatch.setattr(fewest, "MOST", 3)


def test_a_spread_of_places_is_kept_of_every_item():
    """Sorted, each item with at least one, all of them places of the instance."""
    instance = sheet(40, 20, (7, 5, 4), (9, 8, 6), (14, 12, 2))
    working, certificate = thin_places(instance, Deadline())
    assert working.tolist() == sorted(set(working.tolist()))
    assert set(instance.owner[working].tolist()) == {0, 1, 2}
    assert len(working) < len(instance.owner)
    assert certificate.bound >= 1


def test_the_certificate_holds_for_every_place():
    """Those left out too cover at least their price."""
    instance = sheet(40, 20, (7, 5, 4), (9, 8, 6), (14, 12, 2))
    _, certificate = thin_places(instance, Deadline())
    for (x0, y0, x1, y1), item in zip(instance.boxes.tolist(), instance.owner, strict=True):
        covered = sum(w for x, y, w in certificate.points if x0 <= x < x1 and y0 <= y < y1)
        assert covered >= certificate.prices[item]
    assert sum(w for *_, w in certificate.points) == certificate.heaviest


@pytest.mark.usefixtures("thin")
@pytest.mark.parametrize("seed", range(20))
def test_a_thinned_search_claims_no_more_casts_than_are_needed(seed):
    """However few places it looks at, its bound is that of all, its schedule is real."""
    instance = by_chance(random.Random(seed))
    found = find_casts(instance, Deadline())
    least = fewest_casts(instance)
    assert found.certificate.bound <= least <= found.casts
    assert not found.search.is_whole
    total = np.zeros(len(instance.items), dtype=int)
    for repeats, counts in found.search.best:
        layout = found.original(found.search.pool.layouts[counts])
        assert instance.counts(layout) == counts
        total += repeats * np.array(counts)
    assert (total >= instance.demand).all()


@pytest.mark.usefixtures("thin")
@pytest.mark.parametrize(("seed", "layouts"), [(7, 1), (104, 1), (158, 1)])
def test_a_thinned_search_claims_no_more_layouts_than_are_needed(seed, layouts):
    """One layout does when all places are looked at, so no bound on layouts is above 1."""
    answer = find_fewest(by_chance(random.Random(seed)), Deadline())
    assert answer.proved
    assert answer.layouts_bound <= layouts
