"""An independent verdict on a calendar: sees job, schedule and calendar, shares no code with them.

Every rule is judged again from the finished casts and their times.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta
from itertools import pairwise

from nesting.values.calendar import CastCalendar, DayCast
from nesting.values.casts import Schedule
from nesting.values.job import Job


def check_calendar(job: Job, schedule: Schedule, calendar: CastCalendar) -> tuple[str, ...]:
    """Return a line for each fault; none for a calendar that keeps every rule."""
    faults = [*_check_casts(schedule, calendar), *_check_aims(job, calendar)]
    for cast in calendar.casts:
        faults += [f"cast {cast.number}: {fault}" for fault in _check_times(job, cast)]
    liners = {cast.liner for cast in calendar.casts}
    if max(liners, default=0) > job.shop.liners:
        faults.append(f"liner {max(liners)}: the shop has {job.shop.liners}")
    for liner in sorted(liners):
        faults += _check_liner(schedule, [c for c in calendar.casts if c.liner == liner])
    for bed, number in sorted({(cast.bed, cast.bed_number) for cast in calendar.casts}):
        if number > job.shop.count_beds(bed):
            faults.append(f"bed {bed!r} {number}: the shop has {job.shop.count_beds(bed)}")
        mine = [c for c in calendar.casts if (c.bed, c.bed_number) == (bed, number)]
        faults += _check_bed(calendar, mine)
    return tuple(faults)


def _check_casts(schedule: Schedule, calendar: CastCalendar) -> Iterator[str]:
    counts = Counter(cast.layout for cast in calendar.casts)
    for layout in schedule.layouts:
        if counts.pop(layout.number, 0) != layout.repeats:
            yield f"layout {layout.number}: it must be cast {layout.repeats} times"
    for number in counts:
        yield f"layout {number}: the schedule has none of that number"
    layouts = {layout.number: layout for layout in schedule.layouts}
    for cast in calendar.casts:
        its = layouts.get(cast.layout)
        marks = sorted(placed.mark for placed in its.panels) if its else []
        if its and (cast.bed != its.bed or sorted(cast.marks) != marks):
            yield f"cast {cast.number}: bed and panels must be those of layout {cast.layout}"


def _check_aims(job: Job, calendar: CastCalendar) -> Iterator[str]:
    late = 0
    for cast in calendar.casts:
        for mark in cast.marks:
            late += max(0, (cast.demould.begins.date() - job.panel(mark).due).days)
    if late != calendar.late.value:
        yield f"panels are {late} days late in all, got {calendar.late.value}"
    span = range((calendar.finish - calendar.start).days + 1) if calendar.casts else ()
    worked = sum(_works(job, calendar.start + timedelta(days=n)) for n in span)
    if worked != calendar.days.value:
        yield f"the shop works on {worked} days, got {calendar.days.value}"
    if calendar.changes.value != calendar.resets + calendar.bed_changes:
        yield "re-sets and bed changes must add up"


def _check_times(job: Job, cast: DayCast) -> Iterator[str]:
    """Yield what is wrong with one cast by itself: hours, days off, durations, haze and cover."""
    shop, times = job.shop, job.shop.times
    for task in (*cast.tasks, cast.demould):
        day = task.begins.date()
        if not _works(job, day):
            yield f"{task.name} is on a day off, {day}"
        opens, closes = (datetime.combine(day, each) for each in (shop.opens, shop.closes))
        if not opens <= task.begins <= task.ends <= closes:
            yield f"{task.name} is outside working hours"
    if any(first.ends > then.begins for first, then in pairwise(cast.tasks)):
        yield "its tasks overlap"
    lengths = {
        "set out": times.set_out,
        "re-set": times.reset,
        "bed change": times.bed_change,
        "mask": times.masking,
        "face coat": times.face_coat,
        "backing": times.backing,
        "demould": times.demould,
    }
    took: Counter[str] = Counter()
    for task in (*cast.tasks, cast.demould):
        took[task.name] += round((task.ends - task.begins).total_seconds() / 60)
    for name, minutes in lengths.items():
        if name in took and took[name] != minutes:
            yield f"{name} must take {minutes} min"
    least, most = (timedelta(minutes=each) for each in times.haze)
    if not least <= cast.task("backing").begins - cast.task("face coat").ends <= most:
        yield "the backing begins outside the haze window"
    if cast.demould.begins - cast.covered < timedelta(minutes=times.cover):
        yield f"it is demoulded before {times.cover} min under cover"


def _check_liner(schedule: Schedule, casts: Sequence[DayCast]) -> Iterator[str]:
    """Yield what is wrong with the casts of one liner, one after another."""
    dams = {layout.number: layout.same_dams_as or layout.number for layout in schedule.layouts}
    for former, cast in pairwise(casts):
        at = f"cast {cast.number}"
        if cast.tasks[0].begins < former.demould.ends:
            yield f"{at}: its liner still holds cast {former.number}"
        if cast.is_reset != (dams.get(cast.layout) != dams.get(former.layout)):
            yield f"{at}: the dams are re-set if, and only if, they differ from the last"
        beds = [(each.bed, each.bed_number) for each in (former, cast)]
        if beds[0] != beds[1] and not cast.is_bed_change:
            yield f"{at}: the liner comes to another bed without a bed change"
        other_bays = cast.layout != former.layout and not cast.is_reset
        if other_bays != ("mask" in {task.name for task in cast.tasks}):
            yield f"{at}: bays are masked if, and only if, the layout differs under the same dams"
    for number, cast in enumerate(casts):
        names = {task.name for task in cast.tasks}
        if ("re-set" in names, "bed change" in names) != (cast.is_reset, cast.is_bed_change):
            yield f"cast {cast.number}: tasks and changes must agree"
        if ("set out" in names) != (number == 0):
            yield f"cast {cast.number}: dams are set out for the first cast of a liner"


def _check_bed(calendar: CastCalendar, casts: Sequence[DayCast]) -> Iterator[str]:
    """Yield what is wrong with the casts of one bed, one after another."""
    for former, cast in pairwise(casts):
        if cast.task("face coat").begins < former.demould.ends:
            yield f"cast {cast.number}: its bed still holds cast {former.number}"
        before = [c for c in calendar.casts if c.liner == cast.liner and c.number < cast.number]
        if former.liner != cast.liner and before and not cast.is_bed_change:
            yield f"cast {cast.number}: another liner lay on its bed, which takes a bed change"


def _works(job: Job, day: date) -> bool:
    return day.isoweekday() not in job.shop.weekdays_off and day not in job.shop.dates_off
