"""How late the casts must be at least: each is given a shift, dams and bed changes left aside.

Every cast takes a liner, and a bed of its kind, from its shift until it is demoulded, in the
fastest way there is. No order does better, so what the model says is a bound for every order.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

import numpy as np

from nesting.ordering.shifts import Way, Workload
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve


def least_late(work: Workload, deadline: Deadline) -> int:
    """Return panel-days late that no order stays below; 0 where the model says nothing in time.

    A column is a layout in a shift, ``freed`` the shift that demoulds it at the earliest.
    """
    first = work.lead[Way.FIRST]
    freed = [min(work.free[way][t] for way in Way) for t in range(first, work.horizon)]
    layouts = [layout for layout, count in enumerate(work.counts) if count]
    if deadline.passed or not layouts:
        return 0
    cost = np.array([work.late[layout][t] for layout in layouts for t in freed], dtype=float)
    counts = [float(work.counts[layout]) for layout in layouts]
    rows: list[Row] = [
        (range(place * len(freed), (place + 1) * len(freed)), 1.0, count, count)
        for place, count in enumerate(counts)
    ]
    ends = [t - first for t in freed]
    rows += _take(range(len(layouts)), ends, work.liners)
    for kind, beds in enumerate(work.beds):
        its = [p for p, n in enumerate(layouts) if work.kind[work.family[n]] == kind]
        if its and beds < work.liners:
            rows += _take(its, ends, beds)
    upper = np.repeat(np.minimum(counts, work.liners), len(freed))
    found = solve(cost, rows_of(rows), upper, integer=False, deadline=deadline)
    return max(0, int(np.ceil(found.bound - 1e-6))) if np.isfinite(found.bound) else 0


def _take(places: Sequence[int], ends: Sequence[int], most: int) -> Iterator[Row]:
    """Yield for each shift: at most so many casts of those layouts are not yet demoulded."""
    for shift in range(len(ends)):
        begun = range(bisect_right(ends, shift), shift + 1)
        columns = [place * len(ends) + each for place in places for each in begun]
        yield columns, 1.0, -INFINITY, float(most)
