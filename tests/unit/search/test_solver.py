"""The house's way to the solver: plain answers, and no value without a solution."""

import time

import numpy as np
import pytest

from nesting.search.solver import INFINITY, Deadline, TimeUpError, rows_of, silent, solve

KNAPSACK = rows_of([(range(4), [5.0, 4.0, 3.0, 2.0], -INFINITY, 9.0)])
VALUES = np.array([10.0, 7.0, 6.0, 3.0])


def hard():
    """Return a packing of many odd weights that cannot be proved at once."""
    pick = np.random.default_rng(5)
    weights = pick.integers(1000, 9999, (8, 70)).astype(float)
    rows = rows_of([(range(70), row, -INFINITY, float(row.sum() // 3)) for row in weights])
    return weights.sum(axis=0) + pick.integers(0, 99, 70), rows


def test_a_knapsack_is_solved_in_whole_numbers():
    """The first two weigh 9 and are worth 17, which bound and objective both say."""
    found = solve(VALUES, KNAPSACK, np.ones(4), maximise=True)
    assert found.status == "optimal"
    assert found.values.round().tolist() == [1, 1, 0, 0]
    assert found.objective == pytest.approx(17)
    assert found.bound == pytest.approx(17)
    assert found.duals is None


def test_a_linear_program_has_duals():
    """Three of the third fill the knapsack, worth 6 each, so one more of room is worth 2."""
    found = solve(VALUES, KNAPSACK, np.full(4, INFINITY), integer=False, maximise=True)
    assert found.objective == pytest.approx(18)
    assert found.duals.tolist() == pytest.approx([2])


def test_some_columns_may_be_whole_and_others_not():
    """Where x + y >= 2.5 with x whole and dearer: x = 0, y = 2.5."""
    rows = rows_of([([0, 1], 1.0, 2.5, INFINITY)])
    found = solve(np.array([2.0, 1.0]), rows, np.array([9.0, 9.0]), integer=np.array([True, False]))
    assert found.values.tolist() == pytest.approx([0, 2.5])
    whole = solve(np.array([2.0, 1.0]), rows, np.array([9.0, 9.0]))
    assert whole.objective == pytest.approx(3)


def test_lower_bounds_are_0_where_not_given():
    """Given, they may be below 0."""
    rows = rows_of([([0], 1.0, -5.0, INFINITY)])
    cost, upper = np.array([1.0]), np.array([9.0])
    assert solve(cost, rows, upper).objective == pytest.approx(0)
    assert solve(cost, rows, upper, lower=np.array([-9.0])).objective == pytest.approx(-5)


@pytest.mark.parametrize("integer", [True, False])
@pytest.mark.parametrize("maximise", [True, False])
def test_what_cannot_be_has_no_values(integer, maximise):
    """Its bound says that nothing is good enough, not that anything is."""
    rows = rows_of([([0], 1.0, 2.0, INFINITY)])
    cost, upper = np.array([1.0]), np.array([1.0])
    found = solve(cost, rows, upper, integer=integer, maximise=maximise)
    assert found.status == "infeasible"
    assert found.values is None
    assert found.duals is None
    assert found.bound == (-INFINITY if maximise else INFINITY)


def test_no_rows_are_no_limits():
    """Then each column goes to its own bound; of nothing at all nothing is claimed."""
    found = solve(np.array([1.0, -1.0]), rows_of([]), np.array([3.0, 4.0]))
    assert found.values.tolist() == [0, 4]
    empty = solve(np.zeros(0), rows_of([]), np.zeros(0), integer=False)
    assert (empty.status, empty.values) == ("stopped", None)


@pytest.mark.parametrize("limit", [{"deadline": Deadline(0)}, {"most_nodes": 1}])
def test_a_stopped_search_has_an_honest_bound(limit):
    """It does not call itself optimal; values, where there are any, keep the rows."""
    cost, rows = hard()
    began = time.monotonic()
    found = solve(cost, rows, np.ones(70), maximise=True, **limit)
    assert time.monotonic() - began < 5
    assert found.status == "stopped"
    if found.values is not None:
        assert found.objective == pytest.approx(cost @ found.values.round())
        assert found.bound >= found.objective - 1e-6
        for start, stop, high in zip(rows.starts, rows.starts[1:], rows.high, strict=False):
            chosen = found.values.round()[rows.columns[start:stop]]
            assert rows.values[start:stop] @ chosen <= high + 1e-6
    else:
        assert found.bound > cost.max()


def test_a_target_stops_at_the_first_solution_good_enough():
    """A bound of 18 is met without proving that 17 is best."""
    cost, rows = hard()
    target = float(cost.sum() / 6)
    found = solve(cost, rows, np.ones(70), maximise=True, target=target, deadline=Deadline(20))
    assert found.values is not None
    assert found.objective >= target


def test_a_start_is_taken_up():
    """With no time to search, what was known is the answer."""
    cost, rows = hard()
    start = np.zeros(70)
    start[[3, 9]] = 1
    found = solve(cost, rows, np.ones(70), maximise=True, start=start, most_nodes=0)
    assert found.values is not None
    assert found.objective >= cost[3] + cost[9] - 1e-6


def test_the_same_question_gets_the_same_answer():
    """One thread and a fixed seed: also where many solutions are equally good."""
    rows = rows_of([(range(12), 1.0, 0.0, 5.0), (range(6), 1.0, 0.0, 3.0)])
    first, second = (solve(np.ones(12), rows, np.ones(12), maximise=True) for _ in (1, 2))
    assert first.values.tolist() == second.values.tolist()


def test_nothing_is_printed(capfd):
    """The solver keeps its banner to itself, so that --json stays clean."""
    solve(VALUES, KNAPSACK, np.ones(4), maximise=True)
    silent("not a word")
    captured = capfd.readouterr()
    assert captured.out == captured.err == ""


# Rows


def test_rows_stand_one_after_the_other():
    """One value may serve a whole row; a row may be empty."""
    rows = rows_of([([2, 0], 1.0, 0.0, 1.0), ([], 5.0, -1.0, INFINITY), ([1], [7.0], 2.0, 3.0)])
    assert rows.starts.tolist() == [0, 2, 2, 3]
    assert rows.columns.tolist() == [2, 0, 1]
    assert rows.values.tolist() == [1, 1, 7]
    assert rows.low.tolist() == [0, -1, 2]
    assert rows.high.tolist() == [1, INFINITY, 3]
    assert rows_of([]).starts.tolist() == [0]


# Deadlines


def test_a_deadline_of_no_seconds_has_passed():
    """Without a limit it never comes."""
    assert Deadline(0).passed
    assert Deadline(-3).passed
    assert Deadline(0).left == 0
    never = Deadline()
    assert not never.passed
    assert never.left == INFINITY
    assert not Deadline(1000).passed
    assert 999 < Deadline(1000).left <= 1000


def test_within_is_the_earlier_of_two():
    """Never later than the deadline it is taken from."""
    assert 4 < Deadline().within(5).left <= 5
    assert 4 < Deadline(1000).within(5).left <= 5
    assert Deadline(2).within(5).left <= 2
    assert Deadline(0).within(5).passed


def test_effort_grows_with_the_time_allowed():
    """In proportion, and never to nothing; without a limit it is 1."""
    assert Deadline().effort == 1
    assert Deadline(0).effort == Deadline(0.001).effort > 0
    assert Deadline(240).effort == pytest.approx(2 * Deadline(120).effort)
    assert Deadline(3600).effort > 1


def test_a_deadline_that_has_come_raises_where_it_is_checked():
    """For work that has nothing to show before its end."""
    Deadline(1000).check()
    with pytest.raises(TimeUpError):
        Deadline(0).check()
