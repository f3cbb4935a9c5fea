"""Plans a calendar and takes it only once the checker has passed it."""

from __future__ import annotations

from datetime import date

from nesting.checking.calendar import check_calendar
from nesting.days.plan import plan_days
from nesting.errors import RefusedError
from nesting.values.calendar import CastCalendar
from nesting.values.casts import Schedule
from nesting.values.job import Job


def plan_sound_days(
    job: Job, schedule: Schedule, *, start: date | None = None, time_limit: float | None = None
) -> CastCalendar:
    """Return the calendar of a schedule; raises as `castdays.plan_days`.

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
