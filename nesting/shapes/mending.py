"""What lies in what, and simple polygons from rings that meet themselves."""

import math
from collections.abc import Sequence
from typing import cast

import shapely

from nesting.shapes.curves import Spot
from nesting.shapes.geometry import (
    Box,
    Polygon,
    Ring,
    doubled_area,
    polygon_of,
    subtract,
    to_shapely,
)
from nesting.shapes.onesided import round_ring

_SLACK = 2.0  # steps by which a ring may reach over the one around it
_MITRE = 2.0


def is_simple(ring: Sequence[Spot]) -> bool:
    """Whether a ring bounds one area without meeting itself."""
    return bool(shapely.Polygon(ring).is_valid)


def find_parents(rings: Sequence[Sequence[Spot]]) -> list[int | None]:
    """Return for each ring the smallest other ring around it; None where there is none.

    Of two equal rings the later one lies in the earlier one.
    """
    areas = [_whole_area(ring) for ring in rings]
    around = [area.buffer(_SLACK, join_style="mitre") for area in areas]
    inner, outer = shapely.STRtree(around).query(areas, predicate="covered_by")
    size = [(-area.area, index) for index, area in enumerate(areas)]
    parents: list[int | None] = [None] * len(rings)
    for index, other in zip(inner.tolist(), outer.tolist(), strict=True):
        best = parents[index]
        if size[other] < size[index] and (best is None or size[other] > size[best]):
            parents[index] = other
    return parents


def sticks_out(inners: Sequence[Polygon], outer: Polygon) -> tuple[Box | None, ...]:
    """Return the box around each inner polygon's part outside the outer, None where it has none.

    Touching the rim is not sticking out, nor is up to one step beyond it: a slanted rim has points
    that no step falls on.
    """
    shape = to_shapely(outer)
    shapely.prepare(shape)
    widened = shape.buffer(1, join_style="mitre")
    return tuple(
        None if shape.covers(part) else _beyond(part, shape, widened)
        for part in map(to_shapely, inners)
    )


def _beyond(part: shapely.Polygon, shape: shapely.Polygon, widened: shapely.Polygon) -> Box | None:
    if part.difference(widened).is_empty:
        return None
    x0, y0, x1, y1 = part.difference(shape).bounds
    return Box(math.floor(x0), math.floor(y0), math.ceil(x1), math.ceil(y1))


def hugs(inner: Sequence[Spot], outer: Sequence[Spot], within: float) -> bool:
    """Whether a ring follows another that lies around it, nowhere farther off than ``within``."""
    core = _whole_area(outer).buffer(-within, join_style="mitre")
    return bool(_whole_area(inner).buffer(_SLACK).covers(core))


def holds_spots(ring: Sequence[Spot], spots: Sequence[Spot]) -> bool:
    """Whether the ring encloses all the points, or has them on it."""
    area = _whole_area(ring).buffer(_SLACK)
    return bool(shapely.covers(area, shapely.MultiPoint(spots)))


def mend_ring(ring: Sequence[Spot], by: float, *, outward: bool) -> tuple[Polygon, ...]:
    """Return simple polygons around, or within, all that a ring which meets itself encloses.

    Parameters
    ----------
    ring
        Points at most ``by`` off the drawn curves [steps].
    by
        How far every side is moved, so that the polygons keep their side of the curves [steps].
    outward
        Whether holes are filled and sides moved outward; else only what an odd number of turns
        encloses is kept, and sides are moved inward.

    Returns
    -------
    tuple
        The largest first; empty where nothing is left.
    """
    if outward:
        area = _whole_area(ring).buffer(by, join_style="mitre", mitre_limit=_MITRE)
    else:
        area = shapely.make_valid(shapely.Polygon(ring)).buffer(-by, join_style="mitre")
    parts = [part for part in shapely.get_parts(area).tolist() if part.geom_type == "Polygon"]
    parts.sort(key=lambda part: (-part.area, part.bounds))
    found = [_on_steps(part, outward=outward) for part in parts]
    return tuple(polygon for polygon in found if polygon is not None)


def cut_to(polygon: Polygon, ground: Polygon) -> tuple[Polygon, ...]:
    """Return the parts of a polygon on the ground, the largest first.

    A crossing is rounded to the grid, by less than one step.
    """
    box = polygon.bounds
    frame = Box(box.x0 - 1, box.y0 - 1, box.x1 + 1, box.y1 + 1)
    beyond = subtract([polygon_of(frame)], [ground])
    parts = subtract([polygon], beyond) if beyond else (polygon,)
    return tuple(sorted(parts, key=lambda part: (-part.area, part.rings)))


def reach_beyond(polygon: Polygon, ground: Polygon) -> int:
    """Return how far a polygon reaches past the rim of the ground [steps, rounded up]."""
    corners = shapely.points(polygon.shell)
    return math.ceil(float(shapely.distance(corners, to_shapely(ground)).max()))


def part_holes(polygon: Polygon) -> tuple[Polygon, ...]:
    """Return polygons without holes that together fill one with holes.

    It is cut along y through the middle of each hole; a crossing is rounded to the grid, by less
    than one step.
    """
    if not polygon.holes:
        return (polygon,)
    box = polygon.bounds
    hole = min(polygon.holes, key=lambda ring: min(x for x, _ in ring))
    x = (min(x for x, _ in hole) + max(x for x, _ in hole)) // 2
    halves = (Box(box.x0, box.y0, x, box.y1), Box(x, box.y0, box.x1, box.y1))
    return tuple(
        whole
        for half in halves
        for part in subtract([polygon], [polygon_of(half)])
        for whole in part_holes(part)
    )


def fill(polygon: Polygon) -> Polygon:
    """Return the polygon without its holes."""
    return Polygon(polygon.shell)


def _on_steps(part: shapely.Polygon, *, outward: bool) -> Polygon | None:
    shell = _rounded(part.exterior, outward=outward)
    holes = [] if outward else [_rounded(ring, outward=True) for ring in part.interiors]
    if len(set(shell)) < 3 or not doubled_area(shell):
        return None
    try:
        return Polygon(shell, tuple(hole for hole in holes if len(set(hole)) > 2))
    except ValueError:
        return None


def _rounded(ring: shapely.LinearRing, *, outward: bool) -> Ring:
    spots = [(float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1]]
    return round_ring(spots if ring.is_ccw else spots[::-1], outward=outward)


def _whole_area(ring: Sequence[Spot]) -> shapely.Polygon | shapely.MultiPolygon:
    """Return all the ground a ring encloses, even where it meets itself."""
    area = shapely.Polygon(ring)
    if area.is_valid:
        return area
    lines = shapely.unary_union(shapely.LinearRing(ring))
    faces = shapely.get_parts(shapely.polygonize([lines]))
    return cast("shapely.MultiPolygon", shapely.unary_union(faces))
