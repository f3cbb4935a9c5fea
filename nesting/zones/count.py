"""How many casts the order takes on one liner, with dams that may miss by the lay tolerance."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from nesting.maps.candidates import find_candidates
from nesting.maps.ground import Ground, survey
from nesting.maps.positions import PositionMap, Sheet, Wish, map_positions
from nesting.maps.sizes import wish_of
from nesting.search.fewest import find_casts
from nesting.search.instance import Instance, Item
from nesting.search.solver import INFINITY, Deadline
from nesting.shapes.geometry import Box
from nesting.values.bend import bend_of
from nesting.values.motif import Motif, Widths, make_job
from nesting.zones.field import with_stairs

_SECONDS = 10.0


@dataclass(frozen=True, slots=True)
class Count:
    """Casts that make the order, and a number of casts that it cannot stay below."""

    casts: int
    least: int


Instances = list[tuple[tuple[int, ...], Instance]]
"""For each bed its panels, by their number in the order, and where each may lie."""


def count_casts(
    motif: Motif, widths: Widths, known: Instances | None = None, left: float = INFINITY
) -> Count:
    """Return the casts of the order with strips of those widths [steps], in the time left [s].

    ``known`` are the instances of those widths, where they were listed before.

    Gaps between panels may be of any width from one dam on. Each dam may be off by the lay
    tolerance either way. Slanted ornaments are taken as the stairs around them, which only takes
    places away. Every size has a place.
    """
    casts = least = 0
    for _, instance in known or list_instances(motif, widths):
        found = find_casts(instance, Deadline(min(_SECONDS, left)))
        casts, least = casts + found.casts, least + found.certificate.bound
    return Count(casts, least)


def list_instances(motif: Motif, widths: Widths) -> Instances:
    """Return where the panels of each bed may lie.

    Strips have those widths [steps]; all else is as in `count_casts`.
    """
    job, miss = make_job(motif, widths), motif.lay_tolerance
    wide = replace(job.rules, dam_width=job.rules.dam_width + 2 * miss)
    ground = survey(with_stairs(job.liner, motif), wide)
    dam = job.rules.dam_width
    found: Instances = []
    for bed in job.beds:
        numbers = tuple(n for n, panel in enumerate(job.panels) if panel.bed == bed.name)
        panels = [job.panels[number] for number in numbers]
        if not panels:
            continue
        bend = bend_of(job, bed.name)
        maps = [
            map_loosely(ground, *bend.flat_size(panel), wish_of(ground, panel), miss)
            for panel in panels
        ]
        places = find_candidates(maps, dam, ground.frame)
        items = (
            Item(each.width + dam, each.height + dam, panel.quantity, tuple(at))
            for each, panel, at in zip(maps, panels, places, strict=True)
        )
        found.append((numbers, Instance(tuple(items))))
    return found


def least_casts(motif: Motif, area: int) -> int:
    """Return a number of casts that no liner of that area [square steps] stays below.

    By area alone: each panel takes (width + dam) x (height + dam) of the room of `room_of`.
    """
    job, dam, total = motif.job, motif.job.rules.dam_width, 0
    for bed in job.beds:
        taken = 0
        for panel in job.panels:
            if panel.bed == bed.name:
                width, height = bend_of(job, bed.name).flat_size(panel)
                taken += panel.quantity * (width + dam) * (height + dam)
        total += -(-taken // room_of(motif, area))
    return total


def room_of(motif: Motif, area: int) -> int:
    """Return the most ground panels can take of a liner of an area, each with a dam on two sides.

    They lie a dam apart, so it is at most (liner width + dam) x (liner height + dam).
    """
    dam = motif.job.rules.dam_width
    girth = max(most + area // most + 1 for most in motif.greatest)
    return area + dam * girth + dam * dam


def map_loosely(ground: Ground, width: int, height: int, wish: Wish, miss: int) -> PositionMap:
    """Return where a panel may lie though each of its dams is off by ``miss`` either way [steps].

    ``ground`` is that of dams wider by twice as much: such a dam stands for all its misses, and
    within it lies what is left of the panel.
    """
    return PositionMap(width, height, tuple(_sheets(ground, width, height, wish, miss)))


def _sheets(ground: Ground, width: int, height: int, wish: Wish, miss: int) -> Iterator[Sheet]:
    for dams_x in (0, 1, 2) if miss else (0,):
        for dams_y in (0, 1, 2) if miss else (0,):
            size = width - dams_x * miss, height - dams_y * miss
            if min(size) <= 0:
                continue
            for sheet in map_positions(ground, *size, wish).sheets:
                left, right, bottom, top = sheet.sides.widths(1)
                if not miss or (left + right, bottom + top) == (dams_x, dams_y):
                    dx, dy = left * miss, bottom * miss
                    swept = sheet.forbidden.swept(Box(dx, dy, dx, dy))
                    yield Sheet(sheet.sides, sheet.domain.moved(-dx, -dy), swept)
