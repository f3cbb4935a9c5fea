"""Finitely many places that are enough: normal patterns with obstacles.

In any cast push every panel of the left half left and down, of the right half right, and of the
upper half up, each until its own position map or a neighbour one dam away stops it. No two panels
can meet on the way, since a panel whose middle lies left of the liner's middle is never to the
right of one whose middle lies right of it. So a panel's x is the end of a run of its map or a
*chain* value, one dam beyond a neighbour; y likewise. Nothing is lost when all obstacles are
axis-parallel. (Normal patterns: Herz 1972; Christofides & Whitlock 1977; with defects Afsharian,
Niknejad & Waescher 2014; halving by meeting in the middle, Cote & Iori 2018.)
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from nesting.shapes.convex import Bools, Ints, Run, merged
from nesting.shapes.geometry import Box

Place = tuple[int, int]
INFINITE = 2**62


class PlaceSheet(Protocol):
    """Places of a panel size for one combination of sides, read along lines."""

    @property
    def domain(self) -> Box:
        """A box around all places."""

    def runs_at_y(self, y: int) -> list[Run]:
        """Return the closed runs of free x on the line ``y``."""

    def ends(self, *, far: bool) -> Ints:
        """Return every x at which a run along x may end on that side."""

    def shadow(self) -> list[Run]:
        """Return runs that hold every x at which there is a place."""

    def turned_over(self) -> PlaceSheet:
        """Return the sheet with x and y exchanged."""


class PlaceMap(Protocol):
    """All places of a panel size."""

    @property
    def width(self) -> int:
        """Extent along x."""

    @property
    def height(self) -> int:
        """Extent along y."""

    @property
    def sheets(self) -> Sequence[PlaceSheet]:
        """One sheet per combination of sides."""


@dataclass(frozen=True, slots=True)
class Line:
    """Values along one axis for one panel size, sorted: all, those pushed up, those on a chain."""

    values: Ints
    far: Ints
    chained: Ints


def find_candidates(
    maps: Sequence[PlaceMap], dam: int, frame: Box
) -> tuple[tuple[Place, ...], ...]:
    """Return per map the places that suffice, sorted: see the module's text for why."""
    turned = [turn_map(panel_map) for panel_map in maps]
    middle2 = frame.x0 + frame.x1, frame.y0 + frame.y1
    across = _lines([m.sheets for m in maps], [m.width for m in maps], dam, middle2[0])
    up = _lines(turned, [m.height for m in maps], dam, middle2[1])
    found = [read_places(*each) for each in zip(maps, across, up, strict=True)]
    sizes = [(m.width + dam, m.height + dam) for m in maps]
    return _supported(found, sizes, (middle2[0] + dam, middle2[1] + dam))


def make_line(values: set[int], far: set[int], chained: set[int]) -> Line:
    """Return sets of values as sorted arrays."""
    return Line(*(np.array(sorted(each), dtype=np.int64) for each in (values, far, chained)))


def turn_map(panel_map: PlaceMap) -> list[PlaceSheet]:
    """Return the sheets of a map with x and y exchanged."""
    return [sheet.turned_over() for sheet in panel_map.sheets]


def _lines(
    maps: Sequence[Sequence[PlaceSheet]], sizes: list[int], dam: int, middle2: int
) -> list[Line]:
    """Return the x values of each map, by its sheets; ``middle2`` is twice the liner's middle."""
    usable = [shadow_of(sheets) for sheets in maps]
    near_ends = [ends_of(sheets, far=False) for sheets in maps]
    far_ends = [ends_of(sheets, far=True) for sheets in maps]

    def is_near(index: int, x: int) -> bool:
        return 2 * x + sizes[index] <= middle2

    near = _chain(near_ends, usable, is_near, lambda i, x, k: x + sizes[i] + dam)
    far = _chain(
        far_ends, usable, lambda i, x: not is_near(i, x), lambda i, x, k: x - dam - sizes[k]
    )
    both = zip(near, far, strict=True)
    return [make_line(a | b, b, on_a | on_b) for (a, on_a), (b, on_b) in both]


def shadow_of(sheets: Sequence[PlaceSheet]) -> list[Run]:
    """Return runs that hold every x at which a map of these sheets has a place."""
    return merged(run for sheet in sheets for run in sheet.shadow())


def within_runs(value: int, runs: list[Run]) -> bool:
    """Whether a value lies in one of the sorted runs."""
    index = bisect_right(runs, (value, INFINITE))
    return index > 0 and runs[index - 1][1] >= value


def ends_of(sheets: Sequence[PlaceSheet], *, far: bool) -> set[int]:
    """Return every x at which a run of these sheets may end on that side."""
    return {int(x) for sheet in sheets for x in np.unique(sheet.ends(far=far))}


def _chain(
    ends: list[set[int]],
    usable: list[list[Run]],
    is_mine: Callable[[int, int], bool],
    beyond: Callable[[int, int, int], int],
) -> list[tuple[set[int], set[int]]]:
    """Close the ends under "one dam beyond a neighbour" by worklist: (all values, chain values)."""
    values = [
        {x for x in own if is_mine(i, x) and within_runs(x, usable[i])}
        for i, own in enumerate(ends)
    ]
    chained: list[set[int]] = [set() for _ in ends]
    tried: set[tuple[int, int]] = set()
    work = [(i, x) for i, own in enumerate(values) for x in sorted(own)]
    while work:
        i, x = work.pop()
        for k in range(len(ends)):
            value = beyond(i, x, k)
            if (k, value) in tried:
                continue
            tried.add((k, value))
            if is_mine(k, value) and within_runs(value, usable[k]):
                chained[k].add(value)
                if value not in values[k]:
                    values[k].add(value)
                    work.append((k, value))
    return list(zip(values, chained, strict=True))


def read_places(panel_map: PlaceMap, across: Line, up: Line) -> dict[Place, tuple[bool, bool]]:
    """Return the normal places, each with whether x and y need a neighbour to stop there."""
    found: dict[Place, tuple[bool, bool]] = {}
    for sheet in panel_map.sheets:
        xs, ys = (
            _within(across, sheet.domain.x0, sheet.domain.x1),
            _within(up, sheet.domain.y0, sheet.domain.y1),
        )
        if not len(xs) or not len(ys):
            continue
        free, stopped_x = _read_lines(sheet, xs, ys, across)
        _, stopped_y = _read_lines(sheet.turned_over(), ys, xs, up)
        chain_x, chain_y = np.isin(xs, across.chained), np.isin(ys, up.chained)[:, None]
        normal = free & (stopped_x | chain_x) & (stopped_y.T | chain_y)
        for row, column in np.argwhere(normal):
            place = (int(xs[column]), int(ys[row]))
            found[place] = (not stopped_x[row, column], not stopped_y[column, row])
    return found


def _within(line: Line, low: int, high: int) -> Ints:
    return line.values[(low <= line.values) & (line.values <= high)]


def _read_lines(sheet: PlaceSheet, xs: Ints, ys: Ints, across: Line) -> tuple[Bools, Bools]:
    """Return for every (y, x) whether it is free, and whether a run stops a push there.

    That is the near end of the run for near values, the far end for far ones.
    """
    free = np.zeros((len(ys), len(xs)), dtype=np.bool_)
    stopped = np.zeros_like(free)
    far = np.isin(xs, across.far)
    for row, y in enumerate(ys):
        for low, high in sheet.runs_at_y(int(y)):
            first, last = np.searchsorted(xs, low), np.searchsorted(xs, high, side="right")
            free[row, first:last] = True
            if first < last:
                stopped[row, first] |= xs[first] == low and not far[first]
                stopped[row, last - 1] |= xs[last - 1] == high and far[last - 1]
    return free, stopped


def _supported(
    found: list[dict[Place, tuple[bool, bool]]], sizes: list[tuple[int, int]], middle2: Place
) -> tuple[tuple[Place, ...], ...]:
    """Drop places that need a neighbour to stop at where no kept place can be that neighbour.

    ``sizes`` count the dam allowance; ``middle2`` is twice the liner's middle, less one dam.
    """
    kept = found
    while True:
        stops_x = _stops(kept, sizes, middle2, axis=0)
        stops_y = _stops(kept, sizes, middle2, axis=1)
        after = [
            {
                place: needs
                for place, needs in places.items()
                if (not needs[0] or _leans(place, size, middle2, stops_x, axis=0))
                and (not needs[1] or _leans(place, size, middle2, stops_y, axis=1))
            }
            for places, size in zip(kept, sizes, strict=True)
        ]
        if sum(map(len, after)) == sum(map(len, kept)):
            return tuple(tuple(sorted(places)) for places in kept)
        kept = after


Stops = dict[tuple[bool, int], list[Run]]


def _stops(
    found: list[dict[Place, tuple[bool, bool]]],
    sizes: list[tuple[int, int]],
    middle2: Place,
    axis: int,
) -> Stops:
    """Return, by half and by the face a panel offers to lean on, the merged stretches across."""
    stretches: dict[tuple[bool, int], set[Run]] = {}
    for places, size in zip(found, sizes, strict=True):
        for place in places:
            near = 2 * place[axis] + size[axis] <= middle2[axis]
            face = place[axis] + size[axis] if near else place[axis]
            across = place[1 - axis], place[1 - axis] + size[1 - axis]
            stretches.setdefault((near, face), set()).add(across)
    return {key: merged(runs) for key, runs in stretches.items()}


def _leans(place: Place, size: Place, middle2: Place, stops: Stops, axis: int) -> bool:
    near = 2 * place[axis] + size[axis] <= middle2[axis]
    face = place[axis] if near else place[axis] + size[axis]
    runs = stops.get((near, face), [])
    low, high = place[1 - axis], place[1 - axis] + size[1 - axis]
    index = bisect_left(runs, (high, high))
    return index > 0 and runs[index - 1][1] > low
