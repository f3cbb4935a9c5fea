"""What a panel must keep clear of on a motif whose strips have no widths yet.

Ornaments count as the boxes of their stairs and detail as rectangles cut at every cut line, so that
each is an interval along x and one along y that moves with its segment. All of it in whole steps.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise

from nesting.maps.bans import reach_of
from nesting.shapes.geometry import Box, Polygon, is_rectilinear, slabs, subtract
from nesting.shapes.stairs import core, cover
from nesting.values.bed import AXES, Axis
from nesting.values.liner import Liner
from nesting.values.motif import Motif, segment_of

MOST_STEPS = 12
"""Most steps of one slanted ornament."""
MOST_PIECES = 36
"""Most steps of all slanted ornaments together, beyond two for each."""


@dataclass(frozen=True, slots=True, order=True)
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

    ``spots`` are (index along x, index along y); ``ornaments`` gives the spots of each ornament in
    the liner's order.
    """

    reaches: tuple[Reach, Reach]
    intervals: tuple[tuple[Interval, ...], tuple[Interval, ...]]
    spots: tuple[tuple[int, int], ...]
    ornaments: tuple[tuple[int, ...], ...]


def survey_motif(motif: Motif, *, loosely: bool = False) -> Field:
    """Return the obstacles of a motif; the lay tolerance is part of every distance.

    A dam that may miss by that much takes so much more plain ground on either side. Slanted
    outlines are taken as the stairs around them, or ``loosely`` as boxes within.
    """
    rules, miss = motif.job.rules, motif.lay_tolerance
    outer, inner = reach_of("ornament", rules)
    beside, within = reach_of("no_dam", rules)
    ornaments = [
        _boxes_of(motif, ornament.outline, loosely) for ornament in motif.job.liner.ornaments
    ]
    boxes = [(box, outer + miss, inner + miss) for each in ornaments for box in each]
    boxes += [(box, beside + miss, within + miss) for box in _detail(motif)]
    along = [[_interval(motif, box, axis, ends) for box, *ends in boxes] for axis in (0, 1)]
    across, up = (tuple(sorted(set(intervals))) for intervals in along)
    numbers = (
        {interval: number for number, interval in enumerate(intervals)}
        for intervals in (across, up)
    )
    found = [[known[each] for each in line] for known, line in zip(numbers, along, strict=True)]
    places = zip(*found, strict=True)
    spots: dict[tuple[int, int], int] = {}
    order = iter([spots.setdefault(place, len(spots)) for place in places])
    mine = tuple(tuple(islice(order, len(each))) for each in ornaments)
    return Field((_reach(motif, "x"), _reach(motif, "y")), (across, up), tuple(spots), mine)


def with_stairs(liner: Liner, motif: Motif) -> Liner:
    """Return the motif's liner, with strips or not, its slanted ornaments as the stairs taken."""
    drawn = zip(liner.ornaments, motif.job.liner.ornaments, strict=True)
    ornaments = tuple(
        replace(each, outline=cover(each.outline, steps_of(motif, old.outline)))
        for each, old in drawn
    )
    return replace(liner, ornaments=ornaments)


def steps_of(motif: Motif, outline: Polygon) -> int:
    """Return in how many steps a slanted ornament is taken, by its outline in the drawing.

    One, its box, where no dam can lie between the ornament and a corner of that: where all ground
    there is detail that no strip is near.
    """
    if not _may_lie_near(motif, outline):
        return 1
    slanted = [
        each.outline for each in motif.job.liner.ornaments if not is_rectilinear(each.outline)
    ]
    near = sum(_may_lie_near(motif, each) for each in slanted)
    return max(2, min(MOST_STEPS, MOST_PIECES // max(near, 1)))


def count_stairs(motif: Motif) -> int:
    """Return how many ornaments are taken as stairs by which a place may be lost."""
    outlines = [each.outline for each in motif.job.liner.ornaments]
    return sum(not is_rectilinear(each) and steps_of(motif, each) > 1 for each in outlines)


def _boxes_of(motif: Motif, outline: Polygon, loosely: bool) -> Sequence[Box]:
    if is_rectilinear(outline):
        return slabs(outline)
    steps = steps_of(motif, outline)
    if loosely and steps > 1:
        return core(outline, steps)
    return slabs(cover(outline, steps))


def _may_lie_near(motif: Motif, outline: Polygon) -> bool:
    """Whether a dam may come within its clearance of the corners of an outline's box."""
    if motif.job.liner.unmarked == "blank":
        return True
    reach = motif.job.rules.dam_clearance + motif.lay_tolerance
    box = outline.bounds.grown(reach, reach, reach, reach)
    crossed = any(
        low < at < high
        for axis, low, high in zip(AXES, box[:2], box[2:], strict=True)
        for at in motif.cuts(axis)
    )
    return crossed or any(zone.outline.bounds.overlaps(box) for zone in motif.job.liner.zones)


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
