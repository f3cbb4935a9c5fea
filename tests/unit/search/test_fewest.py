"""Fewest casts, and at that number the fewest layouts."""

import random

import pytest
from tinysheets import (
    by_chance,
    casts_of,
    fewest_casts,
    fewest_layouts,
    is_free,
    sheet,
    strip,
    yields,
)

from nesting.search.fewest import find_casts, find_fewest, find_layouts, refute_layouts
from nesting.search.solver import Deadline


def check_answer(instance, answer):
    """Assert that an answer is real and meets the demand."""
    assert all(times >= 1 and is_free(instance, layout) for times, layout in answer.layouts)
    got = yields(instance, answer.layouts)
    assert all(made >= wanted for made, wanted in zip(got, instance.demand, strict=True))
    assert 1 <= answer.layouts_bound <= len(answer.layouts)


@pytest.mark.parametrize("seed", range(20))
def test_the_answer_is_proved_in_both_counts(seed):
    """Casts and layouts are those that trying everything finds."""
    instance = by_chance(random.Random(seed))
    answer = find_fewest(instance, Deadline())
    check_answer(instance, answer)
    assert casts_of(answer) == fewest_casts(instance)
    assert casts_of(answer) == answer.certificate.bound
    assert not answer.stopped_early
    assert len(answer.layouts) == answer.layouts_bound == fewest_layouts(instance, casts_of(answer))


def test_mixed_casts_are_made_one_layout():
    """Six 3s and six 2s on a strip of 5 share one layout cast six times."""
    answer = find_fewest(strip(5, (3, 6), (2, 6)), Deadline())
    assert [(times, len(layout)) for times, layout in answer.layouts] == [(6, 2)]
    assert answer.layouts_bound == 1


def test_rolls_of_110():
    """20 x 48, 45 x 35, 50 x 24, 55 x 10, 75 x 8: 47 rolls (a general solver agrees)."""
    found = find_casts(strip(110, (20, 48), (45, 35), (50, 24), (55, 10), (75, 8)), Deadline(20))
    assert (found.casts, found.certificate.bound) == (47, 47)


def test_layouts_are_told_in_places_of_the_instance_given():
    """Though the search left most places out."""
    instance = sheet(9, 6, (4, 3, 7), (3, 2, 5))
    found = find_casts(instance, Deadline())
    assert len(found.kept) < len(instance.owner)
    for layout in found.layouts():
        assert is_free(instance, layout)
    answer = find_layouts(found, Deadline())
    check_answer(instance, answer)
    assert casts_of(answer) == found.casts


def test_slots_are_refuted_one_by_one():
    """3, 4 and 5 on a strip of 5 need a layout each: one and two slots are refuted."""
    found = find_casts(strip(5, (3, 6), (4, 2), (5, 1)), Deadline())
    assert refute_layouts(found, found.casts, 9, Deadline()) == 3
    assert refute_layouts(found, found.casts, 2, Deadline()) == 2
    assert refute_layouts(found, found.casts, 9, Deadline(0)) == 1


@pytest.mark.parametrize("seconds", [0, 0.001, 0.05])
@pytest.mark.parametrize("seed", range(3))
def test_a_deadline_never_loses_the_best_schedule(seconds, seed):
    """And says so, with bounds that hold."""
    instance = by_chance(random.Random(200 + seed), items=4)
    hasty, full = find_fewest(instance, Deadline(seconds)), find_fewest(instance, Deadline())
    check_answer(instance, hasty)
    assert hasty.certificate.bound <= casts_of(full) <= casts_of(hasty)
    if casts_of(hasty) == casts_of(full):
        assert hasty.layouts_bound <= len(full.layouts)


def test_the_same_instance_gets_the_same_answer():
    """Place for place."""
    instance = sheet(7, 5, (3, 2, 11), (4, 3, 5), (2, 2, 9))
    assert find_fewest(instance, Deadline()) == find_fewest(instance, Deadline())


def test_progress_is_reported():
    """Casts first, then layouts where those are still in doubt."""
    lines = []
    find_fewest(strip(9, (2, 11), (3, 7), (4, 5)), Deadline(), lines.append)
    assert lines[0].split()[1] == "casts,"
    assert all("at least" in line for line in lines)
