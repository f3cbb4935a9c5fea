"""How often to cast each known layout: fractions for prices, whole numbers for schedules."""

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from nesting.search.instance import Counts, PlaceSet
from nesting.search.solver import INFINITY, Deadline, Floats, Row, rows_of, solve

Casts = list[tuple[int, Counts]]
"""A schedule of layouts known by their counts: (repeats, counts)."""


@dataclass
class Pool:
    """Known layouts, one per count vector, in the order they were found."""

    layouts: dict[Counts, PlaceSet] = field(default_factory=dict)

    def add(self, counts: Counts, layout: PlaceSet) -> bool:
        """Keep a layout unless one with the same counts is known; tell whether it is new."""
        if counts in self.layouts or not any(counts):
            return False
        self.layouts[counts] = layout
        return True


@dataclass(frozen=True)
class LayoutMix:
    """How often each layout of the pool is cast (fractions from the linear program), and prices."""

    uses: dict[Counts, float]
    value: float
    prices: tuple[float, ...]


def demand_rows(layouts: Iterable[Counts], demand: Counts) -> list[Row]:
    """Return 'the demand of each item is met', one column per layout."""
    return [
        (np.flatnonzero(row), row[np.flatnonzero(row)], float(wanted), INFINITY)
        for row, wanted in zip(np.array(list(layouts), dtype=float).T, demand, strict=True)
    ]


def casts_used(layouts: Iterable[Counts], values: Floats) -> Casts:
    """Return the layouts that a solution in whole numbers casts at all."""
    chosen = zip(layouts, values, strict=True)
    return [(round(value), counts) for counts, value in chosen if value > 0.5]


def mix_layouts(pool: Pool, demand: Counts) -> LayoutMix:
    """Return the cheapest fractional mix of known layouts and the price of each item in it."""
    columns = len(pool.layouts)
    rows = rows_of(demand_rows(pool.layouts, demand))
    found = solve(np.ones(columns), rows, np.full(columns, INFINITY), integer=False)
    if found.values is None or found.duals is None:
        raise RuntimeError("the mix of layouts has no solution although every item has a layout")
    uses = {c: float(v) for c, v in zip(pool.layouts, found.values, strict=True) if v > 1e-9}
    return LayoutMix(uses, found.objective, tuple(max(0.0, float(d)) for d in found.duals))


def count_casts(pool: Pool, demand: Counts, target: int, deadline: Deadline) -> Casts | None:
    """Return the fewest casts of known layouts that meet the demand, as (repeats, counts).

    Stops at ``target`` casts or at the deadline, with the best found; None where none was.
    """
    columns = len(pool.layouts)
    found = solve(
        np.ones(columns),
        rows_of(demand_rows(pool.layouts, demand)),
        np.full(columns, float(max(demand))),
        deadline=deadline,
        target=target + 0.5,
    )
    return None if found.values is None else casts_used(pool.layouts, found.values)
