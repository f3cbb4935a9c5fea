"""Fewer places with nothing lost."""

import random

import pytest
from tinysheets import by_chance, fewest_casts, is_free, largest_counts, placed, sheet, strip

from nesting.search import reduce
from nesting.search.casts import CastSearch
from nesting.search.reduce import reduce_places
from nesting.search.solver import Deadline


def test_a_place_that_excludes_more_is_dropped():
    """On a strip of 5 a piece of 3 in the middle bars both ends; the ends stay."""
    instance, kept = reduce_places(strip(5, (3, 1), (2, 1)))
    assert kept.tolist() == [0, 2, 3, 6]
    assert instance.boxes.tolist() == [[0, 0, 3, 1], [2, 0, 5, 1], [0, 0, 2, 1], [3, 0, 5, 1]]


def test_of_places_alike_one_stays():
    """Two places that exclude each other and nothing else stand for one another."""
    instance, kept = reduce_places(placed((4, 4, 2, [(0, 0), (1, 0), (1, 1)])))
    assert len(kept) == 1
    assert instance.demand == (2,)


def test_places_of_different_items_do_not_stand_for_each_other():
    """Each item keeps one."""
    _, kept = reduce_places(placed((4, 4, 1, [(0, 0)]), (3, 3, 1, [(0, 0)]), (2, 2, 1, [(9, 9)])))
    assert kept.tolist() == [0, 1, 2]


def test_nothing_is_dropped_that_some_layout_needs():
    """Two places apart stay two."""
    _, kept = reduce_places(placed((2, 2, 2, [(0, 0), (2, 0)])))
    assert kept.tolist() == [0, 1]


@pytest.mark.parametrize("seed", range(25))
def test_the_largest_layouts_are_the_same(seed):
    """Whatever any layout yields, one of the places kept yields as well."""
    instance = by_chance(random.Random(seed), items=4)
    reduced, kept = reduce_places(instance)
    assert largest_counts(reduced) == largest_counts(instance)
    assert kept.tolist() == sorted(set(kept.tolist()))
    assert (reduced.boxes == instance.boxes[kept]).all()
    assert (reduced.owner == instance.owner[kept]).all()


@pytest.mark.parametrize("seed", range(8))
def test_the_fewest_casts_are_the_same(seed):
    """Searched with all places and with those kept; and by trying all layouts."""
    instance = by_chance(random.Random(100 + seed))
    searches = [CastSearch(each, Deadline()) for each in (instance, reduce_places(instance)[0])]
    for search in searches:
        search.run()
        assert all(is_free(search.instance, layout) for layout in search.pool.layouts.values())
    assert {search.casts for search in searches} == {fewest_casts(instance)}


def test_the_rule_is_applied_again_while_it_helps():
    """On a full sheet of cells what goes first makes others go later."""
    instance = sheet(12, 9, (5, 4, 3), (4, 3, 3))
    once = len(reduce._irreplaceable(instance))
    reduced, _ = reduce_places(instance)
    assert len(reduced.owner) <= once < len(instance.owner)
    assert len(reduce_places(reduced)[1]) == len(reduced.owner)


def test_too_many_places_are_left_alone(monkeypatch):
    """The test is quadratic, so beyond a limit it is not made."""
    monkeypatch.setattr(reduce, "LARGEST", 5)
    instance, kept = reduce_places(strip(9, (3, 1)))
    assert len(kept) == 7
    assert instance.demand == (1,)
