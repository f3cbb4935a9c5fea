"""A second opinion on the fewest casts, by a general constraint solver; run as a program.

Reads from standard input a JSON list of orders, each a list of sizes: the quantity wanted, and per
place of one panel the list of cells it takes up there, its dam allowance counted. Writes the list
of their fewest casts. A program of its own, because the constraint solver and the house's solver
bring two versions of one shared library, and the first one loaded breaks the other.
"""

from __future__ import annotations

import json
import sys
from itertools import pairwise

LIMIT_S = 30.0


def main() -> None:
    """Answer every order on standard input."""
    json.dump([fewest_casts(order) for order in json.load(sys.stdin)], sys.stdout)


def fewest_casts(order):
    """Return the proved fewest casts in which no cell is taken up twice.

    One yes-or-no variable per place and cast, casts used in order; the number of casts allowed is
    what filling one cast after the other comes to.
    """
    # Only here: where both are in one process, the other solver does not load.
    from ortools.sat.python import cp_model

    casts = range(_filled_in_turn(order))
    model = cp_model.CpModel()
    used = [model.new_bool_var(f"used {cast}") for cast in casts]
    for before, after in pairwise(used):
        model.add_implication(after, before)
    takers = {}
    for size, (quantity, places) in enumerate(order):
        chosen = {
            (place, cast): model.new_bool_var(f"{size} {place} {cast}")
            for place in range(len(places))
            for cast in casts
        }
        model.add(sum(chosen.values()) >= quantity)
        for (place, cast), variable in chosen.items():
            for cell in places[place]:
                takers.setdefault((cast, *cell), []).append(variable)
    for (cast, *_), variables in takers.items():
        model.add(sum(variables) <= used[cast])
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_time_in_seconds = LIMIT_S
    if solver.solve(model) != cp_model.OPTIMAL:
        raise RuntimeError(f"no proof after {LIMIT_S:g} s")
    return round(solver.objective_value)


def _filled_in_turn(order):
    """Return the casts needed when each panel goes into the first cast that has room for it."""
    casts = []
    for quantity, places in order:
        spots = [frozenset(map(tuple, place)) for place in places]
        for _ in range(quantity):
            found = next(
                ((cast, spot) for cast in casts for spot in spots if not cast & spot), None
            )
            if found is None:
                casts.append(set(spots[0]))
            else:
                found[0].update(found[1])
    return len(casts)


if __name__ == "__main__":
    main()
