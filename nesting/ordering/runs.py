"""Good orders by trial: each liner gets a list of runs, which small exchanges then improve.

A *run* is a number of casts of one family, one after another. Lists of runs are turned into an
order by casting everything as early as liners and beds allow. Nothing is proved here.
"""

import random
from collections.abc import Sequence
from dataclasses import dataclass
from math import exp
from typing import NamedTuple

from nesting.ordering.shifts import Move, Way, Workload, Worth, judge, rank
from nesting.search.solver import Deadline

CastRuns = tuple[tuple[tuple[int, int], ...], ...]
"""For each liner its runs as (family, casts)."""

EFFORT = 400_000
"""Casts placed in trials altogether, which bounds the time and not by the clock."""
_STARTS, _FEWEST, _PER_CAST, _HEAT = 3, 60, 700, 12.0


@dataclass(slots=True)
class _Liner:
    """Where a liner is in its list: the next run, casts left of it, dams, bed, when it is free."""

    runs: tuple[tuple[int, int], ...]
    next: int = 0
    left: int = 0
    free: int = 0
    dams: int = -1
    bed: int = -1

    def load(self) -> None:
        """Take up the next run where one is left."""
        self.left = self.runs[self.next][1] if self.next < len(self.runs) else 0


def cast_runs(work: Workload, runs: CastRuns) -> tuple[Move, ...]:
    """Return the order in which every liner goes through its runs as early as beds allow.

    Where several liners want the last bed, the first of them has it. A liner keeps its bed until
    its next run wants another.
    """
    liners = [_Liner(its) for its in runs]
    for liner in liners:
        liner.load()
    waiting = _by_urgency(work)
    moves: list[Move] = []
    shift = 0
    while any(liner.left for liner in liners):
        for liner in liners:
            if liner.free <= shift and not _wants_bed(work, liner, liner.bed):
                liner.bed = -1
        for number, liner in enumerate(liners):
            if liner.free <= shift and liner.left and _has_bed(work, liners, liner):
                moves.append(_cast(work, liner, number, shift, waiting))
        busy = [liner.free for liner in liners if liner.free > shift]
        shift = min(busy) if busy else shift + 1
    return tuple(sorted(moves))


def _by_urgency(work: Workload) -> list[list[int]]:
    """Return for each family its casts by layout, the last to be cast first."""
    waiting: list[list[int]] = [[] for _ in work.kind]
    order = sorted(range(len(work.counts)), key=lambda n: (-_first_late(work.late[n]), -n))
    for layout in order:
        waiting[work.family[layout]] += [layout] * work.counts[layout]
    return waiting


def _first_late(late: Sequence[int]) -> int:
    return next((shift for shift, days in enumerate(late) if days), len(late))


def _wants_bed(work: Workload, liner: _Liner, kind: int) -> bool:
    return bool(liner.left) and work.kind[liner.runs[liner.next][0]] == kind


def _has_bed(work: Workload, liners: Sequence[_Liner], liner: _Liner) -> bool:
    kind = work.kind[liner.runs[liner.next][0]]
    taken = sum(other.bed == kind for other in liners)
    return liner.bed == kind or taken < work.beds[kind]


def _cast(
    work: Workload, liner: _Liner, number: int, shift: int, waiting: Sequence[list[int]]
) -> Move:
    family = liner.runs[liner.next][0]
    way = _way_of(liner, family, work.kind[family])
    at = shift + work.lead[way]
    liner.free, liner.dams, liner.bed = work.free[way][at], family, work.kind[family]
    liner.left -= 1
    if not liner.left:
        liner.next += 1
        liner.load()
    return Move(at, number, waiting[family].pop(), way)


def _way_of(liner: _Liner, family: int, kind: int) -> Way:
    if liner.dams < 0:
        return Way.FIRST
    if liner.bed == kind:
        return Way.AGAIN if liner.dams == family else Way.RESET
    return Way.MOVE if liner.dams == family else Way.BOTH


def try_runs(
    work: Workload, deadline: Deadline, least: Worth, effort: float = 1.0
) -> tuple[Move, ...]:
    """Return the best order found by exchanges from a few starts; stops at ``least``.

    ``effort`` is by how much more or fewer trials than usual are made.
    An exchange for the worse is taken with a chance that falls as a start's trials run out
    (simulated annealing, Kirkpatrick, Gelatt and Vecchi 1983).
    """
    chance = random.Random(1)
    most = min(_PER_CAST * work.casts, EFFORT // max(1, work.casts))
    trials = max(_FEWEST, int(effort * most)) // _STARTS
    best = _start(work, by_due=True)
    best_trial = _try(work, best)
    goal = rank(work, least)
    for start in range(_STARTS):
        runs = best if start else _start(work, by_due=False)
        cost = _try(work, runs).cost
        for number in range(trials):
            if deadline.passed or best_trial.rank <= goal:
                break
            fresh = _exchange(work, runs, chance)
            trial = _try(work, fresh)
            heat = _HEAT * (1 - number / trials) ** 2 + 1e-9
            if chance.random() < exp(min(0.0, (cost - trial.cost) / heat)):
                runs, cost = fresh, trial.cost
            if (trial.rank, trial.cost) < (best_trial.rank, best_trial.cost):
                best, best_trial = fresh, trial
    return cast_runs(work, best)


class _Trial(NamedTuple):
    """How runs are judged: by ``rank`` in the end, by ``cost`` among exchanges."""

    rank: tuple[int, int, int]
    cost: float


def _try(work: Workload, runs: CastRuns) -> _Trial:
    moves = cast_runs(work, runs)
    worth = judge(work, moves)
    ends = sum(work.free[move.way][move.shift] ** 2 for move in moves)
    change, shift = (3.0, 20.0) if work.finish_first else (20.0, 1.0)
    cost = 40.0 * worth.late + change * worth.changes + shift * worth.end
    return _Trial(rank(work, worth), cost + ends / (worth.end**2 + 1))


def _start(work: Workload, *, by_due: bool) -> CastRuns:
    """Return one run per family, each put where the liner has least to do, kind by kind."""
    dues = [len(work.late[0])] * len(work.kind)
    for layout, family in enumerate(work.family):
        dues[family] = min(dues[family], _first_late(work.late[layout]))
    casts = [work.casts_of(family) for family in range(len(work.kind))]
    order = [family for family in range(len(work.kind)) if casts[family]]
    order.sort(key=lambda f: (dues[f], work.kind[f]) if by_due else (work.kind[f], -casts[f]))
    lists: list[list[tuple[int, int]]] = [[] for _ in range(work.liners)]
    loads = [0] * work.liners
    for family in order:
        liner = loads.index(min(loads))
        lists[liner].append((family, casts[family]))
        loads[liner] += casts[family]
    return tuple(tuple(runs) for runs in lists)


def _exchange(work: Workload, runs: CastRuns, chance: random.Random) -> CastRuns:
    """Return the runs with one run, or part of one, moved or exchanged with another."""
    lists = [list(its) for its in runs]
    filled = [number for number, its in enumerate(lists) if its]
    source = chance.choice(filled)
    at = chance.randrange(len(lists[source]))
    target = chance.randrange(work.liners)
    kind_of_exchange = chance.random()
    if kind_of_exchange < 0.4 and lists[target]:
        other = chance.randrange(len(lists[target]))
        lists[source][at], lists[target][other] = lists[target][other], lists[source][at]
    else:
        family, casts = lists[source][at]
        part = casts if kind_of_exchange < 0.8 else chance.randint(1, casts)
        lists[source][at : at + 1] = [(family, casts - part)] if part < casts else []
        lists[target].insert(chance.randint(0, len(lists[target])), (family, part))
    return tuple(_merged(its) for its in lists)


def _merged(runs: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
    """Return the runs with neighbours of one family joined."""
    merged: list[tuple[int, int]] = []
    for family, casts in runs:
        if merged and merged[-1][0] == family:
            casts += merged.pop()[1]
        merged.append((family, casts))
    return tuple(merged)
