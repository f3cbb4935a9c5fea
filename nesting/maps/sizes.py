"""Which size of a panel to plan with, and which sizes near it the liner could give.

The nominal size is used wherever it has a place. Else the nearest size within the tolerance is
taken. A size has a place or not according to how the stops of its two sides lie, so only *critical*
sizes need trying: distances between a stop for one side and a stop for the opposite one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from nesting.maps.ground import Ground, Rims
from nesting.maps.positions import PositionMap, Wish, has_place, map_positions
from nesting.planning.beds import flat_range, flat_size, off_nominal
from nesting.shapes.convex import Ints, Pieces, joined
from nesting.values.bed import Bed
from nesting.values.castsizes import NO_SHRINK
from nesting.values.panels import Panel

_MOST_TRIED = 400


@dataclass(frozen=True, slots=True)
class Size:
    """A panel with the flat size it is planned at, its map, and its change from the order."""

    panel: Panel
    map: PositionMap
    wish: Wish
    off_nominal: tuple[int, int] = (0, 0)


def choose_size(
    ground: Ground, panel: Panel, bed: Bed, shrink: Fraction = NO_SHRINK
) -> Size | None:
    """Return the nominal size, else the nearest one within tolerance that has a place, else None.

    ``shrink`` is the fraction of its length by which the panel shrinks once it is cast.

    Nearest is the smallest greater change of the two sides, then the smallest sum of changes.
    """
    wish = wish_of(ground, panel)
    thickness = ground.liner.thickness
    nominal = flat_size(panel, bed, thickness, shrink)
    found = map_positions(ground, *nominal, wish)
    if found.first_place() is not None:
        return Size(panel, found, wish)
    for size in _sizes_near(ground, nominal, *flat_range(panel, bed, thickness, shrink)):
        if has_place(ground, *size, wish):
            found = map_positions(ground, *size, wish)
            off = off_nominal(panel, bed, thickness, *size, shrink)
            return Size(panel, found, wish, off)
    return None


def wish_of(ground: Ground, panel: Panel) -> Wish:
    """Return the panel's wishes as indexes into the liner's ornaments."""
    index = {ornament.name: number for number, ornament in enumerate(ground.liner.ornaments)}
    return Wish(
        frozenset(index[name] for name in panel.must_show),
        frozenset(index[name] for name in panel.must_hide),
    )


def critical_widths(ground: Ground, low: int, high: int) -> Ints:
    """Return, sorted, the widths in [low, high] at which a panel may begin to have a place."""
    return _distances(*_stops(ground, 0, ground.left_rims, ground.right_rims), low, high)


def critical_heights(ground: Ground, low: int, high: int) -> Ints:
    """Return, sorted, the heights in [low, high] at which a panel may begin to have a place."""
    return _distances(*_stops(ground, 1, ground.bottom_rims, ground.top_rims), low, high)


def _sizes_near(
    ground: Ground, nominal: tuple[int, int], across: tuple[int, int], up: tuple[int, int]
) -> Iterator[tuple[int, int]]:
    widths = {*map(int, critical_widths(ground, *across)), nominal[0], *across}
    heights = {*map(int, critical_heights(ground, *up)), nominal[1], *up}

    def change(size: tuple[int, int]) -> tuple[int, int, int, int]:
        by = abs(size[0] - nominal[0]), abs(size[1] - nominal[1])
        return max(by), sum(by), *size

    pairs = sorted(((w, h) for w in widths for h in heights), key=change)
    yield from pairs[1:_MOST_TRIED]


def _stops(ground: Ground, axis: int, low_rims: Rims, high_rims: Rims) -> tuple[Ints, Ints]:
    """Return where a panel's near side and its far side may be stopped along one axis."""
    rules = ground.rules
    beyond = rules.dam_width + rules.dam_clearance
    dam_near, dam_far = _faces(ground.no_dam, axis)
    near, far = _faces(joined(ground.ornaments), axis)
    stops_near = [dam_far + rules.dam_width, dam_near, far + beyond, near - rules.edge_margin, near]
    stops_far = [dam_near - rules.dam_width, dam_far, near - beyond, far + rules.edge_margin, far]
    stops_near.append(np.array([at for at, *_ in low_rims], dtype=np.int64))
    stops_far.append(np.array([at for at, *_ in high_rims], dtype=np.int64))
    return np.unique(np.concatenate(stops_near)), np.unique(np.concatenate(stops_far))


def _faces(pieces: Pieces, axis: int) -> tuple[Ints, Ints]:
    return pieces.boxes[:, axis], pieces.boxes[:, axis + 2]


def _distances(near: Ints, far: Ints, low: int, high: int) -> Ints:
    """Return, sorted, all far - near within [low, high]."""
    first = np.searchsorted(far, near + low)
    last = np.searchsorted(far, near + high, side="right")
    found = [far[a:b] - at for at, a, b in zip(near, first, last, strict=True) if a < b]
    return np.unique(np.concatenate(found)) if found else np.array([], dtype=np.int64)
