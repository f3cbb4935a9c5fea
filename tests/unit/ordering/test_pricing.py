"""Patterns found by their prices."""

import pytest

from nesting.ordering.pricing import Search
from nesting.ordering.stock import Cutting, StockProof
from nesting.search.solver import Deadline

THIRDS = Cutting((12,), (5, 4, 3), (2, 2, 2))
ALONE = {(0, (2, 0, 0)): 1, (0, (0, 2, 0)): 1, (0, (0, 0, 2)): 1}


def test_a_poor_plan_is_mended():
    """Three lengths become the two that fit to the last unit."""
    found = Search(THIRDS, (1,), dict(ALONE)).run(Deadline())
    assert (found.best, found.bound, found.count) == ({(0, (1, 1, 1)): 2}, 2, 2)


def test_what_adds_up_needs_no_prices():
    """Sizes alone prove a plan that fills its stock."""
    found = Search(THIRDS, (1,), {(0, (1, 1, 1)): 2}).run(Deadline())
    assert found.proof == StockProof((5, 4, 3), 12)
    assert found.pool == {}


def test_without_time_the_plan_stays_and_its_bound_is_that_of_sizes():
    """Nothing is claimed that was not worked out."""
    found = Search(THIRDS, (1,), dict(ALONE)).run(Deadline(0))
    assert (found.count, found.bound) == (3, 2)


@pytest.mark.parametrize(
    ("is_least", "least", "total"),
    [(True, 21, 30), (True, 20, 20), (True, 31, 40), (False, 21, 21)],
)
def test_a_total_is_of_just_so_many_lengths(is_least, least, total):
    """Two of 10 or 20 make 20, 30 or 40; of fewer nothing is known, so nothing is rounded."""
    cutting = Cutting((10, 20), (5,), (4,))
    assert Search(cutting, cutting.stock, {}, 2, is_least).round_up(least) == total
