"""The same panels in a cast, laid so that the least length of dam is needed.

Where two panels lie one dam apart they share that dam, so the length of a layout is the sum over
its panels less what neighbours share.
"""

from collections.abc import Mapping

import numpy as np

from nesting.search.conflicts import find_points
from nesting.search.instance import Instance, PlaceSet
from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve

LARGEST = 400
"""With more places than this a layout stays as it is."""
_NODES = 200


def shorten_dams(
    instance: Instance,
    layout: PlaceSet,
    lengths: Mapping[int, int],
    dam: int,
    deadline: Deadline,
) -> PlaceSet:
    """Return a layout of the same items with the least dam length found.

    ``lengths`` gives the length of its own dams for every place of the layout's items, ``dam`` is
    the dam allowance that the items' extents include.
    """
    places = np.flatnonzero(np.isin(instance.owner, instance.owner[list(layout)]))
    if len(places) > LARGEST:
        return layout
    part = instance.only(places)
    shared = _shared(part, dam)
    count = len(places)
    rows: list[Row] = [(row, 1.0, 0.0, 1.0) for row in find_points(part).all_rows()]
    for item, wanted in enumerate(instance.counts(layout)):
        if wanted:
            own = np.flatnonzero(instance.owner[places] == item)
            rows.append((own, 1.0, float(wanted), float(wanted)))
    for number, (a, b, _) in enumerate(shared):
        rows.append(([a, count + number], [1.0, -1.0], 0.0, INFINITY))
        rows.append(([b, count + number], [1.0, -1.0], 0.0, INFINITY))
    cost = np.array(
        [*(lengths[int(p)] for p in places), *(-saved for *_, saved in shared)], dtype=np.float64
    )
    start = np.isin(places, layout).astype(float)
    together = [start[a] * start[b] for a, b, _ in shared]
    found = solve(
        cost,
        rows_of(rows),
        np.ones(len(cost)),
        integer=np.arange(len(cost)) < count,
        deadline=deadline,
        most_nodes=_NODES,
        start=np.concatenate([start, together]),
    )
    if found.values is None:
        return layout
    return tuple(int(places[k]) for k in np.flatnonzero(found.values[:count] > 0.5))


def _shared(instance: Instance, dam: int) -> list[tuple[int, int, int]]:
    """Return the pairs of places that share a dam, with the length shared."""
    x0, y0, x1, y1 = instance.boxes.T
    pairs = []
    for near, far, low, high in ((x1, x0, y0, y1), (y1, y0, x0, x1)):
        for a, b in np.argwhere(near[:, None] == far[None, :]):
            overlap = min(high[a], high[b]) - max(low[a], low[b]) - dam
            if overlap > 0:
                pairs.append((int(a), int(b), int(overlap)))
    return pairs
