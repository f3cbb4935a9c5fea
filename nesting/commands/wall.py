"""The command ``nesting wall``: from a wall file to its order, its plan and its ties.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.elevations import draw_elevations, elevations_option
from nesting.commands.filenames import (
    Writer,
    need_different_files,
    need_file_name,
    refuse_foreign_file,
    take_targets,
)
from nesting.commands.options import command, json_option, output_option, picture_option
from nesting.commands.say import say, written
from nesting.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from nesting.values.casts import Schedule
    from nesting.values.job import Job
    from nesting.walls.cladding import Stretch, Wall
    from nesting.walls.ties import TiedWall


@command(
    "Work out panels, beds, ties and a plan from a wall to be clad or formed.",
    click.argument("wall_file", metavar="FILE"),
    output_option("ORDER", "Write the tables of the order here."),
    picture_option("the plan of the wall"),
    elevations_option,
    click.option("--ties", metavar="SHEETS", help="Write the sheets of the ties as PDF here."),
    click.option("--job", metavar="JOB", help="The job that orders the panels of the wall."),
    click.option("--schedule", metavar="SCHEDULE", help="The schedule.json of that job."),
    json_option("the order"),
)
def wall(
    wall_file: str,
    output: str | None,
    picture: str | None,
    elevations: str | None,
    ties: str | None,
    job: str | None,
    schedule: str | None,
    as_json: bool,
) -> None:
    """Work out from FILE, a wall to be clad or formed, which panels and beds it takes.

    With -o, ORDER gets [[bed]] and [[panel]] tables to paste behind a job's liner and rules;
    with --svg, PICTURE gets the plan with joints and marks; with --ties, SHEETS gets a page for
    each kind of panel with the inserts on its back. --job and --schedule, of the order once it is
    planned, tell which hollows ties keep clear of; with --elevations they show inside and outside
    with the ornaments of each panel. Former files of this command are replaced, no other is.
    """
    from nesting.files.marks import ORDER_MARK
    from nesting.files.output import write_together
    from nesting.walls.cladding import divide_wall
    from nesting.walls.read import read_wall, write_order
    from nesting.walls.report import report_wall, wall_to_json

    whose = Writer("ORDER", ORDER_MARK, "nesting wall", (".toml",))
    order_path, picture_path = take_targets(wall_file, output, picture, whose)
    sheets_path = _take_sheets(ties, (Path(wall_file), order_path, picture_path))
    found = read_wall(Path(wall_file))
    stretches = divide_wall(found)
    planned = _read_planned(job, schedule)
    why = "--ties" if ties is not None else "--job" if planned and elevations is None else ""
    tied = _tie_wall(found, stretches, planned, why)
    files: dict[Path, str | bytes] = {}
    if order_path is not None:
        files[order_path] = write_order(found, stretches)
    if picture_path is not None or sheets_path is not None:
        files |= _draw(found, stretches, tied, picture_path, sheets_path)
    if elevations is not None:
        named = wall_file, job, schedule, order_path, picture_path, sheets_path
        files |= draw_elevations(found, stretches, planned, elevations, named)
    write_together(files)
    if as_json:
        say(wall_to_json(found, stretches, tied))
        return
    say(report_wall(found, stretches, tied))
    hint = "-o for the order, with --svg for the plan" + ", with --ties for the sheets" * bool(tied)
    say(f"\n{written(files, hint)}")


def _draw(
    found: Wall,
    stretches: Sequence[Stretch],
    tied: TiedWall | None,
    picture_path: Path | None,
    sheets_path: Path | None,
) -> dict[Path, str | bytes]:
    """Return the plan and the sheets of the ties, as far as there are paths for them."""
    from nesting.drawings.pdf import to_pdf
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.files.code import code_of
    from nesting.values.stamp import Stamp
    from nesting.walls.plan import draw_wall
    from nesting.walls.report import wall_to_json
    from nesting.walls.tiesheet import draw_tie_sheets

    stamp = Stamp(read_clock(), code_of(wall_to_json(found, stretches, tied)))
    files: dict[Path, str | bytes] = {}
    if picture_path is not None:
        files[picture_path] = to_svg(stamped(draw_wall(found, stretches), stamp))
    if sheets_path is not None and tied is not None:
        sheets = [stamped(sheet, stamp) for sheet in draw_tie_sheets(found, tied)]
        files[sheets_path] = to_pdf(sheets, f"{found.title}: ties")
    return files


def _read_planned(job_file: str | None, schedule_file: str | None) -> tuple[Job, Schedule] | None:
    """Return a job and its schedule, once it is checked; InputError where one alone is given."""
    from nesting.jobs.read import read_job
    from nesting.schedules.findings import read_sound_schedule

    if (job_file is None) != (schedule_file is None):
        raise InputError("--job", "must go with --schedule", remedy="give both or neither")
    if job_file is None or schedule_file is None:
        return None
    job = read_job(Path(job_file))
    return job, read_sound_schedule(job, schedule_file)


def _tie_wall(
    found: Wall, stretches: Sequence[Stretch], planned: tuple[Job, Schedule] | None, why: str
) -> TiedWall | None:
    """Return the ties of a wall, clear of the hollows of a job's panels; None where it has none.

    InputError where it has no rule for them and ``why`` names an option that calls for one.
    """
    from nesting.walls.hollows import thin_ground
    from nesting.walls.ties import need_ties, tie_skins

    if why:
        need_ties(found, why)
    if found.ties is None:
        return None
    ground = None if planned is None else thin_ground(found, stretches, *planned)
    return tie_skins(found, stretches, ground)


def _take_sheets(ties: str | None, others: tuple[Path | None, ...]) -> Path | None:
    """Return where --ties writes, None where it is not given; raises as `take_targets`."""
    from nesting.files.marks import PDF_MARK

    if ties is None:
        return None
    path = need_file_name("--ties", ties, ".pdf")
    need_different_files("FILE, ORDER, PICTURE and SHEETS", path, *others)
    refuse_foreign_file("--ties", path, PDF_MARK)
    return path
