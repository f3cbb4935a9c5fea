"""What is known when layouts are chosen."""

import random

import numpy as np
import pytest
from tinysheets import by_chance, is_free, largest_counts

from nesting.search import diagram
from nesting.search.fewest import find_casts
from nesting.search.known import list_known
from nesting.search.solver import Deadline


def search_of(seed, items=3):
    """Return a finished search for casts."""
    return find_casts(by_chance(random.Random(seed), items)).search


@pytest.mark.parametrize("seed", range(6))
def test_all_that_matters_is_listed(seed):
    """Every largest layout is there, but for those too light for so few casts."""
    search = search_of(seed)
    known = list_known(search, search.casts, Deadline())
    assert known.whole
    vectors = np.array(sorted(largest_counts(search.instance)))
    assert (known.most == np.minimum(vectors.max(axis=0), known.slack.demand)).all()
    wanted = np.minimum(vectors, known.slack.demand)
    for row in wanted[known.slack.most_repeats(wanted) > 0]:
        assert (known.counts >= row).all(axis=1).any()


@pytest.mark.parametrize("less", [1, 100])
@pytest.mark.parametrize("seed", range(3))
def test_without_a_diagram_the_layouts_met_serve(monkeypatch, seed, less):
    """Or what can be made of their places; either way real, and not claimed to be all."""
    search = search_of(30 + seed)
    monkeypatch.setattr(diagram, "_LARGEST", len(search.instance.owner) - less)
    known = list_known(search, search.casts, Deadline())
    assert not known.whole
    vectors = np.array(sorted(largest_counts(search.instance)))
    assert (known.most >= np.minimum(vectors.max(axis=0), known.slack.demand)).all()
    for index, counts in enumerate(known.counts):
        layout = known.layout(index)
        assert is_free(search.instance, layout)
        assert (np.array(search.instance.counts(layout)) >= counts).all()


def test_a_schedule_is_taken_in():
    """Its layouts are found in the list, or put at its end."""
    search = search_of(3)
    known = list_known(search, search.casts, Deadline())
    assert known.holding([()], known.counts[:1]) == (known, [0])
    more = known.counts.max(axis=0, keepdims=True) + known.slack.demand
    bare = list_known(search, search.casts, Deadline())
    grown, indexes = bare.holding([(0,), (1,)], np.concatenate([more, known.counts[-1:]]))
    assert indexes == [len(known.counts), len(known.counts) - 1]
    assert grown.layout(indexes[0]) == (0,)
    assert grown.layout(indexes[1]) == known.layout(indexes[1])
    assert len(grown.counts) == len(known.counts) + 1
