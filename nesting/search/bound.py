"""The instant bound: no point of the liner is used more often than there are casts.

One linear program over places. Its dual is a set of weights on points; what an item must cover at
least, wherever it lies, is its price, and no cast holds more than the whole weight. Rounded to
whole numbers that is a certificate anyone can check by adding up.

When places run to tens of thousands, a few thousand are searched and the bound holds for all: it is
solved on a working set; places of the full set that cover less weight than their price are added,
and so on. The certificate is always taken over all places, so it holds.
"""

import numpy as np

from nesting.search.conflicts import Points, find_points
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


MOST = 5_000
"""Instances with more places than this are thinned."""
_FIRST = 120
_ADDED = 40
_ROUNDS = 8


def thin_places(instance: Instance, deadline: Deadline) -> tuple[Ints, Certificate]:
    """Return the places to search on, sorted, and a certificate that holds for all places."""
    deadline = deadline.within(deadline.left / 3)
    working = _spread(instance, _FIRST)
    best: Certificate | None = None
    for _ in range(_ROUNDS):
        part = instance.only(working)
        points = find_points(part)
        weights, _ = weigh_points(part, points, deadline)
        certificate = certify(instance, points.at, weights)
        if best is None or certificate.demand * best.heaviest > best.demand * certificate.heaviest:
            best = certificate
        more = _lightest(instance, points.at, weights)
        before = len(working)
        working = np.union1d(working, more)
        if len(working) == before or len(working) > MOST or deadline.passed:
            break
    assert best is not None
    return working, best


def _spread(instance: Instance, most: int) -> Ints:
    """Return up to ``most`` places of each item, evenly spread over its list."""
    picks = []
    for item in range(len(instance.items)):
        own = np.flatnonzero(instance.owner == item)
        picks.append(own[np.linspace(0, len(own) - 1, min(most, len(own))).astype(np.int64)])
    return np.concatenate(picks)


def _lightest(instance: Instance, at: Ints, weights: Floats) -> Ints:
    """Return the places of each item that cover the least weight."""
    covered = cover_weight(instance.boxes, at, np.rint(weights * SCALE).astype(np.int64))
    picks = []
    for item in range(len(instance.items)):
        own = np.flatnonzero(instance.owner == item)
        picks.append(own[np.argsort(covered[own], kind="stable")[:_ADDED]])
    return np.concatenate(picks)
