"""Limits on how far segments of a motif may move apart, made as tight as they make each other.

With the shifts of the segments as unknowns, limits on totals of neighbouring strips are differences
of two, so shortest paths tell what they ask and whether anything keeps them (Floyd 1962, Warshall
1962), in whole numbers and exactly. ``far[i, j]`` is the most by which segment j may move beyond
segment i, so the least is ``-far[j, i]``.
"""

from collections.abc import Sequence

import numpy as np

from nesting.shapes.convex import Ints
from nesting.zones.choices import TotalLimits

Span = tuple[int, int]


def spread(least: Sequence[int], greatest: Sequence[int]) -> Ints:
    """Return the limits that strips of least and greatest widths come to.

    >>> spread([1, 0], [4, 2]).tolist()
    [[0, 4, 6], [-1, 0, 2], [-1, 0, 0]]
    """
    lows, highs = (np.concatenate([[0], np.cumsum(each)]) for each in (least, greatest))
    beyond = np.tri(len(lows), dtype=bool).T
    far: Ints = np.where(beyond, highs - highs[:, None], lows - lows[:, None]).astype(np.int64)
    return far


def tighten(far: Ints) -> bool:
    """Make every limit as tight as the others make it; whether anything keeps them all.

    >>> far = spread([0, 0], [4, 2]); far[2, 0] = -5
    >>> tighten(far), far.tolist()
    (True, [[0, 4, 6], [-3, 0, 2], [-5, -1, 0]])
    """
    for k in range(len(far)):
        np.minimum(far, far[:, [k]] + far[[k], :], out=far)
    return not bool((np.diagonal(far) < 0).any())


def limit(far: Ints, totals: Sequence[tuple[Span, TotalLimits]], unit: int = 1) -> None:
    """Add limits on totals of strips, in whole multiples of a unit, which loses none of those."""
    for (i, j), (low, high) in totals:
        far[i, j] = min(far[i, j], high // unit)
        far[j, i] = min(far[j, i], (-low) // unit)


def moved_apart(shifts: Sequence[int]) -> Ints:
    """Return how far each segment is moved beyond each other one, given the shift of each."""
    at = np.array(shifts, dtype=np.int64)
    return at - at[:, None]
