"""Fewest layouts from a list as one integer program."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, largest_counts, strip

from nesting.search.conflicts import find_points
from nesting.search.layouts import choose_layouts
from nesting.search.repeats import RepeatSearch
from nesting.search.slack import find_slack
from nesting.search.solver import Deadline

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
