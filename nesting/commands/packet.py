"""The command ``nesting packet``: the whole job for a tablet and for print.

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

    from nesting.packets.parts import Packet
    from nesting.values.casts import Schedule
    from nesting.values.job import Job


def make_packet_command(say: Say, plan: Plan) -> click.Command:
    """Return the command; it prints through ``say`` and plans a job by ``plan``, which checks."""

    @click.command(
        name="packet",
        short_help="Write all a crew needs as one page for a tablet and for print.",
        add_help_option=False,
    )
    @click.argument("job_file", metavar="JOB")
    @click.option(
        "-o", "--output", "folder", metavar="FOLDER", help="Write the packet here; needed."
    )
    @schedule_option
    @start_option
    @json_option("what was written")
    @time_option
    @debug_option
    @help_option
    def packet(
        job_file: str,
        folder: str | None,
        schedule_file: str | None,
        start: date | None,
        as_json: bool,
        time_limit: float,
        debug: bool,
    ) -> None:
        """Write the packet of JOB: order, casts, a page for each layout, weights, cautions, proof.

        Where --start or the job's [calendar] names a start, a page of days and times is added.

        FOLDER gets packet.html, one page that opens offline on a tablet and prints, and packet.pdf:
        both or neither. It is made where it is missing; files of these names are replaced, others
        left alone. Without --schedule the job is planned first.
        """
        target = Path(name_folder("-o", folder))
        from nesting.files.output import prove_folder, write_into
        from nesting.jobs.read import read_job
        from nesting.packets.files import packet_to_json, write_packet_files

        job = read_job(Path(job_file))
        prove_folder(target)
        schedule = take_schedule(job, schedule_file, plan, time_limit)
        made = _make(job, schedule, start or job.shop.start, time_limit)
        files = write_packet_files(made)
        write_into(target, files)
        if as_json:
            say(packet_to_json(made, list(files)))
            return
        count = len(schedule.layouts)
        pages = "the one layout" if count == 1 else f"each of {count} layouts"
        say(f"{job.title}: a packet with a page for {pages}.")
        say(f"Written to {folder}: {', '.join(files)}.")

    return packet


def _make(job: Job, schedule: Schedule, start: date | None, time_limit: float) -> Packet:
    """Return the packet, for which the checker looks at this very schedule once more."""
    from nesting.amounts.quantities import reckon_quantities
    from nesting.checking.schedule import check_schedule
    from nesting.days.plan import plan_sound_days
    from nesting.packets.contents import make_packet
    from nesting.packets.days import list_calendar

    planned = None
    if start is not None:
        planned = plan_sound_days(job, schedule, start=start, time_limit=time_limit)
    found = reckon_quantities(job, schedule, planned)
    further = [] if planned is None else [list_calendar(job, planned)]
    return make_packet(job, schedule, found, check_schedule(job, schedule), further)
