"""The command ``nesting packet``: the whole job for a tablet and for print.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import prove_folder
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

    from nesting.packets.parts import Packet, Section
    from nesting.strips.plan import StripPlan
    from nesting.values.calendar import CastCalendar
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


@command(
    "Write all a crew needs as one page for a tablet and for print.",
    *SCHEDULE_OPTIONS,
    start_option,
    exact_option,
    click.option(
        "--wall", "wall_file", metavar="FILE", help="Show the inserts for this wall's ties."
    ),
    output_option("FOLDER", "Write the packet here; needed."),
    json_option("what was written"),
)
def packet(
    job_file: str,
    schedule_file: str | None,
    time_limit: float,
    start: date | None,
    exact: bool,
    wall_file: str | None,
    output: str | None,
    as_json: bool,
) -> None:
    """Write the packet of JOB: order, casts, strips, a page for each layout and re-set, and more.

    Weights, cautions and the proof follow. Where --start or the job's [calendar] names a start,
    a page of days and times is added, and re-sets follow its order; with --wall the backs of the
    panels of that wall, which the job orders, with inserts for its ties.

    FOLDER gets packet.html, one page that opens offline on a tablet and prints, and packet.pdf:
    both or neither. It is made where it is missing; a former packet in it is replaced, other
    files are not. Without --schedule the job is planned first.
    """
    from nesting.files.output import write_into
    from nesting.jobs.read import read_job
    from nesting.packets.files import PACKET_MARKS, packet_to_json, write_packet_files
    from nesting.strips.plan import plan_strips

    job = read_job(Path(job_file))
    target = prove_folder(output, PACKET_MARKS)
    schedule = take_schedule(job, schedule_file, time_limit)
    calendar = plan_calendar(job, schedule, start, time_limit)
    strips = plan_strips(job, schedule, calendar, time_limit=time_limit)
    further = () if wall_file is None else (_tie_wall(job, schedule, wall_file),)
    made = _make(job, schedule, calendar, further, strips, exact=exact)
    files = write_packet_files(made)
    write_into(target, files)
    if as_json:
        say(packet_to_json(made, list(files)))
        return
    count = len(schedule.layouts)
    pages = "the one layout" if count == 1 else f"each of {count} layouts"
    say(f"{job.title}: a packet with a page for {pages}.\n{written_to(output, files, '')}")


def _tie_wall(job: Job, schedule: Schedule, wall_file: str) -> Section:
    """Return the section of a wall's ties; InputError where the wall has no rule for them."""
    from nesting.packets.ties import list_wall_ties
    from nesting.walls.cladding import divide_wall
    from nesting.walls.hollows import thin_ground
    from nesting.walls.read import read_wall
    from nesting.walls.ties import need_ties, tie_skins

    wall = read_wall(Path(wall_file))
    need_ties(wall, "--wall")
    stretches = divide_wall(wall)
    tied = tie_skins(wall, stretches, thin_ground(wall, stretches, job, schedule))
    return list_wall_ties(wall, tied)


def _make(
    job: Job,
    schedule: Schedule,
    planned: CastCalendar | None,
    further: tuple[Section, ...],
    strips: StripPlan,
    *,
    exact: bool,
) -> Packet:
    """Return the packet, for which the checker looks at this very schedule once more."""
    from nesting.amounts.quantities import reckon_quantities
    from nesting.checking.schedule import check_schedule
    from nesting.files.clock import read_clock
    from nesting.packets.contents import make_packet
    from nesting.schedules.stamps import stamp_plan

    found = reckon_quantities(job, schedule, planned)
    faults, stamp = check_schedule(job, schedule), stamp_plan(read_clock(), job, schedule)
    return make_packet(
        job, schedule, found, faults, planned, further, stamp, strips=strips, exact=exact
    )
