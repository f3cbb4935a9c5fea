"""Strips cut from stock, against trying every plan."""

import random
from functools import cache
from itertools import product

import pytest

from nesting.ordering.cutting import cut_stock, fit_best
from nesting.ordering.stock import Cutting
from nesting.search.solver import Deadline


def make(seed):
    """Return a cutting of at most nine strips from one to three lengths of stock."""
    chance = random.Random(seed)
    stock = tuple(sorted(chance.sample(range(20, 61), chance.randint(1, 3))))
    lengths = tuple(chance.sample(range(3, stock[-1] + 1), chance.randint(1, 4)))
    counts = tuple(chance.randint(1, 2) for _ in lengths)
    return Cutting(stock, lengths, counts, chance.choice((0, 0, 1, 3)))


def try_all(cutting):
    """Return the fewest lengths of stock, and the least total length of so many."""
    sizes = cutting.strips.sizes
    rooms = [stock + cutting.kerf for stock in cutting.stock]

    @cache
    def best(counts):
        if not any(counts):
            return 0, 0
        first = next(index for index, count in enumerate(counts) if count)
        found = []
        for pattern in product(*(range(count + 1) for count in counts)):
            size = sum(a * b for a, b in zip(pattern, sizes, strict=True))
            if pattern[first] and size <= rooms[-1]:
                shortest = next(s for s, r in zip(cutting.stock, rooms, strict=True) if r >= size)
                left = tuple(a - b for a, b in zip(counts, pattern, strict=True))
                used, total = best(left)
                found.append((used + 1, total + shortest))
        return min(found)

    return best(cutting.counts)


def check_plan(cutting, plan):
    """Assert that every strip is cut once, and no length of stock is overfull."""
    done = [0] * len(cutting.counts)
    for stock, pattern, times in plan.cuts:
        cuts = sum(pattern) - 1
        length = sum(each * n for each, n in zip(cutting.lengths, pattern, strict=True))
        assert stock in cutting.stock
        assert length + cuts * cutting.kerf <= stock
        done = [have + n * times for have, n in zip(done, pattern, strict=True)]
    assert tuple(done) == cutting.counts


def check_proof(cutting, plan):
    """Assert that the points prove the bound: no length holds more than the heaviest pattern."""
    strips, proof = cutting.strips, plan.proof
    patterns = product(*(range(count + 1) for count in cutting.counts))
    room = cutting.stock[-1] + cutting.kerf
    held = (
        sum(p * n for p, n in zip(proof.points, each, strict=True))
        for each in patterns
        if strips.size_of(each) <= room
    )
    assert max(held) <= proof.heaviest
    total = sum(p * n for p, n in zip(proof.points, cutting.counts, strict=True))
    assert -(-total // proof.heaviest) >= plan.bound - bool(proof.listed)


@pytest.mark.parametrize("seed", range(120))
def test_no_plan_takes_less(seed):
    """Lengths of stock and their total are those of trying all, both proved."""
    cutting = make(seed)
    plan = cut_stock(cutting, Deadline(20))
    assert (plan.used, plan.length) == try_all(cutting)
    assert (plan.bound, plan.length_bound) == (plan.used, plan.length)
    check_plan(cutting, plan)
    check_proof(cutting, plan)


@pytest.mark.parametrize("seed", range(20))
def test_bounds_hold_without_time(seed):
    """A plan is whole and its bounds are true however little time there is."""
    cutting = make(seed)
    plan = cut_stock(cutting, Deadline(0))
    used, total = try_all(cutting)
    assert plan.bound <= used <= plan.used
    assert plan.used > used or plan.length_bound <= total
    check_plan(cutting, plan)
    check_proof(cutting, plan)


@pytest.mark.parametrize(("kerf", "used"), [(0, 1), (1, 2)])
def test_a_cut_takes_its_kerf(kerf, used):
    """Two halves fill a length only where the saw takes nothing."""
    assert cut_stock(Cutting((10,), (5,), (2,), kerf), Deadline()).used == used


def test_a_last_cut_may_end_beyond_the_stock():
    """Of 9, two strips of 3 and the cut between leave 1, which is less than a cut of 2 takes."""
    plan = cut_stock(Cutting((9,), (3,), (2,), 2), Deadline())
    assert plan.cuts == ((9, (2,), 1),)


def test_the_longest_strip_goes_where_least_is_left():
    """The plan to begin with takes every strip, on the longest stock."""
    cutting = Cutting((5, 10), (6, 4, 3), (1, 2, 2))
    assert fit_best(cutting) == {(1, (1, 1, 0)): 1, (1, (0, 1, 2)): 1}


def test_points_that_decide_are_small():
    """Strips longer than half a length count one each, though their sizes prove less."""
    plan = cut_stock(Cutting((10,), (6, 2), (3, 1)), Deadline())
    assert (plan.bound, plan.proof.points, plan.proof.heaviest) == (3, (1, 0), 1)
