"""The other peer: one constraint model of the order with free positions, at K casts and K - 1.

Every panel ordered is a piece of its own with a free position on its size's runs and an optional
pair of intervals per cast; no two overlap in a cast. A greedy schedule is the hint.
"""

from __future__ import annotations

import time
from itertools import pairwise
from math import gcd
from typing import Any

import numpy as np
from ortools.sat.python import cp_model
from placebycast_constraints import solve
from placeorder import PlaceOrder, Verdict, ask_twice

from nesting.maps.positions import PositionMap, map_positions
from nesting.shapes.geometry import Box
from nesting.values.job import Job


def plan(job: Job, limit: float, *, casts: int) -> dict[str, Any]:
    """Ask CP-SAT for ``casts`` casts and for one fewer."""

    def ask(order: PlaceOrder, casts: int, limit: float) -> Verdict:
        if len(order.opened) > casts:
            return "no"
        started = time.perf_counter()
        model = _Model(job, order, casts).model
        return solve(model, limit - (time.perf_counter() - started))

    return ask_twice(job, limit, casts, ask)


class _Model:
    """The constraint model, in the largest unit that divides every length."""

    def __init__(self, job: Job, order: PlaceOrder, casts: int) -> None:
        self.model = cp_model.CpModel()
        self.order = order
        self.casts = casts
        dam = job.rules.dam_width
        self.boxes = [
            free_boxes(map_positions(order.ground, panel.width, panel.height))
            for panel in job.panels
        ]
        sizes = [(panel.width + dam, panel.height + dam) for panel in job.panels]
        frame = order.ground.frame
        self.unit = gcd(*(v for boxes in self.boxes for box in boxes for v in box), *sum(sizes, ()))
        self.sizes = [(w // self.unit, h // self.unit) for w, h in sizes]
        self.room = (frame.width + dam) // self.unit * ((frame.height + dam) // self.unit)
        self.span = frame.width // self.unit + 1
        self._add_pieces()
        self._add_casts()
        self._break_symmetry()

    def _add_pieces(self) -> None:
        model = self.model
        self.pieces: list[int] = []
        self.at: list[tuple[Any, Any]] = []
        self.present: list[list[Any]] = []
        for item, wanted in enumerate(self.order.instance.demand):
            for number in range(wanted):
                name = f"{item}.{number}"
                self.pieces.append(item)
                self.at.append(self._position(item, name))
                flags = [model.new_bool_var(f"{name} in {c}") for c in range(self.casts)]
                model.add_exactly_one(flags)
                self.present.append(flags)

    def _position(self, item: int, name: str) -> tuple[Any, Any]:
        """Return x and y of a piece, held inside the free boxes of its size."""
        boxes = [Box(*(v // self.unit for v in box)) for box in self.boxes[item]]
        across = {(box.x0, box.x1) for box in boxes}
        up = {(box.y0, box.y1) for box in boxes}
        x = self.model.new_int_var_from_domain(_domain(across), f"x of {name}")
        y = self.model.new_int_var_from_domain(_domain(up), f"y of {name}")
        if len(across) * len(up) != len(boxes):
            inside = [self.model.new_bool_var(f"{name} in box {k}") for k in range(len(boxes))]
            self.model.add_exactly_one(inside)
            for box, flag in zip(boxes, inside, strict=True):
                self.model.add_linear_constraint(x, box.x0, box.x1).only_enforce_if(flag)
                self.model.add_linear_constraint(y, box.y0, box.y1).only_enforce_if(flag)
        return x, y

    def _add_casts(self) -> None:
        model = self.model
        area = [w * h for w, h in self.sizes]
        for cast in range(self.casts):
            across, up, filled = [], [], []
            for piece, item in enumerate(self.pieces):
                width, height = self.sizes[item]
                flag = self.present[piece][cast]
                x, y = self.at[piece]
                across.append(model.new_optional_fixed_size_interval_var(x, width, flag, ""))
                up.append(model.new_optional_fixed_size_interval_var(y, height, flag, ""))
                filled.append(area[item] * flag)
            model.add_no_overlap_2d(across, up)
            model.add(sum(filled) <= self.room)

    def _break_symmetry(self) -> None:
        """Let the sizes that never meet open their casts; order equal pieces by cast, then x."""
        model = self.model
        first = {item: self.pieces.index(item) for item in self.order.apart}
        for cast, item in enumerate(self.order.opened):
            model.add(self.present[first[item]][cast] == 1)
            first[item] += 1
        number = [
            sum(cast * flag for cast, flag in enumerate(flags) if cast) for flags in self.present
        ]
        for piece in range(len(self.pieces) - 1):
            if self.pieces[piece] == self.pieces[piece + 1]:
                here = number[piece] * self.span + self.at[piece][0]
                model.add(here <= number[piece + 1] * self.span + self.at[piece + 1][0])
        self._hint()

    def _hint(self) -> None:
        """Hint the greedy casts, as many as there are."""
        corners = self.order.instance.boxes[:, :2] // self.unit
        owner = self.order.instance.owner
        spots: list[list[tuple[int, int, int]]] = [[] for _ in self.sizes]
        for cast, layout in enumerate(self.order.greedy_by_opener[: self.casts]):
            for place in layout:
                spots[owner[place]].append((cast, int(corners[place, 0]), int(corners[place, 1])))
        for piece, item in enumerate(self.pieces):
            if not spots[item]:
                continue
            cast, x, y = spots[item].pop(0)
            self.model.add_hint(self.at[piece][0], x)
            self.model.add_hint(self.at[piece][1], y)
            self.model.add_hint(self.present[piece][cast], 1)


def free_boxes(panel_map: PositionMap) -> list[Box]:
    """Return closed boxes that together are a map of axis-parallel obstacles, none in another."""
    found: set[Box] = set()
    for sheet in panel_map.sheets:
        low, high = sheet.domain.y0, sheet.domain.y1
        faces = sheet.forbidden.boxes[:, [1, 3]].ravel().clip(low, high)
        levels = [int(y) for y in np.unique([low, high, *faces])]
        for y in levels:
            found.update(Box(a, y, b, y) for a, b in sheet.runs_at_y(y))
        for below, above in pairwise(levels):
            if above - below > 1:
                runs = sheet.runs_at_y(below + 1)
                found.update(Box(a, below, b, above) for a, b in runs)
    return sorted(b for b in found if not any(o != b and o.contains(b) for o in found))


def _domain(runs: set[tuple[int, int]]) -> cp_model.Domain:
    return cp_model.Domain.from_intervals([list(run) for run in sorted(runs)])
