"""Stairs for slopes: rectangles that cover a polygon, or that a polygon covers.

The search for casts works with axis-parallel obstacles. A polygon with slanted edges is replaced by
its outer stairs, which hold it and stay within one step of it, so no ornament is ever cut and
nothing is lost that would still fit with one step more room; or, for lower bounds, by its inner
stairs, which it holds, so no possible place is left out. Rectilinear polygons stay as they are.
"""

from __future__ import annotations

from nesting.convex import Pieces, pieces_of_boxes
from nesting.geometry import (
    Box,
    Polygon,
    Ring,
    bounds,
    convex_parts,
    edges,
    is_rectilinear,
    polygon_of,
    slabs,
    subtract,
)


def outer_stairs(polygon: Polygon, step: int) -> Pieces:
    """Return rectangles that hold the polygon, none of them further than ``step`` from it."""
    return pieces_of_boxes(_outer(polygon, step))


def inner_stairs(polygon: Polygon, step: int) -> Pieces:
    """Return rectangles the polygon holds; what they miss lies within about two steps of its rim."""
    if is_rectilinear(polygon):
        return pieces_of_boxes(slabs(polygon))
    around = polygon_of(polygon.bounds)
    outside = [box for rest in subtract([around], [polygon]) for box in _outer(rest, step)]
    inside = subtract([around], [polygon_of(box.grown(1, 1, 1, 1)) for box in outside])
    return pieces_of_boxes(box for part in inside for box in slabs(part))


def _outer(polygon: Polygon, step: int) -> list[Box]:
    if is_rectilinear(polygon):
        return list(slabs(polygon))
    treads = [tread for ring in convex_parts(polygon) for tread in _treads(ring, step)]
    return [box for part in subtract([polygon_of(t) for t in treads], []) for box in slabs(part)]


def _treads(ring: Ring, step: int) -> list[Box]:
    """Cut a convex ring along multiples of the step and box in each part, on the grid of steps."""
    around = bounds(ring)
    levels = [around.y0, *range((around.y0 // step + 1) * step, around.y1, step), around.y1]
    treads = []
    for low, high in zip(levels, levels[1:], strict=False):
        x0, x1 = _extent(ring, low, high)
        left, right = x0 // step * step, -(-x1 // step) * step
        treads.append(Box(max(left, around.x0), low, min(right, around.x1), high))
    return treads


def _extent(ring: Ring, low: int, high: int) -> tuple[int, int]:
    """Return the least and greatest x of the ring between two levels, rounded outward."""
    least = [x for x, y in ring if low <= y <= high]
    most = list(least)
    for (x0, y0), (x1, y1) in edges(ring):
        for level in (low, high):
            if min(y0, y1) < level < max(y0, y1):
                rise, run = y1 - y0, (level - y0) * (x1 - x0)
                least.append(x0 + run // rise)
                most.append(x0 - (-run // rise))
    return min(least), max(most)
