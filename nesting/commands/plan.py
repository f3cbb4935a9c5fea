"""The command ``nesting plan``: the fewest casts for a job, and its masking layouts.

Only click is imported before the command runs.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import name_folder
from nesting.commands.options import command, exact_option, json_option, output_option, time_option
from nesting.commands.say import say, tell, written_to
from nesting.commands.schedule import plan_soundly, refuse_faults, search

if TYPE_CHECKING:
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


@command(
    "Find the fewest casts for a job; draw the masking layouts.",
    click.argument("job_file", metavar="JOB"),
    output_option("FOLDER", "Write schedule and drawings here."),
    json_option("the schedule"),
    click.option("--dxf", is_flag=True, help="With -o, write each layout as DXF too."),
    exact_option,
    time_option,
    click.option("--quiet", is_flag=True, help="Print the one line of the result only."),
    click.option("--verbose", is_flag=True, help="Tell on standard error how the search goes."),
)
def plan(
    job_file: str,
    output: str | None,
    as_json: bool,
    dxf: bool,
    exact: bool,
    time_limit: float,
    quiet: bool,
    verbose: bool,
) -> None:
    """Find the fewest casts that make the order in JOB, and print the plan.

    The report gives casts and layouts, the set-out of every dam from the datum corner, the areas
    and the proof. With -o, FOLDER gets schedule.json, one layout-NN.svg per masking layout, one
    face-MARK.svg per kind of panel and overview.svg: all of them or none. Other files in FOLDER
    are left alone.
    """
    if quiet and verbose:
        raise click.UsageError("--quiet and --verbose cannot be used together.")
    if dxf and output is None:
        raise click.UsageError("--dxf needs a folder, give it with -o.")
    with _timed("reading the job", verbose):
        from nesting.jobs.read import read_job

        job = read_job(Path(job_file))
    target = None if output is None else _prepare_folder(output, dxf)
    schedule = _plan(job, time_limit, quiet=quiet, verbose=verbose)
    if target is not None:
        with _timed("writing", verbose):
            from nesting.drawings.planfiles import write_plan_files
            from nesting.files.clock import read_clock
            from nesting.files.output import write_folder

            write_folder(target, write_plan_files(job, schedule, read_clock(), dxf=dxf))
    say(_text(job, schedule, as_json=as_json, quiet=quiet, exact=exact))
    if not as_json and not quiet:
        say(f"\n{written_to(output, _names(schedule, dxf), 'the schedule and the drawings')}")


def _prepare_folder(folder: str, dxf: bool) -> Path:
    """Return the output folder, tried before the search begins; so is what DXF needs."""
    from nesting.files.output import prove_writable

    target = name_folder(folder)
    if dxf:
        from nesting.liners.dxfopen import need_dxf

        need_dxf("--dxf")
    prove_writable(target)
    return target


def _plan(job: Job, time_limit: float, *, quiet: bool, verbose: bool) -> Schedule:
    """Return a schedule the checker has passed, found in silence or with many words."""
    if not quiet and not verbose:
        return plan_soundly(job, time_limit)
    with _timed("the search", verbose):
        schedule = search(job, time_limit, tell if verbose else None)
    with _timed("the check", verbose):
        refuse_faults(job, schedule)
    return schedule


def _text(job: Job, schedule: Schedule, *, as_json: bool, quiet: bool, exact: bool) -> str:
    from nesting.schedules.report import report_schedule, write_result
    from nesting.schedules.write import schedule_to_json

    if as_json:
        return schedule_to_json(schedule, job)
    return write_result(schedule) if quiet else report_schedule(job, schedule, exact=exact)


def _names(schedule: Schedule, dxf: bool) -> list[str]:
    """Return the files of a plan as they are told, its layouts by the first and the last."""
    count = len(schedule.layouts)
    drawings = "layout-01.svg" if count == 1 else f"layout-01.svg to layout-{count:02d}.svg"
    also = ["each as .dxf too"] if dxf else []
    faces = "a face-MARK.svg for each kind of panel"
    return ["schedule.json", drawings, *also, faces, "overview.svg"]


@contextmanager
def _timed(work: str, verbose: bool) -> Iterator[None]:
    """Tell how long a piece of work took, where that is asked for."""
    start = time.perf_counter()
    yield
    if verbose:
        tell(f"{work} took {time.perf_counter() - start:.2f} s")
