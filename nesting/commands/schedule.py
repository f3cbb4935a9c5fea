"""The schedule a command works on: read from a file or planned, and passed by the checker.

Only the modules of commands are imported before a command runs.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from nesting.commands.console import speak_up, watched_line
from nesting.errors import RefusedError

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from nesting.values.calendar import CastCalendar
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


def take_schedule(job: Job, schedule_file: str | None, time_limit: float) -> Schedule:
    """Return the schedule of the file, once it is checked, or a fresh one where none is given."""
    if not schedule_file:
        return plan_soundly(job, time_limit)
    from nesting.schedules.findings import read_sound_schedule

    return read_sound_schedule(job, schedule_file)


def plan_soundly(job: Job, time_limit: float) -> Schedule:
    """Return a fresh schedule that the checker has passed; a person sees how the search goes."""
    line = watched_line()
    if line is None:
        schedule = search(job, time_limit, None)
    else:
        with speak_up(line):
            schedule = search(job, time_limit, line)
    refuse_faults(job, schedule)
    return schedule


def search(job: Job, time_limit: float, progress: Callable[[str], None] | None) -> Schedule:
    """Return the best schedule found within the time [s]; it is not checked yet."""
    from nesting.planning.schedule import schedule_casts

    return schedule_casts(job, time_limit=time_limit, progress=progress)


def refuse_faults(job: Job, schedule: Schedule) -> None:
    """Raise RefusedError where the checker finds a fault in a schedule of our own."""
    from nesting.checking.schedule import check_schedule

    findings = check_schedule(job, schedule)
    if findings:
        raise RefusedError(findings)


def plan_calendar(
    job: Job, schedule: Schedule, start: date | None, time_limit: float
) -> CastCalendar | None:
    """Return the calendar, where a start is known from the option or from the job."""
    if (start or job.shop.start) is None:
        return None
    from nesting.days.plan import plan_sound_days

    return plan_sound_days(job, schedule, start=start, time_limit=time_limit)
