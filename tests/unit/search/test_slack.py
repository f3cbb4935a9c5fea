"""What so many casts leave over."""

import random
from itertools import combinations_with_replacement

import numpy as np
import pytest
from tinysheets import by_chance, fewest_casts, largest_counts, strip

from nesting.search.conflicts import find_points
from nesting.search.slack import Slack, find_slack
from nesting.search.solver import Deadline


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
