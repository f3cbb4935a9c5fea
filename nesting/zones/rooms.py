"""How to share out what the strips have to spare, so that each dam has as much room as can be.

With the way each panel lies held fixed, every distance is a straight-line function of the widths.
The liner keeps its size and no strip comes into use that was not: first the least room of all
panels is made as large as possible, then the sum of each panel's own.
"""

from collections.abc import Sequence
from itertools import product
from typing import Any

import numpy as np

from nesting.search.solver import INFINITY, Deadline, Row, rows_of, solve
from nesting.values.bed import AXES
from nesting.values.motif import Motif, Widths
from nesting.zones.choices import Choice
from nesting.zones.needs import SpanTotals

ChoicePairs = Sequence[tuple[Choice, Choice]]
Held = tuple[int, SpanTotals]
"""An axis, and limits [steps] on totals of its strips."""


def share_out(
    motif: Motif,
    widths: Widths,
    ways: ChoicePairs,
    grid: int,
    held: Sequence[Held] = (),
    deadline: Deadline | None = None,
) -> Widths:
    """Return widths [grid] of the same totals with the largest least room, then total room.

    ``widths`` [grid] are those to begin with, ``ways`` the choices along x and y of each panel,
    ``held`` what totals of strips must keep to besides. At the deadline the best found is given.
    """
    rows = [*_rows(motif, widths, ways, grid), *_held_rows(motif, held, grid)]
    count, panels = len(widths), len(ways)
    low = np.zeros(count + panels + 1)
    high = np.array([float("inf")] * (count + panels + 1))
    for number, strip in enumerate(motif.strips):
        used = widths[number] > 0
        low[number] = float(max(-(-strip.least // grid), int(used)))
        high[number] = float(strip.greatest // grid) if used else 0.0
    high[count:] = float(max(motif.greatest) // grid)
    whole = np.arange(count + panels + 1) < count
    cost = np.zeros(count + panels + 1)
    cost[-1] = 1.0
    terms: dict[str, Any] = {"integer": whole, "maximise": True, "deadline": deadline}
    found = solve(cost, rows_of(rows), high, lower=low, **terms)
    if found.values is None:
        return widths
    low[-1] = max(0.0, found.values[-1] - 1e-6)
    cost = np.where(np.arange(count + panels + 1) < count, 0.0, 1.0)
    cost[-1] = 0.0
    found = solve(cost, rows_of(rows), high, lower=low, **terms)
    if found.values is None:
        return widths
    return tuple(round(value) for value in found.values[:count])


def _rows(motif: Motif, widths: Widths, ways: ChoicePairs, grid: int) -> list[Row]:
    count, last = len(widths), len(widths) + len(ways)
    rows: list[Row] = []
    for axis in AXES:
        order = list(motif.along(axis))
        if order:
            total = float(sum(widths[number] for number in order))
            rows.append((order, 1.0, total, total))
    names = [strip.name for strip in motif.strips]
    for number, strip in enumerate(motif.strips):
        if strip.as_wide_as:
            pair = [number, names.index(strip.as_wide_as)]
            rows.append((pair, [1.0, -1.0], 0.0, 0.0))
    for panel, choices in enumerate(ways):
        column = count + panel
        rows.append(([column, last], [1.0, -1.0], 0.0, INFINITY))
        for axis, choice in zip(AXES, choices, strict=True):
            rows += _distance_rows(motif.along(axis), choice, column, grid)
    return rows


def _held_rows(motif: Motif, held: Sequence[Held], grid: int) -> list[Row]:
    orders = [motif.along(axis) for axis in AXES]
    return [
        (orders[axis][slice(*span)], 1.0, float(-(-limits.low // grid)), float(limits.high // grid))
        for axis, totals in held
        for span, limits in totals
    ]


def _distance_rows(order: Sequence[int], choice: Choice, column: int, grid: int) -> list[Row]:
    """Return one row for each lower and upper limit of a panel: it takes the room of both."""
    rows: list[Row] = []
    for low, high in product(choice.lower, choice.upper):
        need, moving = (low.offset - high.offset) / grid, float(low.by_dam + high.by_dam)
        start, stop = sorted((low.segment, high.segment))
        sign = 1.0 if high.segment >= low.segment else -1.0
        strips = list(order[start:stop])
        cells = [sign] * len(strips)
        if moving:
            strips, cells = [*strips, column], [*cells, -moving]
        if strips:
            rows.append((strips, cells, need, INFINITY))
    return rows
