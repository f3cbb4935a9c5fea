"""When fractions promise more than whole layouts keep: settle one number of casts by enumeration.

In a schedule of K casts no cast can be light: with prices worth D over the order and no layout
heavier than M, each cast yields at least D - (K - 1) M. Such heavy layouts are often few. Once
every one of them is held by a layout in a list, whole numbers over the list alone decide whether
K casts can do.
"""

from collections.abc import Sequence

import numpy as np

from nesting.search.instance import Counts, PlaceSet
from nesting.search.master import Casts
from nesting.search.pricing import Pricer
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve

_UNIT = 1_000.0
"""Weights are divided by this, so that the solver's tolerance is far below a whole price."""
MOST = 400
"""An enumeration with more layouts than this is given up."""


def list_heavy(
    pricer: Pricer, prices: Sequence[int], demand: Counts, least: int, deadline: Deadline
) -> dict[Counts, PlaceSet] | None:
    """Return layouts that between them hold every layout of at least that weight, or None.

    None where there are too many, or time is up: then nothing is proved.
    """
    found: dict[Counts, PlaceSet] = {}
    while len(found) <= MOST and not deadline.passed:
        layout, complete = _next_heavy(pricer, prices, demand, least, list(found), deadline)
        if layout is None:
            return found if complete else None
        full = pricer.fill(layout, demand)
        found[pricer.instance.counts(full)] = full
    return None


def _next_heavy(
    pricer: Pricer,
    prices: Sequence[int],
    demand: Counts,
    least: int,
    known: Sequence[Counts],
    deadline: Deadline,
) -> tuple[PlaceSet | None, bool]:
    """Return a heavy layout with more of some item than each known one, or whether none is left."""
    owner = pricer.instance.owner
    places, items = len(owner), range(len(demand))
    own = [np.flatnonzero(owner == item) for item in items]
    weight = np.asarray(prices, dtype=np.float64)[owner] / _UNIT
    rows: list[Row] = [(row, 1.0, 0.0, 1.0) for row in pricer.points.all_rows()]
    rows += [(own[item], 1.0, 0.0, float(demand[item])) for item in items]
    rows.append((np.arange(places), weight, (least - 0.5) / _UNIT, INFINITY))
    for number, counts in enumerate(known):
        more = [places + number * len(demand) + item for item in items]
        rows.append((more, 1.0, 1.0, INFINITY))
        for item in items:
            columns = np.append(own[item], more[item])
            values = [1.0] * len(own[item]) + [-(counts[item] + 1.0)]
            rows.append((columns, values, 0.0, INFINITY))
    columns_in_all = places + len(known) * len(demand)
    cost = np.concatenate([weight, np.zeros(columns_in_all - places)])
    found = solve(cost, rows_of(rows), np.ones(columns_in_all), maximise=True, deadline=deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    return tuple(int(p) for p in np.flatnonzero(found.values[:places] > 0.5)), False


def cast_with(
    layouts: Sequence[Counts], demand: Counts, casts: int, deadline: Deadline
) -> tuple[Casts | None, bool]:
    """Return a schedule of these layouts in so many casts, and whether none is proved to exist."""
    if not layouts:
        return None, True
    matrix = np.array(layouts, dtype=np.float64).T
    rows: list[Row] = [
        (np.flatnonzero(row), row[np.flatnonzero(row)], float(wanted), INFINITY)
        for row, wanted in zip(matrix, demand, strict=True)
    ]
    rows.append((range(len(layouts)), 1.0, 0.0, float(casts)))
    upper = np.full(len(layouts), float(casts))
    found = solve(np.ones(len(layouts)), rows_of(rows), upper, deadline=deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    chosen = zip(found.values, layouts, strict=True)
    return [(round(value), counts) for value, counts in chosen if value > 0.5], False
