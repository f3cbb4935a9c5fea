"""From pixels to outlines that cover every one of them, with few points and a stated error.

All coordinates are in pixel units, as in `rasters`. An outline may run outside the pixels it
covers, never inside, so what is left of the ground beside it is all ground.
"""

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from nesting.shapes.rasters import Mask, Runs, mark_meeting

Outline = shapely.Polygon
"""A polygon in pixel units."""
SpotRing = tuple[tuple[float, float], ...]
"""The points of a ring, not closed."""

SLACK = 0.75
"""How far the simplified outline may part from the pixels' own before it is moved out [pixels]."""
MOST_POINTS = 1_000
"""Most points of one outline; where there would be more, the slack is doubled."""

_MITRE = 2.0  # how far a corner moved out may reach, as a multiple of the move
_HAIR = 1e-6
_LEAST_SLACK = 0.1


def cover_runs(runs: Runs) -> tuple[Outline, ...]:
    """Return the union of the pixels as polygons, from left to right; empty for no runs."""
    boxes = shapely.box(runs.start, runs.row, runs.end, runs.row + 1)
    return sort_parts(shapely.union_all(boxes))


def sort_parts(shape: shapely.Geometry) -> tuple[Outline, ...]:
    """Return the polygons of a shape in a stable order: by left end, then lower end, then area."""
    parts = [part for part in shapely.get_parts(shape) if part.area > 0]
    return tuple(sorted(parts, key=lambda part: (*part.bounds, part.area)))


def bridge_parts(parts: Sequence[Outline]) -> Outline:
    """Return one polygon without holes that covers all parts, joined by bridges one pixel wide."""
    islands = list(
        sort_parts(shapely.union_all([shapely.Polygon(each.exterior) for each in parts]))
    )
    while len(islands) > 1:
        first, *rest = islands
        near = min(rest, key=first.distance)
        bridge = shapely.shortest_line(first, near).buffer(
            0.5, join_style="mitre", cap_style="square"
        )
        islands = list(sort_parts(shapely.union_all([*islands, bridge])))
    return shapely.Polygon(islands[0].exterior)


def simplify_outward(polygon: Outline) -> tuple[Outline, float]:
    """Return a polygon of fewer points that covers the given one, and the slack it took [pixels].

    Douglas & Peucker (1973) leave every point of the old rim within the slack of the new one, so
    the new polygon moved out by the slack covers the old; it is moved by no more than it has to be.
    The rim then lies at most 3 times the slack outside the old one.
    """
    slack = SLACK
    while True:
        found = _move_out(simplify(polygon, slack), polygon, slack)
        if shapely.get_num_coordinates(found) <= MOST_POINTS:
            return found, slack
        slack *= 2


def simplify(polygon: Outline, slack: float) -> Outline:
    """Return a polygon of fewer points, every point of whose rim lies within the slack of the old.

    And the other way round. Each ring is cut at its first and its farthest point, and each half
    simplified for itself: what is done to a ring as a whole may part from it by more.
    """
    while slack > _LEAST_SLACK:
        shell, *holes = (_simplify_ring(ring, slack) for ring in all_rings(polygon))
        found = shapely.Polygon(shell, holes)
        if found.is_valid:
            return found
        slack /= 2
    return polygon


def _simplify_ring(ring: SpotRing, slack: float) -> SpotRing:
    start = ring.index(min(ring))
    points = np.array(ring[start:] + ring[: start + 1])
    far = int(np.argmax(((points - points[0]) ** 2).sum(axis=1)))
    halves = shapely.linestrings([*points[: far + 1]]), shapely.linestrings([*points[far:]])
    first, second = (
        shapely.get_coordinates(shapely.simplify(half, slack, preserve_topology=False))
        for half in halves
    )
    kept = np.concatenate((first[:-1], second[:-1]))
    return tuple((float(x), float(y)) for x, y in kept) if len(kept) > 2 else ring


def _move_out(simple: Outline, polygon: Outline, slack: float) -> Outline:
    """Return the simple polygon moved out until it covers the other."""
    if simple.covers(polygon):
        return simple
    beyond = shapely.points(shapely.get_coordinates(polygon))
    by = float(shapely.distance(beyond, simple).max()) + _HAIR
    while True:
        grown = simple.buffer(by, join_style="mitre", mitre_limit=_MITRE)
        if grown.covers(polygon):
            return grown
        by = min(1.2 * by, slack) if by < slack else by + _HAIR


def burn(mask: Mask, polygons: Sequence[Outline]) -> None:
    """Set every pixel whose inside meets a polygon; touching along a side is not meeting."""
    for polygon in polygons:
        for part in sort_parts(polygon.buffer(-_HAIR, join_style="mitre")):
            mark_meeting(
                mask, [np.asarray(ring.coords) for ring in (part.exterior, *part.interiors)]
            )


def shift(outline: Outline, column: int, row: int) -> Outline:
    """Return the outline moved by whole pixels."""
    return shapely.transform(outline, lambda points: np.add(points, (column, row)))


def part_frame(
    columns: int, rows: int, cutters: Sequence[Outline]
) -> tuple[Outline, tuple[Outline, ...]]:
    """Return the largest part of the frame less the cutters, without holes, and the rest.

    Raises
    ------
    ValueError
        Where nothing is left.
    """
    frame = shapely.box(0, 0, columns, rows)
    if not cutters:
        return frame, ()
    left = sort_parts(frame.difference(shapely.union_all(cutters)))
    if not left:
        raise ValueError("no ground is left beside what was not measured at the frame")
    rim = shapely.Polygon(max(left, key=lambda part: float(part.area)).exterior)
    return rim, sort_parts(frame.difference(rim))


def clip(outline: Outline, rim: Outline) -> tuple[Outline, ...]:
    """Return the parts of an outline that lie on the liner, holes filled, none below one pixel."""
    if rim.covers(outline):
        return (outline,)
    kept = sort_parts(outline.intersection(rim))
    return tuple(shapely.Polygon(each.exterior) for each in kept if each.area >= 1)


def ring_points(outline: Outline, out: float = 0.0) -> NDArray[np.float64]:
    """Return the shell's points as an array (n, 2), not closed, moved out by so much."""
    grown = outline.buffer(out, join_style="mitre") if out else outline
    return np.asarray(grown.exterior.coords, np.float64)[:-1]


def all_rings(outline: Outline) -> tuple[SpotRing, ...]:
    """Return the points of shell and holes, not closed."""
    rings = (outline.exterior, *outline.interiors)
    return tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in rings)
