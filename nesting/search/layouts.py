"""Fewest different layouts at a given number of casts.

Slots stand for layouts. A slot holds places free of conflicts and is cast some number of times;
each place then yields that many panels. ``T`` slots that suffice while ``T - 1`` are refuted are
the fewest.
"""

from __future__ import annotations

import numpy as np

from nesting.search.conflicts import Points
from nesting.search.instance import Counts, Instance, Layout
from nesting.search.master import Pool
from nesting.search.solver import INFINITY, Deadline, Found, Row, rows_of, solve

Casts = list[tuple[int, Layout]]

_NODES_BY_SQUARE = 1e7
LARGEST = 2_000
MOST_NODES = 2_000


def fewest_of_pool(
    pool: Pool, demand: Counts, casts: int, most_nodes: int, deadline: Deadline
) -> list[tuple[int, Counts]] | None:
    """Return the fewest known layouts that meet the demand in so many casts, with repeats."""
    known = list(pool.layouts)
    matrix = np.array(known, dtype=float).T
    n = len(known)
    most = [
        float(min(casts, max(-(-q // c) for c, q in zip(counts, demand, strict=True) if c)))
        for counts in known
    ]
    rows: list[Row] = [
        (np.flatnonzero(row), row[np.flatnonzero(row)], float(q), INFINITY)
        for row, q in zip(matrix, demand, strict=True)
    ]
    rows += [([column, n + column], [1.0, -most[column]], -INFINITY, 0.0) for column in range(n)]
    rows.append((range(n), 1.0, 0.0, float(casts)))
    cost = np.concatenate([np.zeros(n), np.ones(n)])
    upper = np.concatenate([np.array(most), np.ones(n)])
    found = solve(cost, rows_of(rows), upper, most_nodes=most_nodes, deadline=deadline)
    if found.values is None:
        return None
    return [
        (round(v), counts) for counts, v in zip(known, found.values[:n], strict=True) if v > 0.5
    ]


def fill_slots(
    instance: Instance,
    points: Points,
    casts: int,
    slots: int,
    deadline: Deadline,
    *,
    largest: int = LARGEST,
    most_nodes: int = MOST_NODES,
) -> tuple[Casts | None, bool]:
    """Return a schedule of at most ``slots`` layouts in so many casts, and whether none exists.

    Gives up at once beyond ``largest`` columns, and after ``most_nodes`` nodes or fewer where there
    are many columns; both are scaled by the effort allowed.
    """
    columns = 2 * slots * len(instance.owner)
    if columns > largest * deadline.effort:
        return None, False
    nodes = int(deadline.effort * min(most_nodes, max(10.0, _NODES_BY_SQUARE / columns**2)))
    found = _solve_slots(instance, points, casts, slots, nodes, deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    places = len(instance.owner)
    chosen = found.values[: slots * places].reshape(slots, places) > 0.5
    repeats = found.values[2 * slots * places :]
    layouts = [
        (round(times), tuple(int(p) for p in np.flatnonzero(row)))
        for times, row in zip(repeats, chosen, strict=True)
    ]
    return [(times, layout) for times, layout in layouts if times and layout], False


def _solve_slots(
    instance: Instance, points: Points, casts: int, slots: int, most_nodes: int, deadline: Deadline
) -> Found:
    """Columns: chosen (slot, place), then panels yielded (slot, place), then repeats (slot)."""
    places = len(instance.owner)
    quantity = np.array(instance.demand)[instance.owner]
    most = np.minimum(quantity, casts).astype(float)
    yields, repeats = slots * places, 2 * slots * places
    rows: list[Row] = []
    for slot in range(slots):
        base = slot * places
        for row in points.rows():
            rows.append((row + base, 1.0, 0.0, 1.0))
            columns = [*(row + yields + base), repeats + slot]
            rows.append((columns, [1.0] * len(row) + [-1.0], -INFINITY, 0.0))
        rows += [
            ([base + p, yields + base + p], [-most[p], 1.0], -INFINITY, 0.0) for p in range(places)
        ]
        if slot:
            rows.append(([repeats + slot - 1, repeats + slot], [1.0, -1.0], 0.0, INFINITY))
    for item, wanted in enumerate(instance.demand):
        own = np.flatnonzero(instance.owner == item)
        columns = [yields + slot * places + p for slot in range(slots) for p in own]
        rows.append((columns, 1.0, float(wanted), INFINITY))
    rows.append((range(repeats, repeats + slots), 1.0, 0.0, float(casts)))
    upper = np.concatenate(
        [np.ones(slots * places), np.tile(most, slots), np.full(slots, float(casts))]
    )
    whole = np.concatenate(
        [np.ones(slots * places), np.zeros(slots * places), np.ones(slots)]
    ).astype(np.bool_)
    return solve(
        np.zeros(len(upper)),
        rows_of(rows),
        upper,
        integer=whole,
        deadline=deadline,
        most_nodes=most_nodes,
    )
