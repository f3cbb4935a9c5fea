"""Fewest layouts at a number of casts: refuted from below, improved from above.

One layout, two, and so on are refuted or found by their repeats. Where that is given up, exchanges
and an integer program over the list make the schedule known better, and what lies between is tried.
"""

import random

import numpy as np

from nesting.search.instance import Ints
from nesting.search.known import Known, Slack
from nesting.search.repeats import Chosen, RepeatSearch
from nesting.search.solver import INFINITY, Deadline, Report, Row, rows_of, silent, solve

_EFFORT = 10_000_000
"""Listed layouts looked at to decide one number of layouts, where a minute is allowed."""
_LONGEST = 700
"""No integer program over more layouts is tried."""
_NODES = 100_000
"""Nodes of that program, divided by the length of the list."""


class LayoutSearch:
    """The search for fewer layouts than ``best``, or than ``below`` where only the bound counts."""

    def __init__(
        self,
        known: Known,
        below: int,
        deadline: Deadline,
        best: Chosen | None = None,
        report: Report = silent,
    ) -> None:
        self.known, self.deadline, self.report = known, deadline, report
        self.chooser = RepeatSearch(known.counts, known.most, known.slack, whole=known.whole)
        self.best = best or []
        self.below = below
        self.bound = 1

    @property
    def done(self) -> bool:
        """Whether bound and schedule meet, or time is up."""
        return self.bound >= self.below or self.deadline.passed

    def refute(self) -> None:
        """Decide one layout, two, and so on, until some number is found or given up."""
        while not self.done:
            if not self._share(self.bound):
                return
            self.bound += 1

    def run(self) -> None:
        """Refute from below, then improve from above, as long as they do not meet."""
        for step in (self.refute, self._choose, self._exchange, self._try_between):
            if self.done:
                return
            step()
            casts = self.known.slack.casts
            self.report(f"{casts} casts, {self.below} layouts, at least {self.bound}")

    def _share(self, layouts: int) -> bool:
        """Try so many layouts; keep what is found, and tell whether they are refuted."""
        effort = int(_EFFORT * self.deadline.effort)
        chosen, verdict = self.chooser.share(layouts, effort, self.deadline)
        if verdict == "found":
            self._keep(chosen)
        return verdict == "refuted"

    def _keep(self, chosen: Chosen) -> None:
        if chosen and len(chosen) < self.below:
            self.best, self.below = chosen, len(chosen)

    def _exchange(self) -> None:
        self._keep(exchange_layouts(self.known, self.best, self.deadline))

    def _choose(self) -> None:
        """Ask the integer program, where the list is short."""
        if not self.known.whole or len(self.known.counts) > _LONGEST:
            return
        nodes = int(_NODES / len(self.known.counts) * self.deadline.effort)
        chosen, bound = choose_layouts(
            self.known.counts, self.known.slack, self.bound, self.below, nodes, self.deadline
        )
        self._keep(chosen)
        if self.known.whole:
            self.bound = max(self.bound, bound)

    def _try_between(self) -> None:
        """Try what lies between the number given up and the best."""
        for layouts in range(self.bound + 1, self.below):
            if self.done or (self.best and self._found(layouts)):
                return

    def _found(self, layouts: int) -> bool:
        before = self.below
        self._share(layouts)
        return self.below < before


def choose_layouts(
    counts: Ints, slack: Slack, least: int, below: int, most_nodes: int, deadline: Deadline
) -> tuple[Chosen, int]:
    """Return the fewest of the layouts ``counts`` (n, items) that do, and a bound on their number.

    One integer program with a charge for each layout cast at all: the fixed-charge form of the
    least number of set-ups in cutting stock (Vanderbeck 2000).

    Nothing is returned where fewer than ``below`` are not found. ``least`` is a bound known before.
    A layout is cast no more often than its items ask for and the slack allows.
    """
    n, tops = len(counts), counts.max(axis=0)
    useful = -(-slack.demand // np.maximum(counts, 1)) * (counts > 0)
    most = np.minimum(slack.most_repeats(counts), useful.max(axis=1, initial=0)).astype(float)
    rows: list[Row] = [
        (np.flatnonzero(held), held[np.flatnonzero(held)], float(wanted), float(wanted + spare))
        for held, wanted, spare in zip(counts.T, slack.demand, slack.spare(tops), strict=True)
    ]
    rows += [([k, n + k], [1.0, -most[k]], -INFINITY, 0.0) for k in range(n)]
    rows.append((range(n), 1.0, 0.0, float(slack.casts)))
    rows.append((range(n, 2 * n), 1.0, float(least), below - 1.0))
    cost = np.concatenate([np.zeros(n), np.ones(n)])
    upper = np.concatenate([most, np.ones(n)])
    found = solve(
        cost, rows_of(rows), upper, target=least + 0.5, most_nodes=most_nodes, deadline=deadline
    )
    if found.status == "infeasible":
        return [], below
    bound = int(np.ceil(found.bound - 1e-6)) if np.isfinite(found.bound) else least
    if found.values is None:
        return [], max(bound, least)
    chosen = [(round(value), k) for k, value in enumerate(found.values[:n]) if value > 0.5]
    return chosen, max(least, min(bound, len(chosen)))


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
