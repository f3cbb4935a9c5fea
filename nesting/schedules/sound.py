"""Reads a schedule file and takes it only once the checker has passed it."""

from __future__ import annotations

from pathlib import Path

from nesting.checking.areas import check_totals
from nesting.checking.schedule import check_schedule
from nesting.errors import FaultyScheduleError
from nesting.schedules.write import read_schedule, read_totals
from nesting.values.casts import Schedule
from nesting.values.job import Job


def read_sound_schedule(job: Job, schedule_file: str) -> Schedule:
    """Return the schedule of a file; FaultyScheduleError where the checker finds anything in it."""
    schedule = read_schedule(Path(schedule_file))
    stated = read_totals(Path(schedule_file))
    findings = (*check_schedule(job, schedule), *check_totals(schedule, stated))
    if findings:
        raise FaultyScheduleError(schedule_file, findings)
    return schedule
