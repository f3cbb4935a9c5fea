"""Fewer layouts by exchange: a few of them for one less, the others left as they are."""

from __future__ import annotations

import random

import numpy as np

from nesting.search.known import Known
from nesting.search.layouts import Chosen
from nesting.search.repeats import RepeatSearch
from nesting.search.solver import Deadline

_GROUPS = (2, 3, 4, 5)
_PER_GROUP = 100_000
_MOST_SPLITS = 1_000
_TRIALS = 60


def exchange_layouts(known: Known, chosen: Chosen, deadline: Deadline) -> Chosen:
    """Return a choice for as many casts in which no exchange tried saves a layout.

    Groups are drawn by a fixed seed, so that the same choice is always improved in the same way.
    """
    draw = random.Random(1)
    trials = 0
    while trials < _TRIALS * deadline.effort and not deadline.passed:
        trials += 1
        size = _GROUPS[trials % len(_GROUPS)]
        if size > len(chosen):
            continue
        group = set(draw.sample(range(len(chosen)), size))
        kept = [entry for place, entry in enumerate(chosen) if place not in group]
        casts = sum(chosen[place][0] for place in group)
        fewer = _refill(known, kept, casts, size - 1, deadline)
        if fewer is not None:
            chosen, trials = kept + fewer, 0
    return chosen


def _refill(
    known: Known, kept: Chosen, casts: int, layouts: int, deadline: Deadline
) -> Chosen | None:
    """Return at most so many layouts for what the kept ones leave of the demand, or None."""
    yielded = sum((times * known.counts[index] for times, index in kept), 0 * known.most)
    slack = known.slack.at(casts, np.maximum(0, known.slack.demand - yielded))
    if not slack.demand.any():
        return []
    if (slack.left < 0).any():
        return None
    search = RepeatSearch(known.counts, known.most, slack, whole=False)
    chosen, _ = search.share(min(layouts, casts), _PER_GROUP, deadline, _MOST_SPLITS)
    return chosen or None
