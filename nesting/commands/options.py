"""What makes a function a command, and the arguments and options that several commands have.

Only click is imported before a command runs.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from nesting.commands.help import finish_command
from nesting.commands.say import say
from nesting.errors import naming

if TYPE_CHECKING:
    from datetime import date

Function = Callable[..., Any]
Option = Callable[[Function], Function]
"""What puts an argument or an option on a command."""


def command(short_help: str, *given: Option) -> Callable[[Function], click.Command]:
    """Return what makes a function the command of its name, which takes what is given.

    Its help page is the function's docstring with the examples of the command; --debug and --help
    come of themselves.
    """

    def make(function: Function) -> click.Command:
        for option in reversed((*given, debug_option, help_option)):
            function = option(function)
        made = click.command(function.__name__, short_help=short_help, add_help_option=False)(
            function
        )
        finish_command(made)
        return made

    return make


def output_option(metavar: str, words: str) -> Option:
    """Return the option -o, which says where results go: a file or a folder."""
    return click.option("-o", "--output", metavar=metavar, help=words)


def picture_option(what: str) -> Option:
    """Return the option --svg, which names the file for a picture of ``what``."""
    return click.option("--svg", "picture", metavar="PICTURE", help=f"Write {what} as SVG here.")


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

    with naming("--start"):
        return read_date(value)


def _show_help(context: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if wanted and not context.resilient_parsing:
        say(context.get_help())
        context.exit()


debug_option = click.option(
    "--debug",
    is_flag=True,
    expose_value=False,
    help="On trouble, show where in the program it began.",
)
"""Read from the words of the command line by `nesting.cli`, not by the command."""
help_option = click.option(
    "-h",
    "--help",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_help,
    help="Show this page and stop.",
)
time_option = click.option(
    "--time-limit",
    callback=_read_seconds,
    metavar="SECONDS",
    default="60",
    help="Stop the search after this, with the best found; 60 unless given.",
)
exact_option = click.option(
    "--exact", is_flag=True, help="Add in decimals every length that lies on no mark of the tape."
)
start_option = click.option(
    "--start",
    callback=_read_start,
    metavar="DATE",
    help="Start on this day, like 2026-03-02, whatever the job says.",
)
SCHEDULE_OPTIONS = (
    click.argument("job_file", metavar="JOB"),
    click.option(
        "--schedule",
        "schedule_file",
        metavar="FILE",
        help="Take this schedule.json, once it is checked, and do not plan.",
    ),
    time_option,
)
"""What commands take that need a job and its schedule."""
