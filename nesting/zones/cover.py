"""The fewest casts of an order on one bed, bounded from what may not lie in one cast.

A linear program chooses how often each set of panels is cast; sets come in as its prices ask for
them (Gilmore & Gomory 1961). Prices in whole numbers p prove the bound: with D what the order is
worth and M the heaviest set, no fewer than D / M casts make it, rounded up.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

import numpy as np

from nesting.search.instance import Counts
from nesting.search.master import demand_rows
from nesting.search.solver import INFINITY, Deadline, Solved, rows_of, solve

CastPanels = tuple[int, ...]
"""Panels in one cast by their number in the order, rising, each as often as it lies there."""
_SCALE = 1_000_000
_MOST_STEPS = 20_000
_MOST_SETS = 3_000
_LEAST_USE = 1e-6


@dataclass(frozen=True, slots=True)
class Bound:
    """A number of casts that none stays below, and sets that would do, each with how often.

    ``prices`` of the panels and the ``heaviest`` set by them prove it, or did before whole casts
    raised it.
    """

    casts: int
    sets: tuple[tuple[CastPanels, float], ...]
    prices: Counts
    heaviest: int


class Cover:
    """Bounds for one bed.

    ``panels`` are its panels by their number in the order, ``quantities`` how many of each are
    wanted, ``areas`` what ground each takes and ``room`` what a cast has.
    """

    def __init__(
        self,
        panels: Sequence[int],
        quantities: Sequence[int],
        areas: Sequence[int],
        room: int,
        deadline: Deadline | None = None,
    ) -> None:
        self._deadline = deadline
        self.panels, self.quantities = tuple(panels), tuple(quantities)
        self.areas, self.room = tuple(areas), room
        self._known: dict[frozenset[CastPanels], Bound] = {}
        self._whole: set[frozenset[CastPanels]] = set()
        self._sets = [
            tuple(int(n == number) for n in range(len(panels))) for number in range(len(panels))
        ]

    def bound(self, blocked: frozenset[CastPanels]) -> Bound:
        """Return the bound where no cast holds any of the ``blocked`` sets."""
        if blocked not in self._known:
            self._known[blocked] = self._bound(_Rules.of(self, blocked))
        return self._known[blocked]

    def raise_bound(self, blocked: frozenset[CastPanels]) -> Bound:
        """Return the bound by whole casts, as far as the sets to go through are not too many.

        In so few casts as are to be refuted, none may be so light that the others, each the
        heaviest, are not worth the order: only heavier sets can be in them.
        """
        found, rules = self.bound(blocked), _Rules.of(self, blocked)
        worth = sum(p * q for p, q in zip(found.prices, self.quantities, strict=True))
        while blocked not in self._whole:
            least = worth - (found.casts - 1) * found.heaviest
            sets = list(islice(rules.list_sets(found.prices, least), _MOST_SETS + 1))
            if len(sets) > _MOST_SETS:
                break
            whole = self._cover(sets)
            if whole.status == "stopped":
                break
            if whole.values is not None and whole.bound < found.casts + 0.5:
                used = zip(sets, whole.values, strict=True)
                chosen = tuple((self._parts(s), float(x)) for s, x in used if x > _LEAST_USE)
                found = replace(found, sets=chosen)
                break
            found = replace(found, casts=found.casts + 1)
        self._whole.add(blocked)
        self._known[blocked] = found
        return found

    def _bound(self, rules: _Rules) -> Bound:
        best = 1
        sets = [each for each in self._sets if rules.allow(each)]
        while True:
            found = self._cover(sets, whole=False)
            assert found.values is not None
            assert found.duals is not None
            prices = [int(price) for price in np.maximum(found.duals, 0.0) * _SCALE]
            heaviest, fresh = rules.heaviest(prices)
            worth = sum(p * q for p, q in zip(prices, self.quantities, strict=True))
            best = max(best, -(-worth // max(heaviest, 1)))
            if fresh is None or fresh in sets or best >= found.objective - 1e-6:
                break
            sets.append(fresh)
            self._sets.append(fresh)
        used = zip(sets, found.values, strict=True)
        chosen = tuple((self._parts(s), float(x)) for s, x in used if x > _LEAST_USE)
        return Bound(best, chosen, tuple(prices), max(heaviest, 1))

    def _parts(self, counts: Counts) -> CastPanels:
        return tuple(panel for panel, n in zip(self.panels, counts, strict=True) for _ in range(n))

    def _cover(self, sets: Sequence[Counts], *, whole: bool = True) -> Solved:
        """Return the fewest casts of those sets that make the order, or shares of casts."""
        upper = np.full(len(sets), float(max(self.quantities)) if whole else INFINITY)
        deadline = self._deadline if whole else None
        rows = rows_of(demand_rows(sets, self.quantities))
        return solve(np.ones(len(sets)), rows, upper, integer=whole, deadline=deadline)


@dataclass(frozen=True, slots=True)
class _Rules:
    """What one cast may hold: so many of each, none with certain others, none of larger sets."""

    most: Counts
    apart: tuple[frozenset[int], ...]
    larger: tuple[tuple[tuple[tuple[int, int], ...], ...], ...]
    """Of each panel the larger sets it is of, each as (panel, how many) pairs."""
    areas: Counts
    room: int

    @classmethod
    def of(cls, cover: Cover, blocked: frozenset[CastPanels]) -> _Rules:
        number = {panel: n for n, panel in enumerate(cover.panels)}
        most = [
            min(q, cover.room // area)
            for q, area in zip(cover.quantities, cover.areas, strict=True)
        ]
        apart: list[set[int]] = [set() for _ in most]
        larger: list[list[tuple[tuple[int, int], ...]]] = [[] for _ in most]
        for part in sorted(blocked):
            mine = [number[panel] for panel in part]
            if len(mine) > 2:
                needs = tuple(sorted(Counter(mine).items()))
                for n, _ in needs:
                    larger[n].append(needs)
            elif mine[0] == mine[1]:
                most[mine[0]] = min(most[mine[0]], 1)
            else:
                apart[mine[0]].add(mine[1])
                apart[mine[1]].add(mine[0])
        most = [max(1, n) for n in most]
        return cls(
            tuple(most),
            tuple(map(frozenset, apart)),
            tuple(map(tuple, larger)),
            cover.areas,
            cover.room,
        )

    def allow(self, counts: Counts) -> bool:
        """Whether a cast may hold that."""
        return all(self.allow_more(counts, n) for n, count in enumerate(counts) if count)

    def allow_more(self, counts: Sequence[int], number: int) -> bool:
        """Whether a cast may hold that, where without panel ``number`` it may."""
        if counts[number] > self.most[number]:
            return False
        return not (
            any(counts[other] for other in self.apart[number]) or self.has_larger(counts, number)
        )

    def has_larger(self, counts: Sequence[int], number: int) -> bool:
        """Whether a set holds one of the larger ones that panel ``number`` is of."""
        for each in self.larger[number]:
            for n, need in each:
                if counts[n] < need:
                    break
            else:
                return True
        return False

    def heaviest(self, prices: Sequence[int]) -> tuple[int, Counts | None]:
        """Return the most one cast can be worth, and such a set; None where it was not found."""
        order = sorted(
            (n for n, price in enumerate(prices) if price),
            key=lambda n: (-prices[n] / self.areas[n], n),
        )
        return _Heaviest(self, prices, order).run()

    def list_sets(self, prices: Sequence[int], least: int) -> Iterator[Counts]:
        """Yield every set worth at least so much that holds all it may."""
        order = sorted(range(len(prices)), key=lambda n: (-prices[n] / self.areas[n], n))

        def grow(counts: list[int], at: int, room: int, worth: int) -> Iterator[Counts]:
            out = frozenset(n for n, count in enumerate(counts) if count for n in self.apart[n])
            if worth + self.limit(prices, order[at:], room, out) < least:
                return
            if at == len(order):
                if not self._takes_more(counts, room):
                    yield tuple(counts)
                return
            number = order[at]
            most = 0 if number in out else min(self.most[number], room // self.areas[number])
            for count in range(most, -1, -1):
                counts[number] = count
                if not count or not self.has_larger(counts, number):
                    left = room - count * self.areas[number]
                    yield from grow(counts, at + 1, left, worth + count * prices[number])
            counts[number] = 0

        yield from grow([0] * len(prices), 0, max(self.room, *self.areas, 0), 0)

    def limit(
        self, prices: Sequence[int], order: Sequence[int], room: int, out: frozenset[int]
    ) -> int:
        """Return a worth that panels of ``order``, none of ``out``, cannot exceed in that room."""
        worth = 0
        for number in order:
            if number in out or room <= 0:
                continue
            most, area = self.most[number], self.areas[number]
            taken = min(room, most * area)
            worth += -(-prices[number] * taken // area)
            room -= taken
        return worth

    def _takes_more(self, counts: list[int], room: int) -> bool:
        """Whether a set can take one panel more."""
        for n, area in enumerate(self.areas):
            counts[n] += 1
            more = area <= room and self.allow_more(counts, n)
            counts[n] -= 1
            if more:
                return True
        return False


class _Heaviest:
    """Depth first through the sets of one cast, dearest ground first, cut by what is left."""

    def __init__(self, rules: _Rules, prices: Sequence[int], order: Sequence[int]) -> None:
        self._rules, self._prices, self._order = rules, prices, order
        self._best, self._steps = 0, 0
        self._found: Counts | None = None
        self._counts = [0] * len(prices)

    def run(self) -> tuple[int, Counts | None]:
        areas = self._rules.areas
        room = max(self._rules.room, *areas)
        self._grow(0, room, 0, frozenset())
        if self._steps > _MOST_STEPS:
            return self._rules.limit(self._prices, self._order, room, frozenset()), None
        return self._best, self._found

    def _grow(self, at: int, room: int, worth: int, out: frozenset[int]) -> None:
        self._steps += 1
        if self._steps > _MOST_STEPS:
            return
        if worth > self._best:
            self._best, self._found = worth, tuple(self._counts)
        if at == len(self._order) or (
            worth + self._rules.limit(self._prices, self._order[at:], room, out) <= self._best
        ):
            return
        number = self._order[at]
        area = self._rules.areas[number]
        most = 0 if number in out else min(self._rules.most[number], room // area)
        for count in range(most, -1, -1):
            self._counts[number] = count
            if not count or not self._rules.has_larger(self._counts, number):
                barred = out | self._rules.apart[number] if count else out
                self._grow(
                    at + 1, room - count * area, worth + count * self._prices[number], barred
                )
        self._counts[number] = 0
