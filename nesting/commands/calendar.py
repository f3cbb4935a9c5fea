"""The command ``nesting calendar``: from a job and its schedule to the days it is cast on.

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
    from nesting.values.job import Job


def make_calendar(say: Say, plan: Plan) -> click.Command:
    """Return the command; it prints through ``say`` and plans a job by ``plan``, which checks."""

    @click.command(
        name="calendar",
        short_help="Turn casts into days: what is cast when, on which liner and bed.",
        add_help_option=False,
    )
    @click.argument("job_file", metavar="JOB")
    @schedule_option
    @start_option
    @click.option("-o", "--output", "folder", metavar="FOLDER", help="Write the four files here.")
    @json_option("the calendar")
    @click.option(
        "--csv", "as_csv", is_flag=True, help="Print the calendar as CSV and nothing else."
    )
    @time_option
    @debug_option
    @help_option
    def calendar(
        job_file: str,
        schedule_file: str | None,
        start: date | None,
        folder: str | None,
        as_json: bool,
        as_csv: bool,
        time_limit: float,
        debug: bool,
    ) -> None:
        """Turn the casts of JOB into working days, by the shop's days in its [calendar] table.

        The order makes days late fewest, then re-sets of the dams and bed changes, then working
        days. With -o, FOLDER gets calendar.json, calendar.csv, calendar.ics and calendar.svg: all
        of them or none. Other files in FOLDER are left alone. Ends with 5 where the schedule given
        is at fault.
        """
        if as_json and as_csv:
            raise click.UsageError("--json and --csv cannot be used together.")
        from nesting.days.plan import need_start, plan_sound_days
        from nesting.jobs.read import read_job

        job = read_job(Path(job_file))
        need_start(job, start)
        _prove_writable(folder)
        schedule = take_schedule(job, schedule_file, plan, time_limit)
        planned = plan_sound_days(job, schedule, start=start, time_limit=time_limit)
        _write_files(job, planned, folder)
        say(_text(job, planned, folder, as_json=as_json, as_csv=as_csv))

    return calendar


def _prove_writable(folder: str | None) -> None:
    from nesting.days.export import CALENDAR
    from nesting.files.output import prove_writable

    if folder is not None:
        prove_writable(Path(name_folder("-o", folder)), CALENDAR)


def _write_files(job: Job, planned: CastCalendar, folder: str | None) -> None:
    if folder is not None:
        from nesting.days.export import CALENDAR, write_calendar_files
        from nesting.files.output import write_folder

        write_folder(Path(folder), write_calendar_files(job, planned), CALENDAR)


def _text(
    job: Job, planned: CastCalendar, folder: str | None, *, as_json: bool, as_csv: bool
) -> str:
    from nesting.days.export import CALENDAR_FILES, calendar_to_csv, calendar_to_json
    from nesting.days.report import report_calendar

    if as_json:
        return calendar_to_json(planned).rstrip("\n")
    if as_csv:
        return calendar_to_csv(planned).replace("\r\n", "\n").rstrip("\n")
    end = "Nothing was written; give a folder with -o for the files."
    if folder is not None:
        end = f"Written to {folder}: {', '.join(CALENDAR_FILES)}."
    return f"{report_calendar(job, planned)}\n\n{end}"
