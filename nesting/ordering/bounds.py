"""What no order of the casts stays below, by models that leave something aside.

How late casts must be at least: each is given a shift, dams and bed changes left aside. Every cast
takes a liner, and a bed of its kind, from its shift until it is demoulded, in the fastest way there
is. How evenly casts can be shared out over the liners at a given number of changes: that model
knows how many casts of each family each liner takes, and nothing of time or of waiting for a bed.
"""

from bisect import bisect_right
from collections.abc import Iterator, Sequence

import numpy as np

from nesting.ordering.shifts import Way, Workload, chain
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
