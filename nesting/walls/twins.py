"""Looks again, in plan, at whether the two inserts of every tie face each other across the cavity.

It goes by the outlines of the panels in plan, in floats, and shares nothing with the arithmetic
that finds the places.
"""

import math
from collections.abc import Iterable, Sequence

from nesting.shapes.curves import Spot
from nesting.units import STEPS_PER_MM
from nesting.walls.backs import Back
from nesting.walls.cladding import Wall, WallArc, radius_on, sign_of
from nesting.walls.path import Pose, panel_rings, walk_axis
from nesting.walls.ties import TiedPair


def worst_miss(wall: Wall, pairs: Iterable[TiedPair]) -> float:
    """Return the most [mm] by which an insert misses its twin; 0 where nothing is tied.

    A tie as long as the cavity is square to both backs. One that misses by a distance along them is
    the long side of a right triangle over that distance and the cavity; on an arc the distance is
    one midway between the two.
    """
    poses = walk_axis(wall)
    worst = 0.0
    for pair in pairs:
        for tie in pair.ties:
            inner, outer = (
                _in_plan(wall, poses, back, spot[0])
                for back, spot in ((pair.inner, tie.inner), (pair.outer, tie.outer))
            )
            off = math.sqrt(abs(math.dist(inner, outer) ** 2 - wall.cavity**2))
            worst = max(worst, off, abs(tie.inner[1] - tie.outer[1]))
    return worst / STEPS_PER_MM


def _in_plan(wall: Wall, poses: Sequence[Pose], back: Back, along: int) -> Spot:
    """Return where a place on a back lies in plan [steps], from its left edge seen from behind."""
    stretch = back.stretch
    ring = panel_rings(wall, stretch)[min(back.number, len(stretch.spans)) - 1]
    start, end = ring[-1], ring[len(ring) // 2]
    part, pose = wall.parts[stretch.part], poses[stretch.part]
    side = 1
    if stretch.skin == "outer":
        start, end, side = end, start, -1
    if not isinstance(part, WallArc):
        share = along / math.dist(start, end)
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
    centre = pose.beside(0, -sign_of(part) * radius_on(wall, part, "axis"))
    angle = side * sign_of(part) * along / math.dist(centre, start)
    x, y = start[0] - centre[0], start[1] - centre[1]
    cos, sin = math.cos(angle), math.sin(angle)
    return centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos
