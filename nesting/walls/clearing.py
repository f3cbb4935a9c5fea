"""How far a point must move to keep clear of ground: decided in whole steps, exactly."""

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from nesting.shapes.geometry import Point, Ring, bounds, edges


@dataclass(frozen=True, slots=True)
class Forbidden:
    """Named ground where no insert may stand: its rings [steps], the shell first, then holes."""

    name: str
    rings: tuple[Ring, ...]

    def shortfall(self, point: Point, distance: int) -> int:
        """Return 0 where a point is so far [steps] from the ground, else how far it must move.

        It must move at least as far: the figure is a lower bound, above 0.

        >>> square = Forbidden("pond", (((0, 0), (10, 0), (10, 10), (0, 10)),))
        >>> square.shortfall((15, 5), 5), square.shortfall((13, 5), 5), square.shortfall((9, 5), 5)
        (0, 1, 6)
        """
        box = bounds(self.rings[0])
        if max(box.x0 - point[0], point[0] - box.x1, box.y0 - point[1], point[1] - box.y1) > (
            distance
        ):
            return 0
        sides = [side for ring in self.rings for side in edges(ring)]
        nearest = min(_square_distance(point, start, end) for start, end in sides)
        away = isqrt(int(nearest))  # rounded down
        if _holds(self.rings, point):
            return max(1, away + distance)
        return 0 if nearest >= distance**2 else max(1, distance - away - 1)


def _square_distance(point: Point, start: Point, end: Point) -> Fraction:
    """Return the squared distance of a point from a side [square steps]."""
    along_x, along_y = end[0] - start[0], end[1] - start[1]
    to_x, to_y = point[0] - start[0], point[1] - start[1]
    length, foot = along_x**2 + along_y**2, to_x * along_x + to_y * along_y
    if foot <= 0:
        return Fraction(to_x**2 + to_y**2)
    if foot >= length:
        return Fraction((point[0] - end[0]) ** 2 + (point[1] - end[1]) ** 2)
    return Fraction((along_x * to_y - along_y * to_x) ** 2, length)


def _holds(rings: tuple[Ring, ...], point: Point) -> bool:
    """Whether the point lies inside, counted even-odd; on the rim either answer may come."""
    x, y = point
    inside = False
    for ring in rings:
        for (x0, y0), (x1, y1) in edges(ring):
            if (y0 > y) != (y1 > y):
                ahead = (x1 - x0) * (y - y0) - (x - x0) * (y1 - y0)
                inside ^= (ahead > 0) == (y1 > y0)
    return inside
