"""What more rubber buys: the liners that no other one beats in area and casts, each with its plan.

From the least liner on, all widths of the strips are gone through by regions; what is left of them
bounds the area of every liner that was not found.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise, zip_longest

from nesting.errors import NoScheduleError
from nesting.schedules.findings import plan_sound_casts
from nesting.search.solver import Deadline, Report, TimeUpError, silent
from nesting.values.casts import Schedule
from nesting.values.motif import Motif, Widths, liner_size
from nesting.zones.count import least_casts
from nesting.zones.look import LinerSeen, TradeSearch
from nesting.zones.strips import ReadyMotif, Zoning, plan_zones, prepare, settle_strips

_PLAN_SECONDS = 30.0


@dataclass(frozen=True, slots=True)
class Offer:
    """One liner and its plan.

    ``casts`` make the order with every dam free to miss by the lay tolerance; the plan, whose dams
    lie exactly, may take fewer. ``new`` lists what casts of the plan hold that those of smaller
    liners do not.
    """

    zoning: Zoning
    schedule: Schedule
    casts: int
    new: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Trade:
    """The offers that no other one found beats in area and casts, the smallest liner first.

    ``bounds`` are proved: (casts, area [square steps]) says that no liner of less area makes the
    order in so few casts, and no area that none within ``limit`` does. ``tried`` counts the liners
    looked at. ``casts_proved`` says that no liner as small as the first, with as few strips, takes
    fewer casts, and ``stopped`` that the time limit was reached.
    """

    offers: tuple[Offer, ...]
    tried: int
    bounds: tuple[tuple[int, int | None], ...]
    limit: int
    casts_proved: bool
    stopped: bool = False

    @property
    def best(self) -> Offer:
        """The least liner, of those the one with fewest strips, then the fewest casts found."""
        return self.offers[0]

    def least_area(self, casts: int) -> int | None:
        """Return an area that no liner which makes the order in ``casts`` stays below, proved.

        None where no liner within the limit does.
        """
        areas = [area for most, area in self.bounds if most >= casts]
        if None in areas:
            return None
        return max([self.best.zoning.area, *(area for area in areas if area is not None)])

    def least_casts(self, area: int) -> int:
        """Return a number of casts that no liner of that area [square steps] stays below."""
        casts = least_casts(self.best.zoning.motif, area)
        while (least := self.least_area(casts)) is None or least > area:
            casts += 1
        return casts

    def is_proved(self, offer: Offer) -> bool:
        """Whether no liner of less area makes the order in as few casts."""
        area = self.least_area(offer.casts)
        return area is not None and area >= offer.zoning.area

    @property
    def is_complete(self) -> bool:
        """Whether every offer is proved, and no other liner within the limit belongs to them."""
        return not self.open_ends and all(map(self.is_proved, self.offers))

    @property
    def open_ends(self) -> list[tuple[int, int]]:
        """What is not settled: (casts, area) where a liner of more area may do with so few casts.

        Where an offer stands, it does so from there on.
        """
        found: list[tuple[int, int]] = []
        for offer, after in zip_longest(self.offers, self.offers[1:]):
            area = self.least_area(offer.casts - 1) if offer.casts > 1 else None
            if area is not None and (after is None or area < after.zoning.area):
                found.append((offer.casts - 1, area))
        return found


def plan_motif(motif: Motif, progress: Report = silent, time_limit: float | None = None) -> Trade:
    """Return the least liner with every size, its plan, and what larger liners save.

    ``progress`` is told now and then what is being done; ``time_limit`` [s] bounds all of it.

    Raises NoScheduleError, with the reasons, where no liner within the greatest size gives all, or
    none was found in time.
    """
    progress("looking for the least liner")
    try:
        setting = prepare(motif, Deadline(time_limit))
        first = plan_zones(setting)
    except TimeUpError as error:
        told = f"No liner was found within the time limit of {time_limit:g} s; allow more time."
        raise NoScheduleError([told]) from error
    return weigh_rubber(setting, first, progress)


def weigh_rubber(setting: ReadyMotif, first: Zoning, progress: Report = silent) -> Trade:
    """Return the trade of liner area against casts, beginning from the least liner.

    Every liner shown is planned in full and its plan checked.

    Raises
    ------
    RefusedError
        Where the independent checker objects to a plan of ours.
    """
    look = TradeSearch(setting, first, progress)
    best, casts_proved = look.find_first()
    look.find_more(best.count.casts)
    stopped = look.deadline.passed
    offers: list[Offer] = []
    for found in _unbeaten(setting.motif, best, look.found):
        if offers and setting.deadline.passed:
            stopped = True
            break
        progress(f"planning liner {len(offers) + 1} of those that none beats")
        offers.append(_plan(setting, look, found, first if found is best else None, offers))
    kept = offers[:1] + [offer for before, offer in pairwise(offers) if offer.casts < before.casts]
    bounds = tuple(look.bounds.items())
    return Trade(tuple(kept), len(look.found), bounds, look.limit, casts_proved, stopped)


def plan_offer(
    zoning: Zoning, casts: int, known: Iterable[Offer] = (), left: float = _PLAN_SECONDS
) -> Offer:
    """Return a liner with its plan, which the independent checker has passed.

    ``left`` is the time left for it [s].
    """
    schedule = plan_sound_casts(zoning.job, min(_PLAN_SECONDS, left))
    older = {marks for offer in known for marks in _shared(offer.schedule)}
    return Offer(zoning, schedule, casts, tuple(sorted(_shared(schedule) - older)))


def _shared(schedule: Schedule) -> set[tuple[str, ...]]:
    """Return the marks of each cast of more than one panel."""
    marks = (tuple(sorted(p.mark for p in layout.panels)) for layout in schedule.layouts)
    return {each for each in marks if len(each) > 1}


def _plan(
    setting: ReadyMotif,
    look: TradeSearch,
    found: LinerSeen,
    first: Zoning | None,
    known: Iterable[Offer],
) -> Offer:
    """Return the offer of a liner found, its strips shared out where that costs no cast."""
    size = liner_size(setting.motif, found.widths)
    frontier = first.frontier if first else (size,)
    counts = tuple(width // setting.grid for width in found.widths)
    used = sum(width > 0 for width in found.widths)
    zoning = settle_strips(setting, counts, frontier, used, look.held(found.widths))
    if look.count(zoning.widths).casts > found.count.casts:
        zoning = settle_strips(setting, counts, frontier, used, shared=False)
    return plan_offer(zoning, look.count(zoning.widths).casts, known, setting.deadline.left)


def _unbeaten(motif: Motif, best: LinerSeen, found: dict[Widths, LinerSeen]) -> list[LinerSeen]:
    """Return the best, then each larger liner, or one with more strips, of fewer casts."""

    def order(each: LinerSeen) -> tuple[int, int, int, Widths]:
        width, height = liner_size(motif, each.widths)
        used = sum(width > 0 for width in each.widths)
        return width * height, each.count.casts, used, each.widths

    kept = [best]
    for each in sorted(found.values(), key=order):
        if each.count.casts < kept[-1].count.casts:
            kept.append(each)
    return kept
