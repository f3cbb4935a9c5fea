"""The command ``nesting quantities``: weights, mix, rubber and costs of a schedule.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.options import (
    Plan,
    Say,
    debug_option,
    help_option,
    json_option,
    name_folder,
    schedule_option,
    start_option,
    take_schedule,
    time_option,
)

if TYPE_CHECKING:
    from datetime import date

    from nesting.values.calendar import CastCalendar
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


def make_quantities(say: Say, plan: Plan) -> click.Command:
    """Return the command; it prints through ``say`` and plans a job by ``plan``, which checks."""

    @click.command(
        name="quantities",
        short_help="Work out weights, mix batches, rubber and costs.",
        add_help_option=False,
    )
    @click.argument("job_file", metavar="JOB")
    @schedule_option
    @json_option("the quantities")
    @click.option(
        "--csv",
        "folder",
        metavar="FOLDER",
        help="Write panels.csv, casts.csv, batches.csv and days.csv here.",
    )
    @start_option
    @time_option
    @debug_option
    @help_option
    def quantities(
        job_file: str,
        schedule_file: str | None,
        as_json: bool,
        folder: str | None,
        start: date | None,
        time_limit: float,
        debug: bool,
    ) -> None:
        """Work out what the panels of JOB weigh and take: mix, rubber, handling, costs.

        The mix of each day is that of the days of the calendar, where [calendar] of the job or
        --start tells when it starts. Without --schedule the job is planned first. With --csv,
        FOLDER is made where it is missing; the four files in it are replaced, others left alone.
        Masses only: nothing is certified.
        """
        from nesting.amounts.export import quantities_to_csv, quantities_to_json
        from nesting.amounts.quantities import reckon_quantities
        from nesting.amounts.report import report_quantities
        from nesting.files.output import prove_folder, write_into
        from nesting.jobs.read import read_job

        target = None if folder is None else Path(name_folder("--csv", folder))
        job = read_job(Path(job_file))
        if target is not None:
            prove_folder(target, "--csv")
        schedule = take_schedule(job, schedule_file, plan, time_limit)
        calendar = _plan_calendar(job, schedule, start, time_limit)
        found = reckon_quantities(job, schedule, calendar)
        if target is not None:
            write_into(target, quantities_to_csv(job, found), "--csv")
        if as_json:
            say(quantities_to_json(job, found))
            return
        say(report_quantities(job, found))
        if target is not None:
            say(f"\nWritten to {folder}: panels.csv, casts.csv, batches.csv, days.csv.")

    return quantities


def _plan_calendar(
    job: Job, schedule: Schedule, start: date | None, time_limit: float
) -> CastCalendar | None:
    """Return the calendar, where a start is known."""
    if (start or job.shop.start) is None:
        return None
    from nesting.days.plan import plan_sound_days

    return plan_sound_days(job, schedule, start=start, time_limit=time_limit)
