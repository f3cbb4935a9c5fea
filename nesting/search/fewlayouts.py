"""Fewest layouts at a number of casts: refuted from below, improved from above.

One layout, two, and so on are refuted or found by their repeats. Where that is given up, exchanges
and an integer program over the list make the schedule known better, and what lies between is tried.
"""

from __future__ import annotations

from nesting.search.exchange import exchange_layouts
from nesting.search.known import Known
from nesting.search.layouts import Chosen, choose_layouts
from nesting.search.repeats import RepeatSearch
from nesting.search.solver import Deadline, Report, silent

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
