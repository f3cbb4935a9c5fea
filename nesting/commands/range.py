"""The command ``nesting range``: every size a liner can give, as charts, text and JSON.

Only click is imported before the command runs.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import need_different_files, need_file_name, refuse_foreign_file
from nesting.commands.options import command, exact_option, json_option, output_option
from nesting.commands.say import say, written
from nesting.errors import InputError

if TYPE_CHECKING:
    from nesting.values.bed import Bed
    from nesting.values.job import Job


@command(
    "Chart every size a liner can give.",
    click.argument("liner_file", metavar="FILE"),
    output_option("CHART", "Write the chart here."),
    click.option("--bed", "bed_name", metavar="NAME", help="Look at this bed only."),
    exact_option,
    json_option("the sizes"),
)
def range(
    liner_file: str, output: str | None, bed_name: str | None, exact: bool, as_json: bool
) -> None:
    """Find every size the liner in FILE, a liner file or a job, can give, bed by bed.

    With -o, CHART, an SVG file, gets the chart; with several beds there is one per bed, the
    bed's name behind that of CHART. Former charts are replaced, no other file is.
    """
    from nesting.files.output import write_together
    from nesting.fitting.rangereport import BedRange, range_to_json, report_range
    from nesting.jobs.read import read_job
    from nesting.maps.ground import survey
    from nesting.maps.sizeregion import list_ordered, map_region, scale_region
    from nesting.values.bend import bend_of

    job = read_job(Path(liner_file), order_needed=False)
    beds = _choose_beds(job, liner_file, bed_name)
    targets = _targets(liner_file, output, [bed.name for bed in beds])
    flat = map_region(survey(job.liner, job.rules))
    bends = [bend_of(job, bed.name) for bed in beds]
    ranges = [BedRange(b.bed, scale_region(flat, b), list_ordered(job, b)) for b in bends]
    if targets:
        from nesting.drawings.stamps import stamped
        from nesting.drawings.svg import to_svg
        from nesting.files.clock import read_clock
        from nesting.fitting.rangechart import draw_range
        from nesting.schedules.stamps import stamp_job

        stamp = stamp_job(read_clock(), job)
        drawn = (draw_range(job, each.region, each.bed.name, each.ordered) for each in ranges)
        charts = [to_svg(stamped(each, stamp)) for each in drawn]
        write_together(dict(zip(targets, charts, strict=True)))
    if as_json:
        say(range_to_json(job, ranges))
        return
    say(f"{report_range(job, ranges, exact=exact)}\n\n{written(targets, '-o for the chart')}")


def _choose_beds(job: Job, liner_file: str, name: str | None) -> tuple[Bed, ...]:
    if name is None:
        return job.beds
    found = tuple(bed for bed in job.beds if bed.name == name)
    if not found:
        known = ", ".join(bed.name for bed in job.beds)
        raise InputError("--bed", f"must name a bed of {liner_file}", name, f"name one of: {known}")
    return found


def _targets(liner_file: str, output: str | None, beds: list[str]) -> list[Path]:
    """Return a file per bed; a usage error where FILE itself would be written over."""
    from nesting.files.marks import MARK

    if output is None:
        return []
    chart = need_file_name("-o", output, ".svg")
    targets = [chart]
    if len(beds) > 1:
        safe = [re.sub(r"[^\w-]+", "-", bed) for bed in beds]
        names = [f"{bed}-{n}" if safe.count(bed) > 1 else bed for n, bed in enumerate(safe, 1)]
        targets = [chart.with_name(f"{chart.stem}-{name}{chart.suffix}") for name in names]
    need_different_files("FILE and CHART", Path(liner_file), *targets)
    for target in targets:
        refuse_foreign_file("-o", target, MARK)
    return targets
