"""From liner steps to full-size millimetres: flat or as a bed stretches the face, or mirrored."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from nesting.drawings.record import Rect, Spot
from nesting.shapes.geometry import Box, Point, Polygon
from nesting.units import STEPS_PER_MM
from nesting.values.bed import AXES
from nesting.values.bend import Bend


@dataclass(frozen=True, slots=True)
class FullSize:
    """How a flat liner is drawn full size: each axis times its ratio, x reversed where mirrored."""

    x_ratio: Fraction = Fraction(1)
    y_ratio: Fraction = Fraction(1)
    mirrored: bool = False

    @property
    def is_flat(self) -> bool:
        """Whether flat liner measures are drawn as they are."""
        return self.x_ratio == self.y_ratio == 1

    def at(self, point: Point) -> Spot:
        """Return where a point of the liner [steps] is drawn [mm]."""
        x, y = self.drawn(*point)
        return (-x if self.mirrored else x) / STEPS_PER_MM, y / STEPS_PER_MM

    def drawn(self, width: int, height: int) -> tuple[int, int]:
        """Return a width and a height [steps] as drawn, rounded to whole steps."""
        return round(width * self.x_ratio), round(height * self.y_ratio)

    def rect(self, box: Box) -> Rect:
        """Return a box of the liner [steps] as drawn [mm]."""
        (xa, ya), (xb, yb) = self.at((box.x0, box.y0)), self.at((box.x1, box.y1))
        return Rect(min(xa, xb), ya, max(xa, xb), yb)

    def rings(self, polygon: Polygon) -> tuple[tuple[Spot, ...], ...]:
        """Return the rings of a polygon as drawn [mm], each closed by its first point."""
        return tuple(self.closed(ring) for ring in polygon.rings)

    def closed(self, ring: Iterable[Point]) -> tuple[Spot, ...]:
        """Return a ring as drawn [mm], closed by its first point."""
        spots = tuple(self.at(point) for point in ring)
        return (*spots, spots[0])


def on_face(bend: Bend, *, mirrored: bool = False) -> FullSize:
    """Return the developed face: the curved axis as long as the bed makes it on the panel's face.

    Raises ValueError on a flat bed, as `Bend.face_radius` does.
    """
    ratio = bend.face_radius / bend.neutral_radius
    across, up = (ratio if bend.is_curved(axis) else Fraction(1) for axis in AXES)
    return FullSize(across, up, mirrored)
