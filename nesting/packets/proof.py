"""How the packet's numbers were got: the beds, the areas, the proof, and the checker's verdict."""

from collections.abc import Sequence

from nesting.checking.findings import Finding
from nesting.files.columns import TextTable
from nesting.packets.parts import Block, Lines, Section, Words, grid_of
from nesting.schedules.ascast import list_cast_sizes
from nesting.schedules.report import (
    area_table,
    describe_bed,
    size_table,
    write_clearance,
    write_proof,
    write_result,
    write_verdicts,
)
from nesting.schedules.tolerances import list_tolerances
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.unitwords import WORDS
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Schedule
from nesting.values.job import Job

_SAMPLES = {"mm": 1000 * STEPS_PER_MM, "in": 100 * STEPS_PER_INCH}
_BENT = (
    "A bent liner keeps its length on its neutral surface only. On a convex bed of radius R a "
    "liner of thickness t whose neutral surface lies at the fraction k of t from the underside "
    "gives a face longer than the flat liner by (R + t) / (R + k t); on a concave bed the face is "
    "shorter, by (R - t) / (R - k t). Across the curve nothing changes. The sizes to mark out "
    "already allow for it: mark out the flat size, never the ordered one."
)
_METHOD = (
    "Every length is a whole number of steps of 1/8000 mm, so nothing is rounded on the way: whole "
    "micrometres and 1/64 in are both exact. A panel's place is sought among all that keep the "
    "rules; the casts are then as few as the search could make them, and no fewer than the proof "
    "below allows."
)


def list_beds(job: Job, schedule: Schedule, *, exact: bool = False) -> Section:
    """Return the page of the beds: radii, face radii, and what the curve does to sizes."""
    used = {layout.bed for layout in schedule.layouts}
    beds = [bed for bed in job.beds if bed.name in used]
    blocks: list[Block] = [grid_of(bed_table(job, schedule, beds))]
    curved = [bed for bed in beds if bed.form != "flat"]
    if curved:
        blocks += [*(Words(describe_bed(job, bed)) for bed in curved), Words(_BENT)]
    sizes = size_table(job, schedule, exact=exact)
    if sizes.rows:
        blocks.append(grid_of(sizes))
    else:
        blocks.append(Words("Every panel is marked out at its ordered size."))
    blocks += _lines(list_cast_sizes(job))
    return Section("beds", "Beds and sizes", tuple(blocks))


def bed_table(job: Job, schedule: Schedule, beds: Sequence[Bed]) -> TextTable:
    """Return a row for each bed: form, radii, what a sample length becomes, casts."""
    sample = job.tape.figure(_SAMPLES[job.units])
    head = ["bed", "form", "radius", "curved along", "neutral at", "face radius"]
    head += [f"face of {sample} flat", "casts"]
    rows = [_bed_row(job, schedule, bed) for bed in beds]
    return TextTable(
        f"Beds, in {WORDS[job.units].figures}", head, rows, ("bed", "form", "curved along")
    )


def _bed_row(job: Job, schedule: Schedule, bed: Bed) -> list[str]:
    casts = sum(layout.repeats for layout in schedule.layouts if layout.bed == bed.name)
    bend, tape = Bend(bed, job.liner.thickness), job.tape
    face = tape.stated(bend.ordered_length(_SAMPLES[job.units], bed.curved_axis))
    if bed.form == "flat":
        return [bed.name, bed.form, "-", "-", "-", "-", face, str(casts)]
    radius = tape.figure(bend.face_radius)
    neutral = f"{float(bed.neutral):g} of {tape.figure(job.liner.thickness)}"
    curve = [tape.figure(bed.radius), bed.curved_axis, neutral, radius]
    return [bed.name, bed.form, *curve, face, str(casts)]


def tell_proof(job: Job, schedule: Schedule, findings: Sequence[Finding]) -> Section:
    """Return the page on how the numbers were got, with whatever the checker found."""
    blocks: list[Block] = [
        Words(write_result(schedule), "strong"),
        *(Words(f"Note: {note}", "note") for note in schedule.notes),
        Words(_METHOD),
        *(Words(write_proof(proof)) for proof in schedule.proofs),
        Words(write_verdicts(schedule)),
        *(Words(line) for line in write_clearance(job, schedule)),
        *tell_verdict(findings),
        grid_of(area_table(job, schedule)),
        *_lines(list_tolerances(job)),
    ]
    return Section("proof", "How the numbers were got", tuple(blocks))


def tell_verdict(findings: Sequence[Finding]) -> list[Words]:
    """Return the checker's verdict: no fault, or each fault with its code."""
    if not findings:
        return [
            Words(
                "The checker, which shares no code with the search, went through the finished "
                "casts rule by rule and found no fault: every rule is kept, every ornament is "
                "whole or left out, every panel of the order is cast.",
                "strong",
            )
        ]
    head = Words(f"The checker found {len(findings)} at fault. Do not cast from this.", "warning")
    return [head, *(Words(str(finding), "warning") for finding in findings)]


def _lines(lines: list[str]) -> list[Block]:
    return [Lines(lines[0].rstrip(":"), tuple(lines[1:]))] if lines else []
