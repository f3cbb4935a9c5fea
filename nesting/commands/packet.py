"""The command ``nesting packet``: the whole job for a tablet and for print.

Only click is imported before the command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from nesting.commands.filenames import prove_folder
from nesting.commands.options import (
    SCHEDULE_OPTIONS,
    command,
    json_option,
    output_option,
    start_option,
)
from nesting.commands.say import say, written_to
from nesting.commands.schedule import plan_calendar, take_schedule

if TYPE_CHECKING:
    from datetime import date

    from nesting.packets.parts import Packet
    from nesting.values.calendar import CastCalendar
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


@command(
    "Write all a crew needs as one page for a tablet and for print.",
    *SCHEDULE_OPTIONS,
    start_option,
    output_option("FOLDER", "Write the packet here; needed."),
    json_option("what was written"),
)
def packet(
    job_file: str,
    schedule_file: str | None,
    time_limit: float,
    start: date | None,
    output: str | None,
    as_json: bool,
) -> None:
    """Write the packet of JOB: order, casts, a page for each layout, weights, cautions, proof.

    Where --start or the job's [calendar] names a start, a page of days and times is added.

    FOLDER gets packet.html, one page that opens offline on a tablet and prints, and packet.pdf:
    both or neither. It is made where it is missing; a former packet in it is replaced, other
    files are not. Without --schedule the job is planned first.
    """
    from nesting.files.output import write_into
    from nesting.jobs.read import read_job
    from nesting.packets.files import PACKET_MARKS, packet_to_json, write_packet_files

    job = read_job(Path(job_file))
    target = prove_folder(output, PACKET_MARKS)
    schedule = take_schedule(job, schedule_file, time_limit)
    made = _make(job, schedule, plan_calendar(job, schedule, start, time_limit))
    files = write_packet_files(made)
    write_into(target, files)
    if as_json:
        say(packet_to_json(made, list(files)))
        return
    count = len(schedule.layouts)
    pages = "the one layout" if count == 1 else f"each of {count} layouts"
    say(f"{job.title}: a packet with a page for {pages}.\n{written_to(output, files, '')}")


def _make(job: Job, schedule: Schedule, planned: CastCalendar | None) -> Packet:
    """Return the packet, for which the checker looks at this very schedule once more."""
    from nesting.amounts.quantities import reckon_quantities
    from nesting.checking.schedule import check_schedule
    from nesting.files.clock import read_clock
    from nesting.packets.contents import make_packet
    from nesting.schedules.stamps import stamp_plan

    found = reckon_quantities(job, schedule, planned)
    stamp = stamp_plan(read_clock(), job, schedule)
    return make_packet(job, schedule, found, check_schedule(job, schedule), planned, stamp)
