"""Every layout that matters, by how many of each item it holds: the paths of a diagram, merged.

Paths that have used the same counts and lead on from the same state are one; and a path goes no
further than it can still weigh enough at all the prices given.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from nesting.search.diagram import Diagram, Level
from nesting.search.instance import Ints, PlaceSet, as_bits
from nesting.search.solver import Deadline

MOST_ROWS = 120_000
"""With more rows than this a listing goes on with the heaviest only."""

_COMPARED = 12


@dataclass(frozen=True)
class Listing:
    """Count vectors ``counts`` (n, items), none held by another, the largest first.

    ``rows`` (n,) tells where the paths end; ``before`` and ``place`` lead back, place by place.
    ``whole`` tells whether all are there that were asked for.
    """

    counts: Ints
    whole: bool
    rows: Ints
    before: Ints
    place: Ints

    def layout(self, index: int) -> PlaceSet:
        """Return a layout that holds these counts."""
        row, places = int(self.rows[index]), []
        while self.place[row] >= 0:
            places.append(int(self.place[row]))
            row = int(self.before[row])
        return tuple(sorted(places))


class _Rows(NamedTuple):
    """Ends of paths: their states, the counts so far, the row before, the place added."""

    states: Ints
    counts: Ints
    before: Ints
    place: Ints


def list_layouts(diagram: Diagram, prices: Ints, short: Ints, deadline: Deadline) -> Listing:
    """Return the layouts that fall short of the heaviest by at most ``short`` (k,) at k prices.

    ``prices`` are (k, items). Counts beyond the demand of an item are cut down to it. Where there
    are too many, less falling short is allowed, and the list may even end early.
    """
    walk = _Walk(diagram, prices, short)
    for number, level in enumerate(diagram.levels):
        walk.pass_level(number, level)
        while walk.size > MOST_ROWS and walk.short.any():
            walk.tighten()
        if walk.size > MOST_ROWS or deadline.passed:
            walk.whole = False
            break
    return walk.finish()


class _Walk:
    """Goes through a diagram level by level with all paths at once."""

    def __init__(self, diagram: Diagram, prices: Ints, short: Ints) -> None:
        self.owner = diagram.instance.owner
        self.demand = np.array(diagram.instance.demand, dtype=np.int64)
        self.prices, self.short, self.whole = prices, short, True
        self.onward = diagram.completions(prices)
        self.level_of = diagram.level_of
        self.waiting: list[list[_Rows]] = [[] for _ in range(len(diagram.levels) + 1)]
        self.passed: list[_Rows] = []
        self.rows_passed = 0
        self.size = 1
        none = np.array([-1])
        begin = _Rows(np.array([0]), np.zeros((1, len(self.demand)), dtype=np.int64), none, none)
        self.waiting[int(self.level_of[0])].append(begin)

    def pass_level(self, number: int, level: Level) -> None:
        """Send every path that stands at the level on along every arc."""
        rows = self._take(number)
        if rows is None:
            return
        first = np.searchsorted(level.states, rows.states)
        starts, ends = level.starts[first], np.append(level.starts, len(level.arc_to))[first + 1]
        many = ends - starts
        origin = np.repeat(np.arange(len(first)), many)
        arcs = np.arange(many.sum()) + np.repeat(starts - np.append(0, many.cumsum()[:-1]), many)
        to, place = level.arc_to[arcs], level.arc_place[arcs]
        counts = rows.counts[origin]
        counts[np.arange(len(arcs)), self.owner[place]] += 1
        counts = np.minimum(counts, self.demand)
        before = origin + self.rows_passed - len(first)
        self._send(self._heavy(_Rows(to, counts, before, place)))

    def tighten(self) -> None:
        """Halve what a layout may fall short by, and drop what cannot meet that."""
        self.whole, self.short = False, self.short // 2
        self.waiting = [[self._heavy(rows) for rows in chunks] for chunks in self.waiting]
        self.size = sum(len(rows.states) for chunks in self.waiting for rows in chunks)

    def _heavy(self, rows: _Rows) -> _Rows:
        weight = rows.counts @ self.prices.T + self.onward[rows.states]
        keep = (weight >= self.onward[0] - self.short).all(axis=1)
        return _Rows(*(column[keep] for column in rows))

    def finish(self) -> Listing:
        """Return what has come to the end."""
        before = self.rows_passed
        rows = self._take(len(self.waiting) - 1)
        if rows is None:
            none = np.zeros(0, dtype=np.int64)
            return Listing(none.reshape(0, len(self.demand)), False, none, none, none)
        kept = _unsurpassed(rows.counts)
        return Listing(
            rows.counts[kept],
            self.whole,
            kept + before,
            np.concatenate([passed.before for passed in self.passed]),
            np.concatenate([passed.place for passed in self.passed]),
        )

    def _take(self, number: int) -> _Rows | None:
        """Return the paths at a level, each state and counts once."""
        chunks, self.waiting[number] = self.waiting[number], []
        if not chunks:
            return None
        rows = _Rows(*(np.concatenate(columns) for columns in zip(*chunks, strict=True)))
        key = np.ascontiguousarray(np.column_stack([rows.states, rows.counts]).astype(np.int32))
        _, once = np.unique(key.view(f"V{4 * key.shape[1]}"), return_index=True)
        once.sort()
        self.size -= len(rows.states) - len(once)
        rows = _Rows(*(column[once] for column in rows))
        rows = _Rows(*(column[_best(rows)] for column in rows))
        self.size -= len(once) - len(rows.states)
        self.passed.append(rows)
        self.rows_passed += len(rows.states)
        return rows

    def _send(self, rows: _Rows) -> None:
        levels = self.level_of[rows.states]
        for level in np.unique(levels):
            self.waiting[level].append(_Rows(*(column[levels == level] for column in rows)))
        self.size += len(levels)


def _best(rows: _Rows) -> Ints:
    """Return the rows, sorted, but for most that another of the same state surpasses.

    A row is held against the few before it, when the larger of a state come first.
    """
    order = np.lexsort((-rows.counts.sum(axis=1), rows.states))
    states, counts = rows.states[order], rows.counts[order]
    keep = np.ones(len(order), dtype=np.bool_)
    for apart in range(1, min(_COMPARED, len(order) - 1) + 1):
        same = np.flatnonzero(states[apart:] == states[:-apart])
        held = (counts[same + apart] <= counts[same]).all(axis=1)
        keep[same[held] + apart] = False
    return np.sort(order[keep])


def _unsurpassed(counts: Ints) -> Ints:
    """Return the rows (n, items), all different, than which no other has as many of every item.

    For each item and number the rows with at least so many are kept as the bits of a whole number.
    """
    at_least = [
        as_bits(column >= np.arange(column.max(initial=0) + 1)[:, None]) for column in counts.T
    ]
    kept = []
    for row, its in enumerate(counts.tolist()):
        holders = -1
        for masks, count in zip(at_least, its, strict=True):
            holders &= masks[count]
        if holders == 1 << row:
            kept.append(row)
    return np.array(kept, dtype=np.int64)
