"""Fewest layouts at a number of casts, from below and from above."""

import random
from dataclasses import replace

import numpy as np
import pytest
from tinysheets import by_chance, fewest_layouts, strip

from nesting.search import fewlayouts
from nesting.search.fewest import find_casts
from nesting.search.fewlayouts import LayoutSearch
from nesting.search.known import list_known
from nesting.search.solver import Deadline


def known_of(instance):
    """Return what is known of an instance at its fewest casts, and a schedule in its terms."""
    search = find_casts(instance).search
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
