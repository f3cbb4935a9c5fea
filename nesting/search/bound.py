"""The instant bound: no point of the liner is used more often than there are casts.

One linear program over places. Its dual is a set of weights on points; what an item must cover at
least, wherever it lies, is its price, and no cast holds more than the whole weight. Rounded to
whole numbers that is a certificate anyone can check by adding up.
"""

from __future__ import annotations

import numpy as np

from nesting.search.conflicts import Points, cover_of
from nesting.search.instance import Certificate, Instance, Ints
from nesting.search.solver import INFINITY, Deadline, Floats, Row, rows_of, solve

SCALE = 1_000_000


def point_bound(
    instance: Instance, points: Points, deadline: Deadline
) -> tuple[Certificate, float]:
    """Return the certificate of the instant bound, and the value of the linear program.

    The value is 0 where the program did not finish in time; the certificate holds all the same.
    """
    weights, value = weigh_points(instance, points, deadline)
    return certify(instance, points.at, weights), value


def weigh_points(instance: Instance, points: Points, deadline: Deadline) -> tuple[Floats, float]:
    """Return the weights on points that prove most, and the value of the linear program."""
    places = len(instance.owner)
    rows: list[Row] = [
        (np.append(row, places), [1.0] * len(row) + [-1.0], -INFINITY, 0.0) for row in points.rows()
    ]
    wanted: list[Row] = [
        (np.flatnonzero(instance.owner == index), 1.0, float(quantity), INFINITY)
        for index, quantity in enumerate(instance.demand)
    ]
    cost = np.zeros(places + 1)
    cost[places] = 1.0
    upper = np.full(places + 1, INFINITY)
    found = solve(cost, rows_of(rows + wanted), upper, integer=False, deadline=deadline)
    if found.status != "optimal" or found.duals is None:
        return np.ones(len(points.at)), 0.0
    return np.maximum(0.0, -found.duals[: len(points.at)]), found.objective


def certify(instance: Instance, at: Ints, weights: Floats) -> Certificate:
    """Return the certificate that weights >= 0 on points ``at`` (m, 2) give, in whole numbers.

    Prices are taken over all places of the instance, wherever the weights come from.
    """
    scaled = np.rint(weights * (SCALE / max(weights.sum(), 1e-9))).astype(np.int64)
    covered = cover_weight(instance.boxes, at, scaled)
    prices = tuple(
        int(covered[instance.owner == index].min()) for index in range(len(instance.items))
    )
    demand = sum(p * q for p, q in zip(prices, instance.demand, strict=True))
    listed = tuple((int(x), int(y), int(w)) for (x, y), w in zip(at, scaled, strict=True) if w)
    return Certificate(prices, int(scaled.sum()), demand, listed)


def cover_weight(boxes: Ints, at: Ints, weights: Ints) -> Ints:
    """Return the total weight each box (n, 4) covers, working on a few boxes at a time."""
    used = weights > 0
    parts = np.array_split(boxes, max(1, len(boxes) * int(used.sum()) // 5_000_000))
    covered = [weights[used] @ cover_of(part, at[used]).astype(np.int64) for part in parts]
    return np.concatenate(covered)
