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

    from nesting.values.casts import Schedule
    from nesting.values.job import Job
    from nesting.walls.cladding import Stretch, Wall

elevations_option = click.option(
    "--elevations",
    metavar="PICTURE",
    help="Write the elevations as SVG here, with -inside and -outside behind the name.",
)


def draw_elevations(
    wall: Wall,
    stretches: Sequence[Stretch],
    planned: tuple[Job, Schedule] | None,
    picture: str,
    named: Sequence[str | Path | None],
) -> dict[Path, str]:
    """Return the elevation of each skin by the file it is for; ``named`` are all other files.

    Raises
    ------
    click.UsageError
        Where job and schedule are missing, or a file would be written over another.
    InputError
        Where a name has another ending, a file there is not ours, or the job does not order what
        the wall takes.
    """
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.files.marks import MARK
    from nesting.schedules.stamps import stamp_plan
    from nesting.walls.elevation import elevate_skins
    from nesting.walls.elevationsheet import SIDES, draw_elevation

    if planned is None:
        raise click.UsageError("--elevations needs --job and --schedule.")
    base = need_file_name("--elevations", picture, ".svg")
    targets = [base.with_stem(f"{base.stem}-{SIDES[skin]}") for skin in wall.skins]
    others = (Path(name) for name in named if name is not None)
    need_different_files("The files read and written", *targets, *others)
    for target in targets:
        refuse_foreign_file("--elevations", target, MARK)
    stamp = stamp_plan(read_clock(), *planned)
    elevations = elevate_skins(wall, stretches, *planned)
    drawn = (draw_elevation(wall, planned[0], each) for each in elevations)
    sheets = (to_svg(stamped(each, stamp)) for each in drawn)
    return dict(zip(targets, sheets, strict=True))
