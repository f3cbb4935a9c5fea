"""Casts put in order: the best order found and how much better one could be.

First the fewest panel-days late, then the fewest re-sets and bed changes, then the earliest end; or
the end before the changes, where that is asked for.
Trials find an order; bounds prove it, the cheap ones first: counting, giving shifts, sharing out,
and the exact flow of liners through the shifts, which also finds what the trials missed.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, isfinite

from nesting.ordering.bounds import least_late, share_end
from nesting.ordering.flow import Flow, build_flow, count_columns, read_moves
from nesting.ordering.runs import cast_runs, try_runs
from nesting.ordering.shifts import Move, Workload, Worth, judge, least_changes, least_end, rank
from nesting.search.solver import Deadline, Floats, solve

LARGEST = 40_000
"""No flow with more columns than this is tried."""
SMALL, FEW = 8_000, 0.1
"""Below so many columns the flow is quicker than trials, so that a few of them are enough."""
_SLIP = 1e-6


@dataclass(frozen=True, slots=True)
class Ordered:
    """An order, what it is worth, and what no order can stay below.

    ``bound`` speaks of each aim with the aims before it as they are in this order.
    """

    moves: tuple[Move, ...]
    worth: Worth
    bound: Worth


def order_casts(work: Workload, deadline: Deadline) -> Ordered:
    """Return the best order; empty for no casts."""
    if not work.casts:
        return Ordered((), Worth(0, 0, 0), Worth(0, 0, 0))
    late = least_late(work, deadline) if any(map(any, work.late)) else 0
    least = Worth(late, least_changes(work), least_end(work))
    goal = least
    if not work.finish_first:
        goal = replace(least, end=max(least.end, share_end(work, least.changes, deadline)))
    small = count_columns(work, work.horizon) <= SMALL
    moves = try_runs(work, deadline, goal, FEW if small else 1.0)
    found = _prove_late(work, Ordered(moves, judge(work, moves), least), deadline)
    if work.finish_first:
        found = _prove_end(work, found, None, deadline)
        return _prove_changes(work, found, found.worth.end, deadline)
    found = _prove_changes(work, found, None, deadline)
    return _prove_end(work, found, found.worth.changes, deadline)


def _prove_late(work: Workload, found: Ordered, deadline: Deadline) -> Ordered:
    late = found.worth.late > found.bound.late and not deadline.passed
    flow = _flow(work, work.horizon) if late else None
    if flow is None:
        return found
    relaxed = solve(flow.late, flow.rows(), flow.upper, integer=False, deadline=deadline)
    found = _bounded(found, late=_whole(relaxed.bound))
    if found.bound.late == found.worth.late:
        return found
    fresh = solve(flow.late, flow.rows(late=found.worth.late - 1), flow.upper, deadline=deadline)
    if fresh.status == "infeasible":
        return _bounded(found, late=found.worth.late)
    return _bounded(_taken(work, flow, fresh.values, found), late=_whole(fresh.bound))


def _prove_changes(work: Workload, found: Ordered, end: int | None, deadline: Deadline) -> Ordered:
    """Prove the changes, or find fewer, with an end no later than the one given."""
    while end is not None and found.worth.changes > found.bound.changes and not deadline.passed:
        if share_end(work, found.bound.changes, deadline) <= end:
            break
        found = _bounded(found, changes=found.bound.changes + 1)
    worth = found.worth
    if worth.changes <= found.bound.changes or deadline.passed:
        return found
    flow = _flow(work, work.horizon if end is None else end)
    if flow is None:
        return found
    rows = flow.rows(late=worth.late, changes=worth.changes - 1)
    upper = flow.upper if end is None else flow.within(end)
    fresh = solve(flow.changes, rows, upper, deadline=deadline)
    if fresh.status == "infeasible":
        return _bounded(found, changes=worth.changes)
    return _bounded(_taken(work, flow, fresh.values, found), changes=_whole(fresh.bound))


def _prove_end(work: Workload, found: Ordered, changes: int | None, deadline: Deadline) -> Ordered:
    """Halve what lies between bound and end until they meet, with no more changes than given."""
    if changes is not None and found.worth.end > found.bound.end:
        found = _bounded(found, end=share_end(work, changes, deadline))
    while found.worth.end > found.bound.end and not deadline.passed:
        middle = (found.worth.end + found.bound.end) // 2
        flow = _flow(work, middle)
        if flow is None:
            return found
        rows = flow.rows(found.worth.late, changes)
        fresh = solve(flow.changes, rows, flow.within(middle), deadline=deadline)
        if fresh.status == "infeasible":
            found = _bounded(found, end=middle + 1)
        elif fresh.values is None:
            return found
        else:
            found = _taken(work, flow, fresh.values, found)
    return found


def _flow(work: Workload, shifts: int) -> Flow | None:
    return build_flow(work, shifts) if count_columns(work, shifts) <= LARGEST else None


def _whole(bound: float) -> int:
    return max(0, ceil(bound - _SLIP)) if isfinite(bound) else 0


def _bounded(
    found: Ordered, late: int | None = None, changes: int | None = None, end: int | None = None
) -> Ordered:
    """Return the order with higher bounds, none above what the order is worth."""
    old, worth = found.bound, found.worth
    bound = Worth(
        min(worth.late, max(old.late, late or 0)),
        min(worth.changes, max(old.changes, changes or 0)),
        min(worth.end, max(old.end, end or 0)),
    )
    return replace(found, bound=bound)


def _taken(work: Workload, flow: Flow, values: Floats | None, found: Ordered) -> Ordered:
    """Return the order a flow shows, or the former one where it is no worse."""
    if values is None:
        return found
    moves = read_moves(flow, values)
    ways = [moves, cast_runs(work, _runs_of(work, moves))]
    best = min(ways, key=lambda way: rank(work, judge(work, way)))
    worth = judge(work, best)
    if rank(work, worth) >= rank(work, found.worth):
        return found
    return replace(found, moves=best, worth=worth)


def _runs_of(work: Workload, moves: Sequence[Move]) -> tuple[tuple[tuple[int, int], ...], ...]:
    lists: list[list[tuple[int, int]]] = [[] for _ in range(work.liners)]
    for move in moves:
        its, family = lists[move.liner], work.family[move.layout]
        if its and its[-1][0] == family:
            its[-1] = (family, its[-1][1] + 1)
        else:
            its.append((family, 1))
    return tuple(tuple(its) for its in lists)
