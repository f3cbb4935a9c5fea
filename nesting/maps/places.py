"""A position map as shapes, for drawing: where a panel's lower left corner may lie."""

from dataclasses import dataclass

import numpy as np

from nesting.maps.positions import PositionMap, Sheet
from nesting.shapes.convex import Floats, Ints, Pieces
from nesting.shapes.geometry import Point, Polygon, Ring, polygon_of, subtract

PlaceStretch = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Places:
    """Places of a panel's lower left corner [steps]: areas, and stretches without width."""

    areas: tuple[Polygon, ...]
    stretches: tuple[PlaceStretch, ...]


def outline_places(panel_map: PositionMap) -> Places:
    """Return all places of a panel size.

    Every forbidden piece is drawn one step small, so that a gap without width between two of them
    is an area two steps wide and is not lost.
    """
    areas: list[Polygon] = []
    stretches: list[PlaceStretch] = []
    for sheet in panel_map.sheets:
        if sheet.domain.width and sheet.domain.height:
            areas += subtract([polygon_of(sheet.domain)], [], _rings(sheet.forbidden))
        else:
            stretches += _stretches(sheet)
    return Places(tuple(areas), tuple(stretches))


def _stretches(sheet: Sheet) -> list[PlaceStretch]:
    """Return the runs of a domain without width or height."""
    x, y = sheet.domain.x0, sheet.domain.y0
    if sheet.domain.height:
        return [((x, low), (x, high)) for low, high in sheet.runs_at_x(x)]
    return [((low, y), (high, y)) for low, high in sheet.runs_at_y(y)]


def _rings(pieces: Pieces) -> list[Ring]:
    """Return the pieces as rings, each one step small."""
    boxes = pieces.boxes + np.array([1, 1, -1, -1])
    wide = (boxes[:, 0] < boxes[:, 2]) & (boxes[:, 1] < boxes[:, 3])
    x, y = (boxes[wide][:, at].astype(float) for at in ([0, 2, 2, 0], [1, 1, 3, 3]))
    counts = np.full(len(x), 4)
    for cut in np.moveaxis(pieces.cuts[wide], 1, 0):
        x, y, counts = _cut(x, y, counts, cut.astype(float))
    corners = np.rint(np.stack([x, y], axis=-1)).astype(np.int64).tolist()
    rings = (ring[:count] for ring, count in zip(corners, counts.tolist(), strict=True))
    return [tuple(map(tuple, ring)) for ring in rings if len(ring) > 2]


def _cut(x: Floats, y: Floats, counts: Ints, cut: Floats) -> tuple[Floats, Floats, Ints]:
    """Return the parts of convex rings where a x + b y <= c, by a row of a, b, c for each.

    Rings are rows, of which the first ``counts`` points count (Sutherland and Hodgman 1974).
    """
    a, b, c = cut.T[:, :, None]
    places = np.arange(x.shape[1])
    following = np.where(places + 1 < counts[:, None], places + 1, 0)
    x1, y1 = (np.take_along_axis(each, following, axis=1) for each in (x, y))
    start, end = a * x + b * y - c, a * x1 + b * y1 - c
    there = places < counts[:, None]
    crossing = there & (start * end < 0)
    part = np.divide(start, start - end, out=np.zeros_like(start), where=crossing)
    shape = len(x), 2 * x.shape[1]
    kept = np.stack([there & (start <= 0), crossing], axis=-1).reshape(shape)
    counts = kept.sum(axis=1)
    order = np.argsort(~kept, axis=1, kind="stable")[:, : counts.max(initial=0)]
    x = np.stack([x, x + part * (x1 - x)], axis=-1).reshape(shape)
    y = np.stack([y, y + part * (y1 - y)], axis=-1).reshape(shape)
    return np.take_along_axis(x, order, axis=1), np.take_along_axis(y, order, axis=1), counts
