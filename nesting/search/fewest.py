"""Fewest casts, and at that number the fewest layouts: the whole search in a few lines."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from nesting.search.casts import CastSearch
from nesting.search.instance import Answer, Certificate, Instance, Ints, Layout
from nesting.search.layouts import fewest_of_pool, fill_slots
from nesting.search.merge import merge_layouts
from nesting.search.reduce import reduce_places
from nesting.search.solver import Deadline, Report, silent
from nesting.search.thinning import MOST, thin_places

_ENRICH = 40
_POOL_NODES = 500


@dataclass(frozen=True)
class FewestCasts:
    """A finished search for casts: the search over what it kept, and the index of what it kept."""

    search: CastSearch
    kept: Ints

    @property
    def casts(self) -> int:
        """Casts of the best schedule found."""
        return self.search.casts

    @property
    def certificate(self) -> Certificate:
        """The best proof found that so many casts are needed."""
        return self.search.certificate

    def layouts(self) -> list[Layout]:
        """Return every layout met on the way, in places of the instance searched."""
        return [self.original(layout) for layout in self.search.pool.layouts.values()]

    def original(self, layout: Layout) -> Layout:
        """Return a layout of the reduced instance in places of the instance searched."""
        return tuple(int(self.kept[place]) for place in layout)


def find_casts(
    instance: Instance, deadline: Deadline | None = None, report: Report = silent
) -> FewestCasts:
    """Return the search for the fewest casts, run to its end. Every item must have a place."""
    deadline = deadline or Deadline()
    certificate = None
    working = np.arange(len(instance.owner))
    if len(working) > MOST:
        working, certificate = thin_places(instance, deadline)
    reduced, kept = reduce_places(instance.only(working))
    kept = working[kept]
    search = CastSearch(reduced, deadline, report, certificate)
    search.run()
    return FewestCasts(search, kept)


def find_fewest(
    instance: Instance, deadline: Deadline | None = None, report: Report = silent
) -> Answer:
    """Return a schedule of fewest casts, then of fewest layouts, with what is proved of both.

    Every item must have a place. A deadline never loses the best schedule found.
    """
    deadline = deadline or Deadline()
    return find_layouts(find_casts(instance, deadline, report), deadline, report)


def find_layouts(found: FewestCasts, deadline: Deadline, report: Report = silent) -> Answer:
    """Return the schedule of fewest layouts at the casts found."""
    layouts, bound = _fewest_layouts(found, deadline, report)
    return Answer(
        tuple((repeats, found.original(layout)) for repeats, layout in layouts),
        found.certificate,
        bound,
        stopped_early=deadline.passed,
    )


def refute_layouts(found: FewestCasts, casts: int, below: int, deadline: Deadline) -> int:
    """Return a proved lower bound, at most ``below``, on the layouts of any schedule of ``casts``.

    Refutes one slot, then two, and so on; nothing where places were left out of the search.
    """
    search = found.search
    slots = 1
    if not search.is_whole:
        return slots
    while slots < below and not deadline.passed:
        _, refuted = fill_slots(search.instance, search.points, casts, slots, deadline)
        if not refuted:
            break
        slots += 1
    return slots


def _fewest_layouts(
    found: FewestCasts, deadline: Deadline, report: Report
) -> tuple[list[tuple[int, Layout]], int]:
    """Return the layouts with repeats, and a proved lower bound on their number."""
    search = found.search
    search.enrich(_ENRICH)
    known = search.best
    nodes = int(_POOL_NODES * deadline.effort)
    few = fewest_of_pool(search.pool, search.instance.demand, search.casts, nodes, deadline)
    if few is not None and len(few) < len(known):
        known = few
    best = [(repeats, search.pool.layouts[counts]) for repeats, counts in known]
    best = merge_layouts(search.instance, best, deadline)
    bound = refute_layouts(found, search.casts, len(best), deadline)
    while bound < len(best) and not deadline.passed:
        report(f"{search.casts} casts, {len(best)} layouts, at least {bound}")
        fewer, refuted = fill_slots(
            search.instance, search.points, search.casts, len(best) - 1, deadline
        )
        if refuted and search.is_whole:
            bound = len(best)
        if fewer is None:
            break
        best = fewer
    return best, bound
