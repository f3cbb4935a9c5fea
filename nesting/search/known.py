"""What is known when layouts are chosen: all that matter where they can be listed, or some.

And what so many casts leave over: how light layouts may be, how many of an item may be spare. At
any prices in whole numbers let D be the worth of the order, and let no layout weigh more than M.
In a schedule of K casts, what its casts fall short of M and what they yield beyond the order are
together worth K M - D, no more and no less. One set of prices says much of some items and nothing
of others, so there is one for each item, at which least of it can be spared.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from nesting.search.bound import certify
from nesting.search.casts import CastSearch
from nesting.search.conflicts import Points
from nesting.search.diagram import draw_diagram
from nesting.search.instance import Counts, Instance, Ints, PlaceSet
from nesting.search.listing import list_layouts
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


@dataclass(frozen=True)
class Known:
    """Layouts by their ``counts`` (n, items), and ``layout`` to have one of them by its index.

    ``most`` (items,) is what any layout at all holds of each item; ``whole`` tells whether no
    layout but these can matter.
    """

    counts: Ints
    layout: Callable[[int], PlaceSet]
    most: Ints
    slack: Slack
    whole: bool

    def holding(self, layouts: Sequence[PlaceSet], counts: Ints) -> tuple[Known, list[int]]:
        """Return what is known with these layouts (m, items) too, and the index of each."""
        wanted = np.minimum(counts, self.slack.demand)
        held = [np.flatnonzero((self.counts >= row).all(axis=1)) for row in wanted]
        added = [number for number, rows in enumerate(held) if not len(rows)]
        before = len(self.counts)
        at = {number: before + place for place, number in enumerate(added)}
        indexes = [at[k] if k in at else int(rows[0]) for k, rows in enumerate(held)]

        def layout(index: int) -> PlaceSet:
            return self.layout(index) if index < before else layouts[added[index - before]]

        grown = replace(self, counts=np.concatenate([self.counts, wanted[added]]), layout=layout)
        return (grown if added else self), indexes


def list_known(search: CastSearch, casts: int, deadline: Deadline) -> Known:
    """Return all layouts that a schedule of so many casts may use, or some of them.

    Where the places are too many for a diagram, only those are taken that some layout met in the
    search for casts uses.
    """
    instance = search.instance
    slack = find_slack(instance, search.points, casts, deadline)
    diagram = draw_diagram(instance)
    if diagram is None:
        return _recombine(search, slack, deadline)
    slack = replace(slack, heaviest=diagram.completions(slack.prices)[0])
    listing = list_layouts(diagram, slack.prices, slack.left, deadline)
    alone = np.eye(len(instance.items), dtype=np.int64)
    most = np.minimum(diagram.completions(alone)[0], slack.demand)
    return Known(listing.counts, listing.layout, most, slack, listing.whole)


def _recombine(search: CastSearch, slack: Slack, deadline: Deadline) -> Known:
    """Return what can be made of the places of the layouts met, or those layouts."""
    met = search.pool.layouts
    used = np.unique(np.concatenate([np.array(layout) for layout in met.values()]))
    most = _most_alone(search, deadline)
    diagram = draw_diagram(search.instance.only(used))
    if diagram is None:
        layouts = list(met.values())
        return Known(np.array(list(met)), layouts.__getitem__, most, slack, whole=False)
    listing = list_layouts(diagram, slack.prices, slack.left, deadline)

    def layout(index: int) -> PlaceSet:
        return tuple(int(used[place]) for place in listing.layout(index))

    return Known(listing.counts, layout, most, slack, whole=False)


def _most_alone(search: CastSearch, deadline: Deadline) -> Ints:
    """Return how many of each item one layout can hold, or more, none beyond its demand."""
    demand = search.instance.demand
    alone = np.eye(len(demand), dtype=np.int64)
    limits = [search.pricer.heaviest(row.tolist(), demand, deadline).limit for row in alone]
    return np.array(limits, dtype=np.int64)
