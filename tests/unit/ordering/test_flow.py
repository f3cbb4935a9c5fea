"""Liners as a flow: rows every order keeps, and orders read from a solution."""

import numpy as np
import pytest
from shiftwork import make_work

from nesting.ordering.flow import build_flow, count_columns, read_moves
from nesting.ordering.runs import cast_runs
from nesting.ordering.shifts import Way, judge
from nesting.search.solver import solve


def test_a_solution_is_read_as_moves():
    """Two casts of one family on one liner: set out, then again."""
    flow = build_flow(make_work([0], [2], [0]), 2)
    found = solve(flow.changes, flow.rows(), flow.upper)
    moves = read_moves(flow, found.values)
    assert [(m.shift, m.liner, m.layout, m.way) for m in moves] == [
        (0, 0, 0, Way.FIRST),
        (1, 0, 0, Way.AGAIN),
    ]


@pytest.mark.parametrize(("shifts", "status"), [(3, "infeasible"), (4, "optimal")])
def test_beds_bound_the_flow(shifts, status):
    """Two liners and one bed take four shifts for four casts."""
    work = make_work([0, 1], [2, 2], [0, 0], liners=2)
    flow = build_flow(work, shifts)
    assert solve(flow.changes, flow.rows(), flow.upper).status == status


@pytest.mark.parametrize(("end", "status"), [(3, "infeasible"), (4, "optimal")])
def test_no_cast_is_demoulded_after_the_end_given(end, status):
    """Two casts of two shifts each end in shift 4."""
    flow = build_flow(make_work([0], [2], [0], gap=2), 6)
    assert solve(flow.changes, flow.rows(), flow.within(end)).status == status


def test_limits_are_rows():
    """Two families on one liner cannot do without a change."""
    flow = build_flow(make_work([0, 1], [1, 1], [0, 0]), 2)
    assert solve(flow.changes, flow.rows(changes=0), flow.upper).status == "infeasible"
    assert solve(flow.changes, flow.rows(changes=1), flow.upper).objective == 1


def test_the_flow_is_never_above_an_order():
    """The relaxed flow's changes are at most those of runs cast as they come."""
    work = make_work([0, 1, 2], [2, 2, 1], [0, 1, 0], liners=2)
    runs = cast_runs(work, (((0, 2), (1, 2)), ((2, 1),)))
    flow = build_flow(work, work.horizon)
    relaxed = solve(flow.changes, flow.rows(), flow.upper, integer=False)
    assert relaxed.objective <= judge(work, runs).changes


def test_columns_are_counted_beforehand():
    """The estimate is within a fifth of the model's columns."""
    work = make_work([0, 1, 2], [2, 2, 1], [0, 1, 0], liners=2)
    columns = len(build_flow(work, 12).arcs)
    assert np.isclose(count_columns(work, 12), columns, rtol=0.2)
