"""The command ``nesting calendar``: from a job and its schedule to the days it is cast on.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.errors import InputError, RefusedError

if TYPE_CHECKING:
    from datetime import date

    from nesting.castcalendar import CastCalendar
    from nesting.casts import Schedule
    from nesting.job import Job

Option = Callable[[Callable[..., None]], Callable[..., None]]


def make_calendar(
    say: Callable[[str], None],
    plan: Callable[[Job, float], Schedule],
    time_option: Option,
    debug_option: Option,
    help_option: Option,
) -> click.Command:
    """Return the command; it prints through ``say`` and plans a job by ``plan``, which checks."""

    @click.command(
        name="calendar",
        short_help="Turn casts into days: who casts what, when, on which liner and bed.",
        add_help_option=False,
    )
    @click.argument("job_file", metavar="JOB")
    @click.option(
        "--schedule",
        "schedule_file",
        metavar="FILE",
        help="Take this schedule.json, once it is checked, and do not plan.",
    )
    @click.option(
        "--start", metavar="DATE", help="Start on this day, like 2026-03-02, whatever the job says."
    )
    @click.option("-o", "--output", "folder", metavar="FOLDER", help="Write the four files here.")
    @click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
    @click.option("--csv", "as_csv", is_flag=True, help="Print CSV and nothing else.")
    @time_option
    @debug_option
    @help_option
    def calendar(
        job_file: str,
        schedule_file: str | None,
        start: str | None,
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
        from nesting.castdays import plan_days
        from nesting.jobfile import read_job
        from nesting.soundschedule import read_sound_schedule

        job = read_job(Path(job_file))
        day = None if start is None else read_start(start)
        _prove_writable(folder)
        schedule = (
            read_sound_schedule(job, schedule_file) if schedule_file else plan(job, time_limit)
        )
        planned = plan_days(job, schedule, start=day, time_limit=time_limit)
        _refuse_faults(job, schedule, planned)
        _write_files(job, planned, folder)
        say(_text(job, planned, folder, as_json=as_json, as_csv=as_csv))

    return calendar


def read_start(text: str) -> date:
    """Return the day that --start names; InputError where it names none."""
    from nesting.datereaders import read_date

    try:
        return read_date(text)
    except InputError as error:
        raise InputError("--start", error.rule, error.got, error.remedy) from error


def _prove_writable(folder: str | None) -> None:
    from nesting.calendarfiles import CALENDAR
    from nesting.output import prove_writable

    if folder == "":
        raise InputError("-o", "must name a folder", remedy="give its path after -o")
    if folder is not None:
        prove_writable(Path(folder), CALENDAR)


def _refuse_faults(job: Job, schedule: Schedule, planned: CastCalendar) -> None:
    from nesting.calendarcheck import check_calendar

    faults = check_calendar(job, schedule, planned)
    if faults:
        raise RefusedError(faults)


def _write_files(job: Job, planned: CastCalendar, folder: str | None) -> None:
    if folder is not None:
        from nesting.calendarfiles import CALENDAR, write_calendar_files
        from nesting.output import write_folder

        write_folder(Path(folder), write_calendar_files(job, planned), CALENDAR)


def _text(
    job: Job, planned: CastCalendar, folder: str | None, *, as_json: bool, as_csv: bool
) -> str:
    from nesting.calendarfile import calendar_to_csv, calendar_to_json
    from nesting.calendarfiles import CALENDAR_FILES
    from nesting.calendarreport import report_calendar

    if as_json:
        return calendar_to_json(planned).rstrip("\n")
    if as_csv:
        return calendar_to_csv(planned).replace("\r\n", "\n").rstrip("\n")
    end = "Nothing was written; give a folder with -o for the files."
    if folder is not None:
        end = f"Written to {folder}: {', '.join(CALENDAR_FILES)}."
    return f"{report_calendar(job, planned)}\n\n{end}"
