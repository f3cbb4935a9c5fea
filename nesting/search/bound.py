"""The instant bound: no point of the liner is used more often than there are casts.

One linear program over places. Its dual is a set of weights on points; what an item must cover at
least, wherever it lies, is its price, and no cast holds more than the whole weight. Rounded to
whole numbers that is a certificate anyone can check by adding up.
"""

from __future__ import annotations

import numpy as np

from nesting.search.conflicts import Points
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
    """Return the total weight of the points (m, 2) that each box (n, 4) covers.

    A box covers its left and lower side, not its right and upper one. Read off running totals over
    the grid of the points' coordinates.
    """
    xs, ys = np.unique(at[:, 0]), np.unique(at[:, 1])
    grid = np.zeros((len(xs) + 1, len(ys) + 1), dtype=np.int64)
    np.add.at(grid, (np.searchsorted(xs, at[:, 0]) + 1, np.searchsorted(ys, at[:, 1]) + 1), weights)
    total = grid.cumsum(axis=0).cumsum(axis=1)
    x0, x1 = np.searchsorted(xs, boxes[:, 0]), np.searchsorted(xs, boxes[:, 2])
    y0, y1 = np.searchsorted(ys, boxes[:, 1]), np.searchsorted(ys, boxes[:, 3])
    covered: Ints = total[x1, y1] - total[x0, y1] - total[x1, y0] + total[x0, y0]
    return covered
