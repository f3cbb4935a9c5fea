"""What is known when layouts are chosen."""

import random
from itertools import combinations_with_replacement

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, is_free, largest_counts, strip

from nesting.search import diagram
from nesting.search.conflicts import find_points
from nesting.search.fewest import find_casts
from nesting.search.known import Slack, find_slack, list_known
from nesting.search.solver import Deadline


def search_of(seed, items=3):
    """Return a finished search for casts."""
    return find_casts(by_chance(random.Random(seed), items), Deadline()).search


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


def slack_of(instance, casts):
    """Return what so many casts of an instance leave."""
    return find_slack(instance, find_points(instance), casts, Deadline())


@pytest.mark.parametrize("extra", [0, 1])
@pytest.mark.parametrize("seed", range(8))
def test_every_schedule_keeps_within_the_slack(seed, extra):
    """All schedules of so many casts are gone through: repeats, and what is made beyond the order.

    In each, what casts fall short and what is spare are together worth exactly what is left.
    """
    instance = by_chance(random.Random(seed), items=2)
    casts = fewest_casts(instance) + extra
    vectors = np.array(sorted(largest_counts(instance)))
    slack = slack_of(instance, casts)
    repeats, spare = slack.most_repeats(vectors), slack.spare(vectors.max(axis=0))
    demand = np.array(instance.demand)
    for picked in combinations_with_replacement(range(len(vectors)), casts):
        over = vectors[list(picked)].sum(axis=0) - demand
        if (over < 0).any():
            continue
        assert (over <= spare).all()
        assert all(picked.count(k) <= repeats[k] for k in set(picked))
        fall = slack.losses(vectors[list(picked)]).sum(axis=0)
        assert (fall + slack.prices @ over == slack.left).all()


def test_nothing_is_spare_where_every_place_is_needed():
    """Six pairs of 3 and 2 on a strip of 5, in six casts: not one more of either."""
    instance = strip(5, (3, 6), (2, 6))
    slack = slack_of(instance, 6)
    assert slack.spare(np.array([1, 2])).tolist() == [0, 0]
    assert slack.most_repeats(np.array([[1, 1], [0, 2], [1, 0]])).tolist() == [6, 0, 0]


def test_without_prices_nothing_is_claimed():
    """As after a time limit: every layout may be cast in every cast."""
    none = np.zeros((0, 2), dtype=np.int64)
    slack = Slack(none, none[:, 0], np.array([3, 4]), 5)
    counts = np.array([[1, 0], [0, 2]])
    assert slack.most_repeats(counts).tolist() == [5, 5]
    assert slack.spare(np.array([1, 2])).tolist() == [2, 6]


def test_other_casts_and_demand_leave_another_slack():
    """One cast more leaves the heaviest layout's worth more."""
    slack = slack_of(strip(5, (3, 6), (2, 6)), 6)
    more = slack.at(7, slack.demand)
    assert (more.left - slack.left == slack.heaviest).all()
    assert more.casts == 7
