"""The command ``nesting quantities``: weights, mix, rubber and costs of a schedule.

Only click is imported before the command runs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.errors import InputError

if TYPE_CHECKING:
    from nesting.casts import Schedule
    from nesting.job import Job

Option = Callable[[Callable[..., None]], Callable[..., None]]


def make_quantities(
    say: Callable[[str], None],
    plan: Callable[[Job, float], Schedule],
    time_option: Option,
    debug_option: Option,
    help_option: Option,
) -> click.Command:
    """Return the command; it prints through ``say`` and plans a job by ``plan``, which checks."""

    @click.command(
        name="quantities",
        short_help="Work out weights, mix batches, rubber and costs.",
        add_help_option=False,
    )
    @click.argument("job_file", metavar="JOB")
    @click.option(
        "--schedule",
        "schedule_file",
        metavar="FILE",
        help="Take this schedule.json, once it is checked, and do not plan.",
    )
    @click.option(
        "--json", "as_json", is_flag=True, help="Print the quantities as JSON and nothing else."
    )
    @click.option(
        "--csv",
        "folder",
        metavar="FOLDER",
        help="Write panels.csv, casts.csv, batches.csv and days.csv here.",
    )
    @time_option
    @debug_option
    @help_option
    def quantities(
        job_file: str,
        schedule_file: str | None,
        as_json: bool,
        folder: str | None,
        time_limit: float,
        debug: bool,
    ) -> None:
        """Work out what the panels of JOB weigh and take: mix, rubber, handling, costs.

        Without --schedule the job is planned first. With --csv, FOLDER is made where it is missing;
        the four files in it are replaced, others left alone. Masses only: nothing is certified.
        """
        from nesting.jobfile import read_job
        from nesting.quantities import reckon_quantities
        from nesting.quantityfile import quantities_to_csv, quantities_to_json
        from nesting.quantityreport import report_quantities
        from nesting.soundschedule import read_sound_schedule

        job = read_job(Path(job_file))
        schedule = (
            read_sound_schedule(job, schedule_file) if schedule_file else plan(job, time_limit)
        )
        found = reckon_quantities(job, schedule)
        if folder is not None:
            _write_tables(folder, quantities_to_csv(job, found))
        if as_json:
            say(quantities_to_json(job, found))
            return
        say(report_quantities(job, found))
        if folder is not None:
            say(f"\nWritten to {folder}: panels.csv, casts.csv, batches.csv, days.csv.")

    return quantities


def _write_tables(folder: str, files: Mapping[str, str]) -> None:
    """Write the files into the folder together or not at all; a folder made for it goes again."""
    if not folder:
        raise InputError("--csv", "must name a folder", remedy="give its path after --csv")
    from nesting.output import write_into

    write_into(Path(folder), files)
