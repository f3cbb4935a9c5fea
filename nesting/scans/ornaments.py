"""What rises or sinks on a scan: ornaments, and places where nothing was measured.

A reading tells the height at the middle of its pixel, or the mean over it. In the first case an
ornament's rim may lie up to half a pixel beyond its outermost pixel, just short of the next middle.
In the second a pixel may hold so little of the ornament that its mean stays
below the threshold, so the rim may lie up to one pixel beyond. An outline therefore covers every
pixel of its ornament whole, and one pixel of doubt around each.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from nesting.scans.heightmap import Heights
from nesting.shapes.rasteroutline import Outline, bridge_parts, cover_runs, shift, simplify_outward
from nesting.shapes.rasters import Mask, Runs, find_runs, label_runs, part_at, spread

DOUBT = 1
"""Pixels of doubt around each pixel of an ornament."""
MOST_RUNS = 400_000
"""Most unbroken rows of ornament pixels; more is noise, not ornament."""
MOST_PARTS = 1_000
"""Most ornaments of one scan."""
MOST_BRIDGED = 60
"""Most parts of one ornament that are bridged one by one."""


class NoisyError(ValueError):
    """There is more to outline than any liner carries; the text says how much."""


@dataclass(frozen=True, slots=True)
class Raised:
    """One part of a scan that is not ground.

    ``outline`` is in pixel units; ``rise`` and ``sink`` are the greatest heights above and below
    the ground [mm] that two neighbouring readings reach, 0 where there is none; ``measured`` and
    ``unmeasured`` count its pixels; ``slack`` is how far its simplified outline may have been moved
    [pixels].
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
    specks, count = _take_specks(found, speck)
    groups = _parts_of(found, _reach(join))
    if len(groups) + len(outer) > MOST_PARTS:
        raise NoisyError(f"{len(groups) + len(outer)} separate parts")
    raised = [_outline(heights, group, _reach(join)) for group in groups]
    raised.sort(key=lambda part: part.outline.bounds)
    return Relief(tuple(raised), _outline_outer(outer), specks, count)


def _reach(join: float) -> int:
    """Return how far parts are grown to meet: twice that is less than the gap to be joined."""
    return max(0, int(np.ceil(join / 2)) - 1)


def _take_specks(found: Mask, speck: float) -> tuple[Mask, int]:
    """Take the specks out of ``found``; return them and their number.

    A small part as near to a large one as specks are large is a crumb of it, and stays.
    """
    groups = _parts_of(found, 0)
    specks = np.zeros_like(found)
    small = [group for group in groups if _extent(group) <= speck]
    _set(specks, small, True)
    near = spread(found & ~specks, max(1, round(speck)))
    alone = [group for group in small if not near[group.row, group.start].any()]
    specks[:] = False
    _set(specks, alone, True)
    found &= ~specks
    return specks, len(alone)


def _parts_of(found: Mask, reach: int) -> list[Runs]:
    """Return the runs of each part, where parts that meet when grown by ``reach`` are one."""
    runs = find_runs(found)
    if len(runs.row) > MOST_RUNS:
        raise NoisyError(f"{len(runs.row)} separate rows of pixels")
    wide = find_runs(spread(found, reach)) if reach else runs
    labels = part_at(wide, label_runs(wide), runs.row, runs.start)
    order = np.argsort(labels, kind="stable")
    cuts = np.flatnonzero(np.diff(labels[order])) + 1
    return [runs.take(chosen) for chosen in np.split(order, cuts) if len(chosen)]


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


def _framed(group: Runs, by: int) -> tuple[Mask, int, int]:
    """Return the pixels of a part in a frame of so many more, with its first row and column."""
    row, column = int(group.row.min()) - by, int(group.start.min()) - by
    mask = np.zeros(
        (int(group.row.max()) + 1 + by - row, int(group.end.max()) + by - column), np.bool_
    )
    _set(mask, [Runs(group.row - row, group.start - column, group.end - column)], True)
    return mask, row, column


def _outline(heights: Heights, group: Runs, reach: int) -> Raised:
    """Return the part with its outline: its pixels, the doubt, and the simplification outward.

    Gaps narrower than what is joined are filled, and parts still apart bridged; of very many
    parts, whose bridges would be a net, the ground that joined them is taken whole.
    """
    mask, row, column = _framed(group, 2 * reach + DOUBT)
    grown = spread(mask, reach)
    closed = mask | ~spread(~grown, reach)
    parts = cover_runs(find_runs(spread(closed, DOUBT)))
    if len(parts) > MOST_BRIDGED:
        parts = cover_runs(find_runs(spread(grown, DOUBT)))
    simple, slack = simplify_outward(bridge_parts(parts))
    readings = np.concatenate([heights[y, start:end] for y, start, end in zip(*group, strict=True)])
    measured = int(np.count_nonzero(~np.isnan(readings)))
    return Raised(
        shift(simple, column, row),
        _greatest(heights, group),
        _greatest(-heights, group),
        measured,
        len(readings) - measured,
        slack,
    )


def _greatest(heights: Heights, group: Runs) -> float:
    """Return the greatest height of a part that two neighbouring readings reach, at least 0.

    One reading above all around it is a slip of the scanner; it counts as far as the highest of
    its eight neighbours. So the very tip of a point is lost, by what it falls within a pixel.
    """
    mask, row, column = _framed(group, 1)
    low, left = max(0, row), max(0, column)
    there = heights[low : row + mask.shape[0], left : column + mask.shape[1]]
    framed, shape = np.pad(there, 1, constant_values=np.nan), there.shape
    around = np.full(shape, np.nan, there.dtype)
    for y, x in product(range(3), repeat=2):
        if (y, x) != (1, 1):
            np.fmax(around, framed[y : y + shape[0], x : x + shape[1]], out=around)
    reached = np.where(np.isnan(around), there, np.minimum(there, around))
    held = mask[low - row :, left - column :][: shape[0], : shape[1]]
    return float(np.max(reached[held & ~np.isnan(reached)], initial=0.0))


def _outline_outer(groups: Sequence[Runs]) -> tuple[Outline, ...]:
    """Return outlines of what was not measured at the frame, with the doubt, holes and all."""
    found: list[Outline] = []
    for group in groups:
        mask, row, column = _framed(group, DOUBT)
        for part in cover_runs(find_runs(spread(mask, DOUBT))):
            simple, _ = simplify_outward(part)
            found.append(shift(simple, column, row))
    return tuple(found)
