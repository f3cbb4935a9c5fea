"""What rises or sinks on a scan: ornaments, and places where nothing was measured.

A reading tells the height at the middle of its pixel, or the mean over it. In the first case an
ornament's rim may lie up to half a pixel beyond its outermost pixel, just short of the next middle.
In the second a pixel may hold so little of the ornament that its mean stays
below the threshold, so the rim may lie up to one pixel beyond. An outline therefore covers every
pixel of its ornament whole, and one pixel of doubt around each.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from nesting.rasteroutline import Outline, cover_runs, join_parts, shift, simplify_outward
from nesting.rasters import Mask, Runs, Whole, find_runs, label_runs, part_at, spread

Heights = NDArray[np.floating[Any]]

DOUBT = 1
"""Pixels of doubt around each pixel of an ornament."""
MOST_RUNS = 400_000
"""Most unbroken rows of ornament pixels; more is noise, not ornament."""
MOST_PARTS = 1_000
"""Most ornaments of one scan."""


class NoisyError(ValueError):
    """There is more to outline than any liner carries; the text says how much."""


@dataclass(frozen=True, slots=True)
class Raised:
    """One part of a scan that is not ground.

    ``outline`` is in pixel units; ``rise`` and ``sink`` are the greatest heights above and below
    the ground [mm], 0 where there is none; ``measured`` and ``unmeasured`` count its pixels;
    ``slack`` is how far its simplified outline may have been moved [pixels].
    """

    outline: Outline
    rise: float
    sink: float
    measured: int
    unmeasured: int
    slack: float


@dataclass(frozen=True, slots=True, eq=False)
class Relief:
    """All that is not ground.

    ``raised`` come from left to right; ``beyond`` are outlines of the unmeasured ground that
    reaches the frame of the scan; ``specks`` are pixels too small a group for an ornament.
    """

    raised: tuple[Raised, ...]
    beyond: tuple[Outline, ...]
    specks: Mask
    speck_count: int


def find_relief(heights: Heights, threshold: float, join: float, speck: float) -> Relief:
    """Return what stands off the ground by more than the threshold, and what was not measured.

    Parameters
    ----------
    heights
        Heights above the ground [mm], NaN where nothing was measured.
    threshold
        Height from which a pixel is ornament [mm].
    join
        Parts less than this apart become one [pixels].
    speck
        A part no larger than this either way is a speck [pixels].

    Raises
    ------
    NoisyError
        For more than 400,000 runs of ornament pixels, or more than 1,000 parts.
    """
    unmeasured = np.isnan(heights)
    outer = [group for group in _parts_of(unmeasured, 0) if _at_frame(group, heights.shape)]
    outer = [group for group in outer if _extent(group) > speck]
    found = unmeasured | (np.abs(heights) > threshold)
    _set(found, outer, False)
    groups = _parts_of(found, join)
    specks = np.zeros_like(found)
    small = [group for group in groups if _extent(group) <= speck]
    _set(specks, small, True)
    if len(groups) - len(small) + len(outer) > MOST_PARTS:
        raise NoisyError(f"{len(groups) - len(small) + len(outer)} separate parts")
    raised = [_outline(heights, group, join) for group in groups if _extent(group) > speck]
    raised.sort(key=lambda part: part.outline.bounds)
    return Relief(tuple(raised), _outline_outer(outer), specks, len(small))


def _parts_of(found: Mask, join: float) -> list[Runs]:
    """Return the runs of each part, where parts less than ``join`` apart are one."""
    runs = find_runs(found)
    if len(runs.row) > MOST_RUNS:
        raise NoisyError(f"{len(runs.row)} separate rows of pixels")
    labels = _label_joined(found, runs, join)
    order = np.argsort(labels, kind="stable")
    cuts = np.flatnonzero(np.diff(labels[order])) + 1
    return [runs.take(chosen) for chosen in np.split(order, cuts) if len(chosen)]


def _label_joined(found: Mask, runs: Runs, join: float) -> Whole:
    """Return the part of each run, where parts less than ``join`` apart are one."""
    reach = max(0, int(np.ceil(join / 2)) - 1)  # twice this is less than the gap allowed
    if reach == 0:
        return label_runs(runs)
    wide = find_runs(spread(found, reach))
    return part_at(wide, label_runs(wide), runs.row, runs.start)


def _extent(group: Runs) -> int:
    wide = group.end.max() - group.start.min()
    return int(max(wide, group.row.max() + 1 - group.row.min()))


def _at_frame(group: Runs, shape: Sequence[int]) -> bool:
    rows, columns = shape
    return bool(
        group.row.min() == 0
        or group.row.max() == rows - 1
        or group.start.min() == 0
        or group.end.max() == columns
    )


def _set(mask: Mask, groups: Iterable[Runs], value: bool) -> None:
    for group in groups:
        for row, start, end in zip(*group, strict=True):
            mask[row, start:end] = value


def _doubted(group: Runs) -> tuple[Mask, int, int]:
    """Return the pixels of a part grown by the doubt, with the row and column they begin at."""
    row, column = int(group.row.min()) - DOUBT, int(group.start.min()) - DOUBT
    mask = np.zeros(
        (int(group.row.max()) + 1 + DOUBT - row, int(group.end.max()) + DOUBT - column), np.bool_
    )
    _set(mask, [Runs(group.row - row, group.start - column, group.end - column)], True)
    return spread(mask, DOUBT), row, column


def _outline(heights: Heights, group: Runs, join: float) -> Raised:
    """Return the part with its outline: its pixels, the doubt, and the simplification outward."""
    mask, row, column = _doubted(group)
    simple, slack = simplify_outward(join_parts(cover_runs(find_runs(mask)), join))
    readings = np.concatenate([heights[y, start:end] for y, start, end in zip(*group, strict=True)])
    measured = readings[~np.isnan(readings)]
    return Raised(
        shift(simple, column, row),
        float(max(0.0, measured.max(initial=0.0))),
        float(max(0.0, -measured.min(initial=0.0))),
        len(measured),
        len(readings) - len(measured),
        slack,
    )


def _outline_outer(groups: Sequence[Runs]) -> tuple[Outline, ...]:
    """Return outlines of what was not measured at the frame, with the doubt, holes and all."""
    found: list[Outline] = []
    for group in groups:
        mask, row, column = _doubted(group)
        for part in cover_runs(find_runs(mask)):
            simple, _ = simplify_outward(part)
            found.append(shift(simple, column, row))
    return tuple(found)
