"""Sets of convex pieces in arrays: Minkowski sums with rectangles and exact cuts along a line.

Every piece is its bounding box cut by half-planes ``a x + b y <= c`` with whole-number
coefficients, one per slanted edge; a rectangle needs none. Adding a rectangle to a convex piece
only moves the box and the half-planes outward, so the sum is exact and takes no new vertices.
Pieces are *open* when they forbid: touching is allowed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.shapes.geometry import Box, Polygon, Ring, bounds, convex_parts

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
Floats = NDArray[np.float64]
Run = tuple[int, int]

APART = 2**31
"""Many lines are worked on as one long one, on which they stand so far apart."""
REACH = 2**29
"""No coordinate or extent that matters is greater; what lies beyond is drawn in to here."""

_ALWAYS_TRUE = (0, 0, 1)
_FAR = 2**62


@dataclass(frozen=True, slots=True)
class Pieces:
    """Convex pieces: ``boxes`` (n, 4) as x0, y0, x1, y1 and ``cuts`` (n, e, 3) as a, b, c [steps].

    A piece is its box cut by all its half-planes ``a x + b y <= c``, which stand in order of ``a``;
    rows are filled up with ``0 x + 0 y <= 1``.
    """

    boxes: Ints
    cuts: Ints

    def __len__(self) -> int:
        return len(self.boxes)

    def swept(self, strip: Box) -> Pieces:
        """Return the places (x, y) for which ``strip`` moved by (x, y) meets a piece.

        That is the Minkowski sum of each piece with the mirrored strip.
        """
        boxes = self.boxes + np.array([-strip.x1, -strip.y1, -strip.x0, -strip.y0])
        a, b, c = self.cuts[..., 0], self.cuts[..., 1], self.cuts[..., 2]
        reach_x = np.maximum(-a * strip.x0, -a * strip.x1)
        reach_y = np.maximum(-b * strip.y0, -b * strip.y1)
        return Pieces(boxes, np.stack([a, b, c + reach_x + reach_y], axis=-1))

    def near(self, domain: Box) -> Pieces:
        """Return the pieces whose open boxes meet the closed domain."""
        x0, y0, x1, y1 = self.boxes.T
        keep = (x0 < domain.x1) & (x1 > domain.x0) & (y0 < domain.y1) & (y1 > domain.y0)
        return Pieces(self.boxes[keep], self.cuts[keep])

    def turned_over(self) -> Pieces:
        """Return the pieces with x and y exchanged."""
        return Pieces(self.boxes[:, [1, 0, 3, 2]], _in_order(self.cuts[..., [1, 0, 2]]))

    def forbidden_at(self, y: int) -> Ints:
        """Return the whole x strictly inside each piece that reaches ``y``, (m, 2) closed.

        As `ranges` gives them, sooner: most questions are about one line.
        """
        piece = np.flatnonzero((self.boxes[:, 1] < y) & (y < self.boxes[:, 3]))
        return np.stack(self.inside_at(piece, np.full(len(piece), y)), axis=1)

    def forbidden_on(self, ys: Ints) -> tuple[Ints, Ints, Ints]:
        """Return as `forbidden_at`, for many lines: the number of the line, first and last x."""
        line, piece = np.nonzero(
            (self.boxes[:, 1] < ys[:, None]) & (ys[:, None] < self.boxes[:, 3])
        )
        return line, *self.inside_at(piece, ys[line])

    def inside_at(self, piece: Ints, ys: Ints) -> tuple[Ints, Ints]:
        """Return the first and last whole x strictly inside pieces, by number, on a line of each.

        Each line reaches its piece; the first is above the last where no whole x is inside.
        """
        first, last = self.boxes[piece, 0] + 1, self.boxes[piece, 2] - 1
        if self.cuts.shape[1]:
            a, b, c = np.moveaxis(self.cuts[piece], -1, 0)
            rest, divisor = c - b * ys[:, None], np.where(a == 0, 1, a)
            whole = rest // divisor
            above = np.where(a < 0, whole + 1, -_FAR).max(axis=1)
            below = np.where(a > 0, whole - (whole * divisor == rest), _FAR).min(axis=1)
            first, last = np.maximum(first, above), np.minimum(last, below)
        return first, last

    def ranges(self, ys: Ints) -> tuple[Ints, Ints]:
        """Return the least and greatest whole x strictly inside each piece on lines ``ys``.

        ``ys`` has shape (lines, pieces) or (lines, 1), the results (lines, pieces); the least is
        above the greatest where a line misses a piece.
        """
        shape = np.broadcast_shapes(ys.shape, (1, len(self)))
        x0, y0, x1, y1 = self.boxes.T
        low, high = np.broadcast_to(x0 + 1, shape), np.broadcast_to(x1 - 1, shape)
        for cut in range(self.cuts.shape[1]):
            a, b, c = self.cuts[:, cut].T
            if (a < 0).any():
                above = (c - b * ys) // np.where(a < 0, a, 1) + 1
                low = np.where(a < 0, np.maximum(low, above), low)
            if (a > 0).any():
                below = -((b * ys - c) // np.where(a > 0, a, 1)) - 1
                high = np.where(a > 0, np.minimum(high, below), high)
        return low, np.where((y0 < ys) & (ys < y1), high, -_FAR)

    def is_slanted(self) -> Bools:
        """Tell per piece whether it has a slanted edge."""
        slanted: Bools = (self.cuts[..., 0] != 0).any(axis=1)
        return slanted

    def apexes(self, *, far: bool) -> tuple[Ints, Ints]:
        """Return per piece the least and greatest y, rounded outward, of its outermost x."""
        x = self.boxes[:, 2 if far else 0][:, None]
        a, b, c = np.moveaxis(self.cuts, -1, 0)
        rest, divisor = c - a * x, np.where(b == 0, 1, b)
        top = np.where(b > 0, -((-rest) // divisor), _FAR).min(axis=1, initial=_FAR)
        bottom = np.where(b < 0, rest // divisor, -_FAR).max(axis=1, initial=-_FAR)
        return np.maximum(bottom, self.boxes[:, 1]), np.minimum(top, self.boxes[:, 3])

    def hold(self, x: int, y: int) -> Bools:
        """Tell per piece whether the point lies strictly inside it."""
        x0, y0, x1, y1 = self.boxes.T
        inside: Bools = (x0 < x) & (x < x1) & (y0 < y) & (y < y1)
        inside &= (self.cuts[..., 0] * x + self.cuts[..., 1] * y < self.cuts[..., 2]).all(axis=1)
        return inside


def free_runs(low: int, high: int, forbidden: Ints) -> list[Run]:
    """Return the closed runs of whole numbers of [low, high] outside the closed ranges.

    >>> free_runs(0, 9, np.array([[2, 4], [3, 6], [8, 7]]))
    [(0, 1), (7, 9)]
    """
    forbidden = forbidden[forbidden[:, 0] <= forbidden[:, 1]]
    forbidden = forbidden[np.argsort(forbidden[:, 0], kind="stable")]
    ends = np.maximum.accumulate(np.concatenate([[low - 1], forbidden[:, 1]]))
    starts = np.concatenate([forbidden[:, 0], [high + 1]])
    first, last = ends + 1, np.minimum(starts - 1, high)
    open_ = first <= last
    return [(int(a), int(b)) for a, b in zip(first[open_], last[open_], strict=True)]


def long_runs(count: int, line: Ints, first: Ints, last: Ints, within: Run) -> tuple[Ints, Ints]:
    """Return the closed runs of ``within`` outside closed ranges, on many lines at once.

    A range from ``first`` to ``last`` stands on the line of that number, of ``count``. Begins and
    ends of the runs are given on the long line, in order: that of a line is at its number times
    `APART`.

    >>> begin, end = long_runs(2, np.array([1, 1]), np.array([2, 4]), np.array([3, 9]), (0, 9))
    >>> begin.tolist(), (end - begin).tolist(), int(begin[1]) == APART
    ([0, 2147483648], [9, 1], True)
    """
    offset = np.arange(count) * APART
    low, high = within
    kept = first <= last
    shift = offset[line[kept]]
    before, beyond = offset + low - 1, offset + high + 1
    starts = np.concatenate([before, first[kept].clip(-REACH, REACH) + shift, beyond])
    stops = np.concatenate([before, last[kept].clip(-REACH, REACH) + shift, beyond])
    order = np.argsort(starts, kind="stable")
    starts, stops = starts[order][1:], np.maximum.accumulate(stops[order])[:-1]
    at = (starts + REACH) // APART * APART
    begin, end = np.maximum(stops + 1, at + low), np.minimum(starts - 1, at + high)
    free = begin <= end
    return begin[free], end[free]


def merged(runs: Iterable[Run]) -> list[Run]:
    """Return runs of whole numbers as disjoint ones in order; neighbours become one.

    >>> merged([(4, 6), (0, 3), (8, 9)])
    [(0, 6), (8, 9)]
    """
    found: list[Run] = []
    for low, high in sorted(runs):
        if found and low <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def pieces_of(polygons: Iterable[Polygon]) -> Pieces:
    """Return the polygons cut into convex pieces, in the order given."""
    return pieces_of_rings([ring for polygon in polygons for ring in convex_parts(polygon)])


def pieces_of_rings(rings: Sequence[Ring]) -> Pieces:
    """Return convex counter-clockwise rings as pieces."""
    cuts = [_cuts(ring) for ring in rings]
    widest = max(map(len, cuts), default=0)
    padded = [row + [_ALWAYS_TRUE] * (widest - len(row)) for row in cuts]
    boxes = np.array([bounds(ring) for ring in rings], dtype=np.int64).reshape(-1, 4)
    return Pieces(boxes, _in_order(np.array(padded, dtype=np.int64).reshape(len(rings), widest, 3)))


def pieces_of_boxes(boxes: Iterable[Box]) -> Pieces:
    """Return rectangles as pieces."""
    array = np.array(list(boxes), dtype=np.int64).reshape(-1, 4)
    return Pieces(array, np.zeros((len(array), 0, 3), dtype=np.int64))


def joined(parts: Sequence[Pieces]) -> Pieces:
    """Return all pieces of the parts, in order."""
    widest = max((part.cuts.shape[1] for part in parts), default=0)
    empty = pieces_of_boxes(())
    cuts = np.concatenate([_padded(part.cuts, widest) for part in parts] or [empty.cuts])
    filled = np.repeat([part.cuts.shape[1] < widest for part in parts], list(map(len, parts)))
    if filled.any():
        cuts[filled] = _in_order(cuts[filled])
    return Pieces(np.concatenate([part.boxes for part in parts] or [empty.boxes]), cuts)


def _in_order(cuts: Ints) -> Ints:
    """Sort each piece's half-planes by ``a``, so that those of one sign share columns."""
    order = np.argsort(cuts[..., 0], axis=1, kind="stable")
    sorted_cuts: Ints = np.take_along_axis(cuts, order[..., None], axis=1)
    return sorted_cuts


def _padded(cuts: Ints, widest: int) -> Ints:
    if cuts.shape[1] == widest:
        return cuts
    filler = np.broadcast_to(np.array(_ALWAYS_TRUE), (len(cuts), widest - cuts.shape[1], 3))
    return np.concatenate([cuts, filler], axis=1)


def _cuts(ring: Ring) -> list[tuple[int, int, int]]:
    """Half-planes of the slanted edges of a counter-clockwise ring: the interior is on the left."""
    rows = []
    for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if x0 != x1 and y0 != y1:
            a, b = y1 - y0, x0 - x1
            rows.append((a, b, a * x0 + b * y0))
    return rows


def separations(pieces: Pieces, box: Box) -> Ints:
    """Return how far the box lies beyond each face of each piece, measured square [steps].

    Shape (pieces, 4 + cuts): right of, left of, above and below the piece, then beyond each of its
    slanted edges; negative where it reaches past that face, rounded down. A distance measured
    square is the half-side of the square by which the box may grow until it touches.
    """
    x0, y0, x1, y1 = pieces.boxes.T
    faces = [box.x0 - x1, x0 - box.x1, box.y0 - y1, y0 - box.y1]
    a, b, c = (pieces.cuts[..., axis] for axis in range(3))
    nearest = np.minimum(a * box.x0, a * box.x1) + np.minimum(b * box.y0, b * box.y1)
    size = np.abs(a) + np.abs(b)
    beyond = np.where(size > 1, (nearest - c) // np.maximum(size, 1), np.iinfo(np.int64).min)
    return np.concatenate([np.stack(faces, axis=1), beyond], axis=1)


def square_distances(pieces: Pieces, box: Box) -> Ints:
    """Return per piece its distance from the box, measured square [steps]; negative on overlap.

    For convex shapes the greatest separation over their faces is the distance.

    >>> square_distances(pieces_of_boxes([Box(0, 0, 10, 10)]), Box(13, 15, 20, 20)).tolist()
    [5]
    """
    distances: Ints = separations(pieces, box).max(axis=1)
    return distances
