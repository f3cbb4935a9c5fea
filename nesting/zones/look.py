"""The search behind the trade: liners found, their casts, and what is proved of all others.

Widths of strips are searched by regions, the one of least area first. In each region some panels
can share no cast, whatever the widths; a bound on the casts follows. A region that cannot have
fewer casts than a liner of no more area is done with. Of any other the least liner is looked at: if
it lacks room for what the bound supposes, the region is parted where that room begins; if it has
it, the casts on it are counted. Whatever is left when the search ends bounds what it did not find.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations_with_replacement
from math import prod

from nesting.search.solver import Report
from nesting.shapes.convex import Bools
from nesting.values.motif import Widths, liner_size
from nesting.zones.count import Count, count_casts, list_instances, room_of
from nesting.zones.cover import Bound, CastPanels, Cover
from nesting.zones.needs import Need
from nesting.zones.region import Cut, Ways, WidthRegion, in_steps
from nesting.zones.rooms import Held
from nesting.zones.sharing import has_all, join_needs
from nesting.zones.strips import ReadyMotif, Zoning
from nesting.zones.together import CastRoom

MOST_REGIONS = 1_500
"""Most regions of widths gone through for one trade, fewer where each is much work."""
_LIMITS_OF_A_REGION = 200_000
MOST_LINERS = 40
"""Most liners whose casts are counted."""
_LARGEST_PART = 6
_SHARE = 0.6
"""Of the time left, what the search may take; the rest is for plans."""


@dataclass(frozen=True, slots=True)
class LinerSeen:
    """One liner looked at: widths of its strips [steps] and the casts of the order."""

    widths: Widths
    count: Count


@dataclass(order=True, slots=True)
class _Open:
    """A region with the area [square steps] and the casts that no liner in it stays below."""

    area: int
    casts: int
    turn: int
    region: WidthRegion = field(compare=False)
    seen: int = field(compare=False)
    """How many needs its ways were listed for."""
    bounds: list[Bound] = field(compare=False)


class TradeSearch:
    """One search. ``bounds`` maps casts to the area that no liner with so few stays below."""

    def __init__(self, setting: ReadyMotif, first: Zoning, tell: Report) -> None:
        self.setting, self.first, self.tell = setting, first, tell
        self.deadline = setting.deadline.within(_SHARE * setting.deadline.left)
        self.motif = setting.motif
        self.limit = prod(self.motif.greatest)
        self.found: dict[Widths, LinerSeen] = {}
        self.bounds: dict[int, int | None] = {}
        self.known: dict[CastPanels, Need | None] = {}
        self._ways = Ways(self.motif, setting.needs, setting.grid)
        self._parts: list[CastPanels] = []
        self._covers = self._list_covers()
        self._regions, self._work = 0, 0.0
        self._fits: tuple[Widths, list[CastRoom]] = ((), [])
        for part in self._pairs():
            if not self.deadline.passed:
                self._make_known(part)
        self.count(first.widths)

    def count(self, widths: Widths) -> Count:
        """Return the casts on a liner with strips of those widths [steps]."""
        if widths not in self.found:
            instances = list_instances(self.motif, widths)
            self._fits = widths, [CastRoom(*each) for each in instances]
            casts = count_casts(self.motif, widths, instances, self.deadline.left)
            self.found[widths] = LinerSeen(widths, casts)
            self._tell()
        return self.found[widths].count

    def held(self, widths: Widths) -> list[Held]:
        """Return what strips must keep to for the known parts that have room to keep it."""
        met = [
            ways
            for need in self.known.values()
            if need is not None and (ways := need.ways_met(self.motif, widths)) is not None
        ]
        return [(axis, ways[axis].totals) for ways in met for axis in (0, 1)]

    def find_first(self) -> tuple[LinerSeen, bool]:
        """Return the liner of fewest casts as small as the first and with as few strips.

        With it whether that number of casts is proved.
        """
        grid, frame = self.setting.grid, self.motif.frame
        width, height = self.first.size
        totals = (width - frame.width) // grid, (height - frame.height) // grid
        root = self._ways.root()
        start = None if root is None else self._ways.hold(root, totals)
        best = self.found[self.first.widths]
        left = self._sweep(start, best.count.casts, self.first.strips_used)
        for each in self.found.values():
            size, used = liner_size(self.motif, each.widths), sum(map(bool, each.widths))
            if (size, used) == (self.first.size, self.first.strips_used):
                best = min(best, each, key=lambda one: one.count.casts)
        return best, all(each.casts >= best.count.casts for each in left)

    def find_more(self, casts: int) -> None:
        """Look for all liners of fewer than ``casts`` that no smaller one has as few as."""
        left = self._sweep(self._ways.root(), casts, len(self.motif.strips))
        for fewer in range(casts - 1, 0, -1):
            areas = [each.area for each in left if each.casts <= fewer]
            areas += [
                prod(liner_size(self.motif, each.widths))
                for each in self.found.values()
                if each.count.casts <= fewer
            ]
            self.bounds[fewer] = min(areas, default=None)

    def _sweep(self, start: WidthRegion | None, casts: int, most_used: int) -> list[_Open]:
        """Go through the regions from ``start`` on, least area first; return those not settled.

        ``casts`` are those a liner of no more area has.
        """
        heap = [] if start is None else [self._open(start, 1, self._ways.count)]
        unsettled: list[_Open] = []
        while heap and self._has_time and len(self.found) < MOST_LINERS:
            each = heapq.heappop(heap)
            if each.casts >= casts:
                continue
            if each.seen < self._ways.count:
                heapq.heappush(heap, self._open(each.region, each.casts, each.seen))
                continue
            cut = self._cut(each, most_used)
            if cut is not None:
                for part in self._ways.split(each.region, cut):
                    if self._ways.least_used(part) <= most_used:
                        heapq.heappush(heap, self._open(part, each.casts, each.seen))
                continue
            widths = in_steps(self._ways.widths(each.region), self.setting.grid)
            counted = self.count(widths).casts
            casts = min(casts, counted)
            if counted > each.casts:
                heapq.heappush(heap if self._learn(each, widths) else unsettled, each)
        return [*heap, *unsettled]

    @property
    def _has_time(self) -> bool:
        """Whether another region may be gone through."""
        return self._work < MOST_REGIONS and not self.deadline.passed

    def _open(self, region: WidthRegion, casts: int, seen: int) -> _Open:
        """Return a region with its bounds, ``casts`` one that is known."""
        self._regions += 1
        self._work += max(1.0, self._ways.limits / _LIMITS_OF_A_REGION)
        self._tell()
        if seen < self._ways.count:
            region = self._ways.refresh(region, seen)
        possible = self._ways.possible(region)
        blocked = self._blocked(possible)
        bounds = [cover.bound(each) for cover, each in zip(self._covers, blocked, strict=True)]
        least = max(casts, sum(bound.casts for bound in bounds))
        size = liner_size(self.motif, in_steps(self._ways.widths(region), self.setting.grid))
        return _Open(prod(size), least, self._regions, region, self._ways.count, bounds)

    def _blocked(self, possible: Bools) -> list[frozenset[CastPanels]]:
        """Return for each bed the known parts that are not possible."""
        musts = self._ways.musts
        blocked = [part for n, part in enumerate(self._parts, musts) if not possible[n]]
        return [
            frozenset(part for part in blocked if part[0] in cover.panels) for cover in self._covers
        ]

    def _cut(self, each: _Open, most_used: int) -> Cut | None:
        """Return where to part a region, None where its least liner has what its bound supposes."""
        ways, region = self._ways, each.region
        cut = ways.cut_for_twins(region)
        if cut is not None:
            return cut
        met = ways.met(region)
        for need in range(ways.musts):
            if not met[need]:
                return ways.cut_for(region, need)
        cut = ways.cut_for_strip(region, most_used)
        if cut is not None:
            return cut
        blocked = self._blocked(met)
        least = sum(c.bound(b).casts for c, b in zip(self._covers, blocked, strict=True))
        if least <= each.casts:
            return None
        wanted = self._wanted(each, met)
        return None if wanted is None else ways.cut_for(region, wanted)

    def _wanted(self, each: _Open, met: Bools) -> int | None:
        """Return the need most used by the bound's sets that the least liner does not meet."""
        possible = self._ways.possible(each.region)
        often: dict[int, float] = {}
        for need, part in enumerate(self._parts, self._ways.musts):
            if possible[need] and not met[need]:
                often[need] = sum(
                    count
                    for bound in each.bounds
                    for parts, count in bound.sets
                    if has_all(parts, part)
                )
        return max(often, key=lambda need: (often[need], -need), default=None)

    def _learn(self, each: _Open, widths: Widths) -> bool:
        """Raise what bounds a region whose least liner takes more casts; whether anything did.

        What larger parts ask that lack room on that liner, or whole casts of the sets in place of
        shares of them.
        """
        blocked = self._blocked(self._ways.met(each.region))
        if self._fits[0] != widths:
            self._fits = (
                widths,
                [CastRoom(*each) for each in list_instances(self.motif, widths)],
            )
        fits = self._fits[1]
        pairs = list(zip(self._covers, blocked, strict=True))
        if self._find_reasons(fits, [cover.bound(mine) for cover, mine in pairs]):
            return True
        whole = [cover.raise_bound(mine) for cover, mine in pairs]
        if sum(bound.casts for bound in whole) > each.casts or self._find_reasons(fits, whole):
            self._raise(each)
            return True
        return False

    def _raise(self, each: _Open) -> None:
        """Bound a region by whole casts."""
        blocked = self._blocked(self._ways.possible(each.region))
        each.bounds = [c.raise_bound(b) for c, b in zip(self._covers, blocked, strict=True)]
        each.casts = max(each.casts, sum(bound.casts for bound in each.bounds))

    def _find_reasons(self, fits: list[CastRoom], bounds: list[Bound]) -> bool:
        """Make known what parts of a bound's sets ask that cannot lie in one cast; if any is."""
        learned = False
        for fit, bound in zip(fits, bounds, strict=True):
            for parts, _ in bound.sets:
                reason = fit.reason(parts)
                if self.deadline.passed:
                    return learned
                if reason and len(reason) <= _LARGEST_PART and reason not in self.known:
                    learned |= self._make_known(reason)
        return learned

    def _make_known(self, part: CastPanels) -> bool:
        """Make known what a part asks; whether that could be found."""
        needs = [self.setting.needs[number] for number in part]
        need = join_needs(self.setting.field, needs, self.motif.job.rules.dam_width)
        self.known[part] = need
        if need is None:
            return False
        self._ways.add(need)
        self._parts.append(part)
        return True

    def _pairs(self) -> Iterator[CastPanels]:
        """Yield every two panels on one bed."""
        panels = self.motif.job.panels
        for i, j in combinations_with_replacement(range(len(panels)), 2):
            if panels[i].bed == panels[j].bed and (i != j or panels[i].quantity > 1):
                yield i, j

    def _list_covers(self) -> list[Cover]:
        """Return what bounds the casts of each bed in use, in the order of the beds."""
        job, dam = self.motif.job, self.motif.job.rules.dam_width
        room, found = room_of(self.motif, self.limit), []
        for bed in job.beds:
            panels = [n for n, panel in enumerate(job.panels) if panel.bed == bed.name]
            sizes = [self.setting.needs[number].sizes[0] for number in panels]
            areas = [(width + dam) * (height + dam) for width, height in sizes]
            quantities = [job.panels[number].quantity for number in panels]
            if panels:
                found.append(Cover(panels, quantities, areas, room, self.deadline))
        return found

    def _tell(self) -> None:
        if self._regions % 50 == 0:
            self.tell(f"{len(self.found)} liners and {self._regions} ranges of widths looked at")
