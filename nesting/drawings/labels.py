"""Where labels go so that no two of them meet: along a line, and on open ground."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import count, pairwise
from math import floor
from typing import NamedTuple

from nesting.drawings.record import Rect, Spot

_Cell = tuple[int, int]
_CELL = 8.0


def spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> tuple[float, ...]:
    """Return places at least ``pitch`` apart within [low, high], nearest to the wanted ones.

    Nearest in the sum of squared shifts, exactly: after taking ``index * pitch`` off, places must
    only not fall, which is isotonic regression by pooling adjacent violators (Ayer et al. 1955);
    cutting its answer to the bounds keeps it nearest. ``wanted`` must be in rising order and
    ``(len(wanted) - 1) * pitch`` must fit between the bounds. Empty for no wanted place.

    >>> spread([10, 10, 30], 4, 0, 100)
    (8.0, 12.0, 30.0)
    """
    pools: list[tuple[float, int]] = []
    for index, place in enumerate(wanted):
        total, count = place - index * pitch, 1
        while pools and pools[-1][0] / pools[-1][1] >= total / count:
            total, count = total + pools[-1][0], count + pools.pop()[1]
        pools.append((total, count))
    last = high - (len(wanted) - 1) * pitch
    flat = (min(max(total / count, low), last) for total, count in pools for _ in range(count))
    return tuple(place + index * pitch for index, place in enumerate(flat))


class Taken:
    """What already stands on the sheet: ground no label may touch, and what one had better not.

    Everything is kept by cells of the sheet, so that a question looks only at its own place. What
    is avoided has two costs: of a label standing on it, and of a leader crossing it.
    """

    def __init__(self) -> None:
        self._rects: dict[_Cell, list[Rect]] = {}
        self._avoided: dict[_Cell, list[tuple[_Cost, Rect]]] = {}
        self._lines: dict[_Cell, list[tuple[_Cost, Spot, Spot]]] = {}
        self._numbers = count()

    def take(self, rect: Rect) -> None:
        """Keep a rectangle for itself alone."""
        for cell in _cells(rect):
            self._rects.setdefault(cell, []).append(rect)

    def avoid(self, rect: Rect, cost: float, leader_cost: float = 0.0) -> None:
        """Put a cost on a rectangle."""
        costs = _Cost(next(self._numbers), cost, leader_cost)
        for cell in _cells(rect):
            self._avoided.setdefault(cell, []).append((costs, rect))

    def draw(self, points: Sequence[Spot], cost: float, leader_cost: float = 0.0) -> None:
        """Put a cost on a line through the points; however often it is met, it counts once."""
        costs = _Cost(next(self._numbers), cost, leader_cost)
        for start, end in pairwise(points):
            for cell in _cells(_span(start, end)):
                self._lines.setdefault(cell, []).append((costs, start, end))

    def is_free(self, rect: Rect) -> bool:
        """Whether nothing taken meets the rectangle."""
        return not any(
            rect.overlaps(other) for cell in _cells(rect) for other in self._rects.get(cell, ())
        )

    def is_clear(self, start: Spot, end: Spot) -> bool:
        """Whether a straight leader meets nothing taken."""
        return not any(
            _meets(rect, start, end)
            for cell in _cells(_span(start, end))
            for rect in self._rects.get(cell, ())
        )

    def cost(self, rect: Rect) -> float:
        """Return the cost of a label standing there."""
        met: dict[int, float] = {}
        for cell in _cells(rect):
            for costs, other in self._avoided.get(cell, ()):
                if rect.overlaps(other):
                    met[costs.number] = costs.standing
            for costs, start, end in self._lines.get(cell, ()):
                if costs.number not in met and _meets(rect, start, end):
                    met[costs.number] = costs.standing
        return sum(met.values())

    def leader_cost(self, start: Spot, end: Spot) -> float:
        """Return the cost of a straight leader; it may begin and end on what it crosses not."""
        met: dict[int, float] = {}
        for cell in _cells(_span(start, end)):
            for costs, rect in self._avoided.get(cell, ()):
                if costs.crossing and _meets(rect, start, end):
                    met[costs.number] = costs.crossing
            for costs, *line in self._lines.get(cell, ()):
                if costs.crossing and _cross(start, end, *line):
                    met[costs.number] = costs.crossing
        return sum(met.values())


class _Cost(NamedTuple):
    """What it costs to stand on something or to cross it; the number tells it from others."""

    number: int
    standing: float
    crossing: float


def beside(target: Rect, width: float, height: float) -> Iterator[tuple[Rect, Spot]]:
    """Yield rectangles of that size around the target, each with the point it faces.

    They stand off by a few gaps [mm], along every side from its middle outward.
    """
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.03, 0.97)
    for gap in (2.0, 5.0, 9.0, 14.0, 20.0, 28.0):
        for share in shares:
            x = target.x0 + share * target.width
            y = target.y0 + share * target.height
            for lower, face in (
                (target.y1 + gap, target.y1),
                (target.y0 - gap - height, target.y0),
            ):
                for left in (x - width / 2, x + gap, x - gap - width):
                    yield Rect(left, lower, left + width, lower + height), (x, face)
            for left, face in ((target.x1 + gap, target.x1), (target.x0 - gap - width, target.x0)):
                for lower in (y - height / 2, y + gap, y - gap - height):
                    yield Rect(left, lower, left + width, lower + height), (face, y)


def within(room: Rect, width: float, height: float, steps: int = 8) -> Iterator[Rect]:
    """Yield rectangles of that size inside the room, on a grid of places, nearest its middle first.

    None where the room is smaller than the size.
    """
    spare_x, spare_y = room.width - width, room.height - height
    if spare_x < 0 or spare_y < 0:
        return
    shares = [(i / steps, j / steps) for i in range(steps + 1) for j in range(steps + 1)]
    for i, j in sorted(shares, key=lambda share: (share[0] - 0.5) ** 2 + (share[1] - 0.5) ** 2):
        left, lower = room.x0 + i * spare_x, room.y0 + j * spare_y
        yield Rect(left, lower, left + width, lower + height)


def nearest_on(rect: Rect, spot: Spot) -> Spot:
    """Return the point of the rectangle nearest to the spot: where a leader leaves a label."""
    return min(max(spot[0], rect.x0), rect.x1), min(max(spot[1], rect.y0), rect.y1)


def _span(start: Spot, end: Spot) -> Rect:
    (x0, x1), (y0, y1) = sorted((start[0], end[0])), sorted((start[1], end[1]))
    return Rect(x0, y0, x1, y1)


def _cells(rect: Rect) -> Iterable[_Cell]:
    return [
        (column, row)
        for column in range(floor(rect.x0 / _CELL), floor(rect.x1 / _CELL) + 1)
        for row in range(floor(rect.y0 / _CELL), floor(rect.y1 / _CELL) + 1)
    ]


def _meets(rect: Rect, start: Spot, end: Spot) -> bool:
    """Whether the segment has a point inside the rectangle (clipping by Liang and Barsky 1984)."""
    low, high = 0.0, 1.0
    for axis, (first, last) in enumerate(((rect.x0, rect.x1), (rect.y0, rect.y1))):
        step = end[axis] - start[axis]
        if step == 0:
            if not first < start[axis] < last:
                return False
            continue
        near, far = sorted(((first - start[axis]) / step, (last - start[axis]) / step))
        low, high = max(low, near), min(high, far)
    return low < high


def _cross(start: Spot, end: Spot, other_start: Spot, other_end: Spot) -> bool:
    """Whether two segments cross at an inner point of both."""
    return (
        _side(start, end, other_start) * _side(start, end, other_end) < 0
        and _side(other_start, other_end, start) * _side(other_start, other_end, end) < 0
    )


def _side(start: Spot, end: Spot, spot: Spot) -> float:
    return (end[0] - start[0]) * (spot[1] - start[1]) - (end[1] - start[1]) * (spot[0] - start[0])
