"""A few casts in one go: an integer program over every place in every cast."""

import numpy as np

from nesting.search.conflicts import Points
from nesting.search.instance import Counts, Instance, PlaceSet
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve

LARGEST = 7_000
"""No model with more columns than this is tried."""


def fill_casts(
    instance: Instance, points: Points, demand: Counts, casts: int, deadline: Deadline
) -> tuple[list[PlaceSet] | None, bool]:
    """Return one layout per cast that together meet the demand, and whether none exist.

    Gives up at once, with nothing proved, where there are too many columns. Casts are alike, so
    they are put in order of what they cover.
    """
    places = len(instance.owner)
    if not casts or casts * places > LARGEST:
        return None, False
    rows: list[Row] = []
    for cast in range(casts):
        rows += [(row + cast * places, 1.0, 0.0, 1.0) for row in points.all_rows()]
    for item, wanted in enumerate(demand):
        own = np.flatnonzero(instance.owner == item)
        columns = np.concatenate([own + cast * places for cast in range(casts)])
        rows.append((columns, 1.0, float(wanted), INFINITY))
    boxes = instance.boxes
    size = ((boxes[:, 2] - boxes[:, 0]) * (boxes[:, 3] - boxes[:, 1])).astype(np.float64)
    size /= size.max(initial=1.0)
    for cast in range(casts - 1):
        columns = np.arange(cast * places, (cast + 2) * places)
        rows.append((columns, np.concatenate([size, -size]), 0.0, INFINITY))
    wanted_at_all = np.array(demand)[instance.owner] > 0
    upper = np.tile(wanted_at_all.astype(np.float64), casts)
    found = solve(np.zeros(casts * places), rows_of(rows), upper, deadline=deadline)
    if found.values is None:
        return None, found.status == "infeasible"
    chosen = found.values.reshape(casts, places) > 0.5
    return [tuple(int(p) for p in np.flatnonzero(row)) for row in chosen], False
