"""Pricing: the heaviest layout at given prices."""

import random

import pytest
from tinysheets import by_chance, every_layout, is_free, placed, sheet

from nesting.search.conflicts import find_points
from nesting.search.pricing import Priced, Pricer
from nesting.search.solver import Deadline


def pricer(instance):
    """Return the pricer of an instance."""
    return Pricer(instance, find_points(instance))


def weight_of(instance, layout, prices):
    """Return what a layout weighs."""
    return sum(prices[instance.owner[place]] for place in layout)


@pytest.mark.parametrize("seed", range(25))
def test_no_layout_is_heavier(seed):
    """Of all layouts with at most so many of each item; limits may be 0, prices too."""
    pick = random.Random(seed)
    instance = by_chance(pick)
    prices = [pick.randint(0, 20) for _ in instance.items]
    limits = tuple(pick.randint(0, 3) for _ in instance.items)
    priced = pricer(instance).heaviest(prices, limits, Deadline())
    allowed = [
        layout
        for layout in every_layout(instance)
        if all(n <= most for n, most in zip(instance.counts(layout), limits, strict=True))
    ]
    assert priced.weight == max(weight_of(instance, layout, prices) for layout in allowed)
    assert priced.weight == priced.limit == weight_of(instance, priced.layout, prices)
    assert priced.layout in allowed


def test_without_a_price_there_is_no_layout():
    """Nothing weighs nothing, and that is proved."""
    priced = pricer(sheet(4, 4, (2, 2, 3))).heaviest([0], (3,), Deadline())
    assert priced == Priced((), 0, 0)


def test_a_limit_counts_though_the_sheet_holds_more():
    """One of four squares may be taken, unless all four may."""
    squares = pricer(sheet(4, 4, (2, 2, 9)))
    assert squares.heaviest([7], (1,), Deadline()).weight == 7
    assert squares.heaviest([7], (3,), Deadline()).weight == 21
    assert squares.heaviest([7], (99,), Deadline()).weight == 28


def test_without_time_the_limit_is_still_proved():
    """No layout weighs more than the limit, which is never below what was found."""
    pick = random.Random(2)
    sizes = [(pick.randint(2, 5), pick.randint(2, 4), 9) for _ in range(5)]
    instance = sheet(11, 8, *sizes)
    prices = [w * h * 100 + pick.randint(0, 99) for w, h, _ in sizes]
    hasty = pricer(instance).heaviest(prices, instance.demand, Deadline(0))
    best = pricer(instance).heaviest(prices, instance.demand, Deadline(20))
    assert hasty.weight <= best.weight <= hasty.limit
    assert hasty.limit <= sum(p * q for p, q in zip(prices, instance.demand, strict=True))


def test_a_layout_is_filled_up_with_whatever_fits():
    """Larger items first, no more of an item than the limit, nothing taken out."""
    instance = sheet(6, 2, (2, 2, 2), (1, 1, 9))
    full = pricer(instance).fill((0,), (2, 9))
    assert 0 in full
    assert instance.counts(full) == (2, 4)
    assert list(full) == sorted(full)
    assert is_free(instance, full)
    assert instance.counts(pricer(instance).fill((0,), (1, 3))) == (1, 3)


@pytest.mark.parametrize("seed", range(20))
def test_a_filled_layout_has_no_room_left(seed):
    """Any further place meets it or is beyond its limit."""
    pick = random.Random(seed)
    instance = by_chance(pick, items=4)
    limits = tuple(pick.randint(0, 4) for _ in instance.items)
    full = pricer(instance).fill((), limits)
    assert is_free(instance, full)
    counts = instance.counts(full)
    for place in set(range(len(instance.owner))) - set(full):
        item = instance.owner[place]
        assert counts[item] == limits[item] or not is_free(instance, (*full, place))


def test_a_layout_at_its_limits_is_left_as_it_is():
    """Nothing is added."""
    instance = placed((2, 2, 1, [(0, 0), (5, 5)]))
    assert pricer(instance).fill((1,), (1,)) == (1,)
