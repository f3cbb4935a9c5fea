"""What both peers are given: the candidate places, a greedy schedule, panels that never meet.

The peers get every help the package itself has short of its method: its places less those that
others stand in for, its conflict rows, the known number of casts. They also get what breaks the
symmetry of equal casts best: sizes that no two of which fit one cast open a cast each.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import Any

import numpy as np

from nesting.maps.candidates import find_candidates
from nesting.maps.ground import Ground, survey
from nesting.maps.positions import map_positions
from nesting.search.conflicts import Points, find_points
from nesting.search.instance import Instance, Ints, Item, PlaceSet
from nesting.search.reduce import reduce_places
from nesting.values.job import Job


@dataclass(frozen=True)
class PlaceOrder:
    """A job on flat, stepped ground as places and conflict rows."""

    ground: Ground
    instance: Instance
    points: Points

    @cached_property
    def apart(self) -> tuple[int, ...]:
        """The sizes, no two panels of which share a cast, that together open most casts."""
        alone = [k for k in range(len(self.instance.items)) if not self._meet(k, k)]
        demand = self.instance.demand
        groups = [
            group
            for count in range(len(alone) + 1)
            for group in combinations(alone, count)
            if not any(self._meet(a, b) for a, b in combinations(group, 2))
        ]
        return max(groups, key=lambda group: sum(demand[k] for k in group))

    @cached_property
    def opened(self) -> list[int]:
        """For each cast that a size of `apart` opens, that size."""
        return [k for k in self.apart for _ in range(self.instance.demand[k])]

    @cached_property
    def greedy(self) -> list[PlaceSet]:
        """Casts filled one after the other, each from the first place that fills it best."""
        left = list(self.instance.demand)
        casts = []
        while any(left):
            wanted = [p for p in range(len(self.instance.owner)) if left[self.instance.owner[p]]]
            tried = (self._fill(left, first) for first in wanted)
            layout = max(tried, key=lambda places: sum(int(self._area[p]) for p in places))
            for place in layout:
                left[self.instance.owner[place]] -= 1
            casts.append(layout)
        return casts

    @cached_property
    def greedy_by_opener(self) -> list[PlaceSet]:
        """The greedy casts, those first that the sizes in `opened` open, in their order."""
        left = list(self.greedy)
        first = []
        for item in self.opened:
            mine = next(
                layout for layout in left if any(self.instance.owner[p] == item for p in layout)
            )
            left.remove(mine)
            first.append(mine)
        return first + left

    @cached_property
    def _area(self) -> Ints:
        boxes = self.instance.boxes
        return (boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])

    @cached_property
    def _largest_first(self) -> Ints:
        return np.lexsort((self.instance.boxes[:, 1], self.instance.boxes[:, 0], -self._area))

    def _fill(self, left: list[int], first: int) -> PlaceSet:
        """Return a cast with one panel at ``first`` and the largest left wherever they fit."""
        still = list(left)
        used = np.zeros(len(self.points.cover), dtype=np.bool_)
        chosen = []
        for place in (first, *self._largest_first):
            item, cover = int(self.instance.owner[place]), self.points.cover[:, place]
            if still[item] and not (used & cover).any():
                still[item] -= 1
                used |= cover
                chosen.append(int(place))
        return tuple(chosen)

    def _meet(self, a: int, b: int) -> bool:
        """Whether a panel of size ``a`` and one of size ``b`` can share a cast."""
        boxes, owner = self.instance.boxes, self.instance.owner
        one, other = boxes[owner == a][:, None], boxes[owner == b][None]
        meets = (one[..., :2] < other[..., 2:]).all(axis=2) & (other[..., :2] < one[..., 2:]).all(
            axis=2
        )
        return bool((~meets).any())


Verdict = str
"""``yes``, ``no`` or ``time`` to "is there a schedule in so many casts?"."""
Ask = Callable[[PlaceOrder, int, float], Verdict]


def place_order(job: Job) -> PlaceOrder:
    """Return the places of a job whose panels all go, at their nominal sizes, on a flat bed."""
    ground = survey(job.liner, job.rules)
    dam = job.rules.dam_width
    maps = [map_positions(ground, panel.width, panel.height) for panel in job.panels]
    places = find_candidates(maps, dam, ground.frame)
    items = tuple(
        Item(panel.width + dam, panel.height + dam, panel.quantity, tuple(sorted(at)))
        for panel, at in zip(job.panels, places, strict=True)
    )
    instance, _ = reduce_places(Instance(items))
    return PlaceOrder(ground, instance, find_points(instance))


def ask_twice(job: Job, limit: float, casts: int, ask: Ask) -> dict[str, Any]:
    """Return both verdicts; the limit holds for everything together, from the job on."""
    started = time.perf_counter()
    order = place_order(job)
    found = ask(order, casts, max(1.0, limit - (time.perf_counter() - started)))
    found_s = time.perf_counter() - started
    refuted = ask(order, casts - 1, max(1.0, limit - found_s))
    return {
        "verdict": [found, refuted],
        "found_s": found_s,
        "seconds": time.perf_counter() - started,
        "places": len(order.instance.owner),
    }
