"""Options that several commands have, each with its one text and its one reading.

Only click is imported before a command runs.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from nesting.commands.say import say
from nesting.errors import InputError

if TYPE_CHECKING:
    from datetime import date

    from nesting.values.casts import Schedule
    from nesting.values.job import Job

Option = Callable[[Callable[..., Any]], Callable[..., Any]]
"""What puts an option on a command."""
Say = Callable[[str], None]
"""How a command prints."""
Plan = Callable[["Job", float], "Schedule"]
"""How a command plans a job within so many seconds; the schedule has passed the checker."""


def take_schedule(job: Job, schedule_file: str | None, plan: Plan, time_limit: float) -> Schedule:
    """Return the schedule of the file, once it is checked, or a fresh one where none is given."""
    if not schedule_file:
        return plan(job, time_limit)
    from nesting.schedules.findings import read_sound_schedule

    return read_sound_schedule(job, schedule_file)


def name_folder(where: str, folder: str | None) -> str:
    """Return the folder an option names; InputError where it names none."""
    if not folder:
        raise InputError(where, "must name a folder", remedy=f"give its path after {where}")
    return folder


def json_option(what: str) -> Option:
    """Return the option that prints ``what`` as JSON."""
    return click.option(
        "--json", "as_json", is_flag=True, help=f"Print {what} as JSON and nothing else."
    )


def _read_seconds(context: click.Context, _option: click.Parameter, value: str) -> float:
    """Return a number of seconds; a usage error where it is none, not finite or not above zero."""
    try:
        seconds = float(value)
    except ValueError:
        seconds = math.nan
    if not (math.isfinite(seconds) and seconds > 0):
        raise click.UsageError(
            f"--time-limit must be a number of seconds > 0, got {value}.", context
        )
    return seconds


def _read_start(
    _context: click.Context, _option: click.Parameter, value: str | None
) -> date | None:
    if value is None:
        return None
    from nesting.files.dates import read_date

    try:
        return read_date(value)
    except InputError as error:
        raise InputError("--start", error.rule, error.got, error.remedy) from error


def _show_help(context: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        say(context.get_help())
        context.exit()


debug_option = click.option(
    "--debug", is_flag=True, help="On trouble, show where in the program it began."
)
time_option = click.option(
    "--time-limit",
    callback=_read_seconds,
    metavar="SECONDS",
    default="60",
    help="Stop the search after this, with the best found; 60 unless given.",
)
help_option = click.option(
    "-h",
    "--help",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_help,
    help="Show this page and stop.",
)
schedule_option = click.option(
    "--schedule",
    "schedule_file",
    metavar="FILE",
    help="Take this schedule.json, once it is checked, and do not plan.",
)
start_option = click.option(
    "--start",
    callback=_read_start,
    metavar="DATE",
    help="Start on this day, like 2026-03-02, whatever the job says.",
)
