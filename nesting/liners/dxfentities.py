"""The entities of a DXF drawing as curves in the plan, each seen straight from above."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from nesting.shapes.curves import Arc, Curve, Matrix, Segment, Spot, bulge_arc
from nesting.shapes.splines import split_spline

Entity = Any
"""An entity of a DXF file, or a part of one: what it tells depends on its kind."""

MOST_POINTS = 100_000
"""Most points of one polyline or spline."""

_TURN = math.tau * (1 - 1e-12)


@dataclass(frozen=True, slots=True)
class CurveRun:
    """Curves that follow one another, and whether they close."""

    curves: tuple[Curve, ...]
    is_closed: bool


def read_entity(entity: Entity) -> list[CurveRun] | None:
    """Return the runs of an entity in its own coordinates, None where its kind is not read.

    Raises
    ------
    ValueError
        Where its numbers make no curve.
    """
    reader = _READERS.get(entity.dxftype())
    return None if reader is None else [run for run in reader(entity) if run.curves]


def plane_of(entity: Entity, elevation: float = 0.0) -> Matrix:
    """Return the map from an entity's own plane to the plan."""
    ocs = entity.ocs()
    across, up = ocs.to_wcs((1, 0, 0)), ocs.to_wcs((0, 1, 0))
    origin = ocs.to_wcs((0, 0, elevation))
    return across[0], across[1], up[0], up[1], origin[0], origin[1]


def _read_line(entity: Entity) -> list[CurveRun]:
    start, end = _flat(entity.dxf.start), _flat(entity.dxf.end)
    return [CurveRun((Segment(start, end),), False)] if start != end else []


def _read_circle(entity: Entity) -> list[CurveRun]:
    arc = _arc(_flat(entity.dxf.center), entity.dxf.radius, 0.0, 360.0)
    return [_in_plan(entity, [arc], closed=True)]


def _read_arc(entity: Entity) -> list[CurveRun]:
    dxf = entity.dxf
    arc = _arc(_flat(dxf.center), dxf.radius, dxf.start_angle, dxf.end_angle)
    return [_in_plan(entity, [arc], closed=False)]


def _read_ellipse(entity: Entity) -> list[CurveRun]:
    dxf = entity.dxf
    arc = _ellipse(
        _flat(dxf.center),
        _flat(dxf.major_axis),
        _flat(entity.minor_axis),
        dxf.start_param,
        dxf.end_param,
    )
    return [CurveRun((arc,), abs(arc.sweep) > _TURN)]


def _read_lwpolyline(entity: Entity) -> list[CurveRun]:
    points = [_point(each) for each in entity.get_points("xyb")]
    curves = _polyline(points, closed=bool(entity.closed))
    return [_in_plan(entity, curves, closed=bool(entity.closed), elevation=entity.dxf.elevation)]


def _read_polyline(entity: Entity) -> list[CurveRun]:
    if entity.is_polygon_mesh or entity.is_poly_face_mesh:
        raise ValueError("a mesh is no outline")
    vertices = [vertex for vertex in entity.vertices if not vertex.dxf.flags & 16]
    points = [(_flat(each.dxf.location), float(each.dxf.bulge)) for each in vertices]
    closed = bool(entity.is_closed)
    if entity.is_3d_polyline:
        return [
            CurveRun(tuple(_polyline([(spot, 0.0) for spot, _ in points], closed=closed)), closed)
        ]
    return [_in_plan(entity, _polyline(points, closed=closed), closed=closed)]


def _read_spline(entity: Entity) -> list[CurveRun]:
    return [_spline_run(entity.construction_tool(), closed=bool(entity.closed))]


def _read_solid(entity: Entity) -> list[CurveRun]:
    dxf = entity.dxf
    corners = [(_flat(each), 0.0) for each in (dxf.vtx0, dxf.vtx1, dxf.vtx3, dxf.vtx2)]
    return [_in_plan(entity, _polyline(corners, closed=True), closed=True)]


def _read_hatch(entity: Entity) -> list[CurveRun]:
    runs: list[CurveRun] = []
    elevation = float(entity.dxf.get("elevation", (0, 0, 0))[2])
    for path in entity.paths:
        if hasattr(path, "vertices"):
            points = [_point(each) for each in path.vertices]
            curves = _polyline(points, closed=True)
        else:
            curves = [curve for edge in path.edges for curve in _read_edge(edge)]
            curves = _in_order(curves)
        runs.append(_in_plan(entity, curves, closed=True, elevation=elevation))
    return runs


def _read_edge(edge: Entity) -> list[Curve]:
    kind = edge.EDGE_TYPE
    curves: list[Curve]
    if kind == "LineEdge":
        start, end = _flat(edge.start), _flat(edge.end)
        curves = [Segment(start, end)] if start != end else []
    elif kind == "ArcEdge":
        curves = [_arc(_flat(edge.center), edge.radius, edge.start_angle, edge.end_angle)]
    elif kind == "EllipseEdge":
        x, y = _flat(edge.major_axis)
        minor = (-y * edge.ratio, x * edge.ratio)
        curves = [_ellipse(_flat(edge.center), (x, y), minor, edge.start_param, edge.end_param)]
    else:
        curves = list(_spline_run(edge.construction_tool(), closed=False).curves)
    return curves


def _in_order(curves: Sequence[Curve]) -> list[Curve]:
    """Return the edges of one ring head to tail: each is turned where that brings it nearer."""
    chain: list[Curve] = []
    for curve in curves:
        if chain:
            at = chain[-1].end
        elif len(curves) > 1:
            after = (curves[1].start, curves[1].end)
            leaves = min(math.dist(curve.end, spot) for spot in after)
            turns = min(math.dist(curve.start, spot) for spot in after)
            at = curve.start if leaves <= turns else curve.end
        else:
            at = curve.start
        turned = math.dist(at, curve.end) < math.dist(at, curve.start)
        step = curve.turned() if turned else curve
        if chain and chain[-1].end != step.start:
            chain.append(Segment(chain[-1].end, step.start))
        chain.append(step)
    return chain


def _in_plan(
    entity: Entity, curves: Sequence[Curve], *, closed: bool, elevation: float = 0.0
) -> CurveRun:
    """Return curves of an entity's own plane as a run in the plan, its last gap bridged."""
    if curves and closed and curves[-1].end != curves[0].start:
        curves = [*curves, Segment(curves[-1].end, curves[0].start)]
    matrix = plane_of(entity, elevation)
    return CurveRun(tuple(curve.moved(matrix) for curve in curves), closed)


def _polyline(points: Sequence[tuple[Spot, float]], *, closed: bool) -> list[Curve]:
    if len(points) > MOST_POINTS:
        raise ValueError(f"it has more than {MOST_POINTS} points")
    after = [*points[1:], points[0]] if closed and points else points[1:]
    return [
        bulge_arc(start, end, bulge)
        for (start, bulge), (end, _) in zip(points, after, strict=False)
        if start != end
    ]


def _arc(centre: Spot, radius: float, first: float, last: float) -> Arc:
    """Return a counter-clockwise arc between two angles [deg]."""
    if not radius > 0:
        raise ValueError("its radius must be > 0")
    sweep = (last - first) % 360.0 or 360.0
    return Arc(centre, (radius, 0.0), (0.0, radius), math.radians(first), math.radians(sweep))


def _ellipse(centre: Spot, major: Spot, minor: Spot, first: float, last: float) -> Arc:
    sweep = (last - first) % math.tau
    if sweep < 1e-9 or sweep > _TURN:
        sweep = math.tau
    return Arc(centre, major, minor, first, sweep)


def _spline_run(spline: Entity, *, closed: bool) -> CurveRun:
    points = [_flat(point) for point in spline.control_points]
    weights = list(spline.weights()) or [1.0] * len(points)
    if len(points) > MOST_POINTS // 10 or len(weights) != len(points) or spline.degree > 10:
        raise ValueError("a spline has at most 10000 points, a weight for each and degree 10")
    curves: list[Curve] = list(
        split_spline(
            spline.degree,
            [float(knot) for knot in spline.knots()],
            [(x, y, float(weight)) for (x, y), weight in zip(points, weights, strict=True)],
        )
    )
    gap = math.dist(curves[-1].end, curves[0].start)
    if closed and gap:
        curves.append(Segment(curves[-1].end, curves[0].start))
    return CurveRun(tuple(curves), closed)


def _flat(point: Entity) -> Spot:
    return float(point[0]), float(point[1])


def _point(values: Entity) -> tuple[Spot, float]:
    """Return the place and the bulge of a point of a polyline."""
    x, y, bulge = values
    return (float(x), float(y)), float(bulge)


_READERS: dict[str, Callable[[Entity], list[CurveRun]]] = {
    "LINE": _read_line,
    "CIRCLE": _read_circle,
    "ARC": _read_arc,
    "ELLIPSE": _read_ellipse,
    "LWPOLYLINE": _read_lwpolyline,
    "POLYLINE": _read_polyline,
    "SPLINE": _read_spline,
    "HATCH": _read_hatch,
    "MPOLYGON": _read_hatch,
    "SOLID": _read_solid,
    "TRACE": _read_solid,
}
