"""The heaviest layout at given prices: one integer program over places, one row per point."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from nesting.search.conflicts import Points
from nesting.search.instance import Counts, Instance, PlaceSet
from nesting.search.solver import Deadline, Row, Rows, rows_of, solve


@dataclass(frozen=True)
class Priced:
    """A layout and what it weighs; no layout weighs more than ``limit``."""

    layout: PlaceSet
    weight: int
    limit: int


@dataclass(frozen=True)
class Pricer:
    """Finds heaviest layouts of one instance."""

    instance: Instance
    points: Points

    def heaviest(
        self,
        prices: Sequence[int],
        limits: Counts,
        deadline: Deadline,
        most_nodes: int | None = None,
    ) -> Priced:
        """Return the heaviest layout found with at most ``limits`` of each item.

        ``limit`` is proved: the solver's bound rounded down, whether or not time or nodes ran out.
        """
        owner = self.instance.owner
        profit = np.asarray(prices, dtype=float)[owner]
        upper = (profit > 0) & (np.asarray(limits)[owner] > 0)
        rows = (
            self._rows
            if all(limit >= top for limit, top in zip(limits, self._most, strict=True))
            else self._limited(limits)
        )
        found = solve(
            profit,
            rows,
            upper.astype(float),
            maximise=True,
            deadline=deadline,
            most_nodes=most_nodes,
        )
        layout: PlaceSet = ()
        if found.values is not None:
            layout = tuple(int(place) for place in np.flatnonzero(found.values > 0.5))
        weight = sum(int(prices[owner[place]]) for place in layout)
        total = sum(int(p) * int(n) for p, n in zip(prices, limits, strict=True))
        limit = int(np.floor(min(found.bound, float(total)) + 1e-6))
        return Priced(layout, weight, max(limit, weight))

    def fill(self, layout: PlaceSet, limits: Sequence[int]) -> PlaceSet:
        """Return the layout with every further place that fits, larger items first."""
        used = self.points.cover[:, list(layout)].any(axis=1)
        counts = list(self.instance.counts(layout))
        chosen = list(layout)
        for place in self._by_size:
            item = int(self.instance.owner[place])
            cover = self.points.cover[:, place]
            barred = self.points.barred
            free = not (used & cover).any() and (barred is None or not barred[chosen, place].any())
            if counts[item] < limits[item] and free:
                chosen.append(int(place))
                counts[item] += 1
                used = used | cover
        return tuple(sorted(chosen))

    @cached_property
    def _entries(self) -> list[Row]:
        return [(row, 1.0, 0.0, 1.0) for row in self.points.all_rows()]

    @cached_property
    def _rows(self) -> Rows:
        return rows_of(self._entries)

    @cached_property
    def _most(self) -> Counts:
        return tuple(len(item.places) for item in self.instance.items)

    def _limited(self, limits: Counts) -> Rows:
        owner = self.instance.owner
        extra = [
            (np.flatnonzero(owner == item), 1.0, 0.0, float(limit))
            for item, (limit, top) in enumerate(zip(limits, self._most, strict=True))
            if limit < top
        ]
        return rows_of([*self._entries, *extra])

    @cached_property
    def _by_size(self) -> list[int]:
        boxes = self.instance.boxes
        area = (boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])
        return [int(place) for place in np.argsort(-area, kind="stable")]
