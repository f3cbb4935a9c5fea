"""The cut list of a layout: the strip of each dam, and the curve of those sawn from sheet."""

from collections.abc import Sequence

from nesting.files.columns import TextTable
from nesting.schedules.cuts import DamCut, dam_cuts, runs_along
from nesting.unitwords import WORDS
from nesting.values.casts import Layout
from nesting.values.job import Job

_LEAN = "left or lower | right or upper side leans off square, out where the dam widens upward"
_NO_PLACE = "nowhere: corners of panels are too near; take a longer sheet"


def cut_table(job: Job, layout: Layout) -> TextTable:
    """Return the strip of each dam: what to cut, which way it runs, its zones.

    On a curved bed it says of each whether it is straight, bent or cut to the curve, with the
    length of its foot on the face and, of the last two, of its top edge.
    """
    bed, cuts = job.bed(layout.bed), dam_cuts(job, layout)
    is_curved = bed.form != "flat"
    has_leans = any(any(cut.leans) for cut in cuts)
    head = [
        "dam",
        *["kind"] * is_curved,
        "length",
        *["top edge"] * is_curved,
        "width",
        "height",
        *["sides lean"] * has_leans,
        "runs along",
        "blank zones",
    ]
    rows = []
    for dam, cut in zip(layout.dams, cuts, strict=True):
        length, width, height, top = (
            job.tape.figure(steps) for steps in (cut.length, cut.width, cut.height, cut.top)
        )
        rows.append(
            [
                dam.name,
                *[cut.kind] * is_curved,
                length,
                *[top] * is_curved,
                width,
                height,
                *[_leans(cut)] * has_leans,
                runs_along(dam),
                ", ".join(dam.zones) or "-",
            ]
        )
    left = ("dam", "kind", "sides lean", "runs along", "blank zones")
    return TextTable(_title(job, cuts), head, rows, left)


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
        parted = parted_words(job, cut)
        rows.append([cut.name, *written, job.tape.size(*cut.sheet), parted or "-"])
    title = (
        f"Dams cut to the curve, in {WORDS[job.units].figures}; parted at places along the foot "
        "from its left or lower end"
    )
    return TextTable(title, head, rows, ("dam", "parted at"))


def parted_words(job: Job, cut: DamCut) -> str:
    """Return where a dam is parted, '' where it is one piece."""
    if cut.parted_at is None:
        return _NO_PLACE
    return ", ".join(job.tape.figure(at) for at in cut.parted_at)


def _title(job: Job, cuts: Sequence[DamCut]) -> str:
    strip = sum(cut.length for cut in cuts if cut.kind != "cut")
    total = job.tape.figure(strip)
    title = f"Dams to cut, in {WORDS[job.units].figures}; {total} of strip in all"
    return f"{title}; {_LEAN}" if any(any(cut.leans) for cut in cuts) else title


def _leans(cut: DamCut) -> str:
    """Return by how many degrees both sides lean off square, out where the dam grows wider."""
    sides = (", ".join(_lean_words(lean) for lean in side) or "0" for side in cut.leans)
    return " | ".join(sides) if any(cut.leans) else "-"


def _lean_words(lean: float) -> str:
    return f"{abs(lean):.1f}° {'out' if lean > 0 else 'in'}"
