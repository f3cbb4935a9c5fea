"""What of a line lies inside an upright rectangle."""

from collections.abc import Sequence
from itertools import pairwise

from nesting.drawings.record import Rect, Spot


def crop_segment(rect: Rect, start: Spot, end: Spot) -> tuple[Spot, Spot] | None:
    """Return the part of a segment inside the closed rectangle, or None (Liang and Barsky 1984).

    >>> crop_segment(Rect(0, 0, 10, 10), (-5, 5), (5, 5))
    ((0.0, 5.0), (5.0, 5.0))
    >>> crop_segment(Rect(0, 0, 1, 1), (2, 0), (2, 9)) is None
    True
    """
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    low, high = 0.0, 1.0
    for change, room in (
        (-dx, x - rect.x0),
        (dx, rect.x1 - x),
        (-dy, y - rect.y0),
        (dy, rect.y1 - y),
    ):
        if change == 0:
            if room < 0:
                return None
        elif change < 0:
            low = max(low, room / change)
        else:
            high = min(high, room / change)
    if low > high:
        return None
    first = start if low == 0 else (x + low * dx, y + low * dy)
    last = end if high == 1 else (x + high * dx, y + high * dy)
    return (float(first[0]), float(first[1])), (float(last[0]), float(last[1]))


def crop_line(rect: Rect, points: Sequence[Spot]) -> tuple[tuple[Spot, ...], ...]:
    """Return the runs of a line inside the closed rectangle, in the order of the line.

    >>> crop_line(Rect(0, 0, 10, 10), [(1, 1), (1, 20), (5, 20), (5, 1)])
    (((1.0, 1.0), (1.0, 10.0)), ((5.0, 10.0), (5.0, 1.0)))
    """
    runs: list[list[Spot]] = []
    for start, end in pairwise(points):
        part = crop_segment(rect, start, end)
        if part is None or part[0] == part[1]:
            continue
        if runs and runs[-1][-1] == part[0]:
            runs[-1].append(part[1])
        else:
            runs.append(list(part))
    return tuple(tuple(run) for run in runs)
