"""From a schedule to its calendar: the order of the casts, their days and their times.

A calendar is taken only once the checker has passed it.
"""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from itertools import islice

from nesting.checking.calendar import check_calendar
from nesting.days.workload import Workday, prepare_work, preparing
from nesting.errors import InputError, RefusedError
from nesting.ordering.order import Ordered, order_casts
from nesting.ordering.shifts import Move, Way
from nesting.search.solver import Deadline
from nesting.values.calendar import Aim, CastCalendar, DayCast, Due, Task, TaskName
from nesting.values.casts import Schedule
from nesting.values.job import Job
from nesting.values.shopdays import NO_DUE, Shift, ShopDays, duration_text, is_working, working_days

MOST_CASTS = 2_000
"""Most casts of one calendar."""


def plan_days(
    job: Job, schedule: Schedule, *, start: date | None = None, time_limit: float | None = None
) -> CastCalendar:
    """Return the calendar of a schedule's casts, from ``start`` or else the job's own start.

    Raises
    ------
    InputError
        Where there is no start, or the schedule has more casts than a calendar holds.
    NoScheduleError
        Where the shop's hours do not hold one cast, with the reason.
    """
    asked = need_start(job, start)
    if schedule.casts > MOST_CASTS:
        rule = f"a calendar holds at most {MOST_CASTS} casts"
        raise InputError("schedule", rule, got=str(schedule.casts))
    first = next(working_days(job.shop, asked))
    day = prepare_work(job, schedule, first)
    ordered = order_casts(day.work, Deadline(time_limit))
    casts = _Diary(job, schedule, day).write(ordered.moves)
    return CastCalendar(
        schedule.job,
        asked,
        first,
        casts,
        _list_dues(job, schedule, casts),
        *_aims(job.shop, ordered),
        notes=tuple(_notes(job.shop, asked, first, day, ordered, time_limit)),
    )


def need_start(job: Job, start: date | None) -> date:
    """Return the day asked for: ``start``, or else the job's own; InputError for neither."""
    asked = start or job.shop.start
    if asked is None:
        remedy = "give start in [calendar] of the job, or --start DATE"
        raise InputError("calendar.start", "a calendar needs a day to start on", remedy=remedy)
    return asked


class _Diary:
    """Writes moves down as casts with their times, one after another."""

    def __init__(self, job: Job, schedule: Schedule, day: Workday) -> None:
        self._shop, self._layouts, self._day = job.shop, schedule.layouts, day
        self._freed: set[tuple[int, int, int, int]] = set()
        self._former: dict[int, int] = {}

    def write(self, moves: Sequence[Move]) -> tuple[DayCast, ...]:
        """Return the casts in order of shift, then of liner."""
        beds = _number_beds(self._day, moves)
        for move in moves:
            freed = self._day.work.free[move.way][move.shift]
            kind = self._day.kind_of(move.layout)
            self._freed |= {(freed, 0, move.liner, 0), (freed, 1, kind, beds[move])}
        return tuple(
            self._cast(number, move, beds[move])
            for number, move in enumerate(sorted(moves), start=1)
        )

    def _cast(self, number: int, move: Move, bed: int) -> DayCast:
        layout = self._layouts[move.layout]
        demould = self._day.shifts[self._day.work.free[move.way][move.shift]].begins
        length = timedelta(minutes=self._shop.times.demould)
        tasks = (*self._lead_tasks(move), *self._shift_tasks(move, bed))
        self._former[move.liner] = move.layout
        return DayCast(
            number,
            layout.number,
            tuple(placed.mark for placed in layout.panels),
            move.liner + 1,
            layout.bed,
            bed + 1,
            move.way in (Way.RESET, Way.BOTH),
            move.way in (Way.MOVE, Way.BOTH),
            tasks,
            Task("demould", demould, demould + length),
        )

    def _lead_tasks(self, move: Move) -> list[Task]:
        """Return the set-out that fills the shifts before the cast's own."""
        tasks: list[Task] = []
        left = timedelta(minutes=preparing(self._shop.times, move.way))
        for number in range(move.shift - self._day.work.lead[move.way], move.shift):
            shift = self._day.shifts[number]
            begins = self._begin(shift, number, move, None)
            ends = min(shift.ends, begins + left)
            left -= ends - begins
            tasks.append(Task(_setting(move.way), begins, ends))
        return tasks

    def _shift_tasks(self, move: Move, bed: int) -> list[Task]:
        """Return the tasks of the cast's own shift, each beginning where the last one ends."""
        times = self._shop.times
        work: list[tuple[TaskName, int]] = []
        if move.way in (Way.MOVE, Way.BOTH):
            work.append(("bed change", times.bed_change))
        if move.way in (Way.FIRST, Way.RESET, Way.BOTH) and not self._day.work.lead[move.way]:
            work.append((_setting(move.way), preparing(self._shop.times, move.way)))
        if move.way in (Way.AGAIN, Way.MOVE) and self._former[move.liner] != move.layout:
            work.append(("mask", times.masking))
        work.append(("face coat", times.face_coat))
        shift = self._day.shifts[move.shift]
        tasks: list[Task] = []
        now = self._begin(shift, move.shift, move, bed)
        for name, minutes in work:
            tasks.append(Task(name, now, now + timedelta(minutes=minutes)))
            now = tasks[-1].ends
        least, most = (now + timedelta(minutes=minutes) for minutes in times.haze)
        backed = most + timedelta(minutes=times.backing)
        return [*tasks, Task("haze", least, most), Task("backing", most, backed)]

    def _begin(self, shift: Shift, number: int, move: Move, bed: int | None) -> datetime:
        """Return when work on the liner begins: after what is demoulded from it or its bed."""
        own = (number, 0, move.liner, 0) in self._freed
        other = bed is not None and (number, 1, self._day.kind_of(move.layout), bed) in self._freed
        wait = self._shop.times.demould if own or other else 0
        return shift.begins + timedelta(minutes=wait)


def _setting(way: Way) -> TaskName:
    return "set out" if way == Way.FIRST else "re-set"


def _number_beds(day: Workday, moves: Sequence[Move]) -> dict[Move, int]:
    """Return the bed of each cast among those of its kind: a stay on a bed keeps it throughout."""
    stays: list[list[Move]] = []
    by_liner: dict[int, list[Move]] = {}
    for move in sorted(moves):
        if move.way in (Way.AGAIN, Way.RESET):
            by_liner[move.liner].append(move)
        else:
            by_liner[move.liner] = [move]
            stays.append(by_liner[move.liner])
    until: dict[tuple[int, int], int] = {}
    beds: dict[Move, int] = {}
    for stay in stays:
        kind = day.kind_of(stay[0].layout)
        numbers = range(day.work.beds[kind])
        bed = next(n for n in numbers if until.get((kind, n), 0) <= stay[0].shift)
        until[kind, bed] = day.work.free[stay[-1].way][stay[-1].shift]
        beds |= dict.fromkeys(stay, bed)
    return beds


def _list_dues(job: Job, schedule: Schedule, casts: Sequence[DayCast]) -> tuple[Due, ...]:
    found = []
    for panel in job.panels:
        if panel.due != NO_DUE:
            days = ((cast.demould.begins.date(), cast.marks.count(panel.mark)) for cast in casts)
            done = [day for day, count in days for _ in range(count)]
            if done:
                late = sum(day > panel.due for day in done)
                found.append(Due(panel.mark, panel.due, max(done), late))
    return tuple(found)


def _aims(shop: ShopDays, ordered: Ordered) -> tuple[Aim, Aim, Aim]:
    worth, bound = ordered.worth, ordered.bound
    days = (1 + end // shop.casts_per_day for end in (worth.end, bound.end))
    return Aim(worth.late, bound.late), Aim(worth.changes, bound.changes), Aim(*days)


def _notes(
    shop: ShopDays,
    asked: date,
    first: date,
    day: Workday,
    ordered: Ordered,
    time_limit: float | None,
) -> list[str]:
    notes = []
    if asked != first:
        notes.append(
            f"The shop does not work on {asked:%A} {asked}; the calendar starts on {first:%A} "
            f"{first}."
        )
    if day.cover_limit < shop.times.cover and _works_two_days_running(shop, first):
        notes.append(
            f"Covered for {duration_text(shop.times.cover)}, a cast with the longest work before "
            "it is not ready when the next working day begins, and its liner waits for the next "
            f"shift; up to {duration_text(max(0, day.cover_limit))} it would be."
        )
    if shop.casts_per_day > 1 and not _has_two_casts_a_day(day):
        notes.append(
            f"Covered for {duration_text(shop.times.cover)}, no liner takes a second cast in a "
            f"day: casts_per_day {shop.casts_per_day} only makes its shifts shorter. Leave it at 1."
        )
    if len({move.liner for move in ordered.moves}) > 1:
        notes.append(
            "Liners are worked on side by side, each by people of its own. Where fewer are there, "
            "what stands at the same hour must be done in turn: see that the day has room for it."
        )
    if time_limit is not None and ordered.worth != ordered.bound:
        notes.append(
            f"The order is the best found within {time_limit:g} s; what is not proved may have "
            "room for better."
        )
    return notes


def _works_two_days_running(shop: ShopDays, first: date) -> bool:
    days = list(islice(working_days(shop, first), 8))
    return any(is_working(shop, day + timedelta(days=1)) for day in days)


def _has_two_casts_a_day(day: Workday) -> bool:
    """Whether a liner can be free again on the day it was cast on."""
    shifts = day.shifts
    return any(
        shifts[now].day == shifts[then].day and now < then < len(shifts) - 1
        for freed in day.work.free
        for now, then in enumerate(freed)
    )


def plan_sound_days(
    job: Job, schedule: Schedule, *, start: date | None = None, time_limit: float | None = None
) -> CastCalendar:
    """Return the calendar of a schedule; raises as `plan_days`.

    Raises
    ------
    RefusedError
        Where our own checker finds a fault in it.
    """
    planned = plan_days(job, schedule, start=start, time_limit=time_limit)
    faults = check_calendar(job, schedule, planned)
    if faults:
        raise RefusedError(faults)
    return planned
