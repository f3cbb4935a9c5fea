"""The stamps of sheets: the sheet code is that of the job as written, and of its schedule file.

All sheets of one plan have one code, whatever the file of the job looked like; it changes with any
figure of the job or the schedule.
"""

from datetime import datetime

from nesting.files.code import code_of
from nesting.jobs.write import write_job
from nesting.values.casts import Schedule
from nesting.values.job import Job
from nesting.values.stamp import Stamp


def stamp_plan(drawn: datetime, job: Job, schedule: Schedule) -> Stamp:
    """Return the stamp of the sheets of a plan drawn at that time."""
    return Stamp(drawn, code_plan(job, schedule))


def stamp_job(drawn: datetime, job: Job) -> Stamp:
    """Return the stamp of a sheet that shows a job, or its liner, without a schedule."""
    return Stamp(drawn, code_of(write_job(job)))


def code_plan(job: Job, schedule: Schedule) -> str:
    """Return the sheet code of a plan."""
    from nesting.schedules.write import schedule_to_json

    return code_of(write_job(job), schedule_to_json(schedule, job))
