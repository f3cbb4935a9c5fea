"""What a panel must keep clear of on a motif whose strips have no widths yet.

Ornaments count as their bounding boxes and detail as rectangles cut at every cut line, so that each
is an interval along x and one along y that moves with its segment. All of it in whole steps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from nesting.bed import Axis
from nesting.geometry import Box, slabs, subtract
from nesting.motif import AXES, Motif, segment_of


@dataclass(frozen=True, slots=True)
class Interval:
    """Ground along one axis that moves with ``segment`` and that no dam may touch.

    A panel that leaves it out has its side at least ``outer`` from it, one that holds it at least
    ``inner`` on dam sides [steps].
    """

    segment: int
    low: int
    high: int
    outer: int
    inner: int


@dataclass(frozen=True, slots=True)
class Reach:
    """What the strips along one axis can do: ``cuts`` rising, the drawing's ``extent`` [steps].

    ``least`` and ``greatest`` bound each width, ``most`` the sum of all.
    """

    cuts: tuple[int, ...]
    extent: int
    least: tuple[int, ...]
    greatest: tuple[int, ...]
    most: int

    def low(self, start: int, stop: int) -> int:
        """Return the least total of the strips from ``start`` up to, not including, ``stop``."""
        return sum(self.least[start:stop])

    def high(self, start: int, stop: int) -> int:
        """Return the greatest total of those strips that leaves the others their least."""
        others = self.low(0, start) + self.low(stop, len(self.cuts))
        return min(sum(self.greatest[start:stop]), self.most - others)


@dataclass(frozen=True, slots=True)
class Field:
    """All obstacles of a motif: the intervals of each axis, and which pairs of them are ground.

    ``spots`` are (index along x, index along y); ``ornaments`` gives the spot of each ornament in
    the liner's order.
    """

    reaches: tuple[Reach, Reach]
    intervals: tuple[tuple[Interval, ...], tuple[Interval, ...]]
    spots: tuple[tuple[int, int], ...]
    ornaments: tuple[int, ...]


def survey_motif(motif: Motif) -> Field:
    """Return the obstacles of a motif; the lay tolerance is part of every distance.

    A dam that may miss by that much takes so much more plain ground on either side.
    """
    rules, miss = motif.job.rules, motif.lay_tolerance
    outer = rules.dam_width + miss
    ornaments = [
        (ornament.outline.bounds, outer + rules.dam_clearance, rules.edge_margin + miss)
        for ornament in motif.job.liner.ornaments
    ]
    detail = [(box, outer, miss) for box in _detail(motif)]
    boxes = [*ornaments, *detail]
    along = [[_interval(motif, box, axis, keep) for box, *keep in boxes] for axis in (0, 1)]
    across, up = (tuple(sorted(set(intervals), key=_order)) for intervals in along)
    numbers = (
        {interval: number for number, interval in enumerate(intervals)}
        for intervals in (across, up)
    )
    found = [[known[each] for each in line] for known, line in zip(numbers, along, strict=True)]
    places = zip(*found, strict=True)
    spots: dict[tuple[int, int], int] = {}
    order = [spots.setdefault(place, len(spots)) for place in places]
    return Field(
        (_reach(motif, "x"), _reach(motif, "y")),
        (across, up),
        tuple(spots),
        tuple(order[: len(ornaments)]),
    )


def _order(interval: Interval) -> tuple[int, ...]:
    return interval.segment, interval.low, interval.high, interval.outer, interval.inner


def _reach(motif: Motif, axis: Axis) -> Reach:
    index = AXES.index(axis)
    strips = [motif.strips[number] for number in motif.along(axis)]
    extent = (motif.frame.width, motif.frame.height)[index]
    return Reach(
        tuple(strip.at for strip in strips),
        extent,
        tuple(strip.least for strip in strips),
        tuple(strip.greatest for strip in strips),
        motif.greatest[index] - extent,
    )


def _interval(motif: Motif, box: Box, axis: int, keep: Sequence[int]) -> Interval:
    low, high = box[axis], box[axis + 2]
    return Interval(segment_of(low, motif.cuts(AXES[axis])), low, high, *keep)


def _detail(motif: Motif) -> list[Box]:
    """Return the ground where no dam may lie as rectangles, none of them across a cut line."""
    liner = motif.job.liner
    if liner.unmarked == "blank":
        return []
    rest = subtract([liner.outline], [zone.outline for zone in liner.zones])
    boxes = [box for polygon in rest for box in slabs(polygon)]
    return [
        Box(x0, y0, x1, y1)
        for box in boxes
        for x0, x1 in _parted(box.x0, box.x1, motif.cuts("x"))
        for y0, y1 in _parted(box.y0, box.y1, motif.cuts("y"))
    ]


def _parted(low: int, high: int, cuts: Sequence[int]) -> list[tuple[int, int]]:
    inside = [at for at in cuts if low < at < high]
    return list(pairwise([low, *inside, high]))
