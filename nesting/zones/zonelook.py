"""The search behind the trade: liners found, their casts, and what is proved of all others."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, combinations_with_replacement

from nesting.search.solver import INFINITY, Report
from nesting.values.motif import Widths, liner_size
from nesting.zones.zonecasts import CastProgram, Parts, cast_sets, least_cover
from nesting.zones.zonecount import Count, count_casts, room_of
from nesting.zones.zonemodel import Answer, Program, UnsolvedError
from nesting.zones.zoneneeds import Need
from nesting.zones.zonerooms import Held
from nesting.zones.zonesharing import has_all, join_needs
from nesting.zones.zoning import Setting, Totals, Zoning, least_of, list_points

MOST_SETS = 3_000
"""Most sets of panels in one cast; beyond, less area is looked at."""
MOST_QUESTIONS = 24
"""Most whole-number programs asked for larger liners."""
MOST_NODES = 200
"""Most nodes of the tree spent on one of them."""
_LARGEST_PART = 4
ANY = (INFINITY, INFINITY)
_SHARES = (1.0, 0.75, 0.5, 0.35, 0.25, 0.15, 0.1, 0.05, 0.0)


@dataclass(frozen=True, slots=True)
class Found:
    """One liner looked at: widths of its strips [steps] and the casts of the order."""

    widths: Widths
    count: Count


class Look:
    """One search. ``bounds`` maps casts to the area that no liner with so few stays below."""

    def __init__(self, setting: Setting, first: Zoning, tell: Report) -> None:
        self.setting, self.first, self.tell = setting, first, tell
        self.found: dict[Widths, Found] = {}
        self.bounds: dict[int, int | None] = {}
        self.known: dict[Parts, Need | None] = dict(self._pairs())
        self.limit, self.sets = self._list_sets()
        self.asked = 0
        lowest = Program(setting.motif, setting.needs, setting.grid).least_total(1, ANY)
        self._floors = 0, lowest[0] if lowest else 0
        self.count(first.widths)

    def count(self, widths: Widths) -> Count:
        """Return the casts on a liner with strips of those widths [steps]."""
        if widths not in self.found:
            self.found[widths] = Found(widths, count_casts(self.setting.motif, widths))
            self.tell(f"{len(self.found)} liners looked at")
        return self.found[widths].count

    def held(self, widths: Widths) -> list[Held]:
        """Return what strips must keep to for the known parts that have room to keep it."""
        met = [
            ways
            for need in self.known.values()
            if need is not None and (ways := need.ways_met(self.setting.motif, widths)) is not None
        ]
        return [(axis, ways[axis].totals) for ways in met for axis in (0, 1)]

    def find_first(self) -> tuple[Found, bool]:
        """Return the liner of fewest casts as small as the first and with as few strips.

        With it whether that number of casts is proved.
        """
        width, height = self.first.size
        frame, grid = self.setting.motif.frame, self.setting.grid
        totals = (width - frame.width) // grid, (height - frame.height) // grid
        best = self.found[self.first.widths]
        while self.sets and self.asked < MOST_QUESTIONS:
            try:
                found = self._program().fewest_casts(totals, self.first.strips_used)
            except UnsolvedError:
                break
            assert found is not None
            bound, widths = found[0], self._steps(found[1])
            if self.count(widths).casts < best.count.casts:
                best = self.found[widths]
            if best.count.casts <= bound:
                return best, True
            if not self._learn(widths):
                break
        return best, False

    def find_more(self, casts: int) -> None:
        """Look for the least liner of fewer than ``casts``, then of fewer than that has, to 1."""
        quantities = [panel.quantity for panel in self.setting.motif.job.panels]
        while casts > 1 and self.sets and self.asked < MOST_QUESTIONS:
            try:
                fewest = self._look_for(casts - 1)
            except UnsolvedError:
                break
            if fewest is None:
                return
            casts = min(casts - 1, fewest)
        if self.sets:
            self.bounds[least_cover(self.sets, quantities) - 1] = None

    def _look_for(self, casts: int) -> int | None:
        """Return the casts of the least liner that could do with so many; None for no such liner.

        Learns what it lacks until it does with so many, or nothing more can be learned.
        """
        while self.asked < MOST_QUESTIONS:
            program = self._program(casts)
            points = list_points(program, self._floors) if program.is_possible else []
            if not points:
                self.bounds[casts] = None
                return None
            self._floors = points[0][0][0], self._floors[1]  # more asked never takes less along x
            totals, answer = least_of(program, points)[0]
            widths = self._steps(answer)
            area = math.prod(liner_size(self.setting.motif, widths))
            if area > self.limit:
                self.bounds[casts] = None
                return None
            self.bounds[casts] = area
            count = self.count(widths).casts
            if count <= casts:
                self._spare_strips(program, totals)
                return count
            if not self._learn(widths):
                break
        return casts

    def _spare_strips(self, program: CastProgram, totals: Totals) -> None:
        """Look at the liner of that size with the fewest strips, too."""
        try:
            found = program.fewest_used(totals)
        except UnsolvedError:
            return
        if found is not None:
            self.count(self._steps(found[1]))

    def _program(self, casts: float = INFINITY) -> CastProgram:
        possible = {
            part: need for part, need in self.known.items() if need is None or need.is_possible
        }
        impossible = [part for part in self.known if part not in possible]
        self.sets = [
            each for each in self.sets if not any(has_all(each, part) for part in impossible)
        ]
        return CastProgram(self.setting, self.sets, possible, casts, MOST_NODES, self._ask)

    def _ask(self) -> None:
        """Count one question more; UnsolvedError where there have been enough."""
        if self.asked >= MOST_QUESTIONS:
            raise UnsolvedError("enough has been asked")
        self.asked += 1

    def _steps(self, answer: Answer) -> Widths:
        return tuple(width * self.setting.grid for width in answer.widths)

    def _learn(self, widths: Widths) -> bool:
        """Make known what larger parts ask that a liner taken for good has no room for."""
        learned = False
        for each in cast_sets(self.sets, self.known, self.setting.motif, widths):
            for size in range(3, min(len(each), _LARGEST_PART) + 1):
                fresh = sorted(set(combinations(each, size)))
                lacking = [part for part in fresh if self._lacks(part, widths)]
                learned |= bool(lacking)
                if lacking:
                    break
        return learned

    def _lacks(self, part: Parts, widths: Widths) -> bool:
        """Make known what a part asks; whether that is new and the strips do not meet it."""
        if part in self.known:
            return False
        need = self._join(part)
        self.known[part] = need
        if need is None or not need.is_met(self.setting.motif, widths):
            return need is not None
        del self.known[part]  # it has room, so it is no reason
        return False

    def _join(self, part: Parts) -> Need | None:
        needs = [self.setting.needs[number] for number in part]
        return join_needs(self.setting.field, needs, self.setting.motif.job.rules.dam_width)

    def _pairs(self) -> Iterator[tuple[Parts, Need | None]]:
        """Yield every two panels on one bed, with what they ask."""
        panels = self.setting.motif.job.panels
        for i, j in combinations_with_replacement(range(len(panels)), 2):
            if panels[i].bed == panels[j].bed and (i != j or panels[i].quantity > 1):
                yield (i, j), self._join((i, j))

    def _list_sets(self) -> tuple[int, list[Parts]]:
        """Return the area looked at, and every set that may lie in one cast of no more.

        No set where even the least liner has too many: then nothing is asked.
        """
        most = math.prod(self.setting.motif.greatest)
        spare = most - self.first.area
        for share in _SHARES:
            limit = self.first.area + int(share * spare)
            sets: list[Parts] = []
            for each in self._grow((), room_of(self.setting.motif, limit)):
                sets.append(each)
                if len(sets) > MOST_SETS:
                    break
            else:
                return limit, sets
        return self.first.area, []

    def _grow(self, parts: Parts, room: int) -> Iterator[Parts]:
        """Yield every set that begins with ``parts`` and takes no more than the room beside."""
        dam = self.setting.motif.job.rules.dam_width
        panels, needs = self.setting.motif.job.panels, self.setting.needs
        for number in range(parts[-1] if parts else 0, len(panels)):
            width, height = needs[number].sizes[0]
            taken = (width + dam) * (height + dam)
            if taken > room or parts.count(number) >= panels[number].quantity:
                continue
            if all(self._may_join(other, number) for other in set(parts)):
                grown = (*parts, number)
                yield grown
                yield from self._grow(grown, room - taken)

    def _may_join(self, first: int, second: int) -> bool:
        if (first, second) not in self.known:
            return False
        need = self.known[first, second]
        return need is None or need.is_possible
