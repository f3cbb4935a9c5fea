"""Fewest different layouts at a given number of casts."""

import random

import pytest
from tinysheets import by_chance, fewest_casts, is_free, sheet, strip, yields

from nesting.search.conflicts import find_points
from nesting.search.layouts import fewest_of_pool, fill_slots
from nesting.search.master import Pool
from nesting.search.solver import Deadline


def filled(instance, casts, slots, **limits):
    """Return what `fill_slots` makes of an instance."""
    return fill_slots(instance, find_points(instance), casts, slots, Deadline(), **limits)


def check_filled(instance, layouts, casts, slots):
    """Assert that the layouts meet the demand in so many casts and slots."""
    assert len(layouts) <= slots
    assert sum(times for times, _ in layouts) <= casts
    assert all(times >= 1 and layout and is_free(instance, layout) for times, layout in layouts)
    got = yields(instance, layouts)
    assert all(made >= wanted for made, wanted in zip(got, instance.demand, strict=True))


def test_one_layout_that_does_is_found():
    """Six pairs of 3 and 2 on a strip of 5: one layout cast six times."""
    layouts, refuted = filled(strip(5, (3, 6), (2, 6)), 6, 1)
    assert not refuted
    ((times, layout),) = layouts
    assert (times, len(layout)) == (6, 2)


def test_too_few_slots_are_refuted():
    """Six of 3 but two of 4: the 4 needs a layout of its own, so one slot cannot do."""
    instance = strip(5, (3, 6), (4, 2))
    assert filled(instance, 8, 1) == (None, True)
    layouts, refuted = filled(instance, 8, 2)
    check_filled(instance, layouts, 8, 2)
    assert not refuted
    assert sorted(times for times, _ in layouts) == [2, 6]


def test_too_few_casts_are_refuted_with_any_slots():
    """Nor do more slots than casts help."""
    assert filled(strip(5, (3, 6)), 5, 3) == (None, True)


def test_a_slot_may_stay_empty():
    """It is left out."""
    layouts, _ = filled(strip(5, (3, 6)), 6, 3)
    check_filled(strip(5, (3, 6)), layouts, 6, 3)


def test_a_place_may_yield_less_than_its_layout_is_cast():
    """Four 3 and one 2 share a layout; the 2's bay is masked three times."""
    layouts, _ = filled(strip(5, (3, 4), (2, 1)), 4, 1)
    ((times, layout),) = layouts
    assert (times, len(layout)) == (4, 2)


@pytest.mark.parametrize("seed", range(8))
def test_as_many_slots_as_casts_always_do(seed):
    """And a schedule of fewer casts than the fewest is refuted."""
    instance = by_chance(random.Random(seed), items=2)
    fewest = fewest_casts(instance)
    slots = min(fewest, 3)
    layouts, refuted = filled(instance, fewest, slots)
    if layouts is not None:
        check_filled(instance, layouts, fewest, slots)
    else:
        assert refuted
        assert slots < fewest
    if fewest > 1:
        assert filled(instance, fewest - 1, fewest - 1) == (None, True)


def test_models_too_large_are_given_up_without_a_claim():
    """Nothing is found and nothing refuted."""
    assert filled(strip(5, (3, 6), (4, 2)), 8, 1, largest=5) == (None, False)


def test_no_time_claims_nothing():
    """Unless the answer was at hand, in which case it is right."""
    instance = sheet(9, 7, (3, 2, 20), (2, 2, 20), (4, 3, 9))
    layouts, refuted = fill_slots(instance, find_points(instance), 9, 2, Deadline(0))
    if layouts is not None:
        check_filled(instance, layouts, 9, 2)
    assert not (layouts and refuted)


def test_known_layouts_are_chosen_so_that_few_do():
    """(1, 1) five times alone, or (2, 0) and (0, 2) in five casts: one layout is fewer."""
    pool = Pool()
    for counts in ((2, 0), (0, 2), (1, 1)):
        pool.add(counts, tuple(range(sum(counts))))
    assert fewest_of_pool(pool, (5, 5), 5, 500, Deadline()) == [(5, (1, 1))]
    two = fewest_of_pool(pool, (6, 2), 4, 500, Deadline())
    assert len(two) == 2
    assert sum(times for times, _ in two) <= 4


def test_known_layouts_that_do_not_do_give_none():
    """Four casts of two pieces are not ten."""
    pool = Pool()
    pool.add((1, 1), (0, 1))
    assert fewest_of_pool(pool, (5, 5), 4, 500, Deadline()) is None
