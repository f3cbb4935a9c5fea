"""What more rubber buys: liners that give every size, each with the casts of its own plan.

Casts fall where two panels share one that could not before. So the least liner is found again with
one more pair of sizes that must fit into one cast, then from the best of those with another, and so
on. Each such liner is proved the least for its pairs; that none between them does better is not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

from nesting.beds import flat_size
from nesting.candidates import find_candidates
from nesting.casts import Schedule
from nesting.check import check_schedule
from nesting.errors import RefusedError
from nesting.geometry import polygon_of
from nesting.ground import survey
from nesting.job import Job
from nesting.motif import Motif
from nesting.schedule import schedule_casts
from nesting.search.fewest import find_casts
from nesting.search.instance import Instance, Item
from nesting.search.solver import Deadline, Report, silent
from nesting.sizes import choose_size
from nesting.zonemodel import UnsolvedError
from nesting.zoneneeds import Need, pair_needs
from nesting.zoning import Setting, Zoning, plan_zones, prepare, zone_for

MOST_PAIRS = 12
"""Most pairs of sizes looked at: those that can save the most casts."""
MOST_LINERS = 40
"""Most liners whose casts are counted."""
MOST_NODES = 400
"""Most nodes of the tree spent on one question about a larger liner."""
_COUNT_SECONDS = 10.0
_PLAN_SECONDS = 30.0


@dataclass(frozen=True, slots=True)
class Offer:
    """One liner and its plan."""

    zoning: Zoning
    schedule: Schedule


@dataclass(frozen=True, slots=True)
class Trade:
    """The offers that no other one tried beats in area and casts, the smallest liner first.

    ``tried`` counts the liners looked at; ``pairs`` the pairs of sizes, of ``all_pairs`` that share
    a bed.
    """

    offers: tuple[Offer, ...]
    tried: int
    pairs: int
    all_pairs: int

    @property
    def best(self) -> Offer:
        """The least liner, of those the one with fewest strips, then the fewest casts found."""
        return self.offers[0]


def plan_motif(motif: Motif) -> Trade:
    """Return the least liner with every size, its plan, and what larger liners save.

    Raises NoScheduleError, with the reasons, where no liner within the greatest size gives all.
    """
    setting = prepare(motif)
    return weigh_rubber(setting, plan_zones(setting))


def weigh_rubber(setting: Setting, first: Zoning, progress: Report | None = None) -> Trade:
    """Return the trade of liner area against casts, beginning from the least liner.

    Liners are compared by a quick count of casts; those that stand are planned in full and checked.

    Raises
    ------
    RefusedError
        Where the independent checker objects to a plan of ours.
    """
    tell = progress or silent
    pairs, count = _pairs(setting)
    known = {need.marks: need for need in pairs}
    counted = {first.widths: (first, count_casts(first.job))}
    seen: set[frozenset[tuple[str, ...]]] = set()
    front: list[Zoning] = [first]
    while front and len(counted) < MOST_LINERS:
        fresh = sorted(
            (found for base in front for found in _extend(setting, base, known, seen)),
            key=lambda found: (found.area, found.strips_used, found.together),
        )
        for zoning in fresh:
            if zoning.widths not in counted and len(counted) < MOST_LINERS:
                counted[zoning.widths] = (zoning, count_casts(zoning.job))
                tell(f"{len(counted)} liners looked at")
        kept = [zoning.widths for zoning in _unbeaten(counted.values())]
        front = [zoning for zoning in fresh if zoning.widths in kept]
    offers = [plan_offer(zoning) for zoning in _unbeaten(counted.values())]
    by_widths = {offer.zoning.widths: offer for offer in offers}
    final = _unbeaten((offer.zoning, offer.schedule.casts) for offer in offers)
    unbeaten = tuple(by_widths[zoning.widths] for zoning in final)
    return Trade(unbeaten, len(counted), len(pairs), count)


def plan_offer(zoning: Zoning) -> Offer:
    """Return a liner with its plan, which the independent checker has passed."""
    job = zoning.job
    schedule = schedule_casts(job, time_limit=_PLAN_SECONDS)
    findings = check_schedule(job, schedule)
    if findings:
        raise RefusedError(findings)
    return Offer(zoning, schedule)


def count_casts(job: Job) -> int:
    """Return a number of casts that make the order, with ornaments taken as their boxes.

    Fewest or nearly so; a plan never needs more, as boxes only take places away.
    """
    boxed = tuple(
        replace(each, outline=polygon_of(each.outline.bounds)) for each in job.liner.ornaments
    )
    ground = survey(replace(job.liner, ornaments=boxed), job.rules)
    dam, total = job.rules.dam_width, 0
    for bed in job.beds:
        shrink = job.as_cast.panel_shrink
        mine = [panel for panel in job.panels if panel.bed == bed.name]
        sizes = [choose_size(ground, panel, bed, shrink) for panel in mine]
        known = [size for size in sizes if size is not None]
        if not known:
            continue
        places = find_candidates([size.map for size in known], dam, ground.frame)
        items = (
            Item(size.map.width + dam, size.map.height + dam, size.panel.quantity, tuple(at))
            for size, at in zip(known, places, strict=True)
        )
        total += find_casts(Instance(tuple(items)), Deadline(_COUNT_SECONDS)).casts
    return total


def least_casts(motif: Motif, area: int) -> int:
    """Return a number of casts that no liner of that area [square steps] stays below.

    Panels of a cast lie a dam apart, so each takes (width + dam) x (height + dam) of
    (liner width + dam) x (liner height + dam).
    """
    job, dam = motif.job, motif.job.rules.dam_width
    girth = max(most + area // most + 1 for most in motif.greatest)
    room = area + dam * girth + dam * dam
    total = 0
    for bed in job.beds:
        taken = 0
        for panel in job.panels:
            if panel.bed == bed.name:
                width, height = flat_size(panel, bed, job.liner.thickness, job.as_cast.panel_shrink)
                taken += panel.quantity * (width + dam) * (height + dam)
        total += -(-taken // room)
    return total


def _pairs(setting: Setting) -> tuple[list[Need], int]:
    """Return the pairs of sizes that may share a cast, the most useful first, and how many are."""
    panels = setting.motif.job.panels
    dam = setting.motif.job.rules.dam_width
    saved: list[tuple[int, int, int]] = []
    for i, j in combinations_with_replacement(range(len(panels)), 2):
        one, other = panels[i], panels[j]
        casts = one.quantity // 2 if i == j else min(one.quantity, other.quantity)
        if one.bed == other.bed and casts:
            saved.append((-casts, i, j))
    needs: list[Need] = []
    for _, i, j in sorted(saved):
        need = pair_needs(setting.field, setting.needs[i], setting.needs[j], dam)
        if need is not None and need.is_possible and len(needs) < MOST_PAIRS:
            needs.append(need)
    return needs, len(saved)


def _extend(
    setting: Setting,
    base: Zoning,
    known: dict[tuple[str, ...], Need],
    seen: set[frozenset[tuple[str, ...]]],
) -> Iterator[Zoning]:
    """Yield the least liners with one more pair than the base's.

    A pair that the base has room for already asks for no other liner.
    """
    for marks in known:
        wanted = frozenset((*base.together, marks))
        if wanted in seen or known[marks].is_met(setting.motif, base.widths):
            continue
        seen.add(wanted)
        needs = [known[each] for each in sorted(wanted)]
        with suppress(UnsolvedError):
            found = zone_for(setting, needs, MOST_NODES)
            if found is not None:
                yield found


def _unbeaten(counted: Iterable[tuple[Zoning, int]]) -> list[Zoning]:
    """Return the least liner, then each larger one, or one with more strips, of fewer casts."""

    def order(entry: tuple[Zoning, int]) -> tuple[int, int, int, tuple[int, ...]]:
        zoning, casts = entry
        return zoning.area, zoning.strips_used, casts, zoning.widths

    kept: list[tuple[Zoning, int]] = []
    for zoning, casts in sorted(counted, key=order):
        if not kept or casts < kept[-1][1]:
            kept.append((zoning, casts))
    return [zoning for zoning, _ in kept]
