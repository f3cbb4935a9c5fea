"""A position map as shapes, for drawing: where a panel's lower left corner may lie."""

from __future__ import annotations

from dataclasses import dataclass

from nesting.convex import Pieces
from nesting.geometry import Box, Point, Polygon, polygon_of, subtract
from nesting.positions import PositionMap, Sheet

Stretch = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Places:
    """Places of a panel's lower left corner [steps]: areas, and stretches without width."""

    areas: tuple[Polygon, ...]
    stretches: tuple[Stretch, ...]


def outline_places(panel_map: PositionMap) -> Places:
    """Return all places of a panel size.

    Every forbidden piece is drawn one step small, so that a gap without width between two of them
    is an area two steps wide and is not lost.
    """
    areas: list[Polygon] = []
    stretches: list[Stretch] = []
    for sheet in panel_map.sheets:
        if sheet.domain.width and sheet.domain.height:
            areas += subtract([polygon_of(sheet.domain)], _rings(sheet.forbidden))
        else:
            stretches += _stretches(sheet)
    return Places(tuple(areas), tuple(stretches))


def _stretches(sheet: Sheet) -> list[Stretch]:
    """Return the runs of a domain without width or height."""
    x, y = sheet.domain.x0, sheet.domain.y0
    if sheet.domain.height:
        return [((x, low), (x, high)) for low, high in sheet.runs_at_x(x)]
    return [((low, y), (high, y)) for low, high in sheet.runs_at_y(y)]


def _rings(pieces: Pieces) -> list[Polygon]:
    shapes = []
    for box, cuts in zip(pieces.boxes.tolist(), pieces.cuts.tolist(), strict=True):
        ring: list[tuple[float, float]] = [
            (float(x), float(y)) for x, y in Box(*box).grown(-1, -1, -1, -1).ring
        ]
        for a, b, c in cuts:
            if a or b:
                ring = _cut(ring, a, b, c)
        corners = tuple(dict.fromkeys((round(x), round(y)) for x, y in ring))
        if len(corners) >= 3:
            shapes.append(Polygon(corners))
    return shapes


def _cut(ring: list[tuple[float, float]], a: int, b: int, c: int) -> list[tuple[float, float]]:
    """Return the part of a convex ring where a x + b y <= c."""
    kept: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        start, end = a * x0 + b * y0 - c, a * x1 + b * y1 - c
        if start <= 0:
            kept.append((x0, y0))
        if (start < 0 < end) or (end < 0 < start):
            part = start / (start - end)
            kept.append((x0 + part * (x1 - x0), y0 + part * (y1 - y0)))
    return kept
