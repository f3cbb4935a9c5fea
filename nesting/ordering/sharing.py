"""How evenly casts can be shared out over the liners at a given number of changes.

The model knows how many casts of each family each liner takes, and nothing of time or of waiting
for a bed: so what it says is a bound for every order.
"""

from __future__ import annotations

import numpy as np

from nesting.ordering.shifts import Workload, chain
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve


def share_end(work: Workload, changes: int, deadline: Deadline) -> int:
    """Return a shift before which no order of at most so many changes has every cast demoulded.

    For each liner: ``x`` casts of each family, ``y`` whether any, ``z`` whether any of a kind of
    bed, ``u`` whether it is used at all. A liner changes families and kinds at least once less than
    it has of each. Zero where the model says nothing in time.
    """
    if deadline.passed:
        return 0
    families = [family for family in range(len(work.kind)) if work.casts_of(family)]
    kinds = sorted({work.kind[family] for family in families})
    f, k, n = len(families), len(kinds), work.liners
    block = 2 * f + k + 1
    rows: list[Row] = []
    for place, family in enumerate(families):
        casts = float(work.casts_of(family))
        rows.append(([liner * block + place for liner in range(n)], 1.0, casts, casts))
    for liner in range(n):
        x, y, z = liner * block, liner * block + f, liner * block + 2 * f
        used = z + k
        for place, family in enumerate(families):
            at_most = float(work.casts_of(family))
            rows.append(([x + place, y + place], [1.0, -at_most], -INFINITY, 0.0))
            kind = z + kinds.index(work.kind[family])
            rows.append(([y + place, kind], [1.0, -1.0], -INFINITY, 0.0))
            rows.append(([used, y + place], [1.0, -1.0], 0.0, INFINITY))
        rows.append(([used, *range(y, z)], [1.0, *[-1.0] * f], -INFINITY, 0.0))
        rows.append(([*range(x, y), n * block], [*[1.0] * f, -1.0], -INFINITY, 0.0))
        if liner:
            before = range(x - block, y - block)
            rows.append(([*before, *range(x, y)], [*[1.0] * f, *[-1.0] * f], 0.0, INFINITY))
    columns = [c for liner in range(n) for c in range(liner * block + f, (liner + 1) * block)]
    values = [1.0] * (f + k) + [-2.0]
    rows.append((columns, values * n, -INFINITY, float(changes)))
    cost = np.zeros(n * block + 1)
    cost[-1] = 1.0
    one = [*[float(work.casts_of(family)) for family in families], *[1.0] * (f + k + 1)]
    upper = np.array([*one * n, float(work.casts)])
    found = solve(cost, rows_of(rows), upper, deadline=deadline.within(10), most_nodes=20_000)
    casts = max(0, int(np.ceil(found.bound - 1e-6))) if np.isfinite(found.bound) else 0
    return chain(work, casts)
