"""What is done and measured on a curved bed, once the liner lies on it and before it is sprayed."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from nesting.files.columns import TextTable
from nesting.unitwords import WORDS
from nesting.values.bed import NO_SIZE, Bed
from nesting.values.bend import bend_of
from nesting.values.casts import Layout
from nesting.values.castsizes import NO_SHRINK
from nesting.values.job import Job
from nesting.values.names import call_dam

TAPED = {
    "convex": "Over a convex bed the tape lies on the face from corner to corner; the straight "
    "diagonals and the chord are those of the panel once it is off.",
    "concave": "In a concave bed the tape is drawn straight from corner to corner.",
}
"""Which diagonals and chords a tape can reach on a bed of each form."""


@dataclass(frozen=True, slots=True)
class OnBed:
    """What one panel measures [steps] between its dams, at their feet, before it shrinks.

    ``width`` and ``height`` lie along the face, ``chord`` spans the curved one of them.
    ``straight`` is the length of either diagonal in space, ``over`` that of a tape that lies on the
    face; on a flat bed both are one.
    """

    mark: str
    width: int
    height: int
    chord: int
    straight: int
    over: int


def measure_panels(job: Job, layout: Layout) -> tuple[OnBed, ...]:
    """Return what the panels of a layout measure on their bed, in the order of the layout."""
    bend = replace(bend_of(job, layout.bed), shrink=NO_SHRINK)
    axis = bend.bed.curved_axis
    found = []
    for panel in layout.panels:
        flat = panel.width, panel.height
        width, height = bend.ordered_length(flat[0], "x"), bend.ordered_length(flat[1], "y")
        chord = bend.ordered_length(flat[0] if axis == "x" else flat[1], axis, "chord")
        straight, over = bend.diagonals(flat)[0], round(math.hypot(width, height))
        found.append(OnBed(panel.mark, width, height, chord, straight, over))
    return tuple(found)


def bed_measures(job: Job, layout: Layout) -> TextTable:
    """Return the panels of a layout on a curved bed, each by what is measured there."""
    head = ["panel", "width", "height", "chord", "diagonals over the face", "diagonals straight"]
    rows = [
        [
            each.mark,
            *(
                job.tape.figure(steps)
                for steps in (each.width, each.height, each.chord, each.over, each.straight)
            ),
        ]
        for each in measure_panels(job, layout)
    ]
    unit = WORDS[job.units].figures
    title = f"To measure on the bed before spraying, along the face, in {unit}"
    return TextTable(title, head, rows, ("panel",))


def taped_words(job: Job, each: OnBed, bed: Bed) -> str:
    """Return what a tape reads on a curved bed: the size, and diagonals as it can reach them.

    In a concave bed it reads the chord too.
    """
    size = f"{job.tape.size(each.width, each.height)} along the face"
    if bed.form == "convex":
        return f"{size}, diagonals over it {job.tape.figure(each.over)}"
    chord, straight = (job.tape.figure(steps) for steps in (each.chord, each.straight))
    return f"{size}, chord {chord}, diagonals {straight}"


def say_where_it_lies(job: Job, bed: Bed) -> str:
    """Return how far the rims of the liner are from the ends of its bed, '' where not known."""
    if bed.size == NO_SIZE:
        return ""
    box = job.liner.outline.bounds
    needed = bend_of(job, bed.name).underside((box.width, box.height))
    first, second = (
        job.tape.words((has - needs) // 2) for has, needs in zip(bed.size, needed, strict=True)
    )
    if bed.form == "flat":
        return f"its rims {first} from the ends of the bed along x and {second} along y"
    straight = "y" if bed.curved_axis == "x" else "x"
    return (
        f"its rims {first} from the ends of the bed along the curve ({bed.curved_axis}) and "
        f"{second} from those along {straight}"
    )


def list_bed_tasks(job: Job, layout: Layout) -> tuple[str, ...]:
    """Return the tasks from the clean liner to the dams measured, in turn, on any bed."""
    bed = job.bed(layout.bed)
    lies = say_where_it_lies(job, bed)
    lay = f"Lay the liner on bed {bed.name!r}" + (f", {lies}." if lies else ".")
    if bed.form == "flat":
        return _dam_task(layout), lay
    lay = lay.replace(f"bed {bed.name!r}", f"bed {bed.name!r}, bent to it", 1)
    if layout.same_dams_as is not None:
        stay = f"Leave the dams of layout {layout.same_dams_as} where they lie"
        return (f"{stay}, the liner on bed {bed.name!r}. Measure again on the bed.",)
    if not layout.dams:
        return "Clean the liner and look it over.", lay
    names = _name_dams(layout)
    return (
        "Clean the liner. Lying flat, mark on it from the datum corner the faces of "
        f"{names}; measure again. No dam is laid yet.",
        lay,
        f"Set {names} on the marks. {_how_set(job, bed)}",
        "Measure every panel on the bed: width and height along the face, chord and diagonals.",
    )


def note_bed(job: Job, layout: Layout) -> list[str]:
    """Return what a drawing of the flat liner says of its bed: how dams are set, where it lies."""
    bed = job.bed(layout.bed)
    curved = (
        "Curved bed: all places and panel sizes are marked on the liner lying flat; "
        f"dams are set once it lies on bed {bed.name}."
    )
    lies = say_where_it_lies(job, bed)
    return [
        *[curved] * (bed.form != "flat"),
        *[f"The liner lies on the bed with {lies}."] * bool(lies),
    ]


def _how_set(job: Job, bed: Bed) -> str:
    across = "those across the curve straight and square to the face"
    along = "bent, fixed along the foot" if job.dams.on_curve == "bent" else "cut to it"
    if bed.ends == "plumb":
        across = "those across the curve straight, their sides leaning as the cut list says"
        along += ", their ends trimmed to what leans"
    return f"They stand on the face: {across}, those along it {along}."


def _dam_task(layout: Layout) -> str:
    if layout.same_dams_as is not None:
        return f"Leave the dams of layout {layout.same_dams_as} where they lie."
    if not layout.dams:
        return "Clean the liner and look it over."
    names = _name_dams(layout)
    return f"Clean the liner. Set out from the datum corner; lay {names}; measure again."


def _name_dams(layout: Layout) -> str:
    names: Iterable[str] = (call_dam(dam.name) for dam in layout.dams)
    return ", ".join(names)
