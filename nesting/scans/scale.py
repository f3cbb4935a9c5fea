"""How large the pixels of a scan are, and what its numbers mean in mm."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import numpy as np
from numpy.typing import NDArray

from nesting.errors import InputError
from nesting.scans.heightmap import HeightMap
from nesting.units import decimal_text

MOST_HEIGHT = 1000.0
"""Greatest difference of height of a scan [mm]."""
_WHITES = {"uint8": 255, "uint16": 65535}


@dataclass(frozen=True, slots=True)
class ScanScale:
    """What a person says of a scan, as far as said.

    Parameters
    ----------
    width
        The scan's width along x [mm].
    pixel
        Side of a pixel [mm]; of a mesh, of the pixels it is turned into.
    relief
        Height from black to white [mm], for whole numbers.
    height_unit
        What 1 stands for in a scan of decimal heights, and in a mesh [mm]; None where not said.
    no_data
        The number that stands for no reading.
    """

    width: Fraction | None = None
    pixel: Fraction | None = None
    relief: Fraction | None = None
    height_unit: Fraction | None = None
    no_data: float | None = None


def scale_heights(
    where: str, values: NDArray[Any], scale: ScanScale, hidden: float | None = None
) -> HeightMap:
    """Return the heights of a picture or an array, whose first row is the uppermost.

    ``hidden`` is the file's own number for no reading.

    Raises
    ------
    InputError
        With ``where`` in front: no size of a pixel or two, whole numbers without ``relief``,
        decimals with it, heights that cannot be mm, too few or too many pixels, no reading at all.
    """
    pixel = _pixel(where, values.shape[1], scale)
    heights = values[::-1].astype(np.float32)
    for number in (scale.no_data, hidden):
        if number is not None:
            heights[values[::-1] == number] = np.nan
    white = _WHITES.get(values.dtype.name)
    if white is None:
        grain = 0.0
        if scale.relief is not None:
            rule = "--relief is for whole numbers from black to white"
            remedy = "leave it out; --height-units says what 1 stands for"
            raise InputError(where, rule, "a scan of decimal heights", remedy)
        heights *= float(scale.height_unit or 1)
    else:
        if scale.relief is None:
            remedy = "give with --relief the height from black to white"
            raise InputError(where, "a scan of whole numbers needs its height", "none", remedy)
        if scale.height_unit is not None:
            rule, remedy = (
                "--height-units is for decimal heights",
                "leave it out; --relief says the height",
            )
            raise InputError(where, rule, "a scan of whole numbers", remedy)
        grain = float(scale.relief) / white
        heights *= grain
    return make_map(where, heights, pixel, grain)


def make_map(where: str, heights: NDArray[np.float32], pixel: Fraction, grain: float) -> HeightMap:
    """Return the height map; InputError with ``where`` in front where it cannot be one."""
    heights[~np.isfinite(heights)] = np.nan
    try:
        scan = HeightMap(heights, pixel, grain)
    except ValueError as error:
        got = f"{heights.shape[1]} x {heights.shape[0]}"
        raise InputError(where, str(error), got) from error
    lowest, highest = float(np.nanmin(heights)), float(np.nanmax(heights))
    if highest - lowest > MOST_HEIGHT or max(abs(lowest), abs(highest)) > 100 * MOST_HEIGHT:
        rule = f"heights must differ by at most {MOST_HEIGHT:g} mm"
        remedy = "--height-units says what 1 stands for, --no-data which number is no reading"
        raise InputError(where, rule, f"{lowest:g} to {highest:g} mm", remedy)
    if max(scan.width, scan.height) > MOST_WIDTH:
        got = f"{decimal_text(scan.width, 1)} x {decimal_text(scan.height, 1)} mm"
        raise InputError(where, f"a scan must be at most {MOST_WIDTH} mm long", got)
    return scan


MOST_WIDTH = 33_000
"""Longest side of a scan [mm]."""


def _pixel(where: str, columns: int, scale: ScanScale) -> Fraction:
    if scale.width is not None and scale.pixel is not None:
        rule, remedy = "a picture has one scale", "leave one of them out"
        raise InputError(where, rule, "--width and --pixel", remedy)
    if scale.width is not None:
        return scale.width / columns
    if scale.pixel is None:
        rule = "a scan needs its scale"
        raise InputError(where, rule, "none", "give --width, or the size of a pixel with --pixel")
    return scale.pixel
