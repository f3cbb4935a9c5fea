"""The command line: its commands, their text, and the exit code each ends with.

Only click is imported before a command runs, so that help comes at once.
"""

from __future__ import annotations

import shutil
import sys
import time
import traceback
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.calendar import make_calendar
from nesting.commands.fit import make_fit
from nesting.commands.help import NOTES, OVERVIEW, finish_command
from nesting.commands.liner import make_liner
from nesting.commands.options import debug_option, help_option, json_option, time_option
from nesting.commands.packet import make_packet_command
from nesting.commands.page import make_page
from nesting.commands.quantities import make_quantities
from nesting.commands.range import make_range
from nesting.commands.say import say, tell
from nesting.commands.template import make_template
from nesting.commands.wall import make_wall
from nesting.commands.zones import make_zones
from nesting.errors import InputError, NestingError, RefusedError

if TYPE_CHECKING:
    from nesting.values.casts import Schedule
    from nesting.values.job import Job

EXIT_FAULTS_FOUND = 5
EXIT_OWN_FAULT = 1
EXIT_STOPPED = 130

_SETTINGS = {"max_content_width": 100}


class _InOrder(click.Group):
    """A group that lists its commands in the order they are written here."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.commands)


def _show_version(context: click.Context, _option: click.Parameter, wanted: bool) -> None:
    if not wanted or context.resilient_parsing:
        return
    from importlib.metadata import PackageNotFoundError, version

    try:
        say(f"nesting {version('nesting')}")
    except PackageNotFoundError:
        say("nesting, from a folder where it is not installed")
    context.exit()


_version = click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_show_version,
    help="Show the version and stop.",
)


@click.group(
    cls=_InOrder,
    help=OVERVIEW,
    epilog=NOTES,
    context_settings=_SETTINGS,
    invoke_without_command=True,
    add_help_option=False,
)
@_version
@help_option
@click.pass_context
def nesting(context: click.Context) -> None:
    """Show the help page where no command is given."""
    if context.invoked_subcommand is None:
        say(context.get_help())


@nesting.command(
    short_help="Find the fewest casts for a job; draw the masking layouts.", add_help_option=False
)
@click.argument("job_file", metavar="JOB")
@click.option(
    "-o", "--output", "folder", metavar="FOLDER", help="Write schedule and drawings here."
)
@json_option("the schedule")
@click.option("--dxf", is_flag=True, help="With -o, write each layout as DXF too.")
@time_option
@click.option("--quiet", is_flag=True, help="Print the one line of the result only.")
@click.option("--verbose", is_flag=True, help="Tell on standard error how the search goes.")
@debug_option
@help_option
def plan(
    job_file: str,
    folder: str | None,
    as_json: bool,
    dxf: bool,
    time_limit: float,
    quiet: bool,
    verbose: bool,
    debug: bool,
) -> None:
    """Find the fewest casts that make the order in JOB, and print the plan.

    The report gives casts and layouts, the set-out of every dam from the datum corner, the areas
    and the proof. With -o, FOLDER gets schedule.json, one layout-NN.svg per masking layout
    and overview.svg: all of them or none. Other files in FOLDER are left alone.
    """
    if quiet and verbose:
        raise click.UsageError("--quiet and --verbose cannot be used together.")
    if dxf and folder is None:
        raise click.UsageError("--dxf needs a folder, give it with -o.")
    with _timed("reading the job", verbose):
        from nesting.jobs.read import read_job

        job = read_job(Path(job_file))
    target = None if folder is None else _prepare_folder(folder, dxf)
    with _timed("the search", verbose):
        schedule = _search(job, time_limit, quiet=quiet, verbose=verbose)
    with _timed("the check", verbose):
        _refuse_faults(job, schedule)
    if target is not None:
        with _timed("writing", verbose):
            _write_files(job, schedule, target, dxf)
    _print_plan(job, schedule, folder, as_json, quiet, dxf)


@nesting.command(
    short_help="Check a schedule against its job, rule by rule.", add_help_option=False
)
@click.argument("job_file", metavar="JOB")
@click.argument("schedule_file", metavar="SCHEDULE")
@json_option("the findings")
@debug_option
@help_option
def check(job_file: str, schedule_file: str, as_json: bool, debug: bool) -> int:
    """Check SCHEDULE, a schedule.json, against JOB, rule by rule.

    Every fault is printed with its code. Ends with 0 where there is none and with 5 otherwise.
    Sizes are judged on exact numbers, never on rounded ones: the absolute method of ASTM E29.
    """
    from nesting.checking.areas import check_totals
    from nesting.checking.schedule import check_schedule
    from nesting.jobs.read import read_job
    from nesting.schedules.findings import findings_to_json, list_findings
    from nesting.schedules.write import read_schedule, read_totals

    job = read_job(Path(job_file))
    schedule = read_schedule(Path(schedule_file))
    stated = read_totals(Path(schedule_file))
    findings = (*check_schedule(job, schedule), *check_totals(schedule, stated))
    say(findings_to_json(job, findings) if as_json else list_findings(schedule_file, findings))
    return EXIT_FAULTS_FOUND if findings else 0


def main() -> None:
    """Run the command line and end the process with its exit code."""
    sys.exit(run(sys.argv[1:]))


def run(args: Sequence[str]) -> int:
    """Run one command line and return its exit code; trouble is told on standard error."""
    if "--quiet" in args or not _is_watched():
        return _run(args)
    from nesting.commands.console import ProgressLine, speak_up

    with speak_up(ProgressLine(_redraw, shutil.get_terminal_size().columns)):
        return _run(args)


def _run(args: Sequence[str]) -> int:
    try:
        return int(nesting.main(args=list(args), prog_name="nesting", standalone_mode=False) or 0)
    except click.Abort:
        tell("stopped.")
        return EXIT_STOPPED
    except click.ClickException as error:
        where = error.ctx.command_path if isinstance(error, click.UsageError) and error.ctx else ""
        tell(f"{error.format_message()} See '{where or 'nesting'} --help'.")
        return InputError.exit_code
    except NestingError as error:
        _show_trace(args)
        tell(str(error))
        return error.exit_code
    except Exception as error:
        _show_trace(args)
        kind = type(error).__name__
        tell(f"something went wrong in nesting itself ({kind}); run with --debug to see where.")
        return EXIT_OWN_FAULT


def _prepare_folder(folder: str, dxf: bool = False) -> Path:
    """Return the output folder, tried before the search begins; so is what DXF needs."""
    from nesting.files.output import prove_writable

    if not folder:
        raise InputError("-o", "must name a folder", remedy="give its path after -o")
    if dxf:
        from nesting.liners.dxfopen import need_dxf

        need_dxf("--dxf")
    target = Path(folder)
    prove_writable(target)
    return target


def _search(job: Job, time_limit: float, *, quiet: bool, verbose: bool) -> Schedule:
    from nesting.commands.console import ProgressLine, speak_up
    from nesting.planning.schedule import schedule_casts

    if verbose:
        return schedule_casts(job, time_limit=time_limit, progress=tell)
    if quiet or not _is_watched():
        return schedule_casts(job, time_limit=time_limit, progress=None)
    line = ProgressLine(_redraw, shutil.get_terminal_size().columns)
    with speak_up(line):
        return schedule_casts(job, time_limit=time_limit, progress=line)


def _refuse_faults(job: Job, schedule: Schedule) -> None:
    from nesting.checking.schedule import check_schedule

    findings = check_schedule(job, schedule)
    if findings:
        raise RefusedError(findings)


def _plan_soundly(job: Job, time_limit: float) -> Schedule:
    """Return a fresh schedule that the checker has passed."""
    schedule = _search(job, time_limit, quiet=False, verbose=False)
    _refuse_faults(job, schedule)
    return schedule


def _write_files(job: Job, schedule: Schedule, target: Path, dxf: bool) -> None:
    from nesting.drawings.planfiles import write_plan_files
    from nesting.files.output import write_folder

    write_folder(target, write_plan_files(job, schedule, dxf=dxf))


def _print_plan(
    job: Job, schedule: Schedule, folder: str | None, as_json: bool, quiet: bool, dxf: bool
) -> None:
    from nesting.schedules.report import report_schedule, write_result
    from nesting.schedules.write import schedule_to_json

    if as_json:
        say(schedule_to_json(schedule, job).rstrip("\n"))
    elif quiet:
        say(write_result(schedule))
    elif folder is None:
        say(report_schedule(job, schedule))
        say("\nNothing was written; give a folder with -o for the schedule and the drawings.")
    else:
        say(report_schedule(job, schedule))
        count = len(schedule.layouts)
        drawings = "layout-01.svg" if count == 1 else f"layout-01.svg to layout-{count:02d}.svg"
        drawings += ", each as .dxf too" if dxf else ""
        say(f"\nWritten to {folder}: schedule.json, {drawings}, overview.svg.")


@contextmanager
def _timed(work: str, verbose: bool) -> Iterator[None]:
    """Tell how long a piece of work took, where that is asked for."""
    start = time.perf_counter()
    yield
    if verbose:
        tell(f"{work} took {time.perf_counter() - start:.2f} s")


def _is_watched() -> bool:
    """Whether a person sees standard error."""
    return sys.stderr is not None and sys.stderr.isatty()


def _redraw(text: str) -> None:
    click.echo(text, nl=False, err=True)


def _show_trace(args: Sequence[str]) -> None:
    from nesting.commands.console import hush

    if "--debug" in args:
        hush()
        click.echo(traceback.format_exc(), nl=False, err=True)


nesting.add_command(make_fit(say, tell))
for _make in (make_page, make_wall, make_range, make_liner, make_zones):
    nesting.add_command(_make(say))
for _make_planned in (make_quantities, make_calendar, make_template, make_packet_command):
    nesting.add_command(_make_planned(say, _plan_soundly))
for _command in nesting.commands.values():
    finish_command(_command)

if __name__ == "__main__":
    main()
