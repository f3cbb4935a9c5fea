"""Patterns found by their prices, until nothing cheaper is left or time or work runs out."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from math import gcd
from typing import Self

import numpy as np

from nesting.ordering.patterns import Heaviest, TooManyError
from nesting.ordering.stock import Cutting, StockProof, Use, Uses
from nesting.search.solver import INFINITY, Deadline, Row, Solved, rows_of, solve

SCALE = 1_000_000
_MOST_NODES, _MOST_PATTERNS, _MOST_TREE = 1_000_000, 30_000, 20_000
_ROUNDS = 2_000


@dataclass
class Search:
    """One search: cheapest plan from the stock at these costs, of ``most`` lengths if given.

    ``is_least`` says that no plan takes fewer than ``most``, so that a total is of just so many.
    """

    cutting: Cutting
    costs: tuple[int, ...]
    best: Uses
    most: int = 0
    is_least: bool = False
    bound: int = 0
    proof: StockProof = field(default_factory=lambda: StockProof((), 0))
    pool: dict[Use, None] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many lengths of stock the best plan takes."""
        return sum(self.best.values())

    def cost(self, uses: Uses) -> int:
        """Return what a plan costs."""
        return sum(self.costs[place] * times for (place, _), times in uses.items())

    def run(self, deadline: Deadline) -> Self:
        """Search until the best plan is proved, the deadline comes or work runs out."""
        self._add_up()
        if self._is_done:
            return self
        self.pool = dict.fromkeys((*self.best, *self._singles()))
        prices: _Prices | None = None
        pricing = deadline.within(deadline.left / 2)
        for _ in range(_ROUNDS):
            found = self._price(pricing)
            if found is None:
                break
            prices, fresh = found
            if self._is_done or not fresh:
                break
            self.pool |= dict.fromkeys(fresh)
        if not self._is_done and not deadline.passed:
            self._improve(self.pool, deadline.within(deadline.left / 2))
        if not self._is_done and prices and not deadline.passed:
            self._list_all(prices, deadline)
        return self

    def _add_up(self) -> None:
        """Take the bound of the strips' sizes: a length holds no more than it is long."""
        strips, kerf = self.cutting.strips, self.cutting.kerf
        size, room = strips.size_of(strips.counts), self.cutting.stock[-1] + kerf
        if self.most:
            self.bound = self.round_up(size - kerf * self.most)
        else:
            self.bound = -(-size // room)
        self.proof = StockProof(strips.sizes, room)

    def round_up(self, least: int) -> int:
        """Return the least cost of ``most`` lengths that is not below ``least``."""
        totals = {0}
        for _ in range(self.most if self.is_least else 0):
            totals = {total + cost for total in totals for cost in self.costs}
            if len(totals) > _MOST_PATTERNS:
                return least
        return min((total for total in totals if total >= least), default=least)

    @property
    def _is_done(self) -> bool:
        return self.bound >= self.cost(self.best)

    def _singles(self) -> list[Use]:
        """Return for each strip a pattern of that one alone."""
        sizes, last = self.cutting.strips.sizes, len(self.cutting.stock) - 1
        room = self.cutting.stock[-1] + self.cutting.kerf
        counts = self.cutting.counts
        return [
            (last, tuple(min(counts[i], room // sizes[i]) * (i == j) for j in range(len(sizes))))
            for i in range(len(sizes))
        ]

    def _price(self, deadline: Deadline) -> tuple["_Prices", list[Use]] | None:
        """Return prices of the strips, and patterns that are cheaper than these; None in no time.

        The bound is raised by what the prices prove.
        """
        found = self._solve(self.pool, deadline, whole=False)
        if found.duals is None or deadline.passed:
            return None
        unit = SCALE * gcd(*self.costs)
        prices = _Prices(self, tuple(max(0, int(each * unit)) for each in found.duals[1:]))
        bound = prices.bound
        if bound > self.bound:
            self.bound = bound
            self.proof = StockProof(prices.points, max(each.limit for each in prices.heaviest))
        limit = -found.duals[0] * unit if self.most else 0.0
        fresh = [
            (place, each.pattern)
            for place, each in enumerate(prices.heaviest)
            if each.points > (SCALE * self.costs[place] + limit) * (1 + 1e-9)
            and (place, each.pattern) not in self.pool
        ]
        return prices, fresh

    def _improve(self, uses: Iterable[Use], deadline: Deadline) -> bool:
        """Take the best plan of some patterns; tell whether none of them gives a better one."""
        found = self._solve(uses, deadline, whole=True)
        if found.values is not None:
            counted = {u: round(v) for u, v in zip(uses, found.values, strict=True) if v > 0.5}
            if self.cost(counted) < self.cost(self.best):
                self.best = counted
        return found.status != "stopped"

    def _list_all(self, prices: "_Prices", deadline: Deadline) -> None:
        """List every pattern of better plans, and let these decide."""
        try:
            uses = prices.list_useful(self.cost(self.best) - 1)
        except TooManyError:
            return
        if not uses or self._improve(uses, deadline):
            before = self.bound
            self.bound = self.cost(self.best)
            if self.bound > before:
                self.proof = replace(self.proof, listed=len(uses))

    def _solve(self, uses: Iterable[Use], deadline: Deadline, *, whole: bool) -> Solved:
        """Solve for how often each pattern is cut, in fractions or in whole numbers."""
        columns = list(uses)
        cost = np.array([self.costs[place] for place, _ in columns], dtype=float)
        unit = gcd(*self.costs)
        matrix = np.array([pattern for _, pattern in columns], dtype=float)
        rows: list[Row] = [
            (range(len(columns)), 1.0, 0.0, float(self.most) if self.most else INFINITY)
        ]
        for column, count in zip(matrix.T, self.cutting.counts, strict=True):
            at = np.flatnonzero(column)
            rows.append((at, column[at], float(count), INFINITY))
        upper = np.full(len(columns), float(max(self.cutting.counts)))
        return solve(
            cost / unit,
            rows_of(rows),
            upper,
            integer=whole,
            deadline=deadline,
            target=self.bound / unit + 1e-6 if whole else None,
            most_nodes=_MOST_TREE if whole else None,
        )


class _Prices:
    """Whole points for strips: what each stock holds at most, and what that proves.

    A plan of total cost c has as many points as its lengths hold, and at least those of all strips.
    Without a limit on lengths each counts as ``heaviest`` points; with one, a length of stock holds
    no more than its cost and ``extra``, so c >= (all points - extra * most) / scale.
    """

    def __init__(self, search: Search, points: tuple[int, ...]) -> None:
        self._search, self.points = search, points
        cutting = search.cutting
        self._rooms = [long + cutting.kerf for long in cutting.stock]
        self.heaviest: list[Heaviest] = [
            cutting.strips.heaviest(points, room, _MOST_NODES) for room in self._rooms
        ]
        self._all = sum(p * n for p, n in zip(points, cutting.counts, strict=True))
        over = [
            each.limit - SCALE * cost
            for each, cost in zip(self.heaviest, search.costs, strict=True)
        ]
        self._extra = max(0, *over) if search.most else 0

    @property
    def bound(self) -> int:
        """The cost that no plan stays below."""
        search = self._search
        if not search.most:
            return -(-self._all // max(1, self.heaviest[0].limit))
        least = -(-(self._all - self._extra * search.most) // SCALE)
        return search.round_up(least)

    def list_useful(self, cost: int) -> list[Use]:
        """Return every full pattern that a plan of at most this cost could have."""
        search, strips = self._search, self._search.cutting.strips
        size = strips.size_of(strips.counts)
        if search.most:
            tops = [SCALE * each + self._extra for each in search.costs]
            spare = SCALE * cost + self._extra * search.most - self._all
            left = cost + search.most * search.cutting.kerf - size
        else:
            tops = [self.heaviest[0].limit]
            spare = tops[0] * cost - self._all
            left = self._rooms[0] * cost - size
        return [
            (place, pattern)
            for place, (room, top) in enumerate(zip(self._rooms, tops, strict=True))
            for pattern in strips.list_heavy(
                self.points, room, top - spare, left, _MOST_PATTERNS, _MOST_NODES
            )
        ]
