"""Bounds on casts from what may not lie in one, against published figures and by hand."""

from itertools import pairwise

import pytest

import nesting.zones.cover
from nesting.zones.cover import Cover

NONE = frozenset()


def test_the_bound_is_the_linear_one_rounded_up():
    """97, 610, 395, 211 of 45, 36, 31, 14 from rolls of 100: 452.25 (Chvatal 1983; memory)."""
    cover = Cover(range(4), (97, 610, 395, 211), (45, 36, 31, 14), 100)
    assert cover.bound(NONE).casts == 453
    assert sum(count for _, count in cover.bound(NONE).sets) == pytest.approx(452.25)


def test_prices_and_the_heaviest_set_prove_the_bound():
    """Rolls of 110, bound 46.25 (our own solve by a general solver): worth over heaviest is it."""
    quantities = (48, 35, 24, 10, 8)
    bound = Cover(range(5), quantities, (20, 45, 50, 55, 75), 110).bound(NONE)
    worth = sum(price * count for price, count in zip(bound.prices, quantities, strict=True))
    assert bound.casts == -(-worth // bound.heaviest) == 47


def test_whole_casts_raise_a_bound_that_shares_of_casts_leave():
    """44 x 2, 33 x 3, 12 x 6 from 132: shares come to 2 or a little more, whole casts to 3."""
    cover = Cover(range(3), (2, 3, 6), (44, 33, 12), 132)
    raised = cover.raise_bound(NONE)
    assert raised.casts == 3
    assert sum(count for _, count in raised.sets) == 3
    assert cover.bound(NONE) == raised


def test_three_of_which_no_two_go_together():
    """One of each and room for all: 1 cast, 2 where two are apart, 3 where all are."""
    cover = Cover((4, 6, 7), (1, 1, 1), (1, 1, 1), 3)
    pairs = [(4, 6), (4, 7), (6, 7)]
    found = [cover.bound(frozenset(pairs[:count])).casts for count in range(4)]
    assert found == [1, 2, 2, 3]
    assert all(less <= more for less, more in pairwise(found))


def test_more_than_two_that_do_not_go_together():
    """Any two of four, never three, and one at a time of its own kind."""
    cover = Cover((0, 1), (2, 2), (1, 1), 9)
    assert cover.bound(NONE).casts == 1
    assert cover.bound(frozenset({(0, 0, 1), (0, 1, 1)})).casts == 2
    assert cover.bound(frozenset({(0, 0), (1, 1)})).casts == 2


def test_a_search_for_the_heaviest_cut_short_still_bounds(monkeypatch):
    """By the ground alone: never more than the true bound."""
    sizes = (20, 45, 50, 55, 75)
    monkeypatch.setattr(nesting.zones.cover, "_MOST_STEPS", 1)
    short = Cover(range(5), (48, 35, 24, 10, 8), sizes, 110).bound(NONE)
    assert 1 <= short.casts <= 47
