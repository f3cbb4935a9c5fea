"""Ground of a scan where a dam seals, as few large rectangles.

A dam seals where the readings under it differ by no more than the seal gap. It may lie anywhere,
not just along the pixels, so a dam width of w pixels meets up to ceil(w) + 1 of them: a *window* is
a square of so many pixels, and it seals where its highest reading less its lowest is within the gap
and none of its pixels is barred. Neighbours that differ by more than the gap are barred both: the
step between them may lie up to a pixel on either side.

A rectangle of pixels is a zone where every window inside it seals, so wherever a dam lies in it, it
lies on sealing windows only. Zones overlap where bands cross, so that each band stays whole.
As polygons on the grid of steps, boxes that overlap become one zone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from nesting.scans.heightmap import Heights
from nesting.shapes.geometry import Box, Polygon, Ring, polygon_of, subtract, unite
from nesting.shapes.mending import part_holes
from nesting.shapes.onesided import round_ring
from nesting.shapes.rasters import Mask, Whole, count_in, slide, sums
from nesting.units import STEPS_PER_MM

MOST_ZONES = 60
"""Most zones of one scan."""
LEAST_WINDOWS, LEAST_SHARE = 2, 0.001
"""Least new ground of a further zone: so many windows, and this share of all that seals."""
MOST_BOXES = 300_000
_PER_WINDOW = 8


@dataclass(frozen=True, slots=True, eq=False)
class Plain:
    """The zones found.

    ``boxes`` has a row for each zone, largest first: first column, first row, end column, end row
    [pixels]. ``sealing`` counts the pixels that lie in some sealing window, ``held`` those of them
    that lie in a zone.
    """

    boxes: tuple[tuple[int, int, int, int], ...]
    sealing: int
    held: int


def find_plain(heights: Heights, barred: Mask, gap: float, window: int) -> Plain:
    """Return zones such that every window inside one of them, or inside their union, seals.

    Parameters
    ----------
    heights
        Heights [mm], NaN where nothing was measured.
    barred
        Pixels no zone may hold.
    gap
        The seal gap [mm].
    window
        Side of a window [pixels].
    """
    if window > min(heights.shape):
        return Plain((), 0, 0)
    seals = find_sealing(heights, barred | find_steps(heights, gap), gap, window)
    boxes = maximal_boxes(seals)
    boxes[:, 2:] += window - 1
    framed = np.pad(seals, window - 1)
    covered = slide(slide(framed, window, 0, np.logical_or), window, 1, np.logical_or)
    sealing = int(covered.sum())
    chosen, union = _choose(
        boxes, seals, window, max(LEAST_WINDOWS * window**2, LEAST_SHARE * sealing)
    )
    chosen.sort(key=lambda box: (-(box[2] - box[0]) * (box[3] - box[1]), box))
    return Plain(tuple(chosen), sealing, int(union.sum()))


def find_steps(heights: Heights, gap: float) -> Mask:
    """Return the pixels that differ by more than the gap from one of their four neighbours."""
    found = np.zeros(heights.shape, np.bool_)
    across = np.abs(np.diff(heights, axis=1)) > gap
    up = np.abs(np.diff(heights, axis=0)) > gap
    found[:, 1:] |= across
    found[:, :-1] |= across
    found[1:] |= up
    found[:-1] |= up
    return found


def find_sealing(heights: Heights, barred: Mask, gap: float, window: int) -> Mask:
    """Return for each place of a window, by its lower left pixel, whether it seals."""
    readings = np.where(barred, np.float32(np.nan), heights).astype(np.float32, copy=False)
    highest = slide(slide(readings, window, 0, np.maximum), window, 1, np.maximum)
    lowest = slide(slide(readings, window, 0, np.minimum), window, 1, np.minimum)
    highest -= lowest
    seals: Mask = np.less_equal(highest, gap)  # false where any reading is NaN
    return seals


def maximal_boxes(mask: Mask) -> Whole:
    """Return every rectangle of set pixels that no larger one holds, as an array (n, 4).

    Row by row, with the height of set pixels below each column: a rectangle ends where a lower
    column begins. Of very many only the largest 300,000 are returned.

    >>> maximal_boxes(np.array([[True, True, True], [True, False, False]])).tolist()
    [[0, 0, 1, 2], [0, 0, 3, 1]]
    """
    heights = np.zeros(mask.shape[1], np.int64)
    found: list[Whole] = []
    nothing = np.zeros(mask.shape[1], np.bool_)
    for row in range(mask.shape[0]):
        heights = np.where(mask[row], heights + 1, 0)
        above = mask[row + 1] if row + 1 < mask.shape[0] else nothing
        if heights.any() and not np.array_equal(mask[row], above):
            found.append(_boxes_ending(heights, row, above))
    boxes = np.concatenate(found) if found else np.empty((0, 4), np.int64)
    if len(boxes) > MOST_BOXES:
        area = (boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])
        boxes = boxes[np.sort(np.argsort(-area, kind="stable")[:MOST_BOXES])]
    return boxes[np.lexsort(boxes.T[::-1])]


def _boxes_ending(heights: Whole, row: int, above: Mask) -> Whole:
    """Return the rectangles with their upper side on this row that cannot grow upward."""
    starts = np.flatnonzero(np.diff(heights, prepend=-1))
    bars = [*zip(starts.tolist(), heights[starts].tolist(), strict=True), (len(heights), 0)]
    open_bars: list[tuple[int, int]] = []
    found: list[tuple[int, int, int, int]] = []
    for start, height in bars:
        left = start
        while open_bars and open_bars[-1][1] > height:
            left, tall = open_bars.pop()
            found.append((left, row + 1 - tall, start, row + 1))
        if height and (not open_bars or open_bars[-1][1] < height):
            open_bars.append((left, height))
    boxes = np.array(found, np.int64).reshape(-1, 4)
    counts = np.concatenate(([0], np.cumsum(above)))
    grows = counts[boxes[:, 2]] - counts[boxes[:, 0]] == boxes[:, 2] - boxes[:, 0]
    ended: Whole = boxes[~grows]
    return ended


def _choose(
    boxes: Whole, seals: Mask, window: int, least: float
) -> tuple[list[tuple[int, int, int, int]], Mask]:
    """Take the box with the most new ground, again and again; return those and their union.

    New ground is counted at every few pixels only, eight or more to a window.
    """
    stride = max(1, window // _PER_WINDOW)
    rows, columns = seals.shape
    union = np.zeros((rows + window - 1, columns + window - 1), np.bool_)
    taken: list[tuple[int, int, int, int]] = []
    while len(boxes) and len(taken) < MOST_ZONES:
        fresh = sums(~union[::stride, ::stride])
        gains = count_in(fresh, -(-boxes // stride)) * stride**2
        boxes, gains = boxes[gains >= least], gains[gains >= least]
        if not len(boxes):
            break
        best = int(np.argmax(gains))
        box = _fit_beside(tuple(boxes[best].tolist()), union, seals, window)
        boxes = np.delete(boxes, best, axis=0)
        if box is not None:
            x0, y0, x1, y1 = box
            held = int(union[y0:y1, x0:x1].sum())
            if (x1 - x0) * (y1 - y0) - held >= least:
                union[y0:y1, x0:x1] = True
                taken.append(box)
    return taken, union


def _fit_beside(
    box: tuple[int, int, int, int], union: Mask, seals: Mask, window: int
) -> tuple[int, int, int, int] | None:
    """Return the box, drawn in at one side where a window across it and its neighbours leaks.

    Between two levels every window inside either box may seal, and one across both not; then the
    least of four sides is drawn in until no such window is left. None where that takes too much.
    """
    if not _leaks(box, union, seals, window):
        return box
    for by in range(1, 2 * window):
        for side, sign in ((0, 1), (1, 1), (2, -1), (3, -1)):
            drawn = list(box)
            drawn[side] += sign * by
            x0, y0, x1, y1 = drawn
            if min(x1 - x0, y1 - y0) >= window and not _leaks(
                (x0, y0, x1, y1), union, seals, window
            ):
                return x0, y0, x1, y1
    return None


def _leaks(box: tuple[int, int, int, int], union: Mask, seals: Mask, window: int) -> bool:
    """Whether some window inside the union with the box does not seal."""
    x0, y0, x1, y1 = box
    left, low = max(0, x0 - window), max(0, y0 - window)
    held = union[low : y1 + window, left : x1 + window].copy()
    held[y0 - low : y1 - low, x0 - left : x1 - left] = True
    whole = slide(slide(held, window, 0, np.logical_and), window, 1, np.logical_and)
    there = seals[low : low + whole.shape[0], left : left + whole.shape[1]]
    return bool((whole & ~there).any())


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
