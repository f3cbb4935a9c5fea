"""A scan of a model as heights on a grid of square pixels."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

Heights = NDArray[np.floating[Any]]
LEAST_SIDE = 8
"""Fewest pixels along either side of a scan."""
MOST_PIXELS = 25_000_000
"""Most pixels of a scan: 2400 x 1200 mm at 0.34 mm."""


@dataclass(frozen=True, slots=True, eq=False)
class HeightMap:
    """Heights of a model, seen from above.

    Parameters
    ----------
    heights
        Array of shape (rows, columns) [mm], row 0 lowest; NaN where nothing was measured.
    pixel
        Side of a pixel [mm], exactly.
    grain
        The least difference of height the scan can tell [mm]; 0 for floating point.

    Raises
    ------
    ValueError
        Where a side has fewer than 8 pixels, there are more than 25 million, or none has a height.
    """

    heights: Heights
    pixel: Fraction
    grain: float = 0.0

    def __post_init__(self) -> None:
        if min(self.heights.shape) < LEAST_SIDE:
            raise ValueError(f"a scan has at least {LEAST_SIDE} pixels along either side")
        if self.heights.size > MOST_PIXELS:
            raise ValueError(f"a scan has at most {MOST_PIXELS // 1_000_000} million pixels")
        if not np.isfinite(self.heights).any():
            raise ValueError("at least one pixel of a scan has a height")

    @property
    def rows(self) -> int:
        """Number of pixels along y."""
        return int(self.heights.shape[0])

    @property
    def columns(self) -> int:
        """Number of pixels along x."""
        return int(self.heights.shape[1])

    @property
    def width(self) -> Fraction:
        """Extent along x [mm]."""
        return self.columns * self.pixel

    @property
    def height(self) -> Fraction:
        """Extent along y [mm]."""
        return self.rows * self.pixel
