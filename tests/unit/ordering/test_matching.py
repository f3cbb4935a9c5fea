"""Pairs of least total cost."""

import random
from itertools import permutations

import pytest

from nesting.ordering.matching import match_cheapest


def least(costs):
    """Return the least total cost by trying all pairs."""
    rows, columns = len(costs), len(costs[0])
    if rows <= columns:
        ways = (enumerate(way) for way in permutations(range(columns), rows))
    else:
        ways = (zip(way, range(columns), strict=True) for way in permutations(range(rows), columns))
    return min(sum(costs[row][column] for row, column in way) for way in ways)


@pytest.mark.parametrize("seed", range(200))
def test_no_pairs_cost_less(seed):
    """The total is that of trying all, every row and column is taken once, the shorter side all."""
    chance = random.Random(seed)
    rows, columns = chance.randint(1, 5), chance.randint(1, 5)
    costs = [[chance.randint(0, 12) for _ in range(columns)] for _ in range(rows)]
    pairs = match_cheapest(costs)
    assert len(pairs) == min(rows, columns)
    assert len({row for row, _ in pairs}) == len({column for _, column in pairs}) == len(pairs)
    assert sum(costs[row][column] for row, column in pairs) == least(costs)


def test_nothing_gives_no_pairs():
    """Neither rows nor columns are needed."""
    assert match_cheapest([]) == match_cheapest([[], []]) == ()


def test_whole_numbers_stay_exact():
    """A difference of one in ten to the 18th decides."""
    assert match_cheapest([[10**18, 0], [10**18 + 1, 2]]) == ((0, 1), (1, 0))
