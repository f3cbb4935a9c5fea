"""Exact polygons on the grid of 8000 steps per millimetre.

Whatever decides a position is held here as whole steps. Boolean work goes through pyclipper, which
works on integers; questions of validity and shape go through shapely. A coordinate is at most 2**28
steps (33.5 m), so products of two coordinates are exact in 64-bit integers and in floats alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import pyclipper
import shapely

Point = tuple[int, int]
Ring = tuple[Point, ...]

MAX_STEPS = 2**28
"""Largest coordinate the exact arithmetic is sized for (33.5 m)."""
MAX_VERTICES = 5_000
"""Most vertices one outline may have."""


class Box(NamedTuple):
    """An axis-parallel rectangle, [x0, x1] x [y0, y1] in steps; may be a segment or a point."""

    x0: int
    y0: int
    x1: int
    y1: int

    @property
    def width(self) -> int:
        """Extent along x [steps]."""
        return self.x1 - self.x0

    @property
    def height(self) -> int:
        """Extent along y [steps]."""
        return self.y1 - self.y0

    @property
    def area(self) -> int:
        """Area [square steps]."""
        return self.width * self.height

    @property
    def ring(self) -> Ring:
        """The four corners, counter-clockwise from the lower left."""
        return (self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1)

    def moved(self, dx: int, dy: int) -> Box:
        """Return the box shifted by (dx, dy) steps."""
        return Box(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def grown(self, left: int, bottom: int, right: int, top: int) -> Box:
        """Return the box with each side moved outward by its own number of steps."""
        return Box(self.x0 - left, self.y0 - bottom, self.x1 + right, self.y1 + top)

    def strip(self, side: str, depth: int) -> Box:
        """Return the strip of the box along its left, right, bottom or top, so deep [steps]."""
        return {
            "left": self._replace(x1=self.x0 + depth),
            "right": self._replace(x0=self.x1 - depth),
            "bottom": self._replace(y1=self.y0 + depth),
            "top": self._replace(y0=self.y1 - depth),
        }[side]

    def overlaps(self, other: Box) -> bool:
        """Whether the open interiors meet; boxes that only touch do not overlap.

        >>> Box(0, 0, 4, 3).overlaps(Box(3, 2, 9, 9)), Box(0, 0, 4, 3).overlaps(Box(4, 0, 9, 3))
        (True, False)
        """
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def contains(self, other: Box) -> bool:
        """Whether the other box lies inside this one; a shared boundary is allowed."""
        return (
            self.x0 <= other.x0
            and self.y0 <= other.y0
            and other.x1 <= self.x1
            and other.y1 <= self.y1
        )


@dataclass(frozen=True, slots=True)
class Polygon:
    """A simple polygon with holes, vertices in whole steps.

    The shell runs counter-clockwise and holes clockwise, each from its leftmost vertex (the lowest
    of several) and without repeated points, so that one outline compares equal wherever it starts
    and whichever way it runs. Points along a straight side are kept.

    Raises
    ------
    ValueError
        With the reason and the place [mm], where the rings do not bound one simple area.
    """

    shell: Ring
    holes: tuple[Ring, ...] = ()

    def __post_init__(self) -> None:
        shell = _normalise(self.shell, clockwise=False)
        holes = tuple(sorted(_normalise(hole, clockwise=True) for hole in self.holes))
        object.__setattr__(self, "shell", shell)
        object.__setattr__(self, "holes", holes)
        reason = shapely.is_valid_reason(to_shapely(self))
        if reason != "Valid Geometry":
            raise ValueError(_in_millimetres(reason))

    def moved(self, dx: int, dy: int) -> Polygon:
        """Return the polygon shifted by (dx, dy) steps."""
        shell, *holes = (tuple((x + dx, y + dy) for x, y in ring) for ring in self.rings)
        return Polygon(shell, tuple(holes))

    @property
    def bounds(self) -> Box:
        """The smallest box around the polygon."""
        return bounds(self.shell)

    @property
    def area(self) -> int:
        """Area of the shell less the holes, rounded down to whole square steps."""
        return sum(doubled_area(ring) for ring in self.rings) // 2

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The shell, then the holes."""
        return (self.shell, *self.holes)

    @property
    def is_box(self) -> bool:
        """Whether the polygon is an axis-parallel rectangle."""
        return not self.holes and self.area == self.bounds.area


def polygon_of(box: Box) -> Polygon:
    """Return the box as a polygon."""
    return Polygon(box.ring)


def bounds(points: Iterable[Point]) -> Box:
    """Return the smallest box around the points."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def doubled_area(ring: Ring) -> int:
    """Return twice the signed area [square steps], positive when counter-clockwise.

    >>> doubled_area(((0, 0), (4, 0), (4, 3)))
    12
    """
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in edges(ring))


def to_shapely(polygon: Polygon) -> shapely.Polygon:
    """Return the same polygon as a shapely one, coordinates in steps, held exactly."""
    return shapely.Polygon(polygon.shell, polygon.holes)


def subtract(
    shapes: Sequence[Polygon], cutters: Sequence[Polygon], rings: Sequence[Ring] = ()
) -> tuple[Polygon, ...]:
    """Return the union of the shapes less the union of the cutters, as disjoint polygons.

    Exact where edges that cross are axis-parallel; elsewhere a crossing is rounded to the grid, by
    less than one step (0.000125 mm). ``rings`` cut too: counter-clockwise, and not looked at; one
    without area cuts nothing.
    """
    if not shapes:
        return ()
    clipper = pyclipper.Pyclipper()
    clipper.AddPaths(_paths(shapes), pyclipper.PT_SUBJECT, True)
    if cutting := [*_paths(cutters), *filter(doubled_area, rings)]:
        clipper.AddPaths(cutting, pyclipper.PT_CLIP, True)
    tree = clipper.Execute2(pyclipper.CT_DIFFERENCE, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    return tuple(sorted(_polygons(tree), key=lambda polygon: polygon.rings))


def unite(shapes: Sequence[Polygon]) -> tuple[Polygon, ...]:
    """Return the union of rectilinear shapes as disjoint polygons without points along a side."""
    area = shapely.union_all([to_shapely(shape) for shape in shapes])
    parts = [simple for part in shapely.get_parts(area) for simple in _simple(part)]
    whole = (Polygon(_bare(part.shell), tuple(map(_bare, part.holes))) for part in parts)
    return tuple(sorted(whole, key=lambda polygon: polygon.rings))


def _bare(ring: Ring) -> Ring:
    return tuple(point for point, turn in zip(ring, _turns(ring), strict=True) if turn)


def _paths(polygons: Sequence[Polygon]) -> list[Ring]:
    return [ring for polygon in polygons for ring in polygon.rings]


def _polygons(node: pyclipper.PyPolyNode) -> list[Polygon]:
    found: list[Polygon] = []
    for outer in node.Childs:
        rings = [hole.Contour for hole in outer.Childs if len(hole.Contour) > 2]
        if len(outer.Contour) > 2:
            found += _simple(shapely.Polygon(outer.Contour, rings))
        for hole in outer.Childs:
            found.extend(_polygons(hole))
    return found


def _simple(area: shapely.Polygon) -> list[Polygon]:
    """Part a polygon whose rim meets itself into simple ones; slivers without area are dropped.

    A rim that runs back along itself, or a crossing rounded onto another vertex, can leave parts
    that have to be parted again.
    """
    if area.is_empty or area.area == 0:
        return []
    if not area.is_valid:
        parts = shapely.make_valid(area, method="structure", keep_collapsed=False)
        flat = shapely.get_parts(shapely.get_parts(parts))
        whole = [_on_grid(part) for part in flat if part.geom_type == "Polygon"]
        return [simple for part in whole if part is not None for simple in _simple(part)]
    return [Polygon(_whole(area.exterior), tuple(_whole(ring) for ring in area.interiors))]


def _on_grid(part: shapely.Polygon) -> shapely.Polygon | None:
    """Return the part with whole coordinates, None where no area is left of it."""
    shell, *holes = (_whole(ring) for ring in (part.exterior, *part.interiors))
    if len(set(shell)) < 3 or doubled_area(shell) == 0:
        return None
    kept = [hole for hole in holes if len(set(hole)) > 2 and doubled_area(hole) != 0]
    return shapely.Polygon(shell, kept)


def _whole(ring: shapely.Geometry) -> Ring:
    return tuple((round(x), round(y)) for x, y in shapely.get_coordinates(ring)[:-1])


def _normalise(ring: Ring, *, clockwise: bool) -> Ring:
    points = tuple(
        point for index, point in enumerate(ring) if point != ring[index - 1] or len(ring) == 1
    )
    if len(set(points)) < 3:
        raise ValueError(
            f"an outline needs at least 3 different points, this one has {len(set(points))}"
        )
    if len(points) > MAX_VERTICES:
        raise ValueError(
            f"an outline has at most {MAX_VERTICES} points, this one has {len(points)}"
        )
    if max(max(abs(x), abs(y)) for x, y in points) > MAX_STEPS:
        raise ValueError(f"coordinates reach at most {MAX_STEPS // 8000} mm from the datum")
    reason = shapely.is_valid_reason(shapely.Polygon(points))
    if reason != "Valid Geometry":
        raise ValueError(_in_millimetres(reason))
    if (doubled_area(points) < 0) != clockwise:
        points = points[::-1]
    start = points.index(min(points))
    return points[start:] + points[:start]


def _in_millimetres(reason: str) -> str:
    """Turn shapely's ``Self-intersection[8000 16000]`` into words with the place in mm."""
    what, _, place = reason.partition("[")
    if not place:
        return what
    x, y = (float(part) / 8000 for part in place.rstrip("]").split())
    return f"{what.strip().lower()} at ({x:g}, {y:g}) mm"


def is_rectilinear(polygon: Polygon) -> bool:
    """Whether every edge is parallel to an axis."""
    return all(x0 == x1 or y0 == y1 for ring in polygon.rings for (x0, y0), (x1, y1) in edges(ring))


def convex_parts(polygon: Polygon) -> tuple[Ring, ...]:
    """Return disjoint convex rings, counter-clockwise, that together fill the polygon.

    Their vertices are vertices of the polygon, save for rectilinear ones, which are cut into
    rectangles along the x of their vertices.
    """
    if is_rectilinear(polygon):
        return tuple(box.ring for box in slabs(polygon))
    if not polygon.holes and _is_convex(polygon.shell):
        return (polygon.shell,)
    return _merge_convex(triangles(polygon))


def slabs(polygon: Polygon) -> tuple[Box, ...]:
    """Return disjoint rectangles that together fill a rectilinear polygon, from left to right.

    >>> for box in slabs(Polygon(((0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)))):
    ...     print(tuple(box))
    (0, 0, 2, 5)
    (2, 0, 6, 2)
    """
    uprights = sorted(
        (x0, min(y0, y1), max(y0, y1), 1 if y1 < y0 else -1)
        for ring in polygon.rings
        for (x0, y0), (x1, y1) in edges(ring)
        if x0 == x1
    )
    done: list[Box] = []
    growing: dict[tuple[int, int], int] = {}
    depth: dict[int, int] = {}
    for index, (x, low, high, sign) in enumerate(uprights):
        depth[low] = depth.get(low, 0) + sign
        depth[high] = depth.get(high, 0) - sign
        if index + 1 == len(uprights) or uprights[index + 1][0] != x:
            spans = _spans(depth)
            done += [Box(growing[s], s[0], x, s[1]) for s in growing if s not in spans]
            growing = {span: growing.get(span, x) for span in spans}
    return tuple(sorted(done))


def triangles(polygon: Polygon) -> tuple[Ring, ...]:
    """Return counter-clockwise triangles that fill the polygon, on its own vertices."""
    parts = shapely.constrained_delaunay_triangles(to_shapely(polygon)).geoms
    rings = [_whole(part) for part in parts]
    return tuple(ring if doubled_area(ring) > 0 else ring[::-1] for ring in rings)


def convex_hull(points: Sequence[Point]) -> Ring:
    """Return the smallest convex ring around the points, counter-clockwise.

    >>> sorted(convex_hull([(0, 0), (4, 0), (2, 1), (2, 5)]))
    [(0, 0), (2, 5), (4, 0)]
    """
    ring = _whole(shapely.MultiPoint(points).convex_hull)
    return ring if doubled_area(ring) > 0 else ring[::-1]


def _spans(depth: dict[int, int]) -> list[tuple[int, int]]:
    spans: list[tuple[int, int]] = []
    total, start = 0, 0
    for y in sorted(depth):
        before, total = total, total + depth[y]
        if before == 0 and total != 0:
            start = y
        if before != 0 and total == 0:
            spans.append((start, y))
    return spans


def _turns(ring: Ring) -> Iterable[int]:
    for index, (x1, y1) in enumerate(ring):
        (x0, y0), (x2, y2) = ring[index - 1], ring[(index + 1) % len(ring)]
        yield (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)


def _is_convex(ring: Ring) -> bool:
    return all(turn >= 0 for turn in _turns(ring))


def _merge_convex(rings: tuple[Ring, ...]) -> tuple[Ring, ...]:
    """Join neighbours across an edge while the union is convex (Hertel & Mehlhorn 1983)."""
    parts = dict(enumerate(rings))
    owner = {edge: index for index, ring in parts.items() for edge in edges(ring)}
    for edge in sorted(owner):
        here, there = owner.get(edge), owner.get(edge[::-1])
        if here is None or there is None or here == there:
            continue
        union = _joined_at(parts[here], parts[there], edge)
        if _is_convex(union):
            del parts[there]
            parts[here] = union
            owner.pop(edge), owner.pop(edge[::-1])
            owner |= dict.fromkeys(edges(union), here)
    return tuple(parts.values())


def edges(ring: Ring) -> list[tuple[Point, Point]]:
    """Return the ring's edges as (start, end), in order; the last one closes it."""
    return list(zip(ring, ring[1:] + ring[:1], strict=True))


def _joined_at(first: Ring, second: Ring, edge: tuple[Point, Point]) -> Ring:
    """Return the union of two rings that share ``edge`` (in the first's direction)."""
    a, b = edge
    i, j = first.index(b), second.index(a)
    return first[i:] + first[:i] + (second[j:] + second[:j])[1:-1]


def turn_over(polygon: Polygon) -> Polygon:
    """Return the polygon with x and y exchanged."""
    shell, *holes = (tuple((y, x) for x, y in ring) for ring in polygon.rings)
    return Polygon(shell, tuple(holes))
