"""From a scan to a liner: ground, ornaments, blank zones, outline, and what is known of each."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor
from typing import Any

import numpy as np
from numpy.typing import NDArray

from nesting.scans.ground import ScanGround, above_ground, find_ground
from nesting.scans.heightmap import HeightMap
from nesting.scans.ornaments import DOUBT, Raised, find_relief
from nesting.scans.zones import Plain, find_plain, merge_boxes
from nesting.shapes.geometry import Box, Point, Polygon, polygon_of
from nesting.shapes.rasteroutline import (
    Outline,
    all_rings,
    burn,
    clip,
    cover_runs,
    part_frame,
    ring_points,
    simplify,
)
from nesting.shapes.rasters import Mask, find_runs, spread
from nesting.units import STEPS_PER_MM, to_mm
from nesting.values.liner import BlankZone, Liner, Ornament

LEAST_THRESHOLD = Fraction(1, 10)
"""What rises less than this is never ornament unless a threshold is given [mm]."""
SIGMAS, GRAINS = 6, 2
"""Default threshold, in standard deviations of the noise and in grains of the scan."""
UNEVEN = 3
"""Scatter beyond so many times the noise is no noise."""
NOISE_RANGE = 11
"""Readings of even ground differ by up to so many standard deviations somewhere on a scan."""

_CELLS = 300  # along the longer side of what is shaded
_TINT_SLACK = 0.75  # cells
_BANDS = (0.0, 1 / 3, 2 / 3)
_FINE = 80  # steps: outlines are rounded to 0.01 mm where a pixel is much more than that


@dataclass(frozen=True, slots=True)
class ScanRules:
    """What counts as what [steps]; ``threshold`` None takes it from the noise."""

    dam_width: int
    seal_gap: int
    join: int
    speck: int
    threshold: int | None = None


class UnevenError(ValueError):
    """The ground lies off plane and bow by so much that low ornament cannot be told from it."""

    def __init__(self, scatter: float, threshold: float) -> None:
        super().__init__(
            f"readings lie off it by {scatter:.2f} mm, so ornament of less than {threshold:.2f} mm "
            "would be lost"
        )


@dataclass(frozen=True, slots=True)
class ScanPart:
    """What is known of one ornament, or of one place without readings.

    ``rise`` and ``sink`` are its greatest heights above and below the ground [mm]; ``area`` is that
    of its pixels [mm2], ``unread`` the share of them without a reading; ``slack`` is how far its
    outline may lie outside its pixels and their doubt [mm].
    """

    name: str
    rise: float
    sink: float
    area: float
    unread: float
    slack: float


@dataclass(frozen=True, slots=True)
class Shade:
    """Ground of one range of heights, for a picture; ``depth`` 1 to 3, or -1 where sunk.

    ``beyond`` is how far off the ground it lies at least [mm]; ``areas`` are rings by area [steps].
    """

    depth: int
    beyond: float
    areas: tuple[tuple[tuple[Point, ...], ...], ...]


@dataclass(frozen=True, slots=True)
class ScanFound:
    """A liner found on a scan, and the figures it rests on.

    Lengths are in mm, areas in mm2. ``threshold`` is the one used; ``window`` is how many pixels
    a dam width may meet; ``sealing`` is the ground where a dam seals, ``held`` that of it
    inside zones; ``beyond`` is the area at the frame without readings; ``specks`` counts what is
    too small for an ornament.
    """

    liner: Liner
    rules: ScanRules
    columns: int
    rows: int
    pixel: Fraction
    ground: ScanGround
    grain: float
    threshold: float
    window: int
    parts: tuple[ScanPart, ...]
    sealing: float
    held: float
    beyond: float
    specks: int
    shades: tuple[Shade, ...]

    @property
    def noise_range(self) -> float:
        """How far readings of even ground may differ by noise alone somewhere on the scan [mm]."""
        return NOISE_RANGE * self.ground.noise


def find_liner(scan: HeightMap, rules: ScanRules, name: str, thickness: int) -> ScanFound:
    """Return the liner a scan shows.

    Ornament outlines cover every pixel of the ornament and one more around it; zones hold no pixel
    that such an outline meets; the liner's outline is the scan's frame less what was not measured
    at the frame. ``thickness`` is in steps.

    Raises
    ------
    NoisyError
        Where the threshold leaves more than any liner carries.
    UnevenError
        Where the ground is so uneven that ornament might be taken for ground.
    """
    ground = find_ground(scan)
    heights = above_ground(scan, ground)
    threshold = _threshold(scan, ground, rules)
    if rules.threshold is None and threshold > to_mm(rules.seal_gap) and is_uneven(ground):
        raise UnevenError(ground.scatter, threshold)
    in_pixels = STEPS_PER_MM * scan.pixel
    relief = find_relief(
        heights, threshold, float(rules.join / in_pixels), max(1.0, float(rules.speck / in_pixels))
    )
    rim, apart = part_frame(scan.columns, scan.rows, relief.beyond)
    parts = [(each, outline) for each in relief.raised for outline in clip(each.outline, rim)]
    barred = spread(relief.specks, DOUBT)
    burn(barred, [*(outline for _, outline in parts), *apart])
    window = ceil(rules.dam_width / in_pixels) + 1
    plain = find_plain(heights, barred, float(to_mm(rules.seal_gap)), window)
    facts, ornaments = _name_parts(scan, parts)
    outline = _outline(scan, rim)
    datum = outline.bounds.x0, outline.bounds.y0
    liner = Liner(name, outline, thickness, "detail", ornaments, _zones(scan, plain))
    area = float(scan.pixel) ** 2
    return ScanFound(
        liner=_move(liner, datum),
        rules=rules,
        columns=scan.columns,
        rows=scan.rows,
        pixel=scan.pixel,
        ground=ground,
        grain=scan.grain,
        threshold=threshold,
        window=window,
        parts=facts,
        sealing=plain.sealing * area,
        held=plain.held * area,
        beyond=(scan.rows * scan.columns - rim.area) * area,
        specks=relief.speck_count,
        shades=_shade(scan, heights, threshold, datum),
    )


def _move(liner: Liner, datum: Point) -> Liner:
    """Return the liner measured from its own datum corner."""
    off = -datum[0], -datum[1]
    return replace(
        liner,
        outline=liner.outline.moved(*off),
        ornaments=tuple(replace(o, outline=o.outline.moved(*off)) for o in liner.ornaments),
        zones=tuple(replace(z, outline=z.outline.moved(*off)) for z in liner.zones),
    )


def is_uneven(ground: ScanGround) -> bool:
    """Whether readings of the ground lie off plane and bow by more than their noise."""
    return ground.scatter > UNEVEN * ground.noise


def _threshold(scan: HeightMap, ground: ScanGround, rules: ScanRules) -> float:
    if rules.threshold is not None:
        return float(to_mm(rules.threshold))
    noise = max(ground.noise, ground.scatter)
    return max(SIGMAS * noise, GRAINS * scan.grain, float(LEAST_THRESHOLD))


def _name_parts(
    scan: HeightMap, parts: list[tuple[Raised, Outline]]
) -> tuple[tuple[ScanPart, ...], tuple[Ornament, ...]]:
    """Return facts and ornaments, numbered from left to right, those without readings apart."""
    facts: list[ScanPart] = []
    ornaments: list[Ornament] = []
    counts = {"ornament": 0, "unread": 0}
    pixel = float(scan.pixel)
    for part, outline in parts:
        kind = "ornament" if part.measured else "unread"
        counts[kind] += 1
        name = f"{kind} {counts[kind]}"
        pixels = part.measured + part.unmeasured
        facts.append(
            ScanPart(
                name,
                part.rise,
                part.sink,
                pixels * pixel**2,
                part.unmeasured / pixels,
                3 * part.slack * pixel,
            )
        )
        relief = ceil(max(part.rise, part.sink) * STEPS_PER_MM / _FINE) * _FINE
        ornaments.append(Ornament(name, _to_polygon(scan, outline), relief))
    return tuple(facts), tuple(ornaments)


def _to_polygon(scan: HeightMap, outline: Outline) -> Polygon:
    """Return an outline on the grid of steps, within the frame.

    Rounding moves no point as far as the doubt it lies in. Where it makes the rim touch itself, the
    outline is moved out by a hair and rounded again.
    """
    scale = STEPS_PER_MM * float(scan.pixel)
    fine = _FINE if scale > 20 * _FINE else 1
    most = floor(scan.width * STEPS_PER_MM), floor(scan.height * STEPS_PER_MM)
    for hair in (0.0, 0.02, 0.05, 0.1, 0.2):
        points = np.rint(ring_points(outline, hair) * scale / fine) * fine
        points = np.clip(points, 0, most).astype(np.int64)
        try:
            return Polygon(tuple((int(x), int(y)) for x, y in points))
        except ValueError:
            continue
    x0, y0, x1, y1 = (bound * scale for bound in outline.bounds)
    return polygon_of(Box(max(0, floor(x0)), max(0, floor(y0)), ceil(x1), ceil(y1)))


def _outline(scan: HeightMap, rim: Outline) -> Polygon:
    steps = scan.pixel * STEPS_PER_MM
    if rim.area == scan.columns * scan.rows:
        return polygon_of(Box(0, 0, floor(scan.columns * steps), floor(scan.rows * steps)))
    return _to_polygon(scan, rim)


def _zones(scan: HeightMap, plain: Plain) -> tuple[BlankZone, ...]:
    return tuple(
        BlankZone(f"ground {number}", shape)
        for number, shape in enumerate(merge_boxes(plain.boxes, scan.pixel), start=1)
    )


def _shade(
    scan: HeightMap, heights: NDArray[np.floating[Any]], threshold: float, datum: Point
) -> tuple[Shade, ...]:
    """Return areas of like height, coarsely: for the eye only, nothing rests on them."""
    block = max(1, ceil(max(heights.shape) / _CELLS))
    coarse = heights[block // 2 :: block, block // 2 :: block]
    most = float(np.max(coarse[np.isfinite(coarse)], initial=threshold))
    side = block * float(scan.pixel) * STEPS_PER_MM
    levels = [(-1, threshold, coarse < -threshold)]
    for depth, share in enumerate(_BANDS, start=1):
        level = threshold + share * (most - threshold)
        levels.append((depth, level, coarse > level))
    return tuple(
        Shade(depth, level, tuple(_shaded(mask, side, datum)))
        for depth, level, mask in levels
        if mask.any()
    )


def _shaded(mask: Mask, side: float, datum: Point) -> Iterator[tuple[tuple[Point, ...], ...]]:
    for part in cover_runs(find_runs(mask)):
        rings = all_rings(simplify(part, _TINT_SLACK))
        yield tuple(
            tuple((round(x * side) - datum[0], round(y * side) - datum[1]) for x, y in ring)
            for ring in rings
        )
