"""Where the parts and panels of a wall lie in plan: for drawings, and to see that a wall closes.

The axis starts at (0, 0) along x. Points are floats in steps and decide no size.
"""

import math
from dataclasses import dataclass

from nesting.shapes.curves import Spot
from nesting.units import STEPS_PER_MM
from nesting.walls.cladding import (
    Corner,
    Skin,
    Stretch,
    Wall,
    WallArc,
    WallRun,
    corner_tangents,
    face_length,
    radius_on,
    sign_of,
)

_CHORDS_PER_TURN = 180


@dataclass(frozen=True, slots=True)
class Pose:
    """A point of the axis [steps] and the direction of the walk there [rad]."""

    x: float
    y: float
    heading: float

    def beside(self, along: float, offset: float) -> Spot:
        """Return the point so far ahead and so far to the right, the outer side [steps]."""
        cos, sin = math.cos(self.heading), math.sin(self.heading)
        return self.x + along * cos + offset * sin, self.y + along * sin - offset * cos


def walk_axis(wall: Wall) -> list[Pose]:
    """Return the pose at the start of every part, and at the end of the last one."""
    poses = [Pose(0.0, 0.0, 0.0)]
    for index, part in enumerate(wall.parts):
        pose = poses[-1]
        if isinstance(part, WallRun):
            x, y = pose.beside(face_length(wall, index, "axis"), 0)
            poses.append(Pose(x, y, pose.heading))
            continue
        x, y = (pose.x, pose.y) if isinstance(part, Corner) else _on_arc(wall, part, pose, 1.0, 0)
        poses.append(Pose(x, y, pose.heading + sign_of(part) * part.angle))
    return poses


def closing_gap(wall: Wall) -> float:
    """Return how far [mm] the end of the axis lies from its start."""
    end = walk_axis(wall)[-1]
    return math.hypot(end.x, end.y) / STEPS_PER_MM


def turning(wall: Wall) -> float:
    """Return by how much the walk turns in all [rad], positive toward the inner side."""
    return sum(sign_of(part) * part.angle for part in wall.parts if not isinstance(part, WallRun))


def panel_rings(wall: Wall, stretch: Stretch) -> list[tuple[Spot, ...]]:
    """Return the outline in plan of every panel of one row of a stretch, face first."""
    poses, part = walk_axis(wall), wall.parts[stretch.part]
    if isinstance(part, WallArc):
        return [_arc_ring(wall, part, poses[stretch.part], stretch, span) for span in stretch.spans]
    if isinstance(part, WallRun):
        start = -float(wall.offset(stretch.skin)) * corner_tangents(wall, stretch.part)[0]
        spans = [(start + low, start + high) for low, high in stretch.spans]
        return [_run_ring(wall, stretch.part, poses, stretch.skin, span) for span in spans]
    before = (stretch.part - 1) % len(wall.parts)
    after = (stretch.part + 1) % len(wall.parts)
    offset = float(wall.offset(stretch.skin))
    end = face_length(wall, before, "axis") + offset * corner_tangents(wall, before)[1]
    start = -offset * corner_tangents(wall, after)[0]
    return [
        _run_ring(wall, before, poses, stretch.skin, (end - stretch.width, end)),
        _run_ring(wall, after, poses, stretch.skin, (start, start + stretch.width)),
    ]


def face_middle(ring: tuple[Spot, ...]) -> tuple[Spot, Spot]:
    """Return the middle of a panel's face in plan and the unit vector away from its back.

    The vector is square to the face, also where a mitre makes the back longer or shorter.
    """
    half = len(ring) // 2
    (x, y), (back_x, back_y) = (_middle(side) for side in (ring[:half], ring[half:]))
    (x0, y0), (x1, y1) = ring[(half - 1) // 2 - half % 2], ring[half // 2 + half % 2]
    out_x, out_y = y1 - y0, x0 - x1
    length = math.copysign(math.hypot(out_x, out_y), out_x * (x - back_x) + out_y * (y - back_y))
    return (x, y), (out_x / length, out_y / length)


def _middle(side: tuple[Spot, ...]) -> Spot:
    """Return the middle point of one side, of which the points are evenly spaced."""
    (x0, y0), (x1, y1) = side[(len(side) - 1) // 2], side[len(side) // 2]
    return (x0 + x1) / 2, (y0 + y1) / 2


def _back_offset(wall: Wall, skin: Skin) -> float:
    away = wall.panel_thickness if skin == "inner" else -wall.panel_thickness
    return float(wall.offset(skin)) + away


def _on_arc(wall: Wall, arc: WallArc, pose: Pose, share: float, offset: float) -> Spot:
    """Return a point of an arc at a share of its angle, so far from the axis."""
    sign, radius = sign_of(arc), radius_on(wall, arc, "axis")
    x, y = pose.beside(0, -sign * radius)  # the centre lies to the left where the arc turns left
    at = pose.heading - sign * math.pi / 2 + sign * share * arc.angle
    reach = radius + sign * offset
    return x + reach * math.cos(at), y + reach * math.sin(at)


def _arc_ring(
    wall: Wall, arc: WallArc, pose: Pose, stretch: Stretch, span: tuple[int, int]
) -> tuple[Spot, ...]:
    low, high = (place / face_length(wall, stretch.part, stretch.skin) for place in span)
    chords = max(2, math.ceil((high - low) * arc.angle / math.tau * _CHORDS_PER_TURN))
    shares = [low + (high - low) * step / chords for step in range(chords + 1)]
    face, back = float(wall.offset(stretch.skin)), _back_offset(wall, stretch.skin)
    return (
        *(_on_arc(wall, arc, pose, share, face) for share in shares),
        *(_on_arc(wall, arc, pose, share, back) for share in reversed(shares)),
    )


def _run_ring(
    wall: Wall, index: int, poses: list[Pose], skin: Skin, span: tuple[float, float]
) -> tuple[Spot, ...]:
    """Return a flat panel's outline, mitred where it ends at the arris of a corner."""
    face, back = float(wall.offset(skin)), _back_offset(wall, skin)
    first, last = corner_tangents(wall, index)
    length = face_length(wall, index, "axis")
    low, high = span
    at_first = first and abs(low + face * first) < 1
    at_last = last and abs(high - length - face * last) < 1
    return (
        poses[index].beside(low, face),
        poses[index].beside(high, face),
        poses[index].beside(length + back * last if at_last else high, back),
        poses[index].beside(-back * first if at_first else low, back),
    )
