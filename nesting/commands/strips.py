"""The command ``nesting strips``: the strips of all layouts, the cut plan, and the re-sets.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from nesting.commands.filenames import name_folder
from nesting.commands.options import (
    SCHEDULE_OPTIONS,
    command,
    exact_option,
    json_option,
    output_option,
    start_option,
)
from nesting.commands.say import say, written_to
from nesting.commands.schedule import plan_calendar, take_schedule

if TYPE_CHECKING:
    from datetime import date


@command(
    "List strips, cut them from stock, and draw every re-set.",
    *SCHEDULE_OPTIONS,
    start_option,
    exact_option,
    output_option("FOLDER", "Write strips.json and a sheet for each re-set here."),
    json_option("the strips"),
)
def strips(
    job_file: str,
    schedule_file: str | None,
    time_limit: float,
    start: date | None,
    exact: bool,
    output: str | None,
    as_json: bool,
) -> None:
    """List the strips of all layouts of JOB, which serve again, and how they are cut from stock.

    What stays, moves, goes and is new is told from each layout to the next, in the order of the
    calendar where --start or the job's [calendar] names a start, else in that of the schedule.
    The lengths in store are stock in [dams] of the job; the fewest of them are taken. With -o,
    FOLDER gets strips.json and one reset-NN.svg per re-set: all of them or none. Other files in
    FOLDER are left alone.
    """
    from nesting.files.clock import read_clock
    from nesting.files.output import prove_writable, write_folder
    from nesting.jobs.read import read_job
    from nesting.schedules.stamps import stamp_plan
    from nesting.strips.export import STRIPS, strips_to_json, write_strip_files
    from nesting.strips.plan import plan_strips
    from nesting.strips.report import report_strips

    job = read_job(Path(job_file))
    target = None if output is None else name_folder(output)
    if target is not None:
        prove_writable(target, STRIPS)
    schedule = take_schedule(job, schedule_file, time_limit)
    calendar = plan_calendar(job, schedule, start, time_limit)
    plan = plan_strips(job, schedule, calendar, time_limit=time_limit)
    files: dict[str, str] = {}
    if target is not None:
        files = write_strip_files(job, plan, stamp_plan(read_clock(), job, schedule))
        write_folder(target, files, STRIPS)
    if as_json:
        say(strips_to_json(job, plan))
        return
    say(report_strips(job, plan, exact=exact))
    say(f"\n{written_to(output, files, 'the list and the re-set sheets')}")
