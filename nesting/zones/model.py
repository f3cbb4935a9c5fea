"""The whole-number program of the strips: which way each need is met, and how wide the strips are.

Widths are whole numbers of a grid, so every limit on a total of strips is rounded to the grid
without loss and all data are small whole numbers. For each need and each run of strips one row
says "at least what the way taken asks", which is as tight as a row can be without cuts.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from nesting.search.solver import INFINITY, Deadline, Row, Solved, rows_of, solve
from nesting.values.bed import AXES
from nesting.values.motif import Motif, Widths
from nesting.zones.choices import TotalLimits
from nesting.zones.needs import Need
from nesting.zones.spans import Span, limit, spread, tighten


@dataclass(frozen=True, slots=True)
class Solution:
    """Widths of all strips [grid] and the way (along x, along y) each need is met."""

    widths: Widths
    ways: tuple[tuple[int, int], ...]


@dataclass(slots=True)
class _Columns:
    """The columns of the program: widths, marks of strips in use, then ways."""

    upper: list[float] = field(default_factory=list)
    lower: list[float] = field(default_factory=list)

    def add(self, count: int, low: Sequence[float], high: Sequence[float]) -> range:
        start = len(self.upper)
        self.lower += low
        self.upper += high
        return range(start, start + count)


class Program:
    """The program of one motif and its needs on a grid [steps].

    Columns are built once; each question adds its own rows and cost. A question raises TimeUpError
    where it is not answered by the deadline.
    """

    def __init__(
        self, motif: Motif, needs: Sequence[Need], grid: int, deadline: Deadline | None = None
    ) -> None:
        self.motif, self.needs, self.grid = motif, tuple(needs), grid
        self._deadline = deadline
        least = [-(-strip.least // grid) for strip in motif.strips]
        greatest = [strip.greatest // grid for strip in motif.strips]
        self.least, self.greatest = least, greatest
        self.orders = tuple(motif.along(axis) for axis in AXES)
        columns = _Columns()
        count = len(motif.strips)
        self.widths = columns.add(count, [*map(float, least)], [*map(float, greatest)])
        used = [float(low > 0) for low in least]
        self.used = columns.add(count, used, [1.0] * count)
        self._rows: list[Row] = []
        self._ways = [self._add_need(columns, need) for need in self.needs]
        self._columns = columns
        self._add_strips()

    @property
    def is_possible(self) -> bool:
        """Whether each strip and each need has something to choose from."""
        narrow = any(low > high for low, high in zip(self.least, self.greatest, strict=True))
        return not narrow and all(need.is_possible for need in self.needs)

    @property
    def has_answer(self) -> bool:
        """Whether any widths meet all needs."""
        limits = self._limits((INFINITY, INFINITY))
        return self.is_possible and self._solve(self._zeros(), limits).values is not None

    def total(self, axis: int) -> Row:
        """Return the row of the total width of the strips along an axis, without limits."""
        return [self.widths[number] for number in self.orders[axis]], 1.0, -INFINITY, INFINITY

    def least_total(
        self, axis: int, most: tuple[float, float], *, floor: float = 0.0
    ) -> tuple[int, Solution] | None:
        """Return the least total of the strips along one axis, with limits on both, and an answer.

        None where nothing keeps the limits. ``floor`` is a known lower limit of the total.
        """
        cost = self._zeros()
        cost[list(self.total(axis)[0])] = 1.0
        found = self._solve(cost, [*self._limits(most), self._at_least(axis, floor)])
        if found.values is None:
            return None
        return round(found.objective), self._read(found)

    def fewest_used(self, totals: tuple[int, int]) -> tuple[int, Solution] | None:
        """Return the fewest strips of any width at those totals, and an answer."""
        cost = self._zeros()
        cost[list(self.used)] = 1.0
        found = self._solve(cost, self._limits(totals))
        if found.values is None:
            return None
        return round(found.objective), self._read(found)

    def _zeros(self) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.zeros(len(self._columns.upper))

    def _limits(self, most: tuple[float, float]) -> list[Row]:
        return [
            (columns, value, low, most[axis])
            for axis in (0, 1)
            for columns, value, low, _ in [self.total(axis)]
            if len(columns)
        ]

    def _at_least(self, axis: int, floor: float) -> Row:
        columns, value, _, high = self.total(axis)
        return columns, value, floor if len(columns) else 0.0, high

    def _solve(self, cost: np.ndarray[tuple[int], np.dtype[np.float64]], rows: list[Row]) -> Solved:
        columns = self._columns
        upper, lower = np.array(columns.upper), np.array(columns.lower)
        program = rows_of([*self._rows, *rows])
        found = solve(cost, program, upper, lower=lower, deadline=self._deadline)
        if found.status == "stopped" and self._deadline is not None:
            self._deadline.check()
        return found

    def _read(self, found: Solved) -> Solution:
        assert found.values is not None
        values = found.values
        ways = tuple(
            (int(values[list(across)].argmax()), int(values[list(up)].argmax()))
            for across, up in self._ways
        )
        return Solution(tuple(round(values[column]) for column in self.widths), ways)

    def _add_strips(self) -> None:
        names = [strip.name for strip in self.motif.strips]
        for number, strip in enumerate(self.motif.strips):
            pair = [self.widths[number], self.used[number]]
            self._rows.append((pair, [1.0, -float(self.greatest[number])], -INFINITY, 0.0))
            if strip.as_wide_as:
                twin = self.widths[names.index(strip.as_wide_as)]
                self._rows.append(([self.widths[number], twin], [1.0, -1.0], 0.0, 0.0))
        for axis, order in enumerate(self.orders):
            frame = (self.motif.frame.width, self.motif.frame.height)[axis]
            most = (self.motif.greatest[axis] - frame) // self.grid
            if order:
                self._rows.append((self.total(axis)[0], 1.0, -INFINITY, float(most)))

    def _add_need(self, columns: _Columns, need: Need) -> tuple[range, range]:
        ranges = []
        for axis in (0, 1):
            count = len(need.ways[axis])
            taken = columns.add(count, [0.0] * count, [1.0] * count)
            ranges.append(taken)
            self._rows.append((taken, 1.0, 1.0, 1.0))
            self._add_totals(need, axis, taken)
        self._add_matches(need, ranges[0], ranges[1])
        return ranges[0], ranges[1]

    def _add_matches(self, need: Need, across: range, up: range) -> None:
        """Let a way along one axis be taken only with one along the other that it matches."""
        matches = need.matches
        for mine, others, table in ((across, up, matches), (up, across, matches.T)):
            for row in np.unique(table, axis=0):
                if row.all():
                    continue
                same = [mine[int(k)] for k in np.flatnonzero((table == row).all(axis=1))]
                fitting = [others[int(k)] for k in np.flatnonzero(row)]
                values = [1.0] * len(same) + [-1.0] * len(fitting)
                self._rows.append(([*same, *fitting], values, -INFINITY, 0.0))

    def _add_totals(self, need: Need, axis: int, taken: range) -> None:
        """Bound the totals of strips by what the way taken asks of them."""
        tables = [self._close(axis, dict(way.totals)) for way in need.ways[axis]]
        spans = {span for way in need.ways[axis] for span, _ in way.totals}
        if self.orders[axis]:
            spans.add((0, len(self.orders[axis])))
        for index, table in enumerate(tables):
            if table is None:  # the grid leaves this way nothing
                self._rows.append(([taken[index]], 1.0, 0.0, 0.0))
        for span in sorted(spans):
            strips = [self.widths[number] for number in self.orders[axis][slice(*span)]]
            limits = [table and table[span] for table in tables]
            low = min((each[0] for each in limits if each), default=0)
            high = max((each[1] for each in limits if each), default=0)
            for side, base, sign in ((0, low, 1.0), (1, high, -1.0)):
                asked = [
                    (taken[index], -sign * abs(limit[side] - base))
                    for index, limit in enumerate(limits)
                    if limit and limit[side] != base
                ]
                cells = [*((column, 1.0) for column in strips), *asked]
                names, values = zip(*cells, strict=True) if cells else ((), ())
                bounds = (float(base), INFINITY) if side == 0 else (-INFINITY, float(base))
                if strips:
                    self._rows.append((names, values, *bounds))

    def _close(
        self, axis: int, totals: dict[Span, TotalLimits]
    ) -> dict[Span, tuple[int, int]] | None:
        """Return the tightest limits on every run of strips [grid], None where they clash."""
        order = self.orders[axis]
        far = spread([self.least[n] for n in order], [self.greatest[n] for n in order])
        limit(far, list(totals.items()), self.grid)
        if not tighten(far):
            return None
        return {
            (i, j): (-int(far[j, i]), int(far[i, j]))
            for i in range(len(far))
            for j in range(i + 1, len(far))
        }
