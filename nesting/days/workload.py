"""A schedule and a shop as whole numbers for the search: families, kinds of bed, and shifts."""

from bisect import bisect_left
from dataclasses import dataclass
from datetime import date, timedelta

from nesting.errors import NoScheduleError
from nesting.ordering.shifts import Way, Workload
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job
from nesting.values.shopdays import Shift, ShopDays, Times, duration_text, list_shifts

_DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Workday:
    """The work of a schedule in shifts. Layouts are numbered from 0 in the schedule's order.

    ``cover_limit`` is the longest cover time [minutes] that still lets a liner be cast on the next
    day after the longest work.
    """

    work: Workload
    shifts: tuple[Shift, ...]
    cover_limit: int

    def kind_of(self, layout: int) -> int:
        """Return the kind of bed of a layout."""
        return self.work.kind[self.work.family[layout]]


def prepare_work(job: Job, schedule: Schedule, first: date) -> Workday:
    """Return the work of a schedule's casts from a working day on.

    Raises
    ------
    NoScheduleError
        Where a shift does not hold one cast, with the reason.
    """
    shop, layouts = job.shop, schedule.layouts
    kinds = list(dict.fromkeys(layout.bed for layout in layouts))
    minutes = _list_minutes(shop, layouts, kinds)
    _refuse_short_shift(shop, minutes)
    lead = [_lead(shop, way, minutes[way]) for way in Way]
    lasting = [minutes[way] + (preparing(shop.times, way) if not lead[way] else 0) for way in Way]
    gap = shop.casts_per_day * (2 + (max(lasting) + shop.times.cover) // _DAY) + max(lead)
    shifts = list_shifts(shop, first, (schedule.casts + 2) * gap)
    families = list(dict.fromkeys(_family(layout) for layout in layouts))
    bed_of = {_family(layout): layout.bed for layout in layouts}
    work = Workload(
        family=tuple(families.index(_family(layout)) for layout in layouts),
        counts=tuple(layout.repeats for layout in layouts),
        kind=tuple(kinds.index(bed_of[family]) for family in families),
        liners=min(shop.liners, schedule.casts),
        beds=tuple(shop.count_beds(kind) for kind in kinds),
        lead=tuple(lead),
        free=tuple(_list_freed(shop, shifts, each) for each in lasting),
        late=tuple(_list_late(job, layout, shifts) for layout in layouts),
        finish_first=shop.first == "finish",
    )
    return Workday(work, shifts, _DAY - max(lasting))


def _family(layout: Layout) -> int:
    return layout.number if layout.same_dams_as is None else layout.same_dams_as


def preparing(times: Times, way: Way) -> int:
    """Return how long dams are set out or re-set [minutes]."""
    return {Way.FIRST: times.set_out, Way.RESET: times.reset, Way.BOTH: times.reset}.get(way, 0)


def _list_minutes(shop: ShopDays, layouts: tuple[Layout, ...], kinds: list[str]) -> dict[Way, int]:
    """Return the longest work in the cast's own shift, by way, dams not counted."""
    times = shop.times
    must_move = len(kinds) > 1 or any(shop.count_beds(kind) < shop.liners for kind in kinds)
    bed_change = times.bed_change if must_move else 0
    masked = any(layout.same_dams_as is not None for layout in layouts)
    masking = times.masking if masked else 0
    always = times.demould + times.cast
    return {
        Way.FIRST: always,
        Way.AGAIN: always + masking,
        Way.RESET: always,
        Way.MOVE: always + bed_change + masking,
        Way.BOTH: always + bed_change,
    }


def _refuse_short_shift(shop: ShopDays, minutes: dict[Way, int]) -> None:
    times, longest = shop.times, max(minutes.values())
    if longest <= shop.shift_minutes:
        return
    parts = {
        "demoulding": times.demould,
        "bed change and masking": longest - times.demould - times.cast,
        "face coat": times.face_coat,
        "haze wait": times.haze[1],
        "backing": times.backing,
    }
    listed = ", ".join(f"{name} {duration_text(each)}" for name, each in parts.items() if each)
    raise NoScheduleError(
        [
            f"One cast takes {duration_text(longest)} of work ({listed}), and a shift has "
            f"{duration_text(shop.shift_minutes)}: working hours {shop.opens:%H:%M} to "
            f"{shop.closes:%H:%M}, casts_per_day {shop.casts_per_day}. Lengthen hours, or lower "
            "casts_per_day."
        ]
    )


def _lead(shop: ShopDays, way: Way, minutes: int) -> int:
    """Return how many shifts the dams take before that of the cast; 0 where all fits into one."""
    dams = preparing(shop.times, way)
    if not dams or minutes + dams <= shop.shift_minutes:
        return 0
    return -(-(shop.times.demould + dams) // shop.shift_minutes)


def _list_freed(shop: ShopDays, shifts: tuple[Shift, ...], lasting: int) -> tuple[int, ...]:
    """Return for each shift the first one that begins when a cast in it has been covered enough."""
    begins = [shift.begins for shift in shifts]
    wait = timedelta(minutes=lasting + shop.times.cover)
    freed = (bisect_left(begins, begin + wait) for begin in begins)
    return tuple(min(each, len(shifts) - 1) for each in freed)


def _list_late(job: Job, layout: Layout, shifts: tuple[Shift, ...]) -> tuple[int, ...]:
    dues = [job.panel(placed.mark).due for placed in layout.panels]
    return tuple(sum(max(0, (shift.day - due).days) for due in dues) for shift in shifts)
