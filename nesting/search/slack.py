"""What so many casts leave over: how light layouts may be, how many of an item may be spare.

At any prices in whole numbers let D be the worth of the order, and let no layout weigh more than M.
In a schedule of K casts, what its casts fall short of M and what they yield beyond the order are
together worth K M - D, no more and no less. One set of prices says much of some items and nothing
of others, so there is one for each item, at which least of it can be spared.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from nesting.search.bound import certify
from nesting.search.conflicts import Points
from nesting.search.instance import Counts, Instance, Ints
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve


@dataclass(frozen=True)
class Slack:
    """``prices`` (k, items), and what no layout outweighs at each of them, ``heaviest`` (k,)."""

    prices: Ints
    heaviest: Ints
    demand: Ints
    casts: int

    @cached_property
    def left(self) -> Ints:
        """What so many casts leave over at each set of prices, shape (k,)."""
        return self.casts * self.heaviest - self.prices @ self.demand

    def at(self, casts: int, demand: Ints) -> Slack:
        """Return the same for another number of casts and another demand."""
        return replace(self, casts=casts, demand=demand)

    def losses(self, counts: Ints) -> Ints:
        """Return what each layout (n, items) falls short of the heaviest, shape (n, k)."""
        short: Ints = self.heaviest - counts @ self.prices.T
        return short

    def most_repeats(self, counts: Ints) -> Ints:
        """Return how often each layout (n, items) can be cast at most, shape (n,)."""
        losses = self.losses(counts)
        often = np.where(losses > 0, self.left // np.maximum(losses, 1), self.casts)
        most: Ints = often.min(axis=1, initial=self.casts)
        return most

    def spare(self, most: Ints) -> Ints:
        """Return how many of each item (items,) may be made beyond the order.

        ``most`` (items,) is how many of it a layout holds at most.
        """
        beyond = np.maximum(0, self.casts * most - self.demand)
        often = np.where(self.prices > 0, self.left[:, None] // np.maximum(self.prices, 1), beyond)
        least: Ints = np.minimum(beyond, often.min(axis=0, initial=beyond.max(initial=0)))
        return least


def find_slack(instance: Instance, points: Points, casts: int, deadline: Deadline) -> Slack:
    """Return the prices at which so many casts leave least: one set per item and one for all.

    They are weights on points of the liner, like those of the instant bound, so that they hold
    whatever becomes of the linear programs they come from.
    """
    places = len(instance.owner)
    owns = [np.flatnonzero(instance.owner == item) for item in range(len(instance.items))]
    rows: list[Row] = [(row, 1.0, -INFINITY, float(casts)) for row in points.rows()]
    rows += [
        (own, 1.0, float(wanted), INFINITY)
        for own, wanted in zip(owns, instance.demand, strict=True)
    ]
    upper = np.full(places, float(casts))
    found: dict[Counts, int] = {}
    for most_of in (*owns, np.arange(places)):
        cost = np.zeros(places)
        cost[most_of] = -1.0
        answer = solve(cost, rows_of(rows), upper, integer=False, deadline=deadline)
        if answer.status == "optimal" and answer.duals is not None:
            weights = np.maximum(0.0, -answer.duals[: len(points.at)])
            certificate = certify(instance, points.at, weights).reduced()
            if any(certificate.prices):
                found[certificate.prices] = certificate.heaviest
    prices = np.array(sorted(found), dtype=np.int64).reshape(-1, len(instance.items))
    heaviest = np.array([found[key] for key in sorted(found)], dtype=np.int64)
    return Slack(prices, heaviest, np.array(instance.demand, dtype=np.int64), casts)
