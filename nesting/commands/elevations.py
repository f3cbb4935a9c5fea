"""What ``nesting wall`` does with a schedule: elevations of the wall, a file for each skin.

Only click is imported before a command runs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import need_different_files, need_file_name, refuse_foreign_file

if TYPE_CHECKING:
    from collections.abc import Sequence

    from nesting.walls.cladding import Stretch, Wall

elevations_option = click.option(
    "--elevations",
    metavar="PICTURE",
    help="Write the elevations as SVG here, with -inside and -outside behind the name.",
)


def draw_elevations(
    wall: Wall,
    stretches: Sequence[Stretch],
    picture: str,
    plan: tuple[str | None, str | None],
    others: Sequence[Path | None],
) -> dict[Path, str]:
    """Return the elevation of each skin by the file it is for.

    ``plan`` are the files of the job and of its schedule, ``others`` those that are read or written
    too.

    Raises
    ------
    click.UsageError
        Where job or schedule is missing, or a file would be written over another.
    NestingError
        Where a name has another ending, a file there is not ours, the schedule has faults, or the
        job does not order what the wall takes.
    """
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.files.marks import MARK
    from nesting.jobs.read import read_job
    from nesting.schedules.findings import read_sound_schedule
    from nesting.schedules.stamps import stamp_plan
    from nesting.walls.elevation import elevate_skins
    from nesting.walls.elevationsheet import SIDES, draw_elevation

    job_file, schedule_file = plan
    if job_file is None or schedule_file is None:
        raise click.UsageError("--elevations needs --job and --schedule.")
    base = need_file_name("--elevations", picture, ".svg")
    targets = [base.with_stem(f"{base.stem}-{SIDES[skin]}") for skin in wall.skins]
    read = Path(job_file), Path(schedule_file)
    need_different_files("The files read and written", *targets, *read, *others)
    for target in targets:
        refuse_foreign_file("--elevations", target, MARK)
    job = read_job(Path(job_file))
    schedule = read_sound_schedule(job, schedule_file)
    stamp = stamp_plan(read_clock(), job, schedule)
    drawn = (
        draw_elevation(wall, job, each) for each in elevate_skins(wall, stretches, job, schedule)
    )
    sheets = (to_svg(stamped(each, stamp)) for each in drawn)
    return dict(zip(targets, sheets, strict=True))
