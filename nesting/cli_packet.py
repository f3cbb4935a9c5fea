"""The command ``nesting packet``: the whole job for a tablet and for print.

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

    from nesting.casts import Schedule
    from nesting.job import Job
    from nesting.packetparts import Packet, Section

Option = Callable[[Callable[..., None]], Callable[..., None]]


def make_packet_command(
    say: Callable[[str], None],
    plan: Callable[[Job, float], Schedule],
    time_option: Option,
    debug_option: Option,
    help_option: Option,
) -> click.Command:
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
    @click.option(
        "--schedule",
        "schedule_file",
        metavar="FILE",
        help="Take this schedule.json, once it is checked, and do not plan.",
    )
    @click.option(
        "--start", metavar="DATE", help="Add the days from this one on, whatever the job says."
    )
    @click.option(
        "--json", "as_json", is_flag=True, help="Print what was written as JSON and nothing else."
    )
    @time_option
    @debug_option
    @help_option
    def packet(
        job_file: str,
        folder: str | None,
        schedule_file: str | None,
        start: str | None,
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
        _write_packet(
            say, plan, job_file, folder, schedule_file, start, time_limit, as_json=as_json
        )

    return packet


def _write_packet(
    say: Callable[[str], None],
    plan: Callable[[Job, float], Schedule],
    job_file: str,
    folder: str | None,
    schedule_file: str | None,
    start: str | None,
    time_limit: float,
    *,
    as_json: bool,
) -> None:
    if not folder:
        raise InputError("-o", "must name a folder", remedy="give its path after -o")
    from nesting.cli_calendar import read_start
    from nesting.jobfile import read_job
    from nesting.output import prove_folder, write_into
    from nesting.packetfiles import packet_to_json, write_packet_files
    from nesting.soundschedule import read_sound_schedule

    job = read_job(Path(job_file))
    day = job.shop.start if start is None else read_start(start)
    prove_folder(Path(folder))
    schedule = read_sound_schedule(job, schedule_file) if schedule_file else plan(job, time_limit)
    made = _make(job, schedule, day, time_limit)
    files = write_packet_files(made)
    write_into(Path(folder), files)
    if as_json:
        say(packet_to_json(made, list(files)))
        return
    count = len(schedule.layouts)
    pages = "the one layout" if count == 1 else f"each of {count} layouts"
    say(f"{job.title}: a packet with a page for {pages}.")
    say(f"Written to {folder}: {', '.join(files)}.")


def _make(job: Job, schedule: Schedule, start: date | None, time_limit: float) -> Packet:
    """Return the packet, for which the checker looks at this very schedule once more."""
    from nesting.check import check_schedule
    from nesting.packet import make_packet
    from nesting.quantities import reckon_quantities

    found = reckon_quantities(job, schedule)
    further = [] if start is None else [_plan_calendar(job, schedule, start, time_limit)]
    return make_packet(job, schedule, found, check_schedule(job, schedule), further)


def _plan_calendar(job: Job, schedule: Schedule, start: date, time_limit: float) -> Section:
    """Return the calendar's page, once the calendar too is checked."""
    from nesting.calendarcheck import check_calendar
    from nesting.castdays import plan_days
    from nesting.packetcalendar import list_calendar

    planned = plan_days(job, schedule, start=start, time_limit=time_limit)
    faults = check_calendar(job, schedule, planned)
    if faults:
        raise RefusedError(faults)
    return list_calendar(job, planned)
