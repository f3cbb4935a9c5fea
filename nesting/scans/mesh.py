"""Reads a mesh from an STL file and looks at it from above: the highest surface over each pixel.

The middle of a pixel is what is asked for. Triangles are taken many at a time, one offset from the
lower left pixel of their box after the other; the few large ones each for itself.
"""

import re
from fractions import Fraction
from math import floor

import numpy as np
from numpy.typing import NDArray

from nesting.errors import InputError
from nesting.scans.heightmap import MOST_PIXELS, HeightMap
from nesting.scans.scale import ScanScale, make_map

Triangles = NDArray[np.float64]
"""Corners of triangles, shape (n, 3, 3): triangle, corner, x y z."""

DEFAULT_PIXEL = Fraction(1)
"""Side of the pixels a mesh is turned into, unless given [mm]."""
MOST_WORK = 200_000_000
"""Most pixels that all boxes around triangles may hold together."""

_HEAD, _FACET = 84, 50  # bytes, binary STL
_RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")])
_VERTEX = re.compile(rb"vertex\s+(\S+)\s+(\S+)\s+(\S+)", re.IGNORECASE)
_FACET_WORD = re.compile(rb"\bendfacet\b", re.IGNORECASE)
_SMALL = 6  # pixels: triangles with a box no larger are taken many at a time
_MANY = 400_000
_SLIP = 1e-9


def read_mesh(where: str, content: bytes) -> Triangles:
    """Return the triangles of a binary or text STL file.

    Raises
    ------
    InputError
        With ``where`` in front: neither form, cut short, no triangle, corners that are no numbers.
    """
    count = int.from_bytes(content[80:_HEAD], "little") if len(content) >= _HEAD else -1
    if len(content) == _HEAD + _FACET * count:
        records = np.frombuffer(content, _RECORD, count, _HEAD)
        corners = records["corners"].astype(np.float64)
    elif content[:512].lstrip()[:5].lower() == b"solid" and b"facet" in content[:4096].lower():
        corners = _read_text(where, content)
    else:
        rule = "the file is no STL mesh, or is cut short"
        held = max(0, (len(content) - _HEAD) // _FACET)
        got = f"{count} triangles told and {held} held" if count >= 0 else f"{len(content)} bytes"
        raise InputError(where, rule, got)
    if not len(corners):
        raise InputError(where, "a mesh has at least one triangle", "none")
    if not np.isfinite(corners).all():
        raise InputError(where, "every corner must have finite coordinates")
    return corners


def look_from_above(where: str, corners: Triangles, scale: ScanScale) -> HeightMap:
    """Return the heights of the mesh over each pixel, NaN where it has no surface.

    The lower left pixel begins at the least x and y of the mesh; what is left of it beyond the last
    whole pixel is dropped.

    Raises
    ------
    InputError
        With ``where`` in front: ``relief`` or ``no_data`` given, two scales, a mesh of no width,
        too many pixels, triangles that cover the ground too many times.
    """
    _refuse_options(where, scale)
    low, high = corners.min(axis=(0, 1)), corners.max(axis=(0, 1))
    extent = high - low
    if not min(extent[0], extent[1]) > 0:
        raise InputError(where, "a mesh seen from above must have width and height", "none")
    per_unit = float(scale.height_unit or 1)
    if scale.width is not None:
        per_unit = float(scale.width) / extent[0]
    pixel = scale.pixel or DEFAULT_PIXEL
    sides = extent[:2] * per_unit / float(pixel)
    if not (sides.max() < MOST_PIXELS and sides.prod() < MOST_PIXELS):
        rule = f"a scan has at most {MOST_PIXELS // 1_000_000} million pixels"
        remedy = "give a larger --pixel, or the right --height-units or --width"
        raise InputError(where, rule, f"{sides[0]:.6g} x {sides[1]:.6g}", remedy)
    columns, rows = (floor(side + 1e-6) for side in sides)
    scaled = (corners - low) * (per_unit / float(pixel))
    scaled[:, :, 2] = (corners[:, :, 2] - low[2]) * per_unit
    heights = np.full((max(rows, 1), max(columns, 1)), -np.inf)
    _raster(where, scaled, heights)
    return make_map(where, heights.astype(np.float32), pixel, 0.0)


def _refuse_options(where: str, scale: ScanScale) -> None:
    if scale.relief is not None or scale.no_data is not None:
        option = "--relief" if scale.relief is not None else "--no-data"
        rule = f"{option} is for pictures"
        raise InputError(where, rule, "a mesh", "leave it out")
    if scale.width is not None and scale.height_unit is not None:
        rule = "a mesh has one scale for x, y and z"
        raise InputError(where, rule, "--width and --height-units", "leave one of them out")


def _read_text(where: str, content: bytes) -> Triangles:
    found = _VERTEX.findall(content)
    facets = len(_FACET_WORD.findall(content))
    if len(found) != 3 * facets or b"endsolid" not in content[-4096:].lower():
        rule = "the mesh is cut short: a facet has three corners, and endsolid is last"
        raise InputError(where, rule, f"{len(found)} corners of {facets} facets")
    try:
        return np.array(found, dtype=np.bytes_).astype(np.float64).reshape(-1, 3, 3)
    except ValueError as error:
        raise InputError(where, "a corner must be three numbers", str(error)[-40:]) from error


def _raster(where: str, triangles: Triangles, heights: NDArray[np.float64]) -> None:
    """Put the highest surface over the middle of each pixel into ``heights``."""
    rows, columns = heights.shape
    lows = np.ceil(triangles[:, :, :2].min(axis=1) - 0.5 - _SLIP).astype(np.int64)
    highs = np.floor(triangles[:, :, :2].max(axis=1) - 0.5 + _SLIP).astype(np.int64) + 1
    lows, highs = np.maximum(lows, 0), np.minimum(highs, (columns, rows))
    sides = highs - lows
    held = (sides > 0).all(axis=1)
    work = int(sides[held].prod(axis=1).sum())
    if work > MOST_WORK:
        raise InputError(
            where,
            "the triangles of a mesh must not cover the ground over and over",
            f"{work // 1_000_000} million pixels to look at",
            "give a larger --pixel or a simpler mesh",
        )
    small = held & (sides.max(axis=1) <= _SMALL)
    chosen = np.flatnonzero(small)
    for first in range(0, len(chosen), _MANY):
        part = chosen[first : first + _MANY]
        _raster_small(triangles[part], lows[part], sides[part], heights)
    for index in np.flatnonzero(held & ~small):
        _raster_large(triangles[index], lows[index], highs[index], heights)


def _raster_large(
    triangle: NDArray[np.float64],
    low: NDArray[np.int64],
    high: NDArray[np.int64],
    heights: NDArray[np.float64],
) -> None:
    xs = np.arange(int(low[0]), int(high[0]), dtype=np.float64)[None, :] + 0.5
    strip = max(1, _MANY // xs.size)
    for first in range(int(low[1]), int(high[1]), strip):
        block = heights[first : min(first + strip, int(high[1])), low[0] : high[0]]
        ys = np.arange(first, first + len(block), dtype=np.float64)[:, None] + 0.5
        np.maximum(block, _height_at(triangle, xs, ys), out=block)


def _raster_small(
    triangles: Triangles,
    lows: NDArray[np.int64],
    sides: NDArray[np.int64],
    heights: NDArray[np.float64],
) -> None:
    for dy in range(int(sides[:, 1].max(initial=0))):
        for dx in range(int(sides[:, 0].max(initial=0))):
            part = np.flatnonzero((sides[:, 0] > dx) & (sides[:, 1] > dy))
            columns, rows = lows[part, 0] + dx, lows[part, 1] + dy
            corners = np.moveaxis(triangles[part], 0, -1)
            z = _height_at(corners, columns + 0.5, rows + 0.5)
            np.maximum.at(heights, (rows, columns), z)


def _height_at(
    corners: Triangles, xs: NDArray[np.float64], ys: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the height of the triangle over points, minus infinity beside it.

    ``corners`` has shape (3, 3, ...): corner, x y z. By shares of area; upright ones have none.
    """
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = corners
    area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay)
    with np.errstate(divide="ignore", invalid="ignore"):
        b = ((xs - ax) * (cy - ay) - (cx - ax) * (ys - ay)) / area
        c = ((bx - ax) * (ys - ay) - (xs - ax) * (by - ay)) / area
        inside = (b >= -_SLIP) & (c >= -_SLIP) & (b + c <= 1 + _SLIP) & (area != 0)
        return np.where(inside, az + b * (bz - az) + c * (cz - az), -np.inf)
