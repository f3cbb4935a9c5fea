"""What is known when layouts are chosen: all that matter where they can be listed, or some."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from nesting.search.casts import CastSearch
from nesting.search.diagram import draw_diagram
from nesting.search.instance import Ints, Layout
from nesting.search.listing import list_layouts
from nesting.search.slack import Slack, find_slack
from nesting.search.solver import Deadline


@dataclass(frozen=True)
class Known:
    """Layouts by their ``counts`` (n, items), and ``layout`` to have one of them by its index.

    ``most`` (items,) is what any layout at all holds of each item; ``whole`` tells whether no
    layout but these can matter.
    """

    counts: Ints
    layout: Callable[[int], Layout]
    most: Ints
    slack: Slack
    whole: bool

    def holding(self, layouts: Sequence[Layout], counts: Ints) -> tuple[Known, list[int]]:
        """Return what is known with these layouts (m, items) too, and the index of each."""
        wanted = np.minimum(counts, self.slack.demand)
        held = [np.flatnonzero((self.counts >= row).all(axis=1)) for row in wanted]
        added = [number for number, rows in enumerate(held) if not len(rows)]
        before = len(self.counts)
        at = {number: before + place for place, number in enumerate(added)}
        indexes = [at[k] if k in at else int(rows[0]) for k, rows in enumerate(held)]

        def layout(index: int) -> Layout:
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

    def layout(index: int) -> Layout:
        return tuple(int(used[place]) for place in listing.layout(index))

    return Known(listing.counts, layout, most, slack, whole=False)


def _most_alone(search: CastSearch, deadline: Deadline) -> Ints:
    """Return how many of each item one layout can hold, or more, none beyond its demand."""
    demand = search.instance.demand
    alone = np.eye(len(demand), dtype=np.int64)
    limits = [search.pricer.heaviest(row.tolist(), demand, deadline).limit for row in alone]
    return np.array(limits, dtype=np.int64)
