"""The least ground that must be made plain on a liner, so that a panel has a place on it.

Whatever is done to a liner, the panel then lies somewhere, and there its dams' ground is plain and
every ornament they come too near to is gone. So the least over all places of what stands in the way
is the least of any repair that leaves or takes away ornaments whole. Along x, with y held, that
area is made of straight pieces which meet where an edge of the ring comes to an edge of an
obstacle, and along y likewise: a least one lies where both do.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import count, product, starmap

import numpy as np
from numpy.typing import NDArray

from nesting.maps.bans import list_bans, ring_strips
from nesting.search.solver import Deadline, TimeUpError
from nesting.shapes.geometry import Box, Polygon, polygon_of, slabs, subtract
from nesting.shapes.stairs import core, cover
from nesting.values.bend import bend_of
from nesting.values.casts import Side, Sides
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner
from nesting.values.panels import Panel

Floats = NDArray[np.float64]
_NEVER = 2.0**52
_STAIRS = 8
"""In how many stairs the ground around a place that dams keep off is taken."""


@dataclass(frozen=True, slots=True)
class Patch:
    """What is to be made plain for a panel in its ``box``: ``ground``, and ornaments ``removed``.

    ``ground`` holds the outlines of those ornaments. ``proved`` where no place asks for less, with
    slanted ornaments left out of account, too.
    """

    mark: str
    box: Box
    sides: Sides
    ground: tuple[Polygon, ...]
    removed: tuple[str, ...]
    area: int
    proved: bool


@dataclass(frozen=True, slots=True)
class _Obstacles:
    """Boxes of detail [steps], disjoint from those of ornaments, and what each ornament weighs.

    ``shown`` ones are to be held; those and the ``kept`` ones are not to be taken away. No dam may
    meet a ``barred`` box, whatever is made plain.
    """

    detail: Floats
    barred: Floats
    ornaments: Floats
    weights: Floats
    hidden: NDArray[np.bool_]
    shown: NDArray[np.bool_]
    kept: NDArray[np.bool_]


def find_patch(job: Job, panel: Panel, kept: Collection[str], deadline: Deadline) -> Patch | None:
    """Return the least ground to be made plain for a panel; None where no place can be made.

    Ornaments it must show, and those ``kept``, stay. Only for a liner that is a rectangle; None for
    others. Raises TimeUpError where the deadline comes before it is found.
    """
    liner, rules = job.liner, job.rules
    if not liner.outline.is_box:
        return None
    size = bend_of(job, panel.bed).flat_size(panel)
    obstacles = _survey(liner, panel, kept)
    frame = liner.outline.bounds
    found = _least_of_all(frame, rules, size, obstacles, deadline)
    if found is None:
        return None
    _, x, y, sides = found
    box = Box(x, y, x + size[0], y + size[1])
    spot = [np.array([x]), np.array([y])]
    touched = _touched(spot, size, sides, rules, obstacles)[:, 0, 0]
    removed = [each for each, gone in zip(liner.ornaments, touched, strict=True) if gone]
    ground = _ground(liner, box, sides, rules, [each.outline for each in removed])
    area = sum(part.area for part in ground)
    loose = _survey(liner, panel, kept, loosely=True)
    try:
        bound = _least_of_all(frame, rules, size, loose, deadline)
    except TimeUpError:
        bound = None
    names = tuple(each.name for each in removed)
    proved = bound is not None and bound[0] >= area
    return Patch(panel.mark, box, sides, ground, names, area, proved)


def lay_patch(liner: Liner, patch: Patch) -> Liner:
    """Return the liner with the ground made plain and the ornaments taken away."""
    names = {zone.name for zone in liner.zones}
    free = (name for n in count(1) if (name := f"plain {n}") not in names)
    zones = tuple(BlankZone(next(free), part) for part in patch.ground)
    ornaments = tuple(each for each in liner.ornaments if each.name not in patch.removed)
    return replace(liner, ornaments=ornaments, zones=(*liner.zones, *zones))


def _least_of_all(
    frame: Box, rules: Rules, size: tuple[int, int], obstacles: _Obstacles, deadline: Deadline
) -> tuple[float, int, int, Sides] | None:
    """Return the least area over all sides, and where; None for no place."""
    found = []
    ends: tuple[Side, Side] = ("edge", "dam")
    for sides in starmap(Sides, product(ends, repeat=4)):
        deadline.check()
        best = _least(frame, rules, size, sides, obstacles)
        if best is not None:
            found.append((*best, sides))
    return min(found, default=None)


def _survey(
    liner: Liner, panel: Panel, kept: Collection[str], *, loosely: bool = False
) -> _Obstacles:
    """Return what may stand in the way; ``loosely`` never more than there is, else never less."""
    boxes = [each.outline.bounds for each in liner.ornaments]
    detail: list[Box] = []
    if liner.unmarked == "detail":
        zones = [each.outline for each in liner.zones if loosely or each.outline.is_box]
        plain = [polygon_of(zone.bounds) for zone in zones]
        rest = subtract([liner.outline], [*plain, *map(polygon_of, boxes)])
        detail = [box for part in rest for box in slabs(part)]
    weights = [
        0 if loosely and not each.outline.is_box else each.outline.area for each in liner.ornaments
    ]
    names = [each.name for each in liner.ornaments]
    hidden, shown, stay = (
        np.array([name in chosen for name in names], dtype=bool)
        for chosen in (panel.must_hide, panel.must_show, (*panel.must_show, *kept))
    )
    barred = [
        box
        for each in liner.keep_clear
        for ground in [Polygon(each.ground)]
        for box in (core(ground, _STAIRS) if loosely else slabs(cover(ground, _STAIRS)))
    ]
    return _Obstacles(
        np.array(detail, dtype=np.float64).reshape(-1, 4),
        np.array(barred, dtype=np.float64).reshape(-1, 4),
        np.array(boxes, dtype=np.float64).reshape(-1, 4),
        np.array(weights, dtype=np.float64),
        hidden,
        shown,
        stay & np.array([weight > 0 for weight in weights], dtype=bool) if loosely else stay,
    )


def _least(
    frame: Box, rules: Rules, size: tuple[int, int], sides: Sides, obstacles: _Obstacles
) -> tuple[float, int, int] | None:
    """Return the least area to be made plain with those sides, and where; None for no place."""
    spots = [_spots(frame, rules, size, sides, obstacles, axis) for axis in (0, 1)]
    if not len(spots[0]) or not len(spots[1]):
        return None
    cost = np.zeros((len(spots[0]), len(spots[1])))
    for strip in ring_strips(*size, sides, rules.dam_width):
        across = _overlaps(spots[0], strip.x0, strip.x1, obstacles.detail[:, [0, 2]])
        up = _overlaps(spots[1], strip.y0, strip.y1, obstacles.detail[:, [1, 3]])
        cost += across @ up.T
    touched = _touched(spots, size, sides, rules, obstacles)
    strips = ring_strips(*size, sides, rules.dam_width)
    cost += sum(_meet(spots, strips, box) for box in obstacles.barred) * _NEVER
    for gone, weight, stays in zip(touched, obstacles.weights, obstacles.kept, strict=True):
        cost += gone * (_NEVER if stays else weight)
    for box in obstacles.ornaments[obstacles.shown]:
        held = [
            (spots[axis] <= box[axis]) & (spots[axis] + size[axis] >= box[axis + 2])
            for axis in (0, 1)
        ]
        cost += ~np.logical_and.outer(*held) * _NEVER
    i, j = np.unravel_index(int(cost.argmin()), cost.shape)
    if cost[i, j] >= _NEVER:
        return None
    return float(cost[i, j]), int(spots[0][i]), int(spots[1][j])


def _spots(
    frame: Box,
    rules: Rules,
    size: tuple[int, int],
    sides: Sides,
    obstacles: _Obstacles,
    axis: int,
) -> NDArray[np.int64]:
    """Return where the panel's lower side may be least in the way: edges on edges, and ends."""
    low, high = frame[axis], frame[axis + 2] - size[axis]
    near, far = sides[2 * axis : 2 * axis + 2]
    dam = rules.dam_width
    first = low if near == "edge" else low + dam
    last = high if far == "edge" else high - dam
    if near == "edge":
        last = first if last >= first and (far == "dam" or first == last) else first - 1
    elif far == "edge":
        first = last if first <= last else last + 1
    if first > last:
        return np.zeros(0, dtype=np.int64)
    ends = [np.zeros(0)]
    for kind, strip in list_bans(*size, sides, rules):
        own = {"no_dam": obstacles.detail, "keep_clear": obstacles.barred}
        boxes = own.get(kind, obstacles.ornaments)
        faces = (axis, axis + 2)
        ends += [boxes[:, face] - strip[end] for face in faces for end in faces]
    spots = np.concatenate([[first, last], *ends]).astype(np.int64)
    return np.unique(spots[(first <= spots) & (spots <= last)])


def _overlaps(spots: NDArray[np.int64], low: int, high: int, ends: Floats) -> Floats:
    """Return how far a strip and each obstacle overlap along an axis, for each spot."""
    at = spots[:, None].astype(np.float64)
    shared: Floats = np.minimum(at + high, ends[:, 1]) - np.maximum(at + low, ends[:, 0])
    return shared.clip(min=0.0)


def _touched(
    spots: Sequence[NDArray[np.int64]],
    size: tuple[int, int],
    sides: Sides,
    rules: Rules,
    obstacles: _Obstacles,
) -> NDArray[np.bool_]:
    """Return for each ornament and spot whether it is in the way: cut, crowded, or to be hidden."""
    found = np.zeros((len(obstacles.ornaments), *map(len, spots)), dtype=bool)
    bans = list_bans(*size, sides, rules)
    for number, box in enumerate(obstacles.ornaments):
        kinds = ("ornament", "hidden") if obstacles.hidden[number] else ("ornament",)
        found[number] = _meet(spots, [strip for kind, strip in bans if kind in kinds], box)
    return found


def _meet(
    spots: Sequence[NDArray[np.int64]], strips: Sequence[Box], box: Floats
) -> NDArray[np.bool_]:
    """Return for each spot along x and along y whether a strip of the panel there meets a box."""
    ends = np.array(strips, dtype=np.int64).reshape(-1, 4)
    low, high = ([at[:, None] + ends[:, k + far] for k, at in enumerate(spots)] for far in (0, 2))
    across, up = (((low[k] < box[k + 2]) & (high[k] > box[k])).astype(np.float32) for k in (0, 1))
    met: NDArray[np.bool_] = across @ up.T > 0
    return met


def _ground(
    liner: Liner, box: Box, sides: Sides, rules: Rules, removed: Sequence[Polygon]
) -> tuple[Polygon, ...]:
    """Return the ground to be made plain: that of the dams which is not, and of ornaments."""
    ring = ring_strips(box.width, box.height, sides, rules.dam_width)
    strips = [polygon_of(strip.moved(box.x0, box.y0)) for strip in ring]
    plain = [zone.outline for zone in liner.zones]
    dams = subtract(strips, plain) if liner.unmarked == "detail" else ()
    return subtract([*dams, *removed], []) if dams or removed else ()
