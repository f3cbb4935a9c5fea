"""The instant bound: no point of the liner is used more often than there are casts.

One linear program over places. Its dual is a set of weights on points; what an item must cover at
least, wherever it lies, is its price, and no cast holds more than the whole weight. Rounded to
whole numbers that is a certificate anyone can check by adding up.
"""

from __future__ import annotations

import numpy as np

from nesting.search.conflicts import Points
from nesting.search.instance import Certificate, Instance
from nesting.search.solver import INFINITY, Deadline, Found, Row, rows_of, solve

SCALE = 1_000_000


def point_bound(
    instance: Instance, points: Points, deadline: Deadline
) -> tuple[Certificate, float]:
    """Return the certificate of the instant bound, and the value of the linear program.

    The value is 0 where the program did not finish in time; the certificate holds all the same.
    """
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
    found = solve(
        cost,
        rows_of(rows + wanted),
        np.full(places + 1, INFINITY),
        integer=False,
        deadline=deadline,
    )
    value = found.objective if found.status == "optimal" else 0.0
    return certify(instance, points, _weights(found, points)), value


def _weights(found: Found, points: Points) -> np.ndarray:
    if found.status != "optimal" or found.duals is None:
        return np.ones(len(points.at))
    return np.maximum(0.0, -found.duals[: len(points.at)])


def certify(instance: Instance, points: Points, weights: np.ndarray) -> Certificate:
    """Return the certificate that non-negative weights on the points give, rounded to integers."""
    scaled = np.rint(weights * (SCALE / max(weights.sum(), 1e-9))).astype(np.int64)
    used = np.flatnonzero(scaled)
    covered = scaled[used] @ points.cover[used].astype(np.int64)
    prices = tuple(
        int(covered[instance.owner == index].min()) for index in range(len(instance.items))
    )
    demand = sum(p * q for p, q in zip(prices, instance.demand, strict=True))
    listed = tuple(
        (int(x), int(y), int(w)) for (x, y), w in zip(points.at[used], scaled[used], strict=True)
    )
    return Certificate(prices, int(scaled.sum()), demand, listed)
