"""Liners as a flow through the shifts: the model that puts casts in order exactly.

Liners are alike, so they are a flow of whole units from shift to shift. A unit stands at a node: a
bare liner; a liner on its bed with the dams of a family; the same beside its bed; one on a bed, or
beside, whose dams are to be re-set. Arcs wait, change and cast. Rows keep every node in balance,
count the casts of each layout, and keep the liners on each kind of bed within its beds.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from nesting.ordering.shifts import CHANGES, Move, Way, Workload
from nesting.search.solver import INFINITY, Floats, Row, Rows, rows_of

BARE, ON, BESIDE, LOOSE, OFF = range(5)
Node = tuple[int, int, int]
"""Shift, state, and the family (`ON`, `BESIDE`) or kind of bed (`LOOSE`) it concerns, else 0."""
END: Final[Node] = (1 << 40, BARE, 0)


@dataclass(frozen=True, slots=True)
class Passage:
    """A way through the shifts for one liner: waiting, changing, or one cast.

    ``covers`` are the shifts through which it takes a bed of ``kind``; ``layout`` is -1 where
    nothing is cast.
    """

    tail: Node
    head: Node
    kind: int = 0
    covers: range = range(0)
    layout: int = -1
    way: Way = Way.AGAIN
    shift: int = 0


@dataclass(frozen=True, slots=True)
class Flow:
    """The model of one work up to a number of shifts."""

    work: Workload
    shifts: int
    arcs: tuple[Passage, ...]
    entries: tuple[Row, ...]
    upper: Floats
    late: Floats
    changes: Floats
    freed: Floats

    def rows(self, late: int | None = None, changes: int | None = None) -> Rows:
        """Return the rows, with limits on panel-days late and on changes where they are given."""
        entries = list(self.entries)
        for cost, limit in ((self.late, late), (self.changes, changes)):
            columns = np.flatnonzero(cost)
            if limit is not None and len(columns):
                entries.append((columns, cost[columns], -INFINITY, float(limit)))
        return rows_of(entries)

    def within(self, end: int) -> Floats:
        """Return upper bounds that allow no cast demoulded after the shift ``end``."""
        return np.where(self.freed <= end, self.upper, 0.0)


def count_columns(work: Workload, shifts: int) -> int:
    """Return about how many columns the model has."""
    return shifts * (2 + 5 * len(work.kind) + len(Way) * len(work.family))


def list_arcs(work: Workload, shifts: int) -> Iterator[Passage]:
    """Yield every arc of the model, those of earlier shifts first."""
    for t in range(shifts):
        yield Passage((t, BARE, 0), (t + 1, BARE, 0))
        yield Passage((t, OFF, 0), (t + 1, OFF, 0))
        for family, kind in enumerate(work.kind):
            on, beside = (t, ON, family), (t, BESIDE, family)
            yield Passage(on, (t + 1, ON, family), kind, range(t, t + 1))
            yield Passage(on, beside)
            yield Passage(on, (t, LOOSE, kind))
            yield Passage(beside, (t + 1, BESIDE, family))
            yield Passage(beside, (t, OFF, 0))
        for layout, family in enumerate(work.family):
            if work.counts[layout]:
                yield from _cast_arcs(work, shifts, t, layout, family)


def _cast_arcs(work: Workload, shifts: int, t: int, layout: int, family: int) -> Iterator[Passage]:
    kind = work.kind[family]
    tails: dict[Way, Node] = {
        Way.FIRST: (t, BARE, 0),
        Way.AGAIN: (t, ON, family),
        Way.RESET: (t, LOOSE, kind),
        Way.MOVE: (t, BESIDE, family),
        Way.BOTH: (t, OFF, 0),
    }
    for way, tail in tails.items():
        shift = t + work.lead[way]
        if shift < shifts:
            freed = work.free[way][shift]
            first = t if way == Way.RESET else shift  # a liner re-set on its bed keeps the bed
            head = (freed, ON, family) if freed < shifts else END
            yield Passage(tail, head, kind, range(first, min(freed, shifts)), layout, way, shift)


def build_flow(work: Workload, shifts: int) -> Flow:
    """Return the model; every cast of an order must begin before the shift ``shifts``."""
    arcs = tuple(list_arcs(work, shifts))
    upper, late, changes, freed = (np.zeros(len(arcs)) for _ in range(4))
    for index, arc in enumerate(arcs):
        upper[index] = work.liners
        if arc.layout >= 0:
            freed[index] = work.free[arc.way][arc.shift]
            late[index] = work.late[arc.layout][int(freed[index])]
            changes[index] = CHANGES[arc.way]
            upper[index] = min(work.liners, work.counts[arc.layout])
    entries = (*_balance(work, arcs), *_demand(work, arcs), *_beds(work, arcs), *_cuts(work, arcs))
    return Flow(work, shifts, arcs, entries, upper, late, changes, freed)


def _balance(work: Workload, arcs: Sequence[Passage]) -> Iterator[Row]:
    """Yield for each node: no more units leave than come; one that stays has no more casts."""
    columns: dict[Node, list[tuple[int, float]]] = defaultdict(list)
    for index, arc in enumerate(arcs):
        columns[arc.tail].append((index, 1.0))
        columns[arc.head].append((index, -1.0))
    del columns[END]
    for node, entries in sorted(columns.items()):
        supply = work.liners if node == (0, BARE, 0) else 0
        yield [c for c, _ in entries], [v for _, v in entries], -INFINITY, float(supply)


def _demand(work: Workload, arcs: Sequence[Passage]) -> Iterator[Row]:
    for layout, count in enumerate(work.counts):
        columns = [index for index, arc in enumerate(arcs) if arc.layout == layout]
        if count:
            yield columns, 1.0, float(count), float(count)


def _beds(work: Workload, arcs: Sequence[Passage]) -> Iterator[Row]:
    columns: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, arc in enumerate(arcs):
        for t in arc.covers:
            columns[t, arc.kind].append(index)
    for (_, kind), indices in sorted(columns.items()):
        if work.beds[kind] < work.liners:
            yield indices, 1.0, -INFINITY, float(work.beds[kind])


def _cuts(work: Workload, arcs: Sequence[Passage]) -> Iterator[Row]:
    """Yield what every order keeps and a broken flow may not: each family is set out once."""
    setting, laying = (Way.FIRST, Way.RESET, Way.BOTH), (Way.FIRST, Way.MOVE, Way.BOTH)
    for family in sorted({f for f, n in zip(work.family, work.counts, strict=True) if n}):
        yield _at_least_one(arcs, setting, [n for n, f in enumerate(work.family) if f == family])
    for kind in range(len(work.beds)):
        layouts = [n for n, f in enumerate(work.family) if work.kind[f] == kind and work.counts[n]]
        if layouts:
            yield _at_least_one(arcs, laying, layouts)


def _at_least_one(arcs: Sequence[Passage], ways: Sequence[Way], layouts: Sequence[int]) -> Row:
    wanted = set(layouts)
    columns = [n for n, arc in enumerate(arcs) if arc.layout in wanted and arc.way in ways]
    return columns, 1.0, 1.0, INFINITY


def read_moves(flow: Flow, values: Floats) -> tuple[Move, ...]:
    """Return the casts of each liner; of liners at one node the lowest number goes first."""
    at: dict[Node, list[int]] = defaultdict(list)
    at[0, BARE, 0] = list(range(flow.work.liners))
    leaving: dict[Node, list[tuple[Passage, int]]] = defaultdict(list)
    for arc, value in zip(flow.arcs, values, strict=True):
        leaving[arc.tail].append((arc, round(value)))
    moves: list[Move] = []
    for node in sorted(leaving):
        arcs = sorted(leaving[node], key=lambda leaves: (leaves[0].layout < 0, leaves[0].layout))
        for arc, count in arcs:
            for _ in range(count):
                liner = min(at[node])
                at[node].remove(liner)
                at[arc.head].append(liner)
                if arc.layout >= 0:
                    moves.append(Move(arc.shift, liner, arc.layout, arc.way))
    return tuple(sorted(moves))
