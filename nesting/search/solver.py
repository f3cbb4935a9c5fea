"""The house's way to HiGHS: arrays in, a plain answer out, no value without a solution."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Status = Literal["optimal", "infeasible", "stopped"]
INFINITY = float("inf")


class TimeUpError(Exception):
    """The deadline came before there was any answer to give."""


class Deadline:
    """A moment by which to stop; without a limit it never comes.

    ``effort`` scales limits on work (not on time) by the time allowed: 1 for a minute or no
    limit, 10 at most. Work limits give the same answer on a slow machine as on a fast one.
    """

    def __init__(self, seconds: float | None = None) -> None:
        self._end = INFINITY if seconds is None else time.monotonic() + seconds
        self.effort = 1.0 if seconds is None else min(10.0, max(0.1, seconds / 60))

    @property
    def left(self) -> float:
        """Seconds left, never below 0."""
        return max(0.0, self._end - time.monotonic())

    @property
    def passed(self) -> bool:
        """Whether the moment has come."""
        return self.left <= 0

    def check(self) -> None:
        """Raise TimeUpError where the moment has come."""
        if self.passed:
            raise TimeUpError

    def within(self, seconds: float) -> Deadline:
        """Return the earlier of this deadline and one that many seconds from now."""
        sooner = Deadline(min(seconds, self.left))
        sooner.effort = self.effort
        return sooner


@dataclass(frozen=True)
class Rows:
    """Constraints low <= A x <= high, A by rows as (starts, columns, values)."""

    starts: NDArray[np.int32]
    columns: NDArray[np.int32]
    values: Floats
    low: Floats
    high: Floats


Numbers = Sequence[float] | NDArray[np.floating[Any]]
Columns = Sequence[int] | NDArray[np.integer[Any]]
Row = tuple[Columns, Numbers | float, float, float]
"""One constraint: columns, their values or one value for all, low, high."""


def rows_of(entries: Sequence[Row]) -> Rows:
    """Return the constraints as arrays."""
    lengths = [len(columns) for columns, *_ in entries]
    starts = np.concatenate([[0], np.cumsum(lengths)]).astype(np.int32)
    columns = np.concatenate(
        [np.zeros(0, dtype=np.int32), *(np.asarray(c, dtype=np.int32) for c, *_ in entries)]
    )
    values = np.concatenate(
        [
            np.zeros(0),
            *(np.broadcast_to(np.asarray(v, dtype=float), len(c)) for c, v, *_ in entries),
        ]
    )
    low = np.array([e[2] for e in entries], dtype=float)
    high = np.array([e[3] for e in entries], dtype=float)
    return Rows(starts, columns.astype(np.int32), values.astype(float), low, high)


@dataclass(frozen=True)
class Solved:
    """What the solver says: ``values`` only where it has a solution; ``bound`` is always valid."""

    status: Status
    objective: float
    bound: float
    values: Floats | None
    duals: Floats | None = None


def solve(
    cost: Floats,
    rows: Rows,
    upper: Floats,
    *,
    lower: Floats | None = None,
    integer: bool | NDArray[np.bool_] = True,
    maximise: bool = False,
    deadline: Deadline | None = None,
    target: float | None = None,
    start: Floats | None = None,
    most_nodes: int | None = None,
) -> Solved:
    """Solve min (or max) cost x, rows, lower <= x <= upper; ``lower`` is 0 where not given.

    ``target`` stops as soon as a solution at least that good is found, ``most_nodes`` after so many
    nodes of the tree. Deterministic: one thread, a fixed seed, zero gap.
    """
    import highspy  # heavy: only commands that search pay for it

    whole = np.broadcast_to(np.asarray(integer), len(cost))
    lp = _program_of(cost, rows, np.zeros(len(cost)) if lower is None else lower, upper, whole)
    lp.sense_ = highspy.ObjSense.kMaximize if maximise else highspy.ObjSense.kMinimize
    highs: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    settings = {
        "output_flag": False,
        "threads": 1,
        "random_seed": 1,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 1e-6,
    }
    if most_nodes is not None:
        settings["mip_max_nodes"] = most_nodes
    if deadline is not None and deadline.left < INFINITY:
        settings["time_limit"] = max(deadline.left, 0.01)
    if target is not None:
        settings["objective_target"] = target
    for name, value in settings.items():
        highs.setOptionValue(name, value)
    highs.passModel(lp)
    if start is not None:
        solution = highspy.HighsSolution()
        solution.col_value = list(start)
        highs.setSolution(solution)
    highs.run()
    return _read(highs, is_mip=bool(whole.any()), maximise=maximise)


def _program_of(
    cost: Floats, rows: Rows, lower: Floats, upper: Floats, whole: NDArray[np.bool_]
) -> Any:  # noqa: ANN401  (an untyped package)
    """Return the program as the solver takes it; ``whole`` tells which columns are integers."""
    import highspy

    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(cost), len(rows.low)
    lp.col_cost_ = np.asarray(cost, dtype=float)
    lp.col_lower_ = np.asarray(lower, dtype=float)
    lp.col_upper_ = np.asarray(upper, dtype=float)
    lp.row_lower_, lp.row_upper_ = rows.low, rows.high
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_, lp.a_matrix_.index_ = rows.starts, rows.columns
    lp.a_matrix_.value_ = rows.values
    if whole.any():
        kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
        lp.integrality_ = [kinds[int(flag)] for flag in whole]
    return lp


def _read(
    highs: Any,  # noqa: ANN401  (an untyped package)
    *,
    is_mip: bool,
    maximise: bool,
) -> Solved:
    import highspy

    status = highs.getModelStatus()
    info = highs.getInfo()
    worst = INFINITY if maximise else -INFINITY
    if status == highspy.HighsModelStatus.kInfeasible:
        return Solved("infeasible", -worst, -worst, None)
    optimal = status == highspy.HighsModelStatus.kOptimal
    has_values = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    solution = highs.getSolution() if has_values else None
    values = np.array(solution.col_value) if solution else None
    duals = np.array(solution.row_dual) if solution and not is_mip else None
    objective = info.objective_function_value if values is not None else -worst
    bound = info.mip_dual_bound if is_mip else (objective if optimal else worst)
    return Solved("optimal" if optimal else "stopped", objective, bound, values, duals)


Report = Callable[[str], None]
"""Called with one line of progress."""


def silent(_: str) -> None:
    """Report nothing."""
