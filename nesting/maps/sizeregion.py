"""Every size a liner can give as a region: polygons, lines and points per number of dams.

The region's axes are width and height. It is worked out once, in flat sizes, and scaled for each
bed. A band exactly one dam wide allows one width only, which makes a line; such lines and points
are kept beside the polygons. Between slanted obstacles the region has two parts: sizes that have a
place for certain, and sizes that may have one; nothing beyond both has a place.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial

from nesting.maps.ground import Ground, survey
from nesting.maps.positions import map_positions
from nesting.maps.sizeledges import Ledge, name_ledges
from nesting.maps.sizerange import SizeBox, make_stepped, map_sizes
from nesting.maps.sizes import wish_of
from nesting.shapes.convex import Run, merged
from nesting.shapes.geometry import (
    MAX_STEPS,
    Box,
    Point,
    Polygon,
    polygon_of,
    slabs,
    subtract,
    unite,
)
from nesting.values.bed import AXES
from nesting.values.bend import Bend
from nesting.values.job import Job

_STAIRS: tuple[tuple[int, tuple[tuple[int, int], ...]], ...] = (
    (4, ((1, 2), (4, 8))),
    (8, ((1, 2), (2, 4))),
    (14, ((1, 2),)),
)
"""For up to so many slanted pieces the stairs around and inside each that are tried in turn."""
_MANY_SLANTED = ((0, 0),)


@dataclass(frozen=True, slots=True)
class RegionPart:
    """Sizes that need the same number of dams; what needs fewer is not in it, save its boundary.

    x is the width and y the height [steps]. ``lines`` are upright or lying segments and ``points``
    single sizes that no polygon of as few dams holds.
    """

    dams: int
    polygons: tuple[Polygon, ...]
    lines: tuple[Box, ...]
    points: tuple[Point, ...]

    @property
    def is_empty(self) -> bool:
        """Whether it holds no size."""
        return not (self.polygons or self.lines or self.points)


@dataclass(frozen=True, slots=True)
class OrderedSize:
    """A panel of the order by its face size [steps], and whether its nominal size has a place."""

    mark: str
    width: int
    height: int
    has_place: bool


@dataclass(frozen=True, slots=True)
class Region:
    """All sizes: ``certain`` by number of dams, and ``possible`` ones, to be tried one by one.

    ``is_fewest`` says that each size is under the fewest dams it needs; otherwise it may need
    fewer. ``limits`` is the extent of the liner itself.
    """

    limits: tuple[int, int]
    is_fewest: bool
    certain: tuple[RegionPart, ...]
    possible: RegionPart
    ledges: tuple[Ledge, ...]

    @property
    def is_exact(self) -> bool:
        """Whether every size that has a place is certain."""
        return self.possible.is_empty


def map_region(ground: Ground) -> Region:
    """Return the region of flat sizes; exact on stepped ground."""
    if ground.is_stepped:
        sizes = _sizes(ground)
        return _region(ground, sizes, sizes)
    slanted = sum(int(pieces.is_slanted().sum()) for pieces in ground.parts)
    for outer, inner in next((tried for most, tried in _STAIRS if slanted <= most), _MANY_SLANTED):
        around = make_stepped(ground, outer, around=True)
        inside = make_stepped(ground, inner, around=False)
        region = _region(around, _sizes(around), _sizes(inside))
        if region.is_exact and region.is_fewest:
            break
    return region


def scale_region(region: Region, bend: Bend) -> Region:
    """Return the region of face sizes, as ordered.

    Each coordinate is rounded once, to a step. What is longer than the bed's full circle is left
    out. Raises ValueError where the liner leaves a concave bed no radius.
    """
    if bend.bed.form == "flat" and not bend.shrink:
        return region
    most = _once_round(bend)
    width, height = (partial(bend.ordered_length, axis=axis) for axis in AXES)

    def scale(box: Box) -> Box:
        return Box(width(box.x0), height(box.y0), width(box.x1), height(box.y1))

    def scale_part(part: RegionPart) -> RegionPart:
        return RegionPart(
            part.dams,
            tuple(
                each
                for polygon in part.polygons
                for each in unite(_broad(map(scale, _within(slabs(polygon), most))))
            ),
            tuple(map(scale, _within(part.lines, most))),
            tuple((width(x), height(y)) for x, y in part.points if x <= most.x1 and y <= most.y1),
        )

    return replace(
        region,
        limits=scale(Box(0, 0, *region.limits))[2:],
        certain=tuple(map(scale_part, region.certain)),
        possible=scale_part(region.possible),
        ledges=tuple(
            replace(ledge, span=(ledge.span[0], min(ledge.span[1], across))).scaled(width, height)
            for ledge in region.ledges
            for at, across in [most[2:] if ledge.axis == "width" else most[:1:-1]]
            if ledge.at <= at and ledge.span[0] < across
        ),
    )


def list_ordered(job: Job, bend: Bend) -> tuple[OrderedSize, ...]:
    """Return the panels ordered on that bed by their face sizes, wishes heeded for the place."""
    ground = survey(job.liner, job.rules)
    found: list[OrderedSize] = []
    for panel in job.panels:
        if panel.bed == bend.bed.name:
            flat = bend.flat_size(panel)
            place = map_positions(ground, *flat, wish_of(ground, panel)).first_place()
            width, height = map(bend.ordered_length, flat, AXES)
            found.append(OrderedSize(panel.mark, width, height, place is not None))
    return tuple(found)


def part_sizes(dams: int, boxes: Sequence[SizeBox], known: Sequence[SizeBox]) -> RegionPart:
    """Return the sizes of the boxes that are not among those known, needing ``dams`` dams.

    >>> part = part_sizes(1, [SizeBox((5, 5), (1, 4), 1)], [SizeBox((5, 9), (3, 8), 0)])
    >>> part.polygons, [tuple(line) for line in part.lines], part.points
    ((), [(5, 1, 5, 3)], ())
    """
    mine, before = [_box(size) for size in boxes], [_box(size) for size in known]
    polygons = unite(subtract(_broad(mine), _broad(before)))
    lines = [*_lines(mine, before, upright=True), *_lines(mine, before, upright=False)]
    others = [box for box in (*mine, *before) if box.width or box.height]
    held = {(box.x0, box.y0) for box in before}
    points = {
        (box.x0, box.y0)
        for box in mine
        if not (box.width or box.height) and not any(other.contains(box) for other in others)
    }
    return RegionPart(dams, polygons, tuple(sorted(lines)), tuple(sorted(points - held)))


def _sizes(ground: Ground) -> tuple[SizeBox, ...]:
    return map_sizes(ground, (0, ground.frame.width), (0, ground.frame.height))


def _region(ground: Ground, certain: Sequence[SizeBox], possible: Sequence[SizeBox]) -> Region:
    numbers = sorted({box.dams for box in certain})
    parts = [
        part_sizes(
            dams,
            [box for box in certain if box.dams == dams],
            [box for box in certain if box.dams < dams],
        )
        for dams in numbers
    ]
    outline = unite(_broad([_box(size) for size in certain]))
    lines = [line for part in parts for line in part.lines]
    return Region(
        (ground.frame.width, ground.frame.height),
        all(_has_no_more(possible, certain, dams) for dams in range(4)),
        tuple(part for part in parts if not part.is_empty),
        part_sizes(4, possible, certain),
        name_ledges(ground, outline, lines),
    )


def _has_no_more(possible: Sequence[SizeBox], certain: Sequence[SizeBox], dams: int) -> bool:
    """Whether no size but the certain ones may have a place with so many dams."""
    few = [[box for box in boxes if box.dams <= dams] for boxes in (possible, certain)]
    return part_sizes(dams, *few).is_empty


def _box(size: SizeBox) -> Box:
    return Box(size.widths[0], size.heights[0], size.widths[1], size.heights[1])


def _broad(boxes: Iterable[Box]) -> list[Polygon]:
    return [polygon_of(box) for box in boxes if box.width and box.height]


def _lines(mine: Sequence[Box], before: Sequence[Box], *, upright: bool) -> list[Box]:
    """Return what the segments of one direction add to all other boxes."""

    def turned(box: Box) -> Box:
        return box if upright else Box(box.y0, box.x0, box.y1, box.x1)

    own, others = [turned(box) for box in mine], [turned(box) for box in before]
    others += [box for box in own if box.width]
    found: list[Box] = []
    for at in sorted({box.x0 for box in own if not box.width and box.height}):
        runs = merged((box.y0, box.y1) for box in own if box.x0 == box.x1 == at and box.height)
        taken = merged((box.y0, box.y1) for box in others if box.x0 <= at <= box.x1)
        for run in runs:
            found += [turned(Box(at, low, at, high)) for low, high in _rest(run, taken)]
    return found


def _rest(run: Run, taken: Sequence[Run]) -> list[Run]:
    """Return the closed runs left of one, up to the ends of what is taken.

    >>> _rest((0, 9), [(-1, 2), (5, 6)])
    [(2, 5), (6, 9)]
    """
    low, high = run
    left: list[Run] = []
    for start, stop in taken:
        if low < min(start, high):
            left.append((low, min(start, high)))
        low = max(low, stop)
    return [*left, (low, high)] if low < high else left


def _once_round(bend: Bend) -> Box:
    """Return the flat sizes that go no more than once round the bed."""
    across, up = (
        math.floor(math.tau * bend.neutral_radius) if bend.is_curved(axis) else MAX_STEPS
        for axis in AXES
    )
    return Box(0, 0, across, up)


def _within(boxes: Iterable[Box], most: Box) -> list[Box]:
    """Return the boxes cut to the widths and heights at most allowed."""
    return [
        Box(x0, y0, min(x1, most.x1), min(y1, most.y1))
        for x0, y0, x1, y1 in boxes
        if x0 <= most.x1 and y0 <= most.y1
    ]
