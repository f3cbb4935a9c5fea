"""Fewer layouts by exchange: two layouts made one, three made two, the others left as they are."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np

from nesting.search.conflicts import find_points
from nesting.search.instance import Instance
from nesting.search.layouts import Casts, fill_slots
from nesting.search.solver import Deadline

_MOST_TRIED = 40
_LARGEST = 250
_NODES = 50


def merge_layouts(instance: Instance, casts: Casts, deadline: Deadline) -> Casts:
    """Return a schedule of as many casts in which no tried exchange saves a layout."""
    best = casts
    while True:
        fewer = _exchange(instance, best, deadline)
        if fewer is None:
            return best
        best = fewer


def _exchange(instance: Instance, casts: Casts, deadline: Deadline) -> Casts | None:
    for size in (2, 3):
        groups = list(combinations(range(len(casts)), size))
        for group in groups[:_MOST_TRIED]:
            if deadline.passed:
                return None
            kept = [entry for index, entry in enumerate(casts) if index not in group]
            repeats = sum(casts[index][0] for index in group)
            new = _refill(instance, kept, repeats, size - 1, deadline)
            if new is not None:
                return kept + new
    return None


def _refill(
    instance: Instance, kept: Casts, repeats: int, slots: int, deadline: Deadline
) -> Casts | None:
    """Return layouts for what the kept ones leave of the demand, or None where none are found."""
    left = np.array(instance.demand)
    for times, layout in kept:
        left = left - times * np.array(instance.counts(layout))
    wanted = np.maximum(left, 0)
    places = np.flatnonzero(wanted[instance.owner] > 0)
    items = tuple(
        replace(item, quantity=int(quantity))
        for item, quantity in zip(instance.items, wanted, strict=True)
    )
    part = Instance(items).only(places)
    points = find_points(part)
    found, _ = fill_slots(
        part, points, repeats, slots, deadline, largest=_LARGEST, most_nodes=_NODES
    )
    if found is None:
        return None
    return [(times, tuple(int(places[p]) for p in layout)) for times, layout in found]
