"""Fewest layouts by how often each is cast."""

import random
from itertools import product

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, fewest_layouts, largest_counts, strip

from nesting.search.conflicts import find_points
from nesting.search.known import find_slack
from nesting.search.repeats import RepeatSearch, Sums, split_casts
from nesting.search.solver import Deadline

EFFORT = 1_000_000


def search_for(instance, casts, *, whole=True):
    """Return the search over all layouts of an instance, with their counts."""
    vectors = np.minimum(np.array(sorted(largest_counts(instance))), instance.demand)
    slack = find_slack(instance, find_points(instance), casts, Deadline())
    return RepeatSearch(vectors, vectors.max(axis=0), slack, whole=whole), vectors


@pytest.mark.parametrize("extra", [0, 1])
@pytest.mark.parametrize("seed", range(10))
def test_the_verdict_is_that_of_trying_everything(seed, extra):
    """Found where some layouts do, refuted where none do; what is found does."""
    instance = by_chance(random.Random(300 + seed))
    casts = fewest_casts(instance) + extra
    search, vectors = search_for(instance, casts)
    for layouts in range(1, min(casts, 3) + 1):
        chosen, verdict = search.share(layouts, EFFORT, Deadline())
        assert verdict == ("found" if chosen else "refuted")
        assert bool(chosen) == (layouts >= fewest_layouts(instance, casts))
        if chosen:
            assert sum(times for times, _ in chosen) == casts
            got = sum(times * vectors[index] for times, index in chosen)
            assert (got >= instance.demand).all()


def test_a_part_of_the_list_refutes_only_what_no_list_could_do():
    """Six 3s and two 4s: one layout is refuted by the numbers alone, or given up."""
    instance = strip(5, (3, 6), (4, 2))
    search, _ = search_for(instance, 8, whole=False)
    assert search.share(1, EFFORT, Deadline()) == ([], "refuted")
    part = strip(6, (3, 5), (2, 5), (1, 5))
    search, vectors = search_for(part, fewest_casts(part), whole=False)
    few = RepeatSearch(vectors[:1], vectors.max(axis=0), search.slack, whole=False)
    assert {few.share(n, EFFORT, Deadline())[1] for n in (2, 3)} == {"given up"}


def test_no_effort_and_no_time_claim_nothing():
    """They are given up, unless the numbers alone refute."""
    instance = strip(9, (2, 11), (3, 7), (4, 5))
    casts = fewest_casts(instance)
    search, _ = search_for(instance, casts)
    assert search.share(4, 0, Deadline()) == ([], "given up")
    assert search.share(4, EFFORT, Deadline(0)) == ([], "given up")
    single, _ = search_for(strip(5, (3, 6), (4, 2)), 8)
    assert single.share(1, EFFORT, Deadline()) == ([], "refuted")
    assert single.share(1, EFFORT, Deadline(), most_splits=0) == ([], "given up")


@pytest.mark.parametrize(("casts", "layouts", "ways"), [(6, 3, 3), (10, 4, 9), (30, 5, 377)])
def test_all_ways_are_told_once(casts, layouts, ways):
    """As many as there are partitions (OEIS A026810 and A026811 at 4 and 5 parts, from memory)."""
    splits = list(split_casts(casts, layouts))
    assert len(splits) == len(set(splits)) == ways
    assert all(sum(split) == casts and len(split) == layouts for split in splits)
    assert all(list(split) == sorted(split, reverse=True) and split[-1] > 0 for split in splits)


@pytest.mark.parametrize(("casts", "layouts"), [(2, 3), (0, 1)])
def test_more_layouts_than_casts_share_nothing(casts, layouts):
    """Each layout is cast at least once; no casts are shared by no layouts."""
    assert list(split_casts(0, 0)) == [()]
    assert list(split_casts(casts, layouts)) == []


@pytest.mark.parametrize("spare", [0, 1, 3])
@pytest.mark.parametrize("split", [(7, 4, 1), (5, 5), (3,), (8, 2, 2, 1)])
def test_what_is_made_up_is_what_trying_everything_makes_up(split, spare):
    """For demands up to forty, with up to two in a layout."""
    made = {
        sum(r * c for r, c in zip(split, counts, strict=True))
        for counts in product(range(3), repeat=len(split))
    }
    for wanted in range(1, 41):
        sums = Sums(np.array([wanted]), np.array([2]), np.array([spare]))
        does = any(wanted <= total <= wanted + spare for total in made)
        assert sums.make_up(split) == does
        assert sums.table(split)[wanted] == does


def test_each_item_must_be_made_up():
    """One that cannot be is enough to refuse; the table has the items in turn."""
    sums = Sums(np.array([4, 3]), np.array([2, 2]), np.array([0, 0]))
    assert sums.make_up((2, 1))
    assert not sums.make_up((2, 2))
    assert np.flatnonzero(sums.table((2,))).tolist() == [0, 2, 4, 5, 7]
    assert np.flatnonzero(sums.table(())).tolist() == [0, 5]
