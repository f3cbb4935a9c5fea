"""The ribs of a curved bed: how each is shaped, so that a panel's face lands on its radius.

Ribs stand across the bed and all are alike. From the panel inwards lie the liner, perhaps a deck
(a sheet bent over the ribs) and the ribs. The bed's own radius is that of what the liner lies on,
so on a convex bed the ribs have that radius less the deck's thickness, on a concave one that and
the thickness. All lengths here are mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from nesting.shapes.arcs import chord_of_arc, middle_ordinate
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.bend import Bend

FLATTEN = 0.002
"""How far the straight pieces of a drawn curve may lie from its true arc [mm]."""


@dataclass(frozen=True, slots=True)
class Rib:
    """One rib and how many of them there are.

    ``radius`` is that of its curved edge, ``bed_radius`` that of what the liner lies on and
    ``face_radius`` that of the panel's face; ``angle_rad`` is what liner and rib span. ``depth`` is
    the rib's least height. ``count`` ribs stand ``pitch`` apart along the straight axis.
    """

    form: Literal["convex", "concave"]
    radius: float
    bed_radius: float
    face_radius: float
    angle_rad: float
    depth: float
    count: int
    pitch: float

    @property
    def arc(self) -> float:
        """Length of the curved edge."""
        return self.radius * self.angle_rad

    @property
    def chord(self) -> float:
        """Straight distance between the ends of the curved edge."""
        return chord_of_arc(self.arc, self.radius)

    @property
    def rise(self) -> float:
        """How far the middle of the edge stands above, or lies below, its ends."""
        return middle_ordinate(self.arc, self.radius)

    def height_at(self, x: float) -> float:
        """Return the rib's height at a distance along the chord from its middle."""
        drop = self.radius - math.sqrt(max(0.0, self.radius**2 - x**2))
        return self.depth + (self.rise - drop if self.form == "convex" else drop)

    def edge(self) -> tuple[tuple[float, float], ...]:
        """Return points of the curved edge, left to right: x from the middle, height at x."""
        half = self.angle_rad / 2
        parts = max(2, 2 * math.ceil(half / math.acos(max(-1.0, 1 - FLATTEN / self.radius)) / 2))
        turns = (half * (2 * part / parts - 1) for part in range(parts + 1))
        xs = (self.radius * math.sin(turn) for turn in turns)
        return tuple((x, self.height_at(x)) for x in xs)


def shape_rib(bend: Bend, liner: Box, *, spacing: float, deck: float, depth: float) -> Rib:
    """Return the ribs of a bed under a whole liner.

    Parameters
    ----------
    bend
        That of a curved bed.
    liner
        The bounds of the liner lying flat [steps].
    spacing
        Most distance from rib to rib [mm].
    deck
        Thickness of the sheet bent over the ribs [mm]; 0 where the liner lies on them.
    depth
        Least height of a rib [mm].

    Raises
    ------
    ValueError
        On a flat bed; where liner and deck leave no radius; where the liner spans more than half
        a circle.
    """
    bed, face = bend.bed, bend.face_radius / STEPS_PER_MM
    radius = bed.radius / STEPS_PER_MM
    edge = radius - deck if bed.form == "convex" else radius + deck
    if edge <= 0:
        raise ValueError(f"the deck must be thinner than the bed's radius, got {deck:g} mm")
    along, straight = liner.width, liner.height
    if bed.curved_axis == "y":
        along, straight = straight, along
    angle = float(along / bend.neutral_radius)
    if angle > math.pi:
        raise ValueError(
            f"a rib spans at most half a circle; on bed {bed.name!r} the liner spans "
            f"{math.degrees(angle):.1f} degrees"
        )
    gaps = max(1, math.ceil(straight / STEPS_PER_MM / spacing - 1e-9))
    pitch = straight / STEPS_PER_MM / gaps
    form: Literal["convex", "concave"] = "convex" if bed.form == "convex" else "concave"
    return Rib(form, edge, radius, face, angle, depth, gaps + 1, pitch)
