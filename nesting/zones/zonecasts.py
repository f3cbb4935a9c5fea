"""Liner and casts in one whole-number program: the least liner that could do with so many casts.

A *set* is what may lie in one cast. The program chooses how often each set is cast, and a set only
where the strips meet what its known parts ask, pairs of panels to begin with. That sets whose parts
all have room have none themselves is possible, so its casts are a lower bound: true of every liner.
Larger parts are made known where a liner found so takes more casts than the bound.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

import numpy as np

from nesting.search.solver import INFINITY, Floats, Found, Row, rows_of, solve
from nesting.values.motif import Motif, Widths
from nesting.zones.zonemodel import Answer, Program
from nesting.zones.zoneneeds import Need
from nesting.zones.zonesharing import has_all, or_nothing
from nesting.zones.zoning import Setting

Parts = tuple[int, ...]
"""Panels in one cast by their number in the order, rising, each as often as it lies there."""


class CastProgram(Program):
    """The program of a motif with the casts of its order.

    ``known`` tells what parts of sets ask, None where that is not known; ``most_casts`` is the
    limit on casts of every question. ``ask`` is called before each one, and may raise.
    """

    def __init__(
        self,
        setting: Setting,
        sets: Sequence[Parts],
        known: Mapping[Parts, Need | None],
        most_casts: float = INFINITY,
        most_nodes: int | None = None,
        ask: Callable[[], None] = lambda: None,
    ) -> None:
        parts = [part for part, need in known.items() if need is not None]
        needs = [or_nothing(need) for need in known.values() if need is not None]
        super().__init__(setting.motif, (*setting.needs, *needs), setting.grid, most_nodes)
        self.most_casts, self._ask = most_casts, ask
        quantities = [panel.quantity for panel in setting.motif.job.panels]
        most = [float(_most(parts, quantities)) for parts in sets]
        self.casts = self._columns.add(len(sets), [0.0] * len(sets), most)
        self._rows += cover_rows(sets, quantities, self.casts.start)
        idle = [across[-1] for across, _ in self._ways[len(setting.needs) :]]
        for part, column in zip(parts, idle, strict=True):
            holding = [self.casts[index] for index, each in enumerate(sets) if has_all(each, part)]
            often = float(_most(part, quantities))
            cells = [*([1.0] * len(holding)), often]
            self._rows.append(([*holding, column], cells, -INFINITY, often))

    def fewest_casts(self, totals: tuple[int, int], most_used: int) -> tuple[int, Answer] | None:
        """Return the fewest casts at those totals with so many strips, and an answer."""
        cost = self._zeros()
        cost[list(self.casts)] = 1.0
        used: Row = (list(self.used), 1.0, 0.0, float(most_used))
        found = self._solve(cost, [*self._limits(totals), used])
        return None if found.values is None else (round(found.objective), self._read(found))

    def _solve(self, cost: Floats, rows: list[Row]) -> Found:
        self._ask()
        return super()._solve(cost, rows)

    def _limits(self, most: tuple[float, float]) -> list[Row]:
        rows = super()._limits(most)
        if self.most_casts < INFINITY:
            rows.append((list(self.casts), 1.0, 0.0, float(self.most_casts)))
        return rows


def cast_sets(
    sets: Sequence[Parts], known: Mapping[Parts, Need | None], motif: Motif, widths: Widths
) -> list[Parts]:
    """Return the sets of a schedule of fewest casts, if every set had room whose parts have.

    ``widths`` [steps] are those of the strips.
    """
    met = {part: need is None or need.is_met(motif, widths) for part, need in known.items()}
    lacking = [part for part, is_met in met.items() if not is_met]
    fitting = [each for each in sets if not any(has_all(each, part) for part in lacking)]
    quantities = [panel.quantity for panel in motif.job.panels]
    values = _cover(fitting, quantities).values
    assert values is not None
    return [each for each, count in zip(fitting, values, strict=True) if count > 0.5]


def least_cover(sets: Sequence[Parts], quantities: Sequence[int]) -> int:
    """Return the fewest casts that make the order where every set has room, or a bound below."""
    return max(1, math.ceil(_cover(sets, quantities).bound - 1e-6))


def _cover(sets: Sequence[Parts], quantities: Sequence[int]) -> Found:
    most = np.array([float(_most(parts, quantities)) for parts in sets])
    return solve(np.ones(len(sets)), rows_of(cover_rows(sets, quantities, 0)), most)


def cover_rows(sets: Sequence[Parts], quantities: Sequence[int], start: int) -> list[Row]:
    """Return rows that ask for the order; column ``start`` is how often the first set is cast."""
    rows: list[Row] = []
    for number, quantity in enumerate(quantities):
        counts = [(start + n, float(each.count(number))) for n, each in enumerate(sets)]
        columns, cells = zip(*(pair for pair in counts if pair[1]), strict=True)
        rows.append((columns, cells, float(quantity), INFINITY))
    return rows


def _most(parts: Parts, quantities: Sequence[int]) -> int:
    """Return in how many casts of an order those parts can lie, none beyond what is ordered.

    A cast with more than is left to make is one with less, so nothing is lost by that.
    """
    return min(quantities[number] // parts.count(number) for number in set(parts))
