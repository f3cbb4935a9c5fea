"""Whether a job's liner, dams and panels go onto its beds; judged once all of it is read."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from nesting.errors import shown
from nesting.files.lengths import LengthReaders
from nesting.files.tomlcheck import Table
from nesting.jobs.tables import curved_side
from nesting.units import STEPS_PER_MM
from nesting.values.bed import NO_SIZE
from nesting.values.bend import Bend, bend_of
from nesting.values.castsizes import cast_length
from nesting.values.job import Job
from nesting.values.panels import Panel


@dataclass(frozen=True, slots=True)
class _Misfit:
    """What does not go onto a bed: the key at fault and its message."""

    key: str
    rule: str
    got: str
    remedy: str = ""


def check_beds(top: Table, job: Job, lengths: LengthReaders) -> None:
    """Note where a liner, a dam or a panel does not go onto its bed, one mistake each.

    Each stands at its bed, or at ``liner`` where the beds are those of the liner file.
    """
    rows = top.tables("bed") if "bed" in top else []
    for number, bed in enumerate(job.beds):
        bend = bend_of(job, bed.name)
        panels = [panel for panel in job.panels if panel.bed == bed.name]
        for each in (
            *_check_size(job, bend, lengths),
            *_check_dams(job, bend, panels, lengths),
            *(found for panel in panels for found in _check_ends(job, bend, panel, lengths)),
        ):
            table, key = (rows[number], each.key) if rows else (top, "liner")
            rule = each.rule if rows else f"bed {shown(bed.name)}: {each.key} {each.rule}"
            table.fault(key, rule, each.got, each.remedy)


def _check_size(job: Job, bend: Bend, lengths: LengthReaders) -> Iterator[_Misfit]:
    bed, box = bend.bed, job.liner.outline.bounds
    if bed.size == NO_SIZE:
        return
    needed = bend.underside((box.width, box.height))
    ways = ("along x", "along y")
    if bed.form != "flat":
        ways = ("along the curve", "along its straight axis")
    for has, needs, way in zip(bed.size, needed, ways, strict=True):
        if needs > has:
            rule = f"must hold the liner, which takes {lengths.text(needs)} of it {way}"
            over = f"the liner hangs over by {lengths.text(needs - has)}"
            yield _Misfit("size", rule, lengths.text(has), over)


def _check_dams(
    job: Job, bend: Bend, panels: Sequence[Panel], lengths: LengthReaders
) -> Iterator[_Misfit]:
    """Yield the one mistake of dams so high that a concave bed leaves their top no radius."""
    if bend.bed.form != "concave" or not panels:
        return
    highest = max(panels, key=job.thickness_of)
    height = job.dams.height or job.thickness_of(highest)
    face = bend.radius_at(bend.thickness)
    if height >= face:
        dam = "[dams] height" if job.dams.height else f"the thickness of panel {highest.mark!r}"
        rule = f"must leave a face of radius > {lengths.text(height)}, {dam}, under dams so high"
        yield _Misfit("radius", rule, lengths.text(face), "give lower dams or a larger radius")


def _check_ends(job: Job, bend: Bend, panel: Panel, lengths: LengthReaders) -> Iterator[_Misfit]:
    """Yield the one mistake of a panel that face or back has no room for between plumb ends."""
    bed, thickness = bend.bed, job.thickness_of(panel)
    if bed.form == "flat" or bed.ends == "square" or bend.radius_at(bend.thickness) <= 0:
        return
    if bend.radius_at(bend.thickness + thickness) <= 0:
        return  # told of the dams, or of the back
    name, length = curved_side(panel, bend)
    longest = bend.longest_arc(panel.measured_on, thickness)
    if panel.measured_on == "chord":
        longest = 2 * min(bend.face_radius, bend.back_radius(thickness))
    if cast_length(length, bend.shrink) > longest:
        most = math.floor(longest * (1 - bend.shrink)) // STEPS_PER_MM * STEPS_PER_MM
        rule = (
            f"must be square where the {name} of panel {shown(panel.mark)} is more than "
            f"{lengths.text(most)}, as face and back are one chord apart between plumb ends"
        )
        yield _Misfit("ends", rule, lengths.text(length))
