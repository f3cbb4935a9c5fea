"""The stronger peer as a constraint model: see `placebycast`."""

from __future__ import annotations

from typing import Any

import numpy as np
from ortools.sat.python import cp_model
from placeorder import PlaceOrder, Verdict, ask_twice

from nesting.values.job import Job


def plan(job: Job, limit: float, *, casts: int) -> dict[str, Any]:
    """Ask CP-SAT for ``casts`` casts and for one fewer."""
    return ask_twice(job, limit, casts, _ask_cp_sat)


def _ask_cp_sat(order: PlaceOrder, casts: int, limit: float) -> Verdict:
    if len(order.opened) > casts:
        return "no"
    model = cp_model.CpModel()
    owner = order.instance.owner
    used = [
        [model.new_bool_var(f"place {place} in cast {cast}") for place in range(len(owner))]
        for cast in range(casts)
    ]
    for in_cast in used:
        for row in order.points.rows():
            model.add_at_most_one(in_cast[place] for place in row)
    for item, wanted in enumerate(order.instance.demand):
        own = [int(place) for place in np.flatnonzero(owner == item)]
        model.add(sum(in_cast[place] for in_cast in used for place in own) >= wanted)
        for cast, opener in enumerate(order.opened):
            if opener == item:
                model.add_exactly_one(used[cast][place] for place in own)
    for in_cast, layout in zip(used, order.greedy_by_opener, strict=False):
        for place, column in enumerate(in_cast):
            model.add_hint(column, place in layout)
    return solve(model, limit)


def solve(model: cp_model.CpModel, limit: float) -> Verdict:
    """Return whether the model has a solution."""
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = max(1.0, limit)
    status = solver.solve(model)
    answers = {cp_model.INFEASIBLE: "no", cp_model.OPTIMAL: "yes", cp_model.FEASIBLE: "yes"}
    return answers.get(status, "time")
