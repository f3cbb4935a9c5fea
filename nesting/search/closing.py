"""When fractions promise more than whole layouts keep: settle one number of casts by enumeration.

In a schedule of K casts no cast can be light: with prices worth D over the order and no layout
heavier than M, each cast yields at least D - (K - 1) M. Such heavy layouts are often few. Once
every one of them is held by a layout in a list, whole numbers over the list alone decide whether
K casts can do. A few casts are filled in one go instead, by one integer program.
"""

from collections.abc import Sequence

import numpy as np

from nesting.search.conflicts import Points
from nesting.search.instance import Counts, Instance, PlaceSet
from nesting.search.master import Casts, casts_used, demand_rows
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
    rows = demand_rows(layouts, demand)
    rows.append((range(len(layouts)), 1.0, 0.0, float(casts)))
    upper = np.full(len(layouts), float(casts))
    found = solve(np.ones(len(layouts)), rows_of(rows), upper, deadline=deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    return casts_used(layouts, found.values), False


LARGEST = 7_000
"""No model with more columns than this is tried."""


def fill_casts(
    instance: Instance, points: Points, demand: Counts, casts: int, deadline: Deadline
) -> tuple[list[PlaceSet] | None, bool]:
    """Return one layout per cast that together meet the demand, and whether none exist.

    Gives up at once, with nothing proved, where there are too many columns. Casts are alike, so
    they are put in order of what they cover.
    """
    places = len(instance.owner)
    if not casts or casts * places > LARGEST:
        return None, False
    rows: list[Row] = []
    for cast in range(casts):
        rows += [(row + cast * places, 1.0, 0.0, 1.0) for row in points.all_rows()]
    for item, wanted in enumerate(demand):
        own = np.flatnonzero(instance.owner == item)
        columns = np.concatenate([own + cast * places for cast in range(casts)])
        rows.append((columns, 1.0, float(wanted), INFINITY))
    boxes = instance.boxes
    size = ((boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])).astype(np.float64)
    size /= size.max(initial=1.0)
    for cast in range(casts - 1):
        columns = np.arange(cast * places, (cast + 2) * places)
        rows.append((columns, np.concatenate([size, -size]), 0.0, INFINITY))
    wanted_at_all = np.array(demand)[instance.owner] > 0
    upper = np.tile(wanted_at_all.astype(np.float64), casts)
    found = solve(np.zeros(casts * places), rows_of(rows), upper, deadline=deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    chosen = found.values.reshape(casts, places) > 0.5
    return [tuple(int(p) for p in np.flatnonzero(row)) for row in chosen], False
