"""A rectangle grown by a distance with round corners, as a ring on whole steps around it."""

from math import acos, ceil, cos, pi, sin

from nesting.shapes.geometry import Box, Ring, convex_hull
from nesting.units import STEPS_PER_MM

_MOST_BEYOND = STEPS_PER_MM * 0.0195
"""How far a corner of the ring may lie beyond the arc, before it is rounded outward [steps]."""


def round_around(box: Box, distance: int) -> Ring:
    """Return a convex ring around all that is nearer to a box than ``distance`` [steps].

    Its straight sides lie at the distance exactly. At each corner it follows tangents of the arc,
    and where two of them meet is rounded outward: so it lies nowhere within the arc, and nowhere
    more than 0.02 mm beyond it. The box may be a point where the distance is > 0.

    >>> round_around(Box(0, 0, 9, 7), 0)
    ((9, 0), (9, 7), (0, 7), (0, 0))
    >>> max(round_around(Box(5, 5, 5, 5), 80_000))[0], len(round_around(Box(5, 5, 5, 5), 80_000))
    (80005, 52)
    """
    parts = ceil(pi / 4 / acos(distance / (distance + _MOST_BEYOND)))
    reach, turn = distance / cos(pi / 4 / parts), pi / 2 / parts
    angles = [turn * (part + 0.5) for part in range(parts)]
    across = [distance, *(ceil(reach * cos(angle)) for angle in angles[1:])]
    up = [*(ceil(reach * sin(angle)) for angle in angles[:-1]), distance]
    corners = [
        (x, y)
        for dx, dy in zip(across, up, strict=True)
        for x in (box.x0 - dx, box.x1 + dx)
        for y in (box.y0 - dy, box.y1 + dy)
    ]
    return convex_hull(corners)
