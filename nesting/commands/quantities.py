"""The command ``nesting quantities``: weights, mix, rubber and costs of a schedule.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from nesting.commands.filenames import prove_folder
from nesting.commands.options import (
    SCHEDULE_OPTIONS,
    command,
    json_option,
    output_option,
    start_option,
)
from nesting.commands.say import say, written_to
from nesting.commands.schedule import plan_calendar, take_schedule

if TYPE_CHECKING:
    from datetime import date


@command(
    "Work out weights, mix batches, rubber and costs.",
    *SCHEDULE_OPTIONS,
    start_option,
    output_option("FOLDER", "Write panels.csv, casts.csv, batches.csv and days.csv here."),
    json_option("the quantities"),
)
def quantities(
    job_file: str,
    schedule_file: str | None,
    time_limit: float,
    start: date | None,
    output: str | None,
    as_json: bool,
) -> None:
    """Work out what the panels of JOB weigh and take: mix, rubber, handling, costs.

    The mix of each day is that of the days of the calendar, where [calendar] of the job or
    --start tells when it starts. Without --schedule the job is planned first. With -o, FOLDER
    is made where it is missing; former tables in it are replaced, other files are not.
    Masses only: nothing is certified.
    """
    from nesting.amounts.export import CSV_MARKS, quantities_to_csv, quantities_to_json
    from nesting.amounts.quantities import reckon_quantities
    from nesting.amounts.report import report_quantities
    from nesting.files.output import write_into
    from nesting.jobs.read import read_job

    job = read_job(Path(job_file))
    target = None if output is None else prove_folder(output, CSV_MARKS)
    schedule = take_schedule(job, schedule_file, time_limit)
    found = reckon_quantities(job, schedule, plan_calendar(job, schedule, start, time_limit))
    if target is not None:
        write_into(target, quantities_to_csv(job, found))
    if as_json:
        say(quantities_to_json(job, found))
        return
    say(report_quantities(job, found))
    if output is not None:
        say(f"\n{written_to(output, CSV_MARKS, '')}")
