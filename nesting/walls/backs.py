"""The backs of a wall's panels, on the rays that run square through both skins.

A *ray* is named by its angle about the centre of an arc [rad], or by its place along the axis of a
run [steps]; both are exact. Along a back, places are measured from its left edge as seen from
behind, which is how the back lies before the crew on the liner.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from nesting.shapes.geometry import Ring
from nesting.walls.cladding import (
    Corner,
    Skin,
    Stretch,
    Wall,
    WallRun,
    corner_tangents,
    face_length,
)

Rays = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Back:
    """One panel of a run or arc: the rays at the ends of its back and of its face.

    ``number`` counts the panels of its part along the wall, from 1. ``radius`` and ``face_radius``
    are lengths of back and face for each unit of ray [steps], 1 on a run. Face and back end on
    different rays at a mitre alone.
    """

    stretch: Stretch
    number: int
    ends: Rays
    face_ends: Rays
    radius: int
    face_radius: int

    @property
    def skin(self) -> Skin:
        """The skin the panel belongs to."""
        return self.stretch.skin

    @property
    def width(self) -> Fraction:
        """The length of the back along the wall [steps]."""
        return (self.ends[1] - self.ends[0]) * self.radius

    def along(self, ray: Fraction) -> Fraction:
        """Return where a ray meets the back, from its left edge seen from behind [steps]."""
        low, high = self.ends
        return (ray - low if self.skin == "inner" else high - ray) * self.radius

    def ray(self, along: Fraction | int) -> Fraction:
        """Return the ray through a place on the back: `along` backward."""
        low, high = self.ends
        turn = Fraction(along) / self.radius
        return low + turn if self.skin == "inner" else high - turn

    def clear_ends(self, distance: int) -> Rays:
        """Return the first and last ray that is so far [steps] from the edges of face and back."""
        away = Fraction(distance, self.radius)
        (low, high), (face_low, face_high) = self.ends, self.face_ends
        return max(low, face_low) + away, min(high, face_high) - away

    def behind(self, ring: Ring) -> Ring:
        """Return what lies behind a ring on the face: x from the left seen from behind, y up."""
        low, high = self.face_ends
        edge, sign = (low, 1) if self.skin == "inner" else (high, -1)
        return tuple(
            (round(self.along(edge + sign * Fraction(x, self.face_radius))), y) for x, y in ring
        )


def list_backs(wall: Wall, stretches: Sequence[Stretch], part: int, skin: Skin) -> list[Back]:
    """Return the backs of a skin of a part, in the order of the walk; none of a corner."""
    if isinstance(wall.parts[part], Corner):
        return []
    spans = [
        (span, stretch)
        for stretch in stretches
        if stretch.part == part and stretch.skin == skin
        for span in stretch.spans
    ]
    return [
        _flat_back(wall, stretch, number, span)
        if isinstance(wall.parts[part], WallRun)
        else _bent_back(wall, stretch, number, span)
        for number, (span, stretch) in enumerate(sorted(spans, key=lambda each: each[0]), start=1)
    ]


def _bent_back(wall: Wall, stretch: Stretch, number: int, span: tuple[int, int]) -> Back:
    away = wall.panel_thickness if stretch.shape == "concave" else -wall.panel_thickness
    ends = (Fraction(span[0], stretch.radius), Fraction(span[1], stretch.radius))
    return Back(stretch, number, ends, ends, stretch.radius + away, stretch.radius)


def _flat_back(wall: Wall, stretch: Stretch, number: int, span: tuple[int, int]) -> Back:
    """Return the back of a flat panel; at the arris of a corner a mitre moves its end."""
    tangents, length = corner_tangents(wall, stretch.part), face_length(wall, stretch.part, "axis")
    face = float(wall.offset(stretch.skin))
    back = face + (wall.panel_thickness if stretch.skin == "inner" else -wall.panel_thickness)
    start = round(-face * tangents[0])
    low, high = start + span[0], start + span[1]
    back_low, back_high = low, high
    if tangents[0] and span[0] == 0:
        back_low = round(-back * tangents[0])
    if tangents[1] and span[1] == stretch.length:
        back_high = round(length + back * tangents[1])
    ends, face_ends = (Fraction(back_low), Fraction(back_high)), (Fraction(low), Fraction(high))
    return Back(stretch, number, ends, face_ends, 1, 1)
