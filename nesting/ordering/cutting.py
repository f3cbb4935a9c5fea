"""Strips cut from stock: the fewest lengths of stock, then the least of them, with what is proved.

One-dimensional cutting stock with several lengths of stock and a kerf. Patterns are made one after
another where the linear program over those known asks for better ones (Gilmore & Gomory 1961);
its prices, rounded to whole points, prove a bound anyone can add up. Where plan and bound still
differ, every pattern heavy enough to be in a better plan is listed, and the program over these in
whole numbers decides.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from nesting.ordering.patterns import Pattern, Strips
from nesting.ordering.pricing import Search
from nesting.ordering.stock import CutPlan, Cutting, StockProof, Use, Uses
from nesting.search.solver import Deadline

_TOPS, _FEW_NODES = (1, 2, 3, 4, 5, 6, 8, 10, 12, 20, 30, 60, 100), 20_000


def cut_stock(cutting: Cutting, deadline: Deadline) -> CutPlan:
    """Return the plan with the fewest lengths of stock; among those the least total length."""
    longest = replace(cutting, stock=cutting.stock[-1:])
    few = Search(longest, (1,), fit_best(longest)).run(deadline)
    is_least = few.bound == few.count
    short = Search(cutting, cutting.stock, _shortened(cutting, few.best), few.count, is_least)
    if len(cutting.stock) > 1:
        short.run(deadline)
    else:
        short.bound = short.cost(short.best)
    cuts = _without_surplus(cutting, short.best)
    return CutPlan(cuts, few.bound, short.bound, _with_small_points(longest, few.proof))


def fit_best(cutting: Cutting) -> Uses:
    """Return a plan on the longest stock: each strip, the longest first, where least is left."""
    room = cutting.stock[-1] + cutting.kerf
    bins: list[tuple[int, list[int]]] = []
    strips = cutting.strips
    for index in sorted(range(len(strips.sizes)), key=lambda each: -strips.sizes[each]):
        for _ in range(strips.counts[index]):
            size = strips.sizes[index]
            fitting = [(left, at) for at, (left, _) in enumerate(bins) if left >= size]
            if not fitting:
                bins.append((room, [0] * len(strips.sizes)))
                fitting = [(room, len(bins) - 1)]
            left, at = min(fitting)
            bins[at][1][index] += 1
            bins[at] = left - size, bins[at][1]
    return _count((len(cutting.stock) - 1, tuple(pattern)) for _, pattern in bins)


def _count(uses: Iterable[Use]) -> Uses:
    counted: Uses = {}
    for use in uses:
        counted[use] = counted.get(use, 0) + 1
    return counted


def _shortened(cutting: Cutting, uses: Uses) -> Uses:
    """Return the same patterns, each from the shortest stock that holds it."""
    found: Uses = {}
    for (_, pattern), times in uses.items():
        size = cutting.strips.size_of(pattern)
        place = next(at for at, long in enumerate(cutting.stock) if long + cutting.kerf >= size)
        found[place, pattern] = found.get((place, pattern), 0) + times
    return found


def _without_surplus(cutting: Cutting, uses: Uses) -> tuple[tuple[int, Pattern, int], ...]:
    """Return the cuts without strips beyond the counts, which are taken off the last ones."""
    left = cutting.counts
    found: dict[tuple[int, Pattern], int] = {}
    for (place, pattern), times in sorted(uses.items(), reverse=True):
        for _ in range(times):
            taken = tuple(map(min, pattern, left))
            left = tuple(have - used for have, used in zip(left, taken, strict=True))
            cut = cutting.stock[place], taken
            found[cut] = found.get(cut, 0) + 1
    return tuple((stock, pattern, times) for (stock, pattern), times in found.items())


def _with_small_points(cutting: Cutting, proof: StockProof) -> StockProof:
    """Return a proof of the same with the smallest points that do, which are easier to add up."""
    strips, room = cutting.strips, cutting.stock[-1] + cutting.kerf
    if proof.listed or proof.points == strips.sizes:
        return proof
    for top in _TOPS:
        points = tuple(
            (2 * each * top + proof.heaviest) // (2 * proof.heaviest) for each in proof.points
        )
        heaviest = strips.heaviest(points, room, _FEW_NODES).limit
        if heaviest and _least(strips, points, heaviest) >= _least(
            strips, proof.points, proof.heaviest
        ):
            return StockProof(points, heaviest)
    return proof


def _least(strips: Strips, points: Sequence[int], heaviest: int) -> int:
    """Return how many lengths it takes at least if none holds more points than ``heaviest``."""
    return -(-sum(p * n for p, n in zip(points, strips.counts, strict=True)) // heaviest)
