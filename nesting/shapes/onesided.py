"""Polygons from closed curves, on one side of them: nothing of the drawn ground is left out.

Seen from the ground a loop encloses, its rim bulges outward or inward. Where it bulges outward the
polygon follows tangents, where it bulges inward chords: either way it keeps outside the curve.
Inside the curve it keeps by the same rule with the two exchanged. Curves are first cut where they
run along x or y and where they change from one bend to the other, so that each part bends one way
by at most a quarter turn, which is why a tangent polygon has the very bounds of its curve.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from nesting.shapes.curves import Curve, Segment, Spot
from nesting.shapes.geometry import Point, Ring

_MOST_PARTS = 5_000  # of one bend: more points than one outline may have
_LEAST_TURN = 1e-9  # sine of the turn below which a part counts as straight
_ON_STEP = 0.1  # a drawn corner's coordinate this near to a whole step is on it: 12.5 nm
_EXACT = 1e-3  # and any other's: the noise of reckoning
_SAME = 1e-6  # steps
_REACH = 3  # steps searched around a corner


def flatten_loop(curves: Sequence[Curve], error: float, *, outward: bool) -> tuple[Spot, ...]:
    """Return a polygon around the ground a loop encloses, or within it, counter-clockwise.

    Parameters
    ----------
    curves
        The loop [steps]: each curve ends where the next one starts, the last one at the first's
        start.
    error
        The most by which the polygon may lie off the curves, > 0 [steps].
    outward
        Whether the polygon holds all the ground enclosed; else it holds nothing beyond it.
    """
    if _doubled_area(curves) < 0:
        curves = turn_loop(curves)
    around = curves if outward else turn_loop(curves)
    ring = _settled([spot for curve in around for spot in _flatten(curve, error)])
    return ring if outward else ring[::-1]


def turn_loop(curves: Sequence[Curve]) -> tuple[Curve, ...]:
    """Return the loop run the other way round."""
    return tuple(curve.turned() for curve in reversed(curves))


def round_ring(ring: Sequence[Spot], *, outward: bool) -> Ring:
    """Return a counter-clockwise ring on whole steps that still keeps its side.

    Each corner goes to the nearest step on or beyond both its sides; one that lies on a step
    stays. Corners between sides so sharp that no near step does go to the least bad one.

    >>> round_ring([(0.0, 0.0), (10.5, 0.0), (10.5, 4.2), (0.0, 4.2)], outward=True)
    ((0, 0), (11, 0), (11, 5), (0, 5))
    >>> round_ring([(0.0, 0.0), (10.5, 0.0), (10.5, 4.2), (0.0, 4.2)], outward=False)
    ((0, 0), (10, 0), (10, 4), (0, 4))
    """
    side = 1.0 if outward else -1.0
    spots = [(_on_step(x, _EXACT), _on_step(y, _EXACT)) for x, y in ring]
    rounded = []
    for index, spot in enumerate(spots):
        before, after = spots[index - 1], spots[(index + 1) % len(spots)]
        normals = [_normal(before, spot, side), _normal(spot, after, side)]
        rounded.append(_round_corner(spot, normals))
    return tuple(rounded)


def _flatten(curve: Curve, error: float) -> Iterator[tuple[Spot, bool]]:
    """Yield the points that stand for a curve but for its end, and whether each must be kept."""
    if isinstance(curve, Segment):
        for x, y in (curve.start, curve.end):
            yield (_on_step(x, _ON_STEP), _on_step(y, _ON_STEP)), True
        return
    stops = (0.0, *curve.bends(), 1.0)
    for low, high in pairwise(stops):
        yield curve.point(low), False
        parts, off = 1, math.inf
        while parts <= _MOST_PARTS:
            inner, off = _flatten_bend(curve, low, high, parts)
            if off <= error:
                break
            parts = max(parts + 1, math.ceil(parts * math.sqrt(min(off / error, 1e6))))
        yield from ((spot, False) for spot in inner)


def _flatten_bend(curve: Curve, low: float, high: float, parts: int) -> tuple[list[Spot], float]:
    """Return the points between the ends of one bend, and how far off the curve they lead.

    A bend lies between its chord and the apex of its tangents. So a chord is at most as far off as
    the tips of the tangents at its ends and middle; and an apex at most as far as it is from the
    two chords over the middle, which lie beyond the curve.
    """
    stops = [low + (high - low) * index / parts for index in range(parts)] + [high]
    points: list[Spot] = []
    farthest = 0.0
    for start, end in pairwise(stops):
        apex, middle = _apex(curve, start, end), (start + end) / 2
        first, mid, last = curve.point(start), curve.point(middle), curve.point(end)
        if apex is not None and _turns_left(curve, start, end):
            points.append(apex)
            off = min(_to_segment(apex, first, mid), _to_segment(apex, mid, last))
        else:
            points += [first] if start > low else []
            tips = (_apex(curve, start, middle), _apex(curve, middle, end)) if apex else ()
            off = max(_distance(tip or mid, first, last) for tip in tips or (mid,))
        farthest = max(farthest, off)
    return points, farthest


def _apex(curve: Curve, low: float, high: float) -> Spot | None:
    """Return where the tangents at two places meet; None where they run alike."""
    (x0, y0), (x1, y1) = curve.point(low), curve.point(high)
    ux, uy = curve.heading(low)
    vx, vy = curve.heading(high, ahead=False)
    turn = ux * vy - uy * vx
    if abs(turn) < _LEAST_TURN:
        return None
    along = ((x1 - x0) * vy - (y1 - y0) * vx) / turn
    back = ((x1 - x0) * uy - (y1 - y0) * ux) / turn
    longest = 2 * math.hypot(x1 - x0, y1 - y0)
    if not ((0 <= along <= longest and -longest <= back <= 0) or 0 <= back <= longest):
        return None
    return x0 + along * ux, y0 + along * uy


def _turns_left(curve: Curve, low: float, high: float) -> bool:
    ux, uy = curve.heading(low)
    vx, vy = curve.heading(high, ahead=False)
    return ux * vy - uy * vx > 0


def _distance(spot: Spot, start: Spot, end: Spot) -> float:
    """Return how far a point lies from the line through two others."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy)
    if not length:
        return math.dist(spot, start)
    return abs((spot[0] - start[0]) * dy - (spot[1] - start[1]) * dx) / length


def _to_segment(spot: Spot, start: Spot, end: Spot) -> float:
    """Return how far a point lies from the straight line between two others."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    share = ((spot[0] - start[0]) * dx + (spot[1] - start[1]) * dy) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(spot, (start[0] + share * dx, start[1] + share * dy))


def _settled(spots: Sequence[tuple[Spot, bool]]) -> tuple[Spot, ...]:
    """Return the points without repeats and without those a tangent runs straight through."""
    apart: list[tuple[Spot, bool]] = []
    for entry in spots:
        if apart and _are_same(apart[-1], entry):
            apart[-1] = max(apart[-1], entry, key=lambda each: each[1])
        else:
            apart.append(entry)
    while len(apart) > 1 and _are_same(apart[0], apart[-1]):
        last = apart.pop()
        apart[0] = max(apart[0], last, key=lambda each: each[1])
    ring: list[Spot] = []
    for index, (spot, is_kept) in enumerate(apart):
        before = ring[-1] if ring else apart[-1][0]
        after = apart[(index + 1) % len(apart)][0]
        if is_kept or not _is_between(spot, before, after):
            ring.append(spot)
    return tuple(ring)


def _are_same(first: tuple[Spot, bool], second: tuple[Spot, bool]) -> bool:
    """Whether two points are one: exactly, or where one of them is a drawn corner put on a step."""
    slip = 2 * _ON_STEP if first[1] != second[1] else _SAME
    return math.dist(first[0], second[0]) < slip


def _is_between(spot: Spot, before: Spot, after: Spot) -> bool:
    forward = (spot[0] - before[0]) * (after[0] - spot[0]) + (spot[1] - before[1]) * (
        after[1] - spot[1]
    )
    return forward > 0 and _distance(spot, before, after) < _SAME


def _doubled_area(curves: Sequence[Curve]) -> float:
    """Return twice the signed area of a loop, its curves taken at their cuts and between them."""
    spots: list[Spot] = []
    for curve in curves:
        stops = (0.0, *curve.bends(), 1.0)
        for low, high in pairwise(stops):
            spots += [curve.point(low)]
            spots += [curve.point(low + (high - low) * part / 4) for part in (1, 2, 3)]
    x0, y0 = spots[0]
    ring = [(x - x0, y - y0) for x, y in spots]
    ends = zip(ring, ring[1:] + ring[:1], strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in ends)


def _on_step(value: float, slip: float) -> float:
    nearest = float(round(value))
    return nearest if abs(value - nearest) <= slip else value


def _normal(start: Spot, end: Spot, side: float) -> Spot:
    """Return the direction square to a side of a ring, away from what the ring may not lose."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = math.hypot(dx, dy) or 1.0
    return side * dy / length, -side * dx / length


def _round_corner(spot: Spot, normals: Sequence[Spot]) -> Point:
    """Return the nearest step that loses nothing, or the one that loses least.

    The steps around are tried first: those farther out are more than one step away.
    """
    x, y = spot
    nearest = (round(x), round(y))
    if nearest == spot:
        return nearest
    lost, far, point = _best_step(spot, normals, 2)
    return point if not lost and far <= 1 else _best_step(spot, normals, _REACH)[2]


def _best_step(spot: Spot, normals: Sequence[Spot], reach: int) -> tuple[float, float, Point]:
    """Return what is lost at the best step within reach, how far away it is, and the step."""
    x, y = spot
    (ax, ay), (bx, by) = normals
    left, low = math.floor(x), math.floor(y)
    found: list[tuple[float, float, Point]] = []
    for column in range(left + 1 - reach, left + reach + 1):
        for row in range(low + 1 - reach, low + reach + 1):
            dx, dy = column - x, row - y
            lost = -min(dx * ax + dy * ay, dx * bx + dy * by)
            found.append((lost if lost > _SAME else 0.0, math.hypot(dx, dy), (column, row)))
    return min(found)
