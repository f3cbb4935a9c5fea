"""Regions of strip widths: limits on totals of neighbouring strips, and which ways are left.

All widths that keep limits on the totals of runs of strips form a region: `spans` tells exactly
whether it is empty and what its least totals are.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from nesting.search.solver import INFINITY, Row, rows_of, solve
from nesting.shapes.convex import Bools, Ints
from nesting.values.bed import AXES
from nesting.values.motif import Motif, Widths
from nesting.zones.needs import Need, SpanTotals
from nesting.zones.spans import limit, moved_apart, spread, tighten

Shifts = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class WidthRegion:
    """Widths that keep limits, and the ways of all needs that some of them may meet.

    ``far[axis][i, j]`` is the most by which segment j may move beyond segment i [grid]; ``ways``
    are pairs of ways that match, by their number in `Ways`, rising. ``low`` are the shifts of the
    segments along x and along y at the least total of each.
    """

    far: tuple[Ints, Ints]
    ways: Ints
    low: tuple[Shifts, Shifts]


_EXACT = 1e-6
Cut = tuple[int, int, int, int]
"""Axis, i, j and the most [grid] by which segment j moves beyond segment i on one side of it."""


class Ways:
    """The ways of needs as arrays. The first ``musts`` needs must be met, those added may be."""

    def __init__(self, motif: Motif, needs: Sequence[Need], grid: int) -> None:
        self.motif, self.grid, self.musts = motif, grid, len(needs)
        self._orders = tuple(motif.along(axis) for axis in AXES)
        self._base = tuple(self._far(axis) for axis in (0, 1))
        self._tables = [np.zeros((0, *base.shape), dtype=np.int64) for base in self._base]
        self._taken = [np.zeros(0, dtype=np.int64) for _ in AXES]
        self.owner: Ints = np.zeros(0, dtype=np.int64)
        self._twins = list(self._find_twins())
        self._solved: dict[tuple[int, bytes], Shifts | None] = {}
        self.count = 0
        for need in needs:
            self.add(need)

    def add(self, need: Need) -> None:
        """Take one more need, which need not be met."""
        numbers = []
        for axis in (0, 1):
            tables = [self._close(axis, way.totals) for way in need.ways[axis]]
            start = len(self._tables[axis])
            numbers.append(
                [start + n if table is not None else -1 for n, table in enumerate(tables)]
            )
            fresh = [self._base[axis] if table is None else table for table in tables]
            self._tables[axis] = np.concatenate([self._tables[axis], *(t[None] for t in fresh)])
        across, up = (np.array(each, dtype=np.int64) for each in numbers)
        first, second = np.nonzero(need.matches)
        open_pairs = (across[first] >= 0) & (up[second] >= 0)
        for axis, found in enumerate((across[first], up[second])):
            self._taken[axis] = np.concatenate([self._taken[axis], found[open_pairs]])
        owner = np.full(int(open_pairs.sum()), self.count)
        self.owner = np.concatenate([self.owner, owner])
        self.count += 1

    @property
    def limits(self) -> int:
        """How many limits all the ways together have."""
        return sum(table.size for table in self._tables)

    def root(self) -> WidthRegion | None:
        """Return the region of all widths allowed, None where none meets the needs."""
        return self._narrow([base.copy() for base in self._base], np.arange(len(self.owner)))

    def refresh(self, region: WidthRegion, since: int) -> WidthRegion:
        """Return the region with what may be met of the needs added after the first ``since``."""
        fresh = np.flatnonzero(self.owner >= since)
        fitting = fresh[self._holds_some(region.far, fresh)]
        return WidthRegion(region.far, np.concatenate([region.ways, fitting]), region.low)

    def split(self, region: WidthRegion, cut: Cut) -> list[WidthRegion]:
        """Return the two parts of a region beside a cut, without those that are empty."""
        axis, i, j, most = cut
        found = []
        for start, stop, asked in ((i, j, most), (j, i, -most - 1)):
            far = [each.copy() for each in region.far]
            far[axis][start, stop] = min(far[axis][start, stop], asked)
            part = self._narrow(far, region.ways, region.low)
            if part is not None:
                found.append(part)
        return found

    def hold(self, region: WidthRegion, totals: tuple[int, int]) -> WidthRegion | None:
        """Return the part of a region where the strips come to no more than totals [grid]."""
        far = [each.copy() for each in region.far]
        for axis in (0, 1):
            far[axis][0, -1] = min(far[axis][0, -1], totals[axis])
        return self._narrow(far, region.ways)

    def possible(self, region: WidthRegion) -> Bools:
        """Return of each need whether some widths of a region may meet it."""
        return np.bincount(self.owner[region.ways], minlength=self.count) > 0

    def met(self, region: WidthRegion) -> Bools:
        """Return of each need whether the least widths of a region meet it."""
        lows = map(moved_apart, region.low)
        kept = [table >= low for table, low in zip(self._tables, lows, strict=True)]
        fits = self._keep_all(kept, region.ways)
        return np.bincount(self.owner[region.ways[fits]], minlength=self.count) > 0

    def widths(self, region: WidthRegion) -> tuple[int, ...]:
        """Return the least widths [grid] of a region, in the motif's order of strips."""
        found = [0] * len(self.motif.strips)
        for order, low in zip(self._orders, region.low, strict=True):
            for index, number in enumerate(order):
                found[number] = low[index + 1] - low[index]
        return tuple(found)

    def cut_for(self, region: WidthRegion, need: int) -> Cut:
        """Return the cut that parts a region's least widths from the way of least area of a need.

        The need is one that those widths do not meet and others in the region may.
        """
        mine = region.ways[self.owner[region.ways] == need]
        sizes = []
        for axis, extent in enumerate((self.motif.frame.width, self.motif.frame.height)):
            table = self._tables[axis][self._taken[axis][mine]]
            least = np.maximum(-table[:, -1, 0], -region.far[axis][-1, 0])
            sizes.append(extent + least * self.grid)
        best = mine[int(np.argmin(sizes[0].astype(float) * sizes[1]))]
        found: list[tuple[int, Cut]] = []
        for axis in (0, 1):
            table = self._tables[axis][self._taken[axis][best]]
            over = moved_apart(region.low[axis]) - table
            i, j = (int(n) for n in np.unravel_index(int(over.argmax()), over.shape))
            found.append((int(over[i, j]), (axis, i, j, int(table[i, j]))))
        return max(found)[1]

    def cut_for_strip(self, region: WidthRegion, most_used: int) -> Cut | None:
        """Return the cut between none and some of a strip where too many are in use, else None."""
        widths = self.widths(region)
        if sum(width > 0 for width in widths) <= most_used:
            return None
        for axis, order in enumerate(self._orders):
            for index, number in enumerate(order):
                if widths[number] and -region.far[axis][index + 1, index] <= 0:
                    return axis, index, index + 1, 0
        return None

    def cut_for_twins(self, region: WidthRegion) -> Cut | None:
        """Return the cut at the narrower of two strips that must be as wide and are not."""
        for first, second in self._twins:
            one, other = (region.low[a][n + 1] - region.low[a][n] for a, n in (first, second))
            if one != other:
                return first[0], first[1], first[1] + 1, min(one, other)
        return None

    def least_used(self, region: WidthRegion) -> int:
        """Return how many strips every liner of a region has."""
        return sum(
            int(far[index + 1, index] < 0)
            for order, far in zip(self._orders, region.far, strict=True)
            for index in range(len(order))
        )

    def _narrow(
        self, far: list[Ints], ways: Ints, known: tuple[Shifts, Shifts] | None = None
    ) -> WidthRegion | None:
        """Return a region without what no widths of it can be, None where it is empty.

        ``known`` are the least shifts of one that holds it, which stay where they are in it.
        What all ways left to a need ask alike, the region asks.
        """
        while True:
            if not self._tighten(far):
                return None
            ways = ways[self._holds_some(far, ways)]
            own = ways[: int(np.searchsorted(self.owner[ways], self.musts))]
            starts = np.searchsorted(self.owner[own], np.arange(self.musts))
            if len(np.unique(self.owner[own])) < self.musts:
                return None
            if not self.musts or not self._adopt(far, own, starts):
                break
        low = tuple(self._lowest(axis, far[axis], known and known[axis]) for axis in (0, 1))
        if low[0] is None or low[1] is None:
            return None
        return WidthRegion((far[0], far[1]), ways, (low[0], low[1]))

    def _adopt(self, far: list[Ints], own: Ints, starts: Ints) -> bool:
        changed = False
        for axis in (0, 1):
            tables = self._tables[axis][self._taken[axis][own]]
            asked = np.maximum.reduceat(tables, starts, axis=0).min(axis=0)
            if (asked < far[axis]).any():
                np.minimum(far[axis], asked, out=far[axis])
                changed = True
        return changed

    def _tighten(self, far: list[Ints]) -> bool:
        """Close the limits; False where nothing keeps them. Strips as wide share their limits."""
        while True:
            if not all(tighten(each) for each in far):
                return False
            if not sum(self._equal(far, *twins) for twins in self._twins):
                return True

    def _equal(self, far: list[Ints], first: tuple[int, int], second: tuple[int, int]) -> bool:
        changed = False
        for up in (0, 1):
            cells = [(a, (n + 1 - up, n + up)) for a, n in (first, second)]
            least = min(int(far[a][cell]) for a, cell in cells)
            for a, cell in cells:
                changed |= bool(far[a][cell] > least)
                far[a][cell] = least
        return changed

    def _holds_some(self, far: Sequence[Ints], ways: Ints) -> Bools:
        """Whether each pair of ways may be met somewhere: no limit of it clashes with another."""
        pairs = zip(self._tables, far, strict=True)
        return self._keep_all([table.transpose(0, 2, 1) + each >= 0 for table, each in pairs], ways)

    def _keep_all(self, kept: Sequence[Bools], ways: Ints) -> Bools:
        """Whether both of each pair of ways keep all their limits, told of all ways by axis."""
        across, up = (np.asarray(each.all(axis=(1, 2)), dtype=bool) for each in kept)
        fits: Bools = across[self._taken[0][ways]] & up[self._taken[1][ways]]
        return fits

    def _lowest(self, axis: int, far: Ints, known: Shifts | None) -> Shifts | None:
        """Return the shifts of least total, None where strips as wide leave none."""
        twins = [(a[1], b[1]) for a, b in self._twins if a[0] == b[0] == axis]
        low = tuple(int(-value) for value in far[:, 0])
        if all(low[a + 1] - low[a] == low[b + 1] - low[b] for a, b in twins):
            return low
        if known is not None and (moved_apart(known) <= far).all():
            return known
        key = axis, far.tobytes()
        if key not in self._solved:
            self._solved[key] = _solve_lowest(far, twins)
        return self._solved[key]

    def _far(self, axis: int) -> Ints:
        strips = [self.motif.strips[number] for number in self._orders[axis]]
        least = [-(-strip.least // self.grid) for strip in strips]
        greatest = [strip.greatest // self.grid for strip in strips]
        far = spread(least, greatest)
        frame = (self.motif.frame.width, self.motif.frame.height)[axis]
        far[0, -1] = min(far[0, -1], (self.motif.greatest[axis] - frame) // self.grid)
        return far

    def _close(self, axis: int, totals: SpanTotals) -> Ints | None:
        """Return the tightest limits of a way on every run of strips, None where they clash."""
        far = self._base[axis].copy()
        limit(far, totals, self.grid)
        return far if tighten(far) else None

    def _find_twins(self) -> Iterable[tuple[tuple[int, int], tuple[int, int]]]:
        """Yield each two strips that are as wide as (axis, number along it)."""
        at = {
            self.motif.strips[number].name: (axis, index)
            for axis, order in enumerate(self._orders)
            for index, number in enumerate(order)
        }
        for strip in self.motif.strips:
            if strip.as_wide_as:
                yield at[strip.name], at[strip.as_wide_as]


def _solve_lowest(far: Ints, twins: Sequence[tuple[int, int]]) -> Shifts | None:
    """Return the shifts of least total with strips as wide, by a small whole-number program."""
    count = len(far)
    rows: list[Row] = [
        ([i, j], [-1.0, 1.0], -float(far[j, i]), float(far[i, j]))
        for i in range(count)
        for j in range(i + 1, count)
    ]
    for a, b in twins:
        cells: dict[int, float] = {}
        for column, value in ((a + 1, 1.0), (a, -1.0), (b + 1, -1.0), (b, 1.0)):
            cells[column] = cells.get(column, 0.0) + value
        rows.append((list(cells), list(cells.values()), 0.0, 0.0))
    cost, upper = np.zeros(count), np.full(count, INFINITY)
    cost[-1], upper[0] = 1.0, 0.0
    found = solve(cost, rows_of(rows), upper, integer=False)
    if found.values is not None and (abs(found.values - found.values.round()) > _EXACT).any():
        found = solve(cost, rows_of(rows), upper)
    return None if found.values is None else tuple(round(value) for value in found.values)


def in_steps(widths: Sequence[int], grid: int) -> Widths:
    """Return widths [grid] in steps."""
    return tuple(width * grid for width in widths)
