"""The command ``nesting calendar``: from a job and its schedule to the days it is cast on.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import name_folder
from nesting.commands.options import (
    SCHEDULE_OPTIONS,
    command,
    json_option,
    output_option,
    start_option,
)
from nesting.commands.say import say, written_to
from nesting.commands.schedule import take_schedule

if TYPE_CHECKING:
    from datetime import date


@command(
    "Turn casts into days: what is cast when, on which liner and bed.",
    *SCHEDULE_OPTIONS,
    start_option,
    output_option("FOLDER", "Write the four files here."),
    json_option("the calendar"),
    click.option("--csv", "as_csv", is_flag=True, help="Print the calendar as CSV, nothing else."),
)
def calendar(
    job_file: str,
    schedule_file: str | None,
    time_limit: float,
    start: date | None,
    output: str | None,
    as_json: bool,
    as_csv: bool,
) -> None:
    """Turn the casts of JOB into working days, by the shop's days in its [calendar] table.

    The order makes days late fewest, then re-sets of the dams and bed changes, then working
    days. With -o, FOLDER gets calendar.json, calendar.csv, calendar.ics and calendar.svg: all
    of them or none. Other files in FOLDER are left alone. Ends with 5 where the schedule given
    is at fault.
    """
    if as_json and as_csv:
        raise click.UsageError("--json and --csv cannot be used together.")
    from nesting.days.export import (
        CALENDAR,
        CALENDAR_FILES,
        calendar_to_csv,
        calendar_to_json,
        write_calendar_files,
    )
    from nesting.days.plan import need_start, plan_sound_days
    from nesting.days.report import report_calendar
    from nesting.files.clock import read_clock
    from nesting.files.output import prove_writable, write_folder
    from nesting.jobs.read import read_job
    from nesting.schedules.stamps import stamp_plan

    job = read_job(Path(job_file))
    need_start(job, start)
    target = None if output is None else name_folder(output)
    if target is not None:
        prove_writable(target, CALENDAR)
    schedule = take_schedule(job, schedule_file, time_limit)
    planned = plan_sound_days(job, schedule, start=start, time_limit=time_limit)
    if target is not None:
        stamp = stamp_plan(read_clock(), job, schedule)
        write_folder(target, write_calendar_files(job, planned, stamp), CALENDAR)
    if as_json:
        say(calendar_to_json(planned))
    elif as_csv:
        say(calendar_to_csv(planned).replace("\r\n", "\n"))
    else:
        end = written_to(output, CALENDAR_FILES, "the files")
        say(f"{report_calendar(job, planned)}\n\n{end}")
