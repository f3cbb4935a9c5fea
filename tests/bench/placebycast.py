"""The stronger peer: one program over (candidate place, cast), at K casts and at K - 1.

Asked twice, for a schedule in K casts and for the proof that K - 1 cannot do. Columns say that a
place is used in a cast; rows, that no point of the liner is covered twice in a cast and that the
order is met. Here as an integer program; `placebycast_constraints` puts the same to another solver,
in a process of its own, since the two libraries do not load together.
"""

from __future__ import annotations

from typing import Any

import highspy
import numpy as np
from numpy.typing import NDArray
from placeorder import PlaceOrder, Verdict, ask_twice

from nesting.values.job import Job


def plan(job: Job, limit: float, *, casts: int) -> dict[str, Any]:
    """Ask HiGHS for ``casts`` casts and for one fewer."""
    return ask_twice(job, limit, casts, _ask_highs)


def _ask_highs(order: PlaceOrder, casts: int, limit: float) -> Verdict:
    if len(order.opened) > casts:
        return "no"
    highs: Any = highspy.Highs()  # type: ignore[no-untyped-call]
    highs.setOptionValue("output_flag", False)
    highs.setOptionValue("time_limit", limit)
    highs.passModel(_program(order, casts))
    highs.run()
    status = highs.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return "no"
    return "yes" if status == highspy.HighsModelStatus.kOptimal else "time"


def _program(order: PlaceOrder, casts: int) -> highspy.HighsLp:
    """Return the program: points by cast, then the order, then the sizes that open casts."""
    places = len(order.instance.owner)
    rows: list[NDArray[Any]] = [
        row + cast * places for cast in range(casts) for row in order.points.rows()
    ]
    low, high = [-highspy.kHighsInf] * len(rows), [1.0] * len(rows)
    own = [np.flatnonzero(order.instance.owner == k) for k in range(len(order.instance.items))]
    for mine, wanted in zip(own, order.instance.demand, strict=True):
        everywhere = (mine[None, :] + places * np.arange(casts)[:, None]).ravel()
        rows.append(everywhere)
        low.append(float(wanted))
        high.append(highspy.kHighsInf)
    for cast, item in enumerate(order.opened):
        rows.append(own[item] + cast * places)
        low.append(1.0)
        high.append(1.0)
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = places * casts, len(rows)
    program.col_cost_ = np.zeros(places * casts)
    program.col_lower_, program.col_upper_ = np.zeros(places * casts), np.ones(places * casts)
    program.row_lower_, program.row_upper_ = np.array(low), np.array(high)
    program.integrality_ = [highspy.HighsVarType.kInteger] * (places * casts)
    program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    program.a_matrix_.start_ = np.cumsum([0, *map(len, rows)])
    program.a_matrix_.index_ = np.concatenate(rows)
    program.a_matrix_.value_ = np.ones(sum(map(len, rows)))
    return program
