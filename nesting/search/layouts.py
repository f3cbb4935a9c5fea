"""Fewest layouts from a list as one integer program: a charge for each layout cast at all.

(The fixed-charge form of the least number of set-ups in cutting stock, Vanderbeck 2000.)
"""

from __future__ import annotations

import numpy as np

from nesting.search.instance import Ints
from nesting.search.slack import Slack
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve

Chosen = list[tuple[int, int]]
"""(repeats, index of the layout in the list) for each layout cast."""


def choose_layouts(
    counts: Ints, slack: Slack, least: int, below: int, most_nodes: int, deadline: Deadline
) -> tuple[Chosen, int]:
    """Return the fewest of the layouts ``counts`` (n, items) that do, and a bound on their number.

    Nothing is returned where fewer than ``below`` are not found. ``least`` is a bound known before.
    A layout is cast no more often than its items ask for and the slack allows.
    """
    n, tops = len(counts), counts.max(axis=0)
    useful = -(-slack.demand // np.maximum(counts, 1)) * (counts > 0)
    most = np.minimum(slack.most_repeats(counts), useful.max(axis=1, initial=0)).astype(float)
    rows: list[Row] = [
        (np.flatnonzero(held), held[np.flatnonzero(held)], float(wanted), float(wanted + spare))
        for held, wanted, spare in zip(counts.T, slack.demand, slack.spare(tops), strict=True)
    ]
    rows += [([k, n + k], [1.0, -most[k]], -INFINITY, 0.0) for k in range(n)]
    rows.append((range(n), 1.0, 0.0, float(slack.casts)))
    rows.append((range(n, 2 * n), 1.0, float(least), below - 1.0))
    cost = np.concatenate([np.zeros(n), np.ones(n)])
    upper = np.concatenate([most, np.ones(n)])
    found = solve(
        cost, rows_of(rows), upper, target=least + 0.5, most_nodes=most_nodes, deadline=deadline
    )
    if found.status == "infeasible":
        return [], below
    bound = int(np.ceil(found.bound - 1e-6)) if np.isfinite(found.bound) else least
    if found.values is None:
        return [], max(bound, least)
    chosen = [(round(value), k) for k, value in enumerate(found.values[:n]) if value > 0.5]
    return chosen, max(least, min(bound, len(chosen)))
