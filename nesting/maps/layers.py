"""Slopes in layers: a position map with slanted obstacles as closed boxes, wide or narrow.

The search needs finitely many run ends, so a sheet is cut at levels along y and each layer between
two levels gets one set of runs. The *wide* layers leave out only the x forbidden on every line of
the layer, so no place is missing; the *narrow* ones leave out the x forbidden on any line, so every
place is real. Obstacles are convex, so the lines at the two ends of a layer decide, and where a
layer is a single line both are exact. Layers end at the faces of axis-parallel obstacles, which
therefore lose and gain nothing, and else at multiples of a step. A real place is missing from the
narrow layers only if it touches a slope, or lies within one step above or below one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from nesting.maps.positions import PositionMap, Sheet
from nesting.shapes.convex import Ints, Pieces, Run, free_runs, merged
from nesting.shapes.geometry import Box
from nesting.values.casts import Sides

_BATCHES = 24
"""Layers are worked on in so many batches, each with the obstacles that reach it."""


@dataclass(frozen=True, slots=True)
class LayeredSheet:
    """Closed boxes of places, ``boxes`` (n, 4) as x0, y0, x1, y1 [steps]; they may overlap."""

    sides: Sides
    domain: Box
    boxes: Ints

    def runs_at_y(self, y: int) -> list[Run]:
        """Return the closed runs of free x on the line ``y``, from left to right."""
        meets = self.boxes[(self.boxes[:, 1] <= y) & (y <= self.boxes[:, 3])]
        return merged(map(tuple, meets[:, [0, 2]].tolist()))

    def ends(self, *, far: bool) -> Ints:
        """Return the x at which a run along x may end on its near or far side."""
        return self.boxes[:, 2 if far else 0]

    def shadow(self) -> list[Run]:
        """Return the x at which there is a place."""
        return merged(map(tuple, np.unique(self.boxes[:, [0, 2]], axis=0).tolist()))

    def turned_over(self) -> LayeredSheet:
        """Return the sheet with x and y exchanged."""
        x0, y0, x1, y1 = self.domain
        return LayeredSheet(self.sides, Box(y0, x0, y1, x1), self.boxes[:, [1, 0, 3, 2]])

    def holds(self, x: int, y: int) -> bool:
        """Whether (x, y) is a place."""
        x0, y0, x1, y1 = self.boxes.T
        return bool(((x0 <= x) & (x <= x1) & (y0 <= y) & (y <= y1)).any())


@dataclass(frozen=True, slots=True)
class LayeredMap:
    """All places of one panel size, in layers."""

    width: int
    height: int
    sheets: tuple[LayeredSheet, ...]

    def sheet_at(self, x: int, y: int) -> LayeredSheet | None:
        """Return the sheet that allows the place, or None."""
        return next((sheet for sheet in self.sheets if sheet.holds(x, y)), None)


def layer_map(panel_map: PositionMap, step: int, *, wide: bool) -> LayeredMap:
    """Return the map in layers at most ``step`` high [steps]."""
    sheets = (layer_sheet(sheet, step, wide=wide) for sheet in panel_map.sheets)
    kept = tuple(sheet for sheet in sheets if len(sheet.boxes))
    return LayeredMap(panel_map.width, panel_map.height, kept)


def layer_sheet(sheet: Sheet, step: int, *, wide: bool) -> LayeredSheet:
    """Return one sheet in layers; see the module's text."""
    find = _throughout if wide else _anywhere
    rows: list[tuple[int, int, int, int]] = []
    for batch in np.array_split(_layers(sheet, step), _BATCHES):
        if not len(batch):
            continue
        stretch = Box(sheet.domain.x0, int(batch[0, 0]), sheet.domain.x1, int(batch[-1, 1]))
        low, high = find(sheet.forbidden.near(stretch), batch)
        for (bottom, top), least, most in zip(batch, low, high, strict=True):
            forbidden = np.stack([least, most], axis=1)
            for x0, x1 in free_runs(sheet.domain.x0, sheet.domain.x1, forbidden):
                rows.append((x0, int(bottom), x1, int(top)))
    return LayeredSheet(sheet.sides, sheet.domain, np.array(rows, dtype=np.int64).reshape(-1, 4))


def _layers(sheet: Sheet, step: int) -> Ints:
    """Return the layers as (first line, last line): each level, and what lies between two."""
    low, high = sheet.domain.y0, sheet.domain.y1
    straight = sheet.forbidden.boxes[~sheet.forbidden.is_slanted()][:, [1, 3]].ravel()
    inside = straight[(low <= straight) & (straight <= high)]
    steps = np.arange(-(-low // step) * step, high + 1, step)
    levels = np.unique(np.concatenate([[low, high], inside, steps]))
    lines = np.stack([levels, levels], axis=1)
    between = np.stack([levels[:-1] + 1, levels[1:] - 1], axis=1)
    layers = np.concatenate([lines, between[between[:, 0] <= between[:, 1]]])
    return layers[np.argsort(layers[:, 0], kind="stable")]


def _throughout(pieces: Pieces, layers: Ints) -> tuple[Ints, Ints]:
    """Return the x forbidden on every line of each layer, per piece."""
    low_a, high_a = pieces.ranges(layers[:, :1])
    low_b, high_b = pieces.ranges(layers[:, 1:])
    return np.maximum(low_a, low_b), np.minimum(high_a, high_b)


def _anywhere(pieces: Pieces, layers: Ints) -> tuple[Ints, Ints]:
    """Return a range of x that holds all forbidden on any line of each layer, per piece."""
    y0, y1 = pieces.boxes[:, 1], pieces.boxes[:, 3]
    first, last = np.maximum(layers[:, :1], y0 + 1), np.minimum(layers[:, 1:], y1 - 1)
    low_a, high_a = pieces.ranges(first)
    low_b, high_b = pieces.ranges(last)
    low, high = np.minimum(low_a, low_b), np.maximum(high_a, high_b)
    low = np.where(_meet(pieces.apexes(far=False), first, last), pieces.boxes[:, 0] + 1, low)
    high = np.where(_meet(pieces.apexes(far=True), first, last), pieces.boxes[:, 2] - 1, high)
    return low, np.where(first <= last, high, low - 1)


def _meet(stretch: Sequence[Ints], first: Ints, last: Ints) -> np.ndarray:
    found: np.ndarray = (stretch[0] <= last) & (first <= stretch[1])
    return found
