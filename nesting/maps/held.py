"""The places that are enough where gaps between panels are restricted.

Of all casts of the same panels take one with the least sum of all x and all y. There every panel
is held along x: by the near end of a run of its map; by a neighbour on its left, at a gap that may
be the least there; or by one on its right at exactly a listed gap, which is held itself. Otherwise
it could move left, alone or with those it is tied to. Along y likewise. Neighbours hold along one
axis where no gap along the other keeps them apart.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from nesting.maps.candidates import (
    Line,
    Place,
    PlaceMap,
    PlaceSheet,
    ends_of,
    make_line,
    read_places,
    shadow_of,
    turn_map,
    within_runs,
)
from nesting.search.solver import Deadline
from nesting.shapes.convex import Bools, Ints

MOST_PLACES = 5_000
"""Up to so many places are listed, over all sizes."""
_MOST_VALUES = 3_000  # along an axis
_MOST_SPOTS = 2_000_000  # where a value along x meets one along y
_MOST_READ = 20_000  # places before it is asked who holds them
_DEPTHS = (None, 3, 2, 1)
"""How many neighbours in a row may hold each other: any number, then fewer and fewer."""


@dataclass(frozen=True, slots=True)
class HeldPlaces:
    """Places of each map, sorted, and whether they suffice."""

    places: tuple[tuple[Place, ...], ...]
    is_whole: bool


def find_held(maps: Sequence[PlaceMap], gaps: Sequence[int], deadline: Deadline) -> HeldPlaces:
    """Return the places that suffice, or of too many those held by few neighbours in a row.

    None are returned where time is up before they are few enough. ``gaps`` [steps] are those at
    which a neighbour may hold a panel: each listed one, and last the least gap from which on any
    will do.
    """
    turned = [turn_map(panel_map) for panel_map in maps]
    for depth in _DEPTHS:
        if deadline.passed:
            break
        across = _lines([m.sheets for m in maps], [m.width for m in maps], gaps, depth)
        up = _lines(turned, [m.height for m in maps], gaps, depth)
        if across is None or up is None:
            continue
        spots = sum(len(x.values) * len(y.values) for x, y in zip(across, up, strict=True))
        if spots > _MOST_SPOTS:
            continue
        found = [read_places(*each) for each in zip(maps, across, up, strict=True)]
        if sum(map(len, found)) > _MOST_READ:
            continue
        places = _kept(maps, found, gaps)
        if sum(map(len, places)) <= MOST_PLACES:
            return HeldPlaces(places, depth is None)
    return HeldPlaces(tuple(() for _ in maps), is_whole=False)


def _kept(
    maps: Sequence[PlaceMap], found: list[dict[Place, tuple[bool, bool]]], gaps: Sequence[int]
) -> tuple[tuple[Place, ...], ...]:
    boxes = [
        (x, y, x + m.width, y + m.height)
        for m, places in zip(maps, found, strict=True)
        for x, y in places
    ]
    needs = [need for places in found for need in places.values()]
    grounds, needed = np.array(boxes).reshape(-1, 4), np.array(needs, dtype=np.bool_)
    kept = iter(_keep_held(grounds, needed.reshape(-1, 2), gaps))
    return tuple(tuple(sorted(place for place in places if next(kept))) for places in found)


def _lines(
    maps: Sequence[Sequence[PlaceSheet]],
    sizes: list[int],
    gaps: Sequence[int],
    depth: int | None,
) -> list[Line] | None:
    """Return the x values of each map, by its sheets: near run ends, closed under gaps.

    None where there are too many.
    """
    usable = [shadow_of(sheets) for sheets in maps]
    values = [
        {x for x in ends_of(sheets, far=False) if within_runs(x, runs)}
        for sheets, runs in zip(maps, usable, strict=True)
    ]
    chained: list[set[int]] = [set() for _ in maps]
    work = deque((i, x, 0) for i, own in enumerate(values) for x in sorted(own))
    while work:
        i, x, links = work.popleft()
        for k, runs in enumerate(usable):
            beyond = {x + sizes[i] + gap for gap in gaps}
            for value in beyond | {x - gap - sizes[k] for gap in gaps[:-1]}:
                if value in chained[k] or not within_runs(value, runs):
                    continue
                chained[k].add(value)
                if value not in values[k]:
                    values[k].add(value)
                    if depth is None or links + 1 < depth:
                        work.append((k, value, links + 1))
        if sum(map(len, values)) > _MOST_VALUES:
            return None
    return [make_line(own, set(), chain) for own, chain in zip(values, chained, strict=True)]


def _keep_held(boxes: Ints, needs: Bools, gaps: Sequence[int]) -> Bools:
    """Tell which places are held along both axes by kept ones; ``needs`` (n, 2): by neighbours."""
    kept = np.ones(len(boxes), dtype=np.bool_)
    while True:
        after = kept & _held(boxes, needs[:, 0], kept, gaps)
        after &= _held(boxes[:, [1, 0, 3, 2]], needs[:, 1], after, gaps)
        if (after == kept).all():
            return kept
        kept = after


def _held(boxes: Ints, needs: Bools, kept: Bools, gaps: Sequence[int]) -> Bools:
    """Tell which of the kept places are held along x, from those their maps hold outward."""
    low, bottom, high, top = boxes.T
    held = kept & ~needs
    waiting = kept & needs
    by_low, by_high = _group(low, waiting), _group(high, waiting)
    none = np.array([], dtype=np.int64)
    work = list(np.flatnonzero(held))
    while work:
        at = work.pop()
        beside = [by_low.get(int(high[at]) + gap, none) for gap in gaps]
        beside += [by_high.get(int(low[at]) - gap, none) for gap in gaps[:-1]]
        able = np.unique(np.concatenate(beside))
        able = able[~held[able]]
        apart = np.maximum(bottom[able] - top[at], bottom[at] - top[able])
        able = able[(apart < gaps[-1]) & ~np.isin(apart, gaps[:-1])]
        held[able] = True
        work += able.tolist()
    return held


def _group(values: Ints, among: Bools) -> dict[int, Ints]:
    """Return the indexes of those among all by their value."""
    order = np.flatnonzero(among)
    order = order[np.argsort(values[order], kind="stable")]
    found, starts = np.unique(values[order], return_index=True)
    return dict(zip(found.tolist(), np.split(order, starts[1:]), strict=True)) if len(order) else {}
