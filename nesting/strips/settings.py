"""Settings in the order of the days: which set of dams lies on which liner for which casts."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import count, groupby

from nesting.values.calendar import CastCalendar, DayCast
from nesting.values.casts import Layout, Schedule

_MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True)
class Setting:
    """One set of dams on one liner, for casts that follow each other there.

    ``liner`` counts from 1, ``layout`` is the one whose dams they are, ``casts`` the numbers of the
    casts. ``begins`` and ``laid`` tell in minutes, or without a calendar in turns, when the work on
    the dams begins and when it is done.
    """

    liner: int
    layout: Layout
    casts: tuple[int, ...]
    begins: int
    laid: int


def list_settings(schedule: Schedule, calendar: CastCalendar | None) -> tuple[Setting, ...]:
    """Return the settings as they begin, then by liner.

    Without a calendar one liner takes the layouts in the order of the schedule.
    """
    if calendar is None:
        return tuple(_in_order(schedule))
    settings = [
        setting
        for liner in sorted({cast.liner for cast in calendar.casts})
        for setting in _on_liner(schedule, calendar, liner)
    ]
    return tuple(sorted(settings, key=lambda setting: (setting.begins, setting.liner)))


def _in_order(schedule: Schedule) -> Iterator[Setting]:
    numbers = count(1)
    casts = [(next(numbers), each) for each in schedule.layouts for _ in range(each.repeats)]
    runs = groupby(casts, key=lambda cast: _dams_of(schedule, cast[1].number).number)
    for turn, (number, run) in enumerate(runs):
        layout = _dams_of(schedule, number)
        yield Setting(1, layout, tuple(cast for cast, _ in run), turn, turn)


def _on_liner(schedule: Schedule, calendar: CastCalendar, liner: int) -> Iterator[Setting]:
    casts = [cast for cast in calendar.casts if cast.liner == liner]
    first = min(cast.tasks[0].begins for cast in calendar.casts)
    for number, run in groupby(casts, key=lambda cast: _dams_of(schedule, cast.layout).number):
        its = list(run)
        begins, laid = _work(its[0])
        yield Setting(
            liner,
            _dams_of(schedule, number),
            tuple(cast.number for cast in its),
            (begins - first) // _MINUTE,
            (laid - first) // _MINUTE,
        )


def _work(cast: DayCast) -> tuple[datetime, datetime]:
    """Return from when to when dams are set out or re-set for a cast."""
    tasks = [task for task in cast.tasks if task.name in ("set out", "re-set")] or cast.tasks[:1]
    return tasks[0].begins, tasks[-1].ends


def _dams_of(schedule: Schedule, number: int) -> Layout:
    """Return the layout whose dams a layout has: its own, or those it keeps."""
    layout = _numbered(schedule.layouts, number)
    return (
        layout if layout.same_dams_as is None else _numbered(schedule.layouts, layout.same_dams_as)
    )


def _numbered(layouts: Iterable[Layout], number: int) -> Layout:
    return next(layout for layout in layouts if layout.number == number)
