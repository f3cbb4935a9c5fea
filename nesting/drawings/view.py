"""From the liner to a sheet: the scale, and where the datum lies on the sheet."""

from dataclasses import dataclass
from fractions import Fraction

from nesting.drawings.record import Rect, Spot
from nesting.shapes.geometry import Box, Point, Polygon
from nesting.units import STEPS_PER_MM

FROM_ABOVE = "Seen from above"
FACE_DOWN = f"{FROM_ABOVE}, face down"
FROM_FRONT = "Seen from the front"
"""What a drawing says of itself: of a liner, of panels lying on it, of a finished face."""


@dataclass(frozen=True, slots=True)
class View:
    """From liner to sheet: 1 mm of sheet is ``scale`` mm of liner; the datum is at (x, y)."""

    scale: Fraction
    x: float
    y: float

    def at(self, point: Point) -> Spot:
        """Return where a point of the liner [steps] lies on the sheet."""
        return self.x + self.length(point[0]), self.y + self.length(point[1])

    def length(self, steps: int) -> float:
        """Return how long a length of the liner [steps] is on the sheet."""
        return steps / (STEPS_PER_MM * float(self.scale))

    def rect(self, box: Box) -> Rect:
        """Return the box of the liner [steps] on the sheet."""
        return Rect(*self.at((box.x0, box.y0)), *self.at((box.x1, box.y1)))

    def rings(self, polygon: Polygon) -> tuple[tuple[Spot, ...], ...]:
        """Return the rings of the polygon on the sheet."""
        return tuple(tuple(self.at(point) for point in ring) for ring in polygon.rings)
