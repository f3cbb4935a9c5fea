"""Zones of a scan as polygons on the grid of steps: boxes that overlap become one zone."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from nesting.shapes.geometry import Box, Polygon, Ring, polygon_of, subtract, unite
from nesting.shapes.mending import part_holes
from nesting.shapes.onesided import round_ring
from nesting.units import STEPS_PER_MM

_Pixels = tuple[int, int, int, int]


def merge_boxes(boxes: Sequence[_Pixels], pixel: Fraction) -> tuple[Polygon, ...]:
    """Return polygons without holes that together are the boxes, rounded inward; largest first.

    What has a hole is cut along y through the middle of it, so those parts touch along the cut.

    Parameters
    ----------
    boxes
        First column, first row, end column, end row of each [pixels].
    pixel
        Side of a pixel [mm].
    """
    steps = float(pixel * STEPS_PER_MM)
    merged = unite([polygon_of(Box(*box)) for box in boxes]) if boxes else ()
    kept = [part for whole in merged for part in _on_steps(whole, steps)]
    parts = [part for whole in kept for part in part_holes(whole)]
    return tuple(sorted(parts, key=lambda part: (-part.area, part.bounds)))


def _on_steps(polygon: Polygon, steps: float) -> tuple[Polygon, ...]:
    """Return a polygon of pixels in steps, no ground won by rounding."""

    def rounded(ring: Ring, *, outward: bool) -> Polygon:
        return Polygon(round_ring([(x * steps, y * steps) for x, y in ring], outward=outward))

    shell = rounded(polygon.shell, outward=False)
    holes = [rounded(hole[::-1], outward=True) for hole in polygon.holes]
    return subtract([shell], holes) if holes else (shell,)
