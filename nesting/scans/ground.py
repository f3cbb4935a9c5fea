"""The ground of a scan: the plane or gentle bow most of it lies on, not drawn to ornaments.

Slopes first, from differences over a short distance: most pairs of near pixels lie both on the
ground or both on a flat top, so the middle half of the differences tells the tilt whatever stands
there. Then the most common level, and least squares on what lies near it, closer and closer, until
what lies near no longer changes. Where what is near lies off the plane by more than noise, a bow is
taken off first and all is done again.

A ground may bow: a liner on an uneven table, a model that sags. A bow is a surface of second
degree. It is found like the tilt: from second differences over a long distance, of which the middle
half is taken, so that what stands on the ground does not bend it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from nesting.scans.heightmap import HeightMap, Heights
from nesting.shapes.convex import Floats

LEAST_RADIUS = 25_000
"""What bends more than on a circle of this radius is a shape of the model, not a bow [mm]."""

_FAR = 8  # a side holds so many distances between the three readings of a second difference


@dataclass(frozen=True, slots=True)
class Bow:
    """Heights xx u u + xy u v + yy v v [mm], u and v in pixels along x and y from the middle."""

    xx: float = 0.0
    xy: float = 0.0
    yy: float = 0.0

    def heights(self, shape: tuple[int, ...], first: int = 0, last: int | None = None) -> Floats:
        """Return the bow over some rows of a scan of a shape (rows, columns), else over all."""
        u = np.arange(shape[1]) - (shape[1] - 1) / 2
        v = (np.arange(shape[0]) - (shape[0] - 1) / 2)[first:last, None]
        found: Floats = self.xx * u * u + v * (self.xy * u + self.yy * v)
        return found

    def rise(self, shape: tuple[int, ...]) -> float:
        """Return its greatest height less its least over a scan of a shape [mm]."""
        every = tuple(max(1, side // 64) for side in shape)
        return float(np.ptp(self.heights(shape)[:: every[0], :: every[1]]))

    def is_gentle(self, pixel: float) -> bool:
        """Whether it bends nowhere more than on a circle of `LEAST_RADIUS`; ``pixel`` is in mm."""
        bends = np.linalg.eigvalsh([[2 * self.xx, self.xy], [self.xy, 2 * self.yy]]) / pixel**2
        return bool(np.abs(bends).max() <= 1 / LEAST_RADIUS)

    def plus(self, other: Bow) -> Bow:
        """Return the sum with another bow."""
        return Bow(self.xx + other.xx, self.xy + other.xy, self.yy + other.yy)


def first_bow(heights: Heights) -> Bow:
    """Return a bow from second differences.

    >>> round(first_bow(Bow(0.01, 0.0, -0.02).heights((32, 40))).yy, 9)
    -0.02
    """
    rows, columns = (max(1, side // _FAR) for side in heights.shape)
    across = heights[:, 2 * columns :] + heights[:, : -2 * columns]
    across = across - 2 * heights[:, columns:-columns]
    along = heights[2 * rows :] + heights[: -2 * rows] - 2 * heights[rows:-rows]
    mixed = heights[rows:, columns:] + heights[:-rows, :-columns]
    mixed = mixed - heights[rows:, :-columns] - heights[:-rows, columns:]
    return Bow(
        middle_mean(across) / (2 * columns**2),
        middle_mean(mixed) / (rows * columns),
        middle_mean(along) / (2 * rows**2),
    )


def rest_of_bow(rest: Heights, limit: float) -> Bow:
    """Return the bow of least squares in what is left of heights, of all within the limit of 0."""
    rows, columns = np.nonzero(np.abs(rest) <= limit)
    u, v = columns - (rest.shape[1] - 1) / 2, rows - (rest.shape[0] - 1) / 2
    known = np.column_stack((u * u, u * v, v * v, u, v, np.ones(len(u))))
    xx, xy, yy = np.linalg.lstsq(known, rest[rows, columns], rcond=None)[0][:3]
    return Bow(float(xx), float(xy), float(yy))


def middle_mean(values: Heights) -> float:
    """Return the mean of the middle half of the finite values; 0 of nothing."""
    ordered = np.sort(values[np.isfinite(values)], axis=None)
    quarter = len(ordered) // 4
    kept = ordered[quarter : len(ordered) - quarter]
    return float(kept.mean()) if len(kept) else 0.0


_SAMPLES = 250_000
_LAG = 8  # sampled pixels between the two of a pair
_NEAR = 3.0  # times the scatter: what counts as ground
_ROUNDS = 30
_PER_SIGMA = 1.4826  # standard deviation of normal errors over their median size
_PIECE = 256  # rows worked on at a time
_BENT = 1.5  # times the noise: scatter beyond it asks for a bow
_LEAST_BOW = 0.01  # mm: less scatter than this is not looked into
_BETTER = 0.7  # times the scatter about the plane: a bow that leaves more is none


_FLAT = Bow()


@dataclass(frozen=True, slots=True)
class ScanGround:
    """The ground, and how far readings lie off it.

    ``slope_x`` and ``slope_y`` are in mm per mm; ``level`` is the height of the plane at the lower
    left corner [mm]. ``noise`` is the standard deviation between neighbouring pixels, ``scatter``
    that of the ground about plane and bow [mm]; ``share`` is the share of all measured pixels that
    was fitted. ``bow`` comes on top of the plane.
    """

    slope_x: float
    slope_y: float
    level: float
    noise: float
    scatter: float
    share: float
    bow: Bow = _FLAT


class _Fitted(NamedTuple):
    """Slopes per pixel and level of a plane, the scatter about it, and the share fitted."""

    plane: Floats
    scatter: float
    share: float


def find_ground(scan: HeightMap) -> ScanGround:
    """Return the plane most of the scan lies on, and a gentle bow where that lies closer.

    Where all readings lie on one plane it is that of plain least squares.
    """
    noise = max(_find_noise(scan.heights), scan.grain / 12**0.5)
    least = max(noise, scan.grain)
    fitted, bow = _fit_plane(scan.heights, noise, least), _FLAT
    if fitted.scatter > max(_BENT * least, _LEAST_BOW):
        bent = _find_bow(scan.heights, noise, least)
        if bent.is_gentle(float(scan.pixel)):
            again = _fit_plane(scan.heights - bent.heights(scan.heights.shape), noise, least)
            if again.scatter < _BETTER * fitted.scatter:
                fitted, bow = again, bent
    pixel = float(scan.pixel)
    slope_x, slope_y, level = map(float, fitted.plane)
    corner = level - 0.5 * (slope_x + slope_y)  # from the middle of the first pixel to its corner
    scatter, share = fitted.scatter, fitted.share
    return ScanGround(slope_x / pixel, slope_y / pixel, corner, noise, scatter, share, bow)


def _find_bow(heights: NDArray[np.floating[Any]], noise: float, least: float) -> Bow:
    """Return the bow of the ground, whatever its size, from a sample of the readings."""
    stride = _stride(heights, _SAMPLES // 4)
    sample = heights[::stride, ::stride].astype(np.float64)
    bow = first_bow(sample)
    for _ in range(_ROUNDS):
        rest = sample - bow.heights(sample.shape)
        plane, scatter, _share = _fit_plane(rest, noise, least)
        rest -= _plane_heights(plane, rest.shape)
        more = rest_of_bow(rest, _NEAR * max(scatter, least))
        bow = bow.plus(more)
        if more.rise(sample.shape) < max(noise, _LEAST_BOW) / 20:
            break
    return Bow(bow.xx / stride**2, bow.xy / stride**2, bow.yy / stride**2)


def _plane_heights(plane: Floats, shape: tuple[int, ...]) -> Floats:
    found: Floats = (
        plane[2] + plane[0] * np.arange(shape[1]) + (plane[1] * np.arange(shape[0]))[:, None]
    )
    return found


def _stride(heights: NDArray[np.floating[Any]], samples: int) -> int:
    """Return every which row and column to take for so many samples, four rows at the least."""
    most = max(1, int(min(heights.shape)) // 4)
    return min(most, max(1, math.ceil(math.sqrt(heights.size / samples))))


def _fit_plane(heights: NDArray[np.floating[Any]], noise: float, least: float) -> _Fitted:
    stride = _stride(heights, _SAMPLES)
    plane = _first_plane(heights[::stride, ::stride].astype(np.float64), stride, noise)
    return _settle(heights, plane, least)


def above_ground(scan: HeightMap, ground: ScanGround) -> NDArray[np.float32]:
    """Return the heights less the ground [mm], NaN where nothing was measured."""
    pixel = float(scan.pixel)
    found = np.empty(scan.heights.shape, np.float32)
    across = ground.level + ground.slope_x * pixel * (np.arange(scan.columns) + 0.5)
    for first in range(0, scan.rows, _PIECE):
        piece = scan.heights[first : first + _PIECE]
        up = ground.slope_y * pixel * (np.arange(first, first + len(piece)) + 0.5)
        bow = ground.bow.heights(scan.heights.shape, first, first + _PIECE)
        found[first : first + _PIECE] = piece - across[None, :] - up[:, None] - bow
    found[~np.isfinite(found)] = np.nan
    return found


def _find_noise(heights: NDArray[np.floating[Any]]) -> float:
    """Return the standard deviation of one reading, from those of neighbours along x."""
    rows = max(1, len(heights) * heights.shape[1] // (4 * _SAMPLES))
    steps = np.diff(heights[::rows].astype(np.float64), axis=1)
    steps = steps[np.isfinite(steps)]
    if not len(steps):
        return 0.0
    off = np.abs(steps - np.median(steps))
    return float(_PER_SIGMA * np.median(off) / np.sqrt(2))


def _first_plane(sample: Floats, stride: int, noise: float) -> Floats:
    """Return slopes per pixel and level from a sample of every ``stride``-th pixel each way."""
    plane = np.zeros(3)
    for index, axis in ((0, 1), (1, 0)):
        lag = min(_LAG, sample.shape[axis] - 1)
        ahead, behind = [slice(None)] * 2, [slice(None)] * 2
        ahead[axis], behind[axis] = slice(lag, None), slice(None, -lag)
        steps = sample[tuple(ahead)] - sample[tuple(behind)]
        plane[index] = middle_mean(steps) / (lag * stride)
    rows, columns = np.nonzero(np.isfinite(sample))
    heights: Floats = sample[rows, columns]
    known: Floats = np.column_stack((columns * stride, rows * stride, np.ones(len(rows))))
    rest: Floats = heights - known @ plane
    width = float(np.ptp(rest)) / 4
    while True:
        plane[2] += _common_level(rest, max(width, 1e-12))
        rest = heights - known @ plane
        near = np.abs(rest) <= width
        if near.sum() > 3 and np.ptp(rest[near]) > 0:
            plane += np.linalg.lstsq(known[near], rest[near], rcond=None)[0]
            rest = heights - known @ plane
        if width <= 6 * noise or width < 1e-7 * (1 + float(np.abs(heights).max())):
            return plane
        width /= 2


def _common_level(values: Floats, width: float) -> float:
    """Return the middle of the interval of that width that holds the most values."""
    ordered = np.sort(values)
    ends = np.searchsorted(ordered, ordered + width, side="right")
    best = int(np.argmax(ends - np.arange(len(ordered))))
    return float(ordered[best : ends[best]].mean())


def _settle(heights: NDArray[np.floating[Any]], plane: Floats, floor: float) -> _Fitted:
    """Return the plane fitted to what lies near it, the scatter there, and the share fitted."""
    known = int(np.isfinite(heights).sum())
    reach = float(np.nanmax(np.abs(heights)))
    floor = max(floor, 1e-6 * reach, 1e-9)
    scatter, former = floor, -1
    for _ in range(_ROUNDS):
        fitted, off, count = _fit_near(heights, plane, _NEAR * max(scatter, floor))
        if count < 3:
            break
        plane, scatter = fitted, off
        if count == former:
            break
        former = count
    return _Fitted(plane, scatter, max(former, 0) / known)


def _fit_near(
    heights: NDArray[np.floating[Any]], plane: Floats, limit: float
) -> tuple[Floats, float, int]:
    """Return the plane of least squares on readings within the limit, their scatter and number."""
    rows, columns = heights.shape
    xs = np.arange(columns) - (columns - 1) / 2  # about the middle, so that the sums stay small
    matrix, right, count = np.zeros((3, 3)), np.zeros(3), 0
    sizes: list[Floats] = []
    thin = max(1, heights.size // _SAMPLES)
    for first in range(0, rows, _PIECE):
        piece = heights[first : first + _PIECE]
        ys = np.arange(first, first + len(piece)) - (rows - 1) / 2
        base = plane[2] + plane[0] * np.arange(columns)
        rest = piece - base[None, :] - (plane[1] * (ys + (rows - 1) / 2))[:, None]
        near = np.abs(rest) <= limit
        held = np.where(near, rest, 0.0)
        across, up = near.sum(axis=0).astype(np.float64), near.sum(axis=1).astype(np.float64)
        count += int(up.sum())
        mixed = float(ys @ (near @ xs))
        matrix += [
            [across @ xs**2, mixed, across @ xs],
            [mixed, up @ ys**2, up @ ys],
            [across @ xs, up @ ys, up.sum()],
        ]
        right += [held.sum(axis=0) @ xs, held.sum(axis=1) @ ys, held.sum()]
        sizes.append(np.abs(rest[near][::thin]))
    more = np.linalg.lstsq(matrix, right, rcond=None)[0]
    more[2] -= more[0] * (columns - 1) / 2 + more[1] * (rows - 1) / 2
    off = _PER_SIGMA * float(np.median(np.concatenate(sizes))) if count else 0.0
    return plane + more, off, count
