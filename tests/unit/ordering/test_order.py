"""The order of the casts: the best there is, by trying all of them, and what is proved of it."""

from dataclasses import replace

import pytest
from shiftwork import late_after, make_work, random_work, try_every_order

from nesting.ordering import order as castorder
from nesting.ordering.order import Ordered, order_casts
from nesting.ordering.runs import cast_runs
from nesting.ordering.shifts import Worth, judge, least_changes
from nesting.search.solver import Deadline

SEEDS = 36


@pytest.mark.parametrize("seed", range(SEEDS))
def test_the_order_is_the_best_of_all(seed):
    """On small work every order is tried, liner by liner and shift by shift; ours is as good."""
    work = random_work(seed)
    found = order_casts(work, Deadline())
    assert (found.worth.late, found.worth.changes, found.worth.end) == try_every_order(work)
    assert found.bound == found.worth
    assert judge(work, found.moves) == found.worth


@pytest.mark.parametrize("seed", range(0, SEEDS, 2))
def test_the_flow_mends_a_poor_order(monkeypatch, seed):
    """Where trials find a poor order only, the flow finds the best one and proves it."""
    work = random_work(seed)
    one_liner = tuple([(f, work.casts_of(f)) for f in reversed(range(len(work.kind)))])
    poor = cast_runs(work, (one_liner, *[()] * (work.liners - 1)))
    monkeypatch.setattr(castorder, "try_runs", lambda *_: poor)
    found = order_casts(work, Deadline())
    assert (found.worth.late, found.worth.changes, found.worth.end) == try_every_order(work)
    assert found.bound == found.worth


def test_the_small_work_differs_in_what_matters():
    """Among it are late and punctual orders, changes and none, one liner and several."""
    works = [random_work(seed) for seed in range(SEEDS)]
    best = [try_every_order(work) for work in works]
    assert {late > 0 for late, _, _ in best} == {True, False}
    assert {min(changes, 3) for _, changes, _ in best} == {0, 1, 2, 3}
    assert {work.liners for work in works} == {1, 2, 3}
    assert sum(work.finish_first for work in works) == SEEDS // 3


def test_no_casts_are_in_order():
    """No work gives no moves, proved."""
    assert order_casts(make_work([0], [0], [0]), Deadline()) == Ordered(
        (), Worth(0, 0, 0), Worth(0, 0, 0)
    )


def test_a_day_saved_goes_before_a_change_where_that_is_asked_for():
    """A x 5, B x 1, C x 2 on two liners: A on both ends a shift sooner, for a change more."""
    work = make_work([0, 1, 2], [5, 1, 2], [0, 0, 0], liners=2, beds=[2])
    few = order_casts(work, Deadline())
    soon = order_casts(replace(work, finish_first=True), Deadline())
    assert (few.worth, few.bound) == (Worth(0, 1, 5), Worth(0, 1, 5))
    assert (soon.worth, soon.bound) == (Worth(0, 2, 4), Worth(0, 2, 4))


def test_due_dates_go_before_changes():
    """Half of A due at once and B due next: dams are re-set twice rather than B be late."""
    late = (late_after(1), late_after(2), late_after(50))
    work = make_work([0, 1, 0], [1, 1, 1], [0, 0], late=late)
    found = order_casts(work, Deadline())
    assert (found.worth, found.bound) == (Worth(0, 2, 3), Worth(0, 2, 3))
    assert [move.layout for move in found.moves] == [0, 1, 2]


def test_work_too_large_for_the_flow_still_has_an_order_and_a_bound(monkeypatch):
    """Without the flow, what the trials found stands, with the bounds that counting gives."""
    monkeypatch.setattr(castorder, "LARGEST", 0)
    late = (late_after(1), late_after(2), late_after(50))
    work = make_work([0, 1, 0], [1, 1, 1], [0, 0], late=late)
    found = order_casts(work, Deadline())
    assert found.worth == Worth(0, 2, 3)
    assert found.bound == Worth(0, least_changes(work), 3)


def test_no_time_still_gives_an_order():
    """With no time left every cast is in the order once, and no bound lies above it."""
    work = random_work(5)
    found = order_casts(work, Deadline(0))
    assert len(found.moves) == work.casts
    assert found.bound.late <= found.worth.late
    assert found.bound.changes <= found.worth.changes
    assert found.bound.end <= found.worth.end
