"""When places run to tens of thousands: search on a few thousand, bound over all of them.

The instant bound is solved on a working set; places of the full set that cover less weight than
their price are added, and so on. The certificate is always taken over all places, so it holds.
"""

from __future__ import annotations

import numpy as np

from nesting.search.bound import SCALE, certify, cover_weight, weigh_points
from nesting.search.conflicts import find_points
from nesting.search.instance import Certificate, Instance, Ints
from nesting.search.solver import Deadline, Floats

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
