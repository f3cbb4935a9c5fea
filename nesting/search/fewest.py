"""Fewest casts, and at that number the fewest layouts: the whole search in a few lines."""

from dataclasses import dataclass

import numpy as np

from nesting.search.bound import MOST, thin_places
from nesting.search.casts import CastSearch
from nesting.search.fewlayouts import LayoutSearch
from nesting.search.instance import Answer, Certificate, Instance, Ints, PlaceSet
from nesting.search.known import list_known
from nesting.search.reduce import reduce_places
from nesting.search.solver import Deadline, Report, silent


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

    def layouts(self) -> list[PlaceSet]:
        """Return every layout met on the way, in places of the instance searched."""
        return [self.original(layout) for layout in self.search.pool.layouts.values()]

    def original(self, layout: PlaceSet) -> PlaceSet:
        """Return a layout of the reduced instance in places of the instance searched."""
        return tuple(int(self.kept[place]) for place in layout)


def find_casts(
    instance: Instance,
    deadline: Deadline | None = None,
    report: Report = silent,
    certificate: Certificate | None = None,
) -> FewestCasts:
    """Return the search for the fewest casts, run to its end. Every item must have a place.

    A ``certificate`` given is what is proved for more places than the instance holds.
    """
    deadline = deadline or Deadline()
    working = np.arange(len(instance.owner))
    if len(working) > MOST:
        working, proved = thin_places(instance, deadline)
        certificate = max(proved, certificate or proved, key=lambda each: each.bound)
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

    Refutes one layout, then two, and so on; nothing where places were left out of the search.
    """
    if not found.search.is_whole or below < 2 or deadline.passed:
        return 1
    search = LayoutSearch(list_known(found.search, casts, deadline), below, deadline)
    search.refute()
    return search.bound


def _fewest_layouts(
    found: FewestCasts, deadline: Deadline, report: Report
) -> tuple[list[tuple[int, PlaceSet]], int]:
    """Return the layouts with repeats, and a proved lower bound on their number."""
    search = found.search
    layouts = [search.pool.layouts[counts] for _, counts in search.best]
    if len(layouts) < 2 or deadline.passed:
        return [(times, layout) for (times, _), layout in zip(search.best, layouts, strict=True)], 1
    known = list_known(search, search.casts, deadline)
    known, indexes = known.holding(layouts, np.array([counts for _, counts in search.best]))
    best = [(times, index) for (times, _), index in zip(search.best, indexes, strict=True)]
    fewer = LayoutSearch(known, len(best), deadline, best, report)
    fewer.run()
    bound = fewer.bound if search.is_whole else 1
    return [(times, known.layout(index)) for times, index in fewer.best], bound
