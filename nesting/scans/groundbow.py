"""The bow of a ground that is not quite a plane: a liner on an uneven table, a model that sags.

A bow is a surface of second degree. It is found like the tilt: from second differences over a long
distance, of which the middle half is taken, so that what stands on the ground does not bend it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from nesting.scans.heightmap import Heights
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

    def plus(self, other: Bow, scale: float = 1.0) -> Bow:
        """Return the sum with another bow, that one times ``scale``."""
        return Bow(
            self.xx + scale * other.xx, self.xy + scale * other.xy, self.yy + scale * other.yy
        )


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
