"""Runs turned into an order as early as liners and beds allow."""

from shiftwork import make_work

from nesting.ordering.runs import cast_runs, try_runs
from nesting.ordering.shifts import Way, Worth, judge
from nesting.search.solver import Deadline


def test_runs_follow_one_another():
    """Two casts of one family, then one of another: set out, again, re-set."""
    work = make_work([0, 1], [2, 1], [0, 0])
    moves = cast_runs(work, (((0, 2), (1, 1)),))
    assert [(m.shift, m.layout, m.way) for m in moves] == [
        (0, 0, Way.FIRST),
        (1, 0, Way.AGAIN),
        (2, 1, Way.RESET),
    ]


def test_a_liner_waits_for_a_bed():
    """Two liners and one bed: the second begins when the first has left it."""
    work = make_work([0, 1], [2, 1], [0, 0], liners=2)
    moves = cast_runs(work, (((0, 2),), ((1, 1),)))
    assert [(m.shift, m.liner) for m in moves] == [(0, 0), (1, 0), (2, 1)]


def test_another_kind_of_bed_takes_both_changes():
    """The next family lies on another bed."""
    work = make_work([0, 1], [1, 1], [0, 1])
    assert [m.way for m in cast_runs(work, (((0, 1), (1, 1)),))] == [Way.FIRST, Way.BOTH]


def test_long_set_out_comes_in_the_shift_before():
    """With a lead of one shift, the first cast is in shift 1."""
    work = make_work([0], [1], [0], lead=(1, 0, 0, 0, 0))
    assert [m.shift for m in cast_runs(work, (((0, 1),),))] == [1]


def test_trials_are_the_same_each_time():
    """The same work gives the same order."""
    work = make_work([0, 1, 2], [3, 2, 2], [0, 1, 0], liners=2)
    least = Worth(0, 0, 0)
    first = try_runs(work, Deadline(), least)
    assert first == try_runs(work, Deadline(), least)
    assert judge(work, first).late == 0
    assert sorted(m.layout for m in first) == [0, 0, 0, 1, 1, 2, 2]
