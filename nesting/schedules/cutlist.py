"""The cut list of a layout: the strip of each dam, and the curve of those sawn from sheet."""

from collections.abc import Callable, Sequence

from nesting.files.columns import TextTable
from nesting.schedules.cuts import OTHER, DamCut, dam_cuts, runs_along, width_words
from nesting.unitwords import WORDS
from nesting.values.casts import Layout
from nesting.values.job import Job

_LEAN = "left or lower | right or upper side leans off square, out where the dam widens upward"
_NO_PLACE = "nowhere: corners of panels are too near; take a longer sheet"


def cut_table(job: Job, layout: Layout) -> TextTable:
    """Return the strip of each dam of a layout that has some: what to cut, how it runs, its zones.

    On a curved bed it says of each whether it is straight, bent or cut to the curve, with the
    length of its foot on the face and, of the last two, of its top edge.
    """
    cuts, write = dam_cuts(job, layout), job.tape.figure
    curved = cuts if job.bed(layout.bed).form != "flat" else ()
    leaning = cuts if any(any(cut.leans) for cut in cuts) else ()
    columns = {
        "dam": [cut.name for cut in cuts],
        "kind": [cut.kind for cut in curved],
        "length": [write(cut.length) for cut in cuts],
        "top edge": [write(cut.top) for cut in curved],
        "width": [width_words(job, cut.width) for cut in cuts],
        "height": [write(cut.height) for cut in cuts],
        "top width": [_top_width(job, cut) for cut in leaning],
        "sides lean": [_leans(cut) for cut in leaning],
        "runs along": [runs_along(job, dam) for dam in layout.dams],
        "blank zones": [", ".join(dam.zones) or "-" for dam in layout.dams],
    }
    shown = {title: cells for title, cells in columns.items() if cells}
    rows = [list(row) for row in zip(*shown.values(), strict=True)]
    left = ("dam", "kind", "sides lean", "runs along", "blank zones")
    return TextTable(_title(job, cuts), list(shown), rows, left)


def curve_table(job: Job, layout: Layout) -> TextTable:
    """Return the curve of each dam of a layout that is sawn from sheet; there may be none."""
    head = ["dam", "foot radius", "top radius", "foot arc", "foot chord", "foot rise"]
    head += ["top arc", "top chord", "sheet for a piece", "parted at"]
    rows = []
    for cut in dam_cuts(job, layout):
        if cut.kind != "cut" or cut.profile is None:
            continue
        ring = cut.profile
        lengths = (ring.foot_radius, ring.top_radius, ring.foot, ring.chord, ring.rise)
        written = [job.tape.figure(steps) for steps in (*lengths, ring.top, ring.top_chord)]
        parted = say_parted(cut, job.tape.figure)
        rows.append([cut.name, *written, job.tape.size(*cut.sheet), parted or "-"])
    title = (
        f"Dams cut to the curve, in {WORDS[job.units].figures}; parted at places along the foot "
        "from its left or lower end"
    )
    return TextTable(title, head, rows, ("dam", "parted at"))


def say_parted(cut: DamCut, write: Callable[[int], str]) -> str:
    """Return where a dam is parted, each place as it is written; '' where it is one piece."""
    return _NO_PLACE if cut.parted_at is None else ", ".join(map(write, cut.parted_at))


def _title(job: Job, cuts: Sequence[DamCut]) -> str:
    strip = sum(cut.length for cut in cuts if cut.kind != "cut")
    total = job.tape.figure(strip)
    title = f"Dams to cut, in {WORDS[job.units].figures}; {total} of strip in all"
    if not all(job.lists_width(cut.width) for cut in cuts):
        title += f"; {OTHER}: of a width the job does not list"
    return f"{title}; {_LEAN}" if any(any(cut.leans) for cut in cuts) else title


def _top_width(job: Job, cut: DamCut) -> str:
    """Return how wide a dam is on top, or that its sides meet below it."""
    if cut.top_width is None:
        return "varies"
    return job.tape.figure(cut.top_width) if cut.top_width > 0 else "none: give lower dams"


def _leans(cut: DamCut) -> str:
    """Return by how many degrees both sides lean off square, out where the dam grows wider."""
    sides = (", ".join(_lean_words(lean) for lean in side) or "0" for side in cut.leans)
    return " | ".join(sides) if any(cut.leans) else "-"


def _lean_words(lean: float) -> str:
    return f"{abs(lean):.1f}° {'out' if lean > 0 else 'in'}"
