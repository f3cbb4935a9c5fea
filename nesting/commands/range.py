"""The command ``nesting range``: every size a liner can give, as charts, text and JSON.

Only click is imported before the command runs.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from nesting.commands.filenames import need_different_files, need_file_name
from nesting.commands.options import Say, debug_option, help_option, json_option
from nesting.errors import InputError

if TYPE_CHECKING:
    from nesting.values.bed import Bed
    from nesting.values.job import Job


def make_range(say: Say) -> click.Command:
    """Return the command, which prints through ``say``."""

    @click.command(
        name="range",
        short_help="Chart every size a liner can give.",
        add_help_option=False,
    )
    @click.argument("liner_file", metavar="FILE")
    @click.option("-o", "--output", "chart_file", metavar="CHART", help="Write the chart here.")
    @click.option("--bed", "bed_name", metavar="NAME", help="Look at this bed only.")
    @json_option("the sizes")
    @debug_option
    @help_option
    def size_range(
        liner_file: str, chart_file: str | None, bed_name: str | None, as_json: bool, debug: bool
    ) -> None:
        """Find every size the liner in FILE, a liner file or a job, can give, bed by bed.

        With -o, CHART, an SVG file, gets the chart; with several beds there is one per bed, the
        bed's name behind that of CHART. Files of those names are replaced.
        """
        from nesting.files.output import write_together
        from nesting.fitting.rangereport import BedRange, range_to_json, report_range
        from nesting.jobs.read import read_job
        from nesting.maps.ground import survey
        from nesting.maps.sizeregion import list_ordered, map_region, scale_region
        from nesting.values.bend import bend_of

        job = read_job(Path(liner_file), order_needed=False)
        beds = _choose_beds(job, liner_file, bed_name)
        targets = _targets(liner_file, chart_file, [bed.name for bed in beds])
        flat = map_region(survey(job.liner, job.rules))
        bends = [bend_of(job, bed.name) for bed in beds]
        ranges = [BedRange(b.bed, scale_region(flat, b), list_ordered(job, b)) for b in bends]
        if targets:
            from nesting.drawings.svg import to_svg
            from nesting.fitting.rangechart import draw_range

            charts = [to_svg(draw_range(job, e.region, e.bed.name, e.ordered)) for e in ranges]
            write_together(dict(zip(targets, charts, strict=True)))
        say(range_to_json(job, ranges) if as_json else report_range(job, ranges))
        if not as_json:
            say(f"\n{_written(targets)}")

    return size_range


def _choose_beds(job: Job, liner_file: str, name: str | None) -> tuple[Bed, ...]:
    if name is None:
        return job.beds
    found = tuple(bed for bed in job.beds if bed.name == name)
    if not found:
        known = ", ".join(bed.name for bed in job.beds)
        raise InputError("--bed", f"must name a bed of {liner_file}", name, f"name one of: {known}")
    return found


def _targets(liner_file: str, chart_file: str | None, beds: list[str]) -> list[Path]:
    """Return a file per bed; a usage error where FILE itself would be written over."""
    if chart_file is None:
        return []
    chart = need_file_name("-o", chart_file, ".svg")
    targets = [chart]
    if len(beds) > 1:
        safe = [re.sub(r"[^\w-]+", "-", bed) for bed in beds]
        names = [f"{bed}-{n}" if safe.count(bed) > 1 else bed for n, bed in enumerate(safe, 1)]
        targets = [chart.with_name(f"{chart.stem}-{name}{chart.suffix}") for name in names]
    need_different_files("FILE and CHART", (Path(liner_file), *targets))
    return targets


def _written(targets: list[Path]) -> str:
    if targets:
        return f"Written: {', '.join(str(path) for path in targets)}."
    return "Nothing was written; name a file with -o for the chart."
