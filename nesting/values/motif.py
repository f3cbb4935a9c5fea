"""A motif that is still to be made: what is drawn, where plain strips may go, and what is wanted.

A plain strip runs from rim to rim, so all it does to the drawing is to move what lies beyond it.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate

from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.bed import AXES, Axis
from nesting.values.job import Job
from nesting.values.liner import BlankZone, Liner, Ornament

Widths = tuple[int, ...]
"""The width [steps] of each strip, in the order of `Motif.strips`."""


@dataclass(frozen=True, slots=True)
class Strip:
    """A cut line of the motif, where plain ground may be put in.

    It lies ``at`` [steps] along ``axis`` in the drawing; what is beyond moves away by the strip's
    width, from ``least`` to ``greatest`` [steps]. ``as_wide_as`` names a strip of equal width.
    """

    name: str
    axis: Axis
    at: int
    least: int
    greatest: int
    as_wide_as: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Ornaments that keep their places to one another: no strip parts them."""

    name: str
    ornaments: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Centring:
    """A wish: an ornament's middle is in the panel's middle along an axis, ``within`` [steps]."""

    mark: str
    ornament: str
    axis: Axis
    within: int = 0


@dataclass(frozen=True, slots=True)
class Motif:
    """The motif as drawn, with the order it is to serve.

    ``job`` holds the liner as drawn, the rules, the beds and the order; ``greatest`` is the largest
    liner (width, height) [steps]; ``lay_tolerance`` [steps] is by how much a dam laid by hand may
    miss; ``price`` is that of the rubber, for a square metre, or a square foot in inch jobs.
    """

    job: Job
    strips: tuple[Strip, ...]
    greatest: tuple[int, int]
    groups: tuple[Group, ...] = ()
    centrings: tuple[Centring, ...] = ()
    lay_tolerance: int = 0
    price: Fraction | None = None

    @property
    def frame(self) -> Box:
        """The liner as drawn, a rectangle from the datum corner."""
        return self.job.liner.outline.bounds

    def along(self, axis: Axis) -> tuple[int, ...]:
        """Return the numbers of the strips along an axis, from the datum corner on."""
        mine = [number for number, strip in enumerate(self.strips) if strip.axis == axis]
        return tuple(sorted(mine, key=lambda number: self.strips[number].at))

    def cuts(self, axis: Axis) -> list[int]:
        """Return where the strips along an axis lie in the drawing [steps], rising."""
        return [self.strips[number].at for number in self.along(axis)]


def ends_along(box: Box, axis: Axis) -> tuple[int, int]:
    """Return from where to where a box lies along an axis [steps]."""
    return (box.x0, box.x1) if axis == "x" else (box.y0, box.y1)


def shifts(motif: Motif, widths: Widths, axis: Axis) -> list[int]:
    """Return how far each segment between strips moves along the axis [steps], the first by 0."""
    return list(accumulate((widths[number] for number in motif.along(axis)), initial=0))


def segment_of(low: int, cuts: Sequence[int]) -> int:
    """Return which segment ground that begins at ``low`` is in; at a cut line it lies beyond it.

    >>> segment_of(5, [5, 9]), segment_of(4, [5, 9])
    (1, 0)
    """
    return bisect_right(cuts, low)


def make_job(motif: Motif, widths: Widths) -> Job:
    """Return the job of the liner with strips of those widths [steps], ready to be planned."""
    return replace(motif.job, liner=_widen(motif, widths))


def strip_box(motif: Motif, widths: Widths, number: int) -> Box:
    """Return the ground a strip adds to the liner; of no area where its width is 0."""
    strip = motif.strips[number]
    order = motif.along(strip.axis)
    low = strip.at + shifts(motif, widths, strip.axis)[order.index(number)]
    size = liner_size(motif, widths)
    if strip.axis == "x":
        return Box(low, 0, low + widths[number], size[1])
    return Box(0, low, size[0], low + widths[number])


def liner_size(motif: Motif, widths: Widths) -> tuple[int, int]:
    """Return the width and height [steps] of the liner with strips of those widths."""
    across, up = (shifts(motif, widths, axis)[-1] for axis in AXES)
    return motif.frame.width + across, motif.frame.height + up


def plain_run(motif: Motif, number: int) -> str:
    """Return the drawn zone that runs from rim to rim along the strip's cut line, '' for none."""
    strip, frame = motif.strips[number], motif.frame
    for zone in motif.job.liner.zones:
        x0, y0, x1, y1 = zone.outline.bounds
        if strip.axis == "x":
            through = y0 <= frame.y0 and frame.y1 <= y1 and x0 <= strip.at <= x1
        else:
            through = x0 <= frame.x0 and frame.x1 <= x1 and y0 <= strip.at <= y1
        if through:
            return zone.name
    return ""


def _widen(motif: Motif, widths: Widths) -> Liner:
    liner = motif.job.liner
    width, height = liner_size(motif, widths)
    zones = [BlankZone(zone.name, _stretch(motif, widths, zone)) for zone in liner.zones]
    zones += [
        BlankZone(motif.strips[number].name, polygon_of(strip_box(motif, widths, number)))
        for number, added in enumerate(widths)
        if added and not plain_run(motif, number)
    ]
    return replace(
        liner,
        outline=polygon_of(Box(0, 0, width, height)),
        ornaments=tuple(_move(motif, widths, ornament) for ornament in liner.ornaments),
        zones=tuple(zones),
    )


def _move(motif: Motif, widths: Widths, ornament: Ornament) -> Ornament:
    box = ornament.outline.bounds
    dx = shifts(motif, widths, "x")[segment_of(box.x0, motif.cuts("x"))]
    dy = shifts(motif, widths, "y")[segment_of(box.y0, motif.cuts("y"))]
    return replace(ornament, outline=ornament.outline.moved(dx, dy))


def _stretch(motif: Motif, widths: Widths, zone: BlankZone) -> Polygon:
    """Return a drawn zone, a rectangle, with the strips inside it and at its ends."""
    box = zone.outline.bounds
    ends: list[int] = []
    for axis, low, high in zip(AXES, box[:2], box[2:], strict=True):
        cuts, moved = motif.cuts(axis), shifts(motif, widths, axis)
        ends += [low + moved[bisect_left(cuts, low)], high + moved[bisect_right(cuts, high)]]
    return polygon_of(Box(ends[0], ends[2], ends[1], ends[3]))
