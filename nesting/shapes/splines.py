"""B-splines as Bezier curves."""

from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from nesting.shapes.curves import Bezier


def split_spline(
    degree: int, knots: Sequence[float], points: Sequence[tuple[float, float, float]]
) -> tuple[Bezier, ...]:
    """Return a B-spline as Bezier curves, exactly, by inserting knots (Boehm 1980).

    Parameters
    ----------
    degree
        At least 1.
    knots
        In rising order, ``len(points) + degree + 1`` of them.
    points
        Control points (x, y, weight).

    Raises
    ------
    ValueError
        Where the numbers do not fit together.
    """
    count = len(points)
    rising = all(low <= high for low, high in pairwise(knots))
    if degree < 1 or count <= degree or len(knots) != count + degree + 1 or not rising:
        raise ValueError("the knots of a spline do not fit its control points")
    low, high = knots[degree], knots[count]
    if not low < high:
        raise ValueError("the knots of a spline are all the same")
    line, rows = list(knots), [np.array((x * w, y * w, w)) for x, y, w in points]
    for knot, count in sorted(Counter(knot for knot in knots if low <= knot <= high).items()):
        for _ in range(degree - count):
            _insert_knot(line, rows, degree, knot)
    spans = [
        index for index in range(len(line) - 1) if low <= line[index] < line[index + 1] <= high
    ]
    return tuple(_bezier(rows[index - degree : index + 1]) for index in spans)


def _insert_knot(line: list[float], rows: list[np.ndarray], degree: int, knot: float) -> None:
    """Insert one knot in place (Boehm 1980)."""
    span = min(bisect_right(line, knot) - 1, len(rows) - 1)
    fresh = []
    for index in range(span - degree + 1, span + 1):
        width = line[index + degree] - line[index]
        share = (knot - line[index]) / width if width else 0.0
        fresh.append((1 - share) * rows[index - 1] + share * rows[index])
    rows[span - degree + 1 : span] = fresh
    line.insert(span + 1, knot)


def _bezier(rows: Sequence[np.ndarray]) -> Bezier:
    if min(row[2] for row in rows) <= 0:
        raise ValueError("the weights of a spline must be above 0")
    return Bezier(tuple((float(x / w), float(y / w), float(w)) for x, y, w in rows))
