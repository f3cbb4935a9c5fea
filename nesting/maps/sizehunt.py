"""The nearest size that has a place, by branch and bound over where two opposite sides may lie.

Cells of pairs of lower and upper sides are cut in two, those first that promise the nearest size,
until no cell promises a nearer one than was found. A cell's promise is never less than it holds
(`sidecells`), and one pair of lines is exact. So sizes found are real, and the nearest is
proved: to the step on stepped ground, within `TOLERANCE` between slopes.
"""

import heapq
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from nesting.maps.ends import list_all_ends
from nesting.maps.ground import Ground, turn_ground_over
from nesting.maps.positions import NO_WISH, Wish
from nesting.maps.sidecells import NO_EXTENT, SideCells, make_table
from nesting.shapes.convex import Ints
from nesting.units import STEPS_PER_MM
from nesting.values.panels import Size

TOLERANCE = STEPS_PER_MM // 100
"""By how much a nearer size than the one found could be missed between slopes [steps]."""

_AT_ONCE = 128
_MOST_CELLS = 40_000
_NEVER = 2**60


@dataclass(frozen=True, slots=True)
class Hunted:
    """The nearest size found with the ``y`` of one place; no other is nearer by ``within`` [steps].

    ``size`` is None where none was found, ``within`` where the search was given up, so that nothing
    is proved.
    """

    size: Size | None
    y: int
    within: int | None

    @property
    def extent(self) -> int | None:
        """The width found."""
        return self.size and self.size[0]


class HuntingGround:
    """A ground made ready for many hunts, for one wish; ``tolerance`` as in `Hunted.within`."""

    def __init__(self, ground: Ground, wish: Wish = NO_WISH) -> None:
        self.tables = [make_table(ground, *ends, wish) for ends in list_all_ends(ground, wish)]
        self.lines = [table.lines() for table in self.tables]
        self.tolerance = 0 if ground.is_stepped else TOLERANCE


class Hunts:
    """One ground made ready for hunts of widths and of heights, for each wish once it is asked."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self._ready: dict[tuple[Wish, bool], HuntingGround] = {}

    def across(self, wish: Wish) -> HuntingGround:
        """Return the ground made ready for hunts of widths, and of both sides."""
        if (wish, False) not in self._ready:
            self._ready[wish, False] = HuntingGround(self.ground, wish)
        return self._ready[wish, False]

    def up(self, wish: Wish) -> HuntingGround:
        """Return the same with x and y exchanged, for hunts of heights."""
        if (wish, True) not in self._ready:
            self._ready[wish, True] = HuntingGround(turn_ground_over(self.ground), wish)
        return self._ready[wish, True]


def hunt_width(ready: HuntingGround, size: Size, sign: int) -> Hunted:
    """Return the nearest size of the same height, with no more width (sign -1) or no less."""
    return _Hunt(ready, size, (sign, 0)).run()


def hunt_size(
    ready: HuntingGround,
    size: Size,
    signs: tuple[int, int],
    known: Size | None = None,
    reach: tuple[int, int] = (_NEVER, _NEVER),
) -> Hunted:
    """Return the nearest size whose width and height each change one way or not at all.

    Nearest is the smallest greater change, then the smallest sum. ``signs`` are -1 where a side may
    become less and 1 where it may become more. ``known`` is a size with a place, if one is known:
    a size that is nearer by less than the tolerance is then not looked for. No side changes by
    more than its ``reach``.
    """
    first = _Hunt(ready, size, signs, reach).run(known)
    if first.size is None:
        return first
    greatest = max(abs(a - b) for a, b in zip(size, first.size, strict=True))
    cap = min(reach[0], greatest), min(reach[1], greatest)
    second = _Hunt(ready, size, signs, cap, by_sum=True).run(first.size, first.y)
    within = None if None in (first.within, second.within) else first.within
    return Hunted(second.size, second.y, within)


_Cell = tuple[int, int, int, int, int, int]
"""Change promised, number of the table, and the ends of the lower and the upper side."""


class _Hunt:
    """One search, for the least greater change or for the least sum of changes."""

    def __init__(
        self,
        ready: HuntingGround,
        size: Size,
        signs: tuple[int, int],
        reach: tuple[int, int] = (_NEVER, _NEVER),
        *,
        by_sum: bool = False,
    ) -> None:
        self.ready, self.size, self.signs, self.reach = ready, size, signs, reach
        self.by_sum = by_sum
        self.is_rigid = not signs[1]
        self.best, self.slack = _NEVER, ready.tolerance
        self.found: Size | None = None
        self.y = 0

    def run(self, known: Size | None = None, y: int = 0) -> Hunted:
        """Return the nearest size, cutting up the most promising cells first."""
        if known is not None:
            by = [abs(a - b) for a, b in zip(self.size, known, strict=True)]
            self.found, self.y, self.best = known, y, sum(by) if self.by_sum else max(by)
        heap = list(self._promising(self._whole()))
        heapq.heapify(heap)
        looked_at = 0
        while heap and heap[0][0] + self.slack < self.best:
            if looked_at > _MOST_CELLS:
                return Hunted(self.found, self.y, None)
            batch = [heapq.heappop(heap) for _ in range(min(_AT_ONCE, len(heap)))]
            parts = [part for cell in batch for part in self._cut(cell)]
            looked_at += len(parts)
            for cell in self._promising(parts):
                heapq.heappush(heap, cell)
        return Hunted(self.found, self.y, self.slack)

    def _whole(self) -> Iterator[_Cell]:
        """Yield one cell for each combination of sides: all pairs of lines there are."""
        height = self.size[1]
        for index, table in enumerate(self.ready.tables):
            (low, high), (up_low, up_high) = table.y.near, table.y.far
            if self.is_rigid:
                low, high = max(low, up_low - height), min(high, up_high - height)
                up_low, up_high = low + height, high + height
            if low <= high and up_low <= up_high:
                yield 0, index, low, high, up_low, up_high

    def _promising(self, cells: Iterable[_Cell]) -> Iterator[_Cell]:
        """Yield the cells that may hold a nearer size than the best, and note what is found."""
        ordered = sorted(cells, key=lambda cell: cell[1])
        for index, group in groupby(ordered, key=lambda cell: cell[1]):
            rows = np.array(list(group), dtype=np.int64)[:, 2:]
            promised, _ = self._ranks(index, rows)
            hopeful = promised < self.best - self.slack
            rows, promised = rows[hopeful], promised[hopeful]
            if not len(rows):
                continue
            self._try(index, rows)
            for rank, row in zip(promised.tolist(), rows.tolist(), strict=True):
                if rank < self.best - self.slack:
                    yield rank, index, *row

    def _ranks(self, index: int, rows: Ints) -> tuple[Ints, Ints]:
        """Return the least change each cell may hold, a great number for none, and its width."""
        width, height = self.size
        low, high, up_low, up_high = rows.T
        table = self.ready.tables[index]
        cells = SideCells(low, high, up_low, up_high, self.is_rigid)
        widths = table.nearest_widths(cells, width, self.signs[0])
        least, most = np.maximum(up_low - high, table.least), up_high - low
        if self.is_rigid:
            least = most = np.full(len(rows), height)
        up = np.maximum(0, height - most if self.signs[1] < 0 else least - height)
        in_reach = least <= height if self.signs[1] < 0 else most >= height
        across = np.abs(widths - width)
        good = (widths != NO_EXTENT) & in_reach & (most >= least) & (most >= table.least)
        good &= (across <= self.reach[0]) & (up <= self.reach[1])
        rank = up + across if self.by_sum else np.maximum(up, across)
        return np.where(good, rank, _NEVER), widths

    def _try(self, index: int, rows: Ints) -> None:
        """Look at one pair of lines in each cell, that of the nearest height."""
        low, high, up_low, up_high = rows.T
        tall = np.clip(self.size[1], up_low - high, up_high - low)
        if self.is_rigid:
            tall = np.full(len(rows), self.size[1])
        y = (np.maximum(low, up_low - tall) + np.minimum(high, up_high - tall)) // 2
        ranks, widths = self._ranks(index, np.stack([y, y, y + tall, y + tall], axis=1))
        at = int(ranks.argmin())
        if ranks[at] < self.best:
            self.best, self.y = int(ranks[at]), int(y[at])
            self.found = int(widths[at]), int(tall[at])

    def _cut(self, cell: _Cell) -> Iterator[_Cell]:
        """Yield a cell's parts: before, on and beyond a line across its longer side."""
        rank, index, low, high, up_low, up_high = cell
        lower, upper = self.ready.lines[index]
        if self.is_rigid:
            height = self.size[1]
            for start, stop in _parts(low, high, lower, upper - height):
                yield rank, index, start, stop, start + height, stop + height
        elif high - low >= up_high - up_low:
            for start, stop in _parts(low, high, lower):
                yield rank, index, start, stop, up_low, up_high
        else:
            for start, stop in _parts(up_low, up_high, upper):
                yield rank, index, low, high, start, stop


def _parts(low: int, high: int, *lines: Ints) -> list[tuple[int, int]]:
    """Return the parts of a range about the line nearest to its middle, or about its middle.

    >>> _parts(0, 100, np.array([30, 60, 300]), np.array([90])), _parts(5, 8)
    ([(0, 59), (60, 60), (61, 100)], [(5, 6), (7, 8)])
    """
    if low == high:
        return []
    middle = (low + high) // 2
    inside: list[int] = []
    for each in lines:
        after = int(np.searchsorted(each, middle))
        inside += [int(each[at]) for at in (after - 1, after) if 0 <= at < len(each)]
    inside = [line for line in inside if low <= line <= high]
    if not inside:
        return [(low, middle), (middle + 1, high)]
    at = min(inside, key=lambda line: (abs(line - middle), line))
    return [
        (start, stop) for start, stop in ((low, at - 1), (at, at), (at + 1, high)) if start <= stop
    ]
