"""Fewest layouts at a number of casts, from below and from above."""

import random
from dataclasses import replace

import numpy as np
import pytest
from tinysheets import (
    by_chance,
    fewest_casts,
    fewest_layouts,
    is_free,
    largest_counts,
    sheet,
    strip,
    yields,
)

from nesting.search import fewlayouts
from nesting.search.conflicts import find_points
from nesting.search.fewest import find_casts
from nesting.search.fewlayouts import LayoutSearch, choose_layouts, exchange_layouts
from nesting.search.known import find_slack, list_known
from nesting.search.repeats import RepeatSearch
from nesting.search.solver import Deadline


def known_of(instance):
    """Return what is known of an instance at its fewest casts, and a schedule in its terms."""
    search = find_casts(instance, Deadline()).search
    known = list_known(search, search.casts, Deadline())
    counts = np.array([counts for _, counts in search.best])
    known, indexes = known.holding([()] * len(counts), counts)
    return known, [(times, k) for (times, _), k in zip(search.best, indexes, strict=True)]


@pytest.mark.parametrize("effort", [0, 2_000, 10**7])
@pytest.mark.parametrize("seed", range(8))
def test_bounds_hold_and_schedules_do_at_any_effort(monkeypatch, seed, effort):
    """With none the integer program alone decides; all agree with trying everything."""
    monkeypatch.setattr(fewlayouts, "_EFFORT", effort)
    instance = by_chance(random.Random(500 + seed))
    known, best = known_of(instance)
    search = LayoutSearch(known, len(best), Deadline(), best)
    search.run()
    fewest = fewest_layouts(instance, known.slack.casts)
    assert search.bound <= fewest <= len(search.best)
    assert search.bound == fewest == len(search.best)
    got = sum(times * known.counts[index] for times, index in search.best)
    assert (got >= known.slack.demand).all()
    assert sum(times for times, _ in search.best) <= known.slack.casts


@pytest.mark.parametrize("seed", range(4))
def test_a_part_of_the_list_never_raises_the_bound_too_far(seed):
    """What the numbers alone refute stays refuted, and no more is claimed."""
    instance = by_chance(random.Random(540 + seed))
    known, best = known_of(instance)
    part = replace(known, whole=False)
    search = LayoutSearch(part, len(best), Deadline(), best)
    search.run()
    assert search.bound <= fewest_layouts(instance, known.slack.casts) <= len(search.best)


def test_layouts_are_refuted_one_by_one_up_to_what_was_asked():
    """3, 4 and 5 on a strip of 5 need a layout each."""
    known, _ = known_of(strip(5, (3, 6), (4, 2), (5, 1)))
    for below, bound in ((9, 3), (2, 2)):
        search = LayoutSearch(known, below, Deadline())
        search.refute()
        assert search.bound == bound


def test_without_time_the_schedule_given_stays():
    """And nothing is proved."""
    known, best = known_of(strip(5, (3, 6), (2, 6)))
    search = LayoutSearch(known, 7, Deadline(0), best)
    search.run()
    assert (search.best, search.bound) == (best, 1)


NODES = 10_000


def listed(instance, casts):
    """Return all layouts of an instance by their counts, and the slack of so many casts."""
    vectors = np.minimum(np.array(sorted(largest_counts(instance))), instance.demand)
    return vectors, find_slack(instance, find_points(instance), casts, Deadline())


@pytest.mark.parametrize("seed", range(10))
def test_the_program_and_the_repeats_agree(seed):
    """Two ways that share nothing but the slack find the same fewest layouts."""
    instance = by_chance(random.Random(400 + seed))
    casts = fewest_casts(instance)
    vectors, slack = listed(instance, casts)
    chosen, bound = choose_layouts(vectors, slack, 1, casts + 1, NODES, Deadline())
    assert len(chosen) == bound
    assert sum(times for times, _ in chosen) <= casts
    got = sum(times * vectors[index] for times, index in chosen)
    assert (got >= instance.demand).all()
    search = RepeatSearch(vectors, vectors.max(axis=0), slack, whole=True)
    verdicts = [search.share(n, 10**6, Deadline())[1] for n in range(1, bound + 1)]
    assert verdicts == ["refuted"] * (bound - 1) + ["found"]


def test_fewer_than_the_fewest_are_refuted():
    """The bound is then what was to be bettered."""
    instance = strip(5, (3, 6), (4, 2))
    vectors, slack = listed(instance, 8)
    assert choose_layouts(vectors, slack, 1, 2, NODES, Deadline()) == ([], 2)
    chosen, bound = choose_layouts(vectors, slack, 1, 3, NODES, Deadline())
    assert (len(chosen), bound) == (2, 2)


def test_without_nodes_the_bound_known_stays():
    """And what is found, if anything, is right."""
    instance = strip(9, (2, 11), (3, 7), (4, 5))
    vectors, slack = listed(instance, fewest_casts(instance))
    chosen, bound = choose_layouts(vectors, slack, 2, 8, 0, Deadline())
    assert 2 <= bound <= 8
    assert not chosen or bound <= len(chosen)


def starting(known, *entries):
    """Return the choice of (repeats, counts) and what is known with it."""
    vectors = np.array([counts for _, counts in entries])
    known, indexes = known.holding([()] * len(entries), vectors)
    return known, [(times, index) for (times, _), index in zip(entries, indexes, strict=True)]


def check_exchanged(instance, known, chosen, casts):
    """Assert that the demand is met, in no more casts."""
    assert sum(times for times, _ in chosen) <= casts
    got = sum(times * known.counts[index] for times, index in chosen)
    assert (got >= np.array(instance.demand)).all()


def test_two_layouts_become_one():
    """A mixed layout and one of two 2s, cast twice each, are the mixed one cast four times."""
    instance = strip(5, (3, 4), (2, 4))
    known, before = starting(known_of(instance)[0], (2, (1, 1)), (2, (0, 2)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 4)
    assert len(after) == 1


def test_three_layouts_become_two():
    """One mixed, two pure; two mixed layouts do the same in as many casts."""
    instance = strip(6, (2, 9), (3, 4))
    known, before = starting(known_of(instance)[0], (1, (3, 0)), (2, (3, 0)), (2, (0, 2)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 5)
    assert len(after) == 2


def test_a_layout_that_is_not_needed_goes():
    """What the others leave of the demand may be nothing."""
    instance = strip(5, (3, 2))
    known, before = starting(known_of(instance)[0], (2, (1,)), (1, (1,)), (1, (1,)))
    after = exchange_layouts(known, before, Deadline())
    check_exchanged(instance, known, after, 4)
    assert len(after) == 1


@pytest.mark.parametrize("entries", [[(6, (1, 0)), (2, (0, 1))], [(6, (1, 0))], []])
def test_layouts_that_must_differ_are_left(entries):
    """A 3 and a 4 share no strip of 5; one layout and none cannot be fewer."""
    known, _ = known_of(strip(5, (3, 6), (4, 2)))
    before = [(times, known.counts.tolist().index(list(counts))) for times, counts in entries]
    assert exchange_layouts(known, before, Deadline()) == before


def test_without_time_nothing_is_exchanged():
    """What is known is kept."""
    known, before = starting(known_of(strip(5, (3, 4), (2, 4)))[0], (2, (1, 1)), (2, (0, 2)))
    assert exchange_layouts(known, before, Deadline(0)) == before


def test_what_is_known_leads_to_layouts():
    """Each entry to one that is real."""
    instance = sheet(6, 4, (3, 2, 7), (2, 2, 5))
    found = find_casts(instance, Deadline())
    known = list_known(found.search, fewest_casts(instance), Deadline())
    for index, counts in enumerate(known.counts):
        layout = known.layout(index)
        assert is_free(found.search.instance, layout)
        assert all(
            a >= b
            for a, b in zip(yields(found.search.instance, [(1, layout)]), counts, strict=True)
        )
