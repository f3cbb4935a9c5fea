"""The packet's front views: each kind of panel as it will hang, and what it measures then."""

from collections.abc import Sequence

from nesting.drawings.facerow import FACES_IN_ROW, draw_faces
from nesting.drawings.figures import length_figure, size_figure
from nesting.files.columns import TextTable
from nesting.fronts.kinds import Kind, list_kinds
from nesting.fronts.measures import Measures
from nesting.packets.parts import Block, Figure, Section, Words, grid_of
from nesting.unitwords import WORDS
from nesting.values.casts import Schedule
from nesting.values.job import Job

FACES = "faces"
"""The ref of the page."""
_SEEN = (
    "Seen from the front, as they will hang: left and right have changed places against the "
    "layouts, which are seen from above, where the faces lie down. Curved faces are drawn unrolled."
)
_STRAIGHT = "Chord and diagonals run straight, in space; over a convex face a tape runs longer."


def list_faces(job: Job, schedule: Schedule) -> Section:
    """Return the page of finished faces: a table of what they measure, then each one drawn."""
    kinds = list_kinds(job, schedule)
    rows = [kinds[at : at + FACES_IN_ROW] for at in range(0, len(kinds), FACES_IN_ROW)]
    figures = (Figure(draw_faces(job, row, f"faces-{at}")) for at, row in enumerate(rows, 1))
    table = grid_of(_size_table(job, kinds))
    blocks: tuple[Block, ...] = (Words(_SEEN), table, Words(_STRAIGHT), *figures)
    return Section(FACES, "Finished faces", blocks)


def _size_table(job: Job, kinds: Sequence[Kind]) -> TextTable:
    """Return what each kind measures; columns for curved faces only where there are some."""
    forms = {kind.face.measures.form for kind in kinds}
    bent, bulging = forms != {"flat"}, "convex" in forms
    sizes = ["along the face", "chord", "along the back"] if bent else ["size"]
    diagonals = ["both diagonals", *["over the face"] * bulging]
    head = ["panel", "pieces", "layouts", *sizes, *diagonals, "face", "shows"]
    rows = [
        [
            kind.name,
            str(kind.pieces),
            ", ".join(map(str, dict.fromkeys(kind.layouts))),
            *_list_sizes(job, kind.face.measures)[: len(sizes)],
            *_list_diagonals(job, kind.face.measures)[: len(diagonals)],
            _tell_form(job, kind.face.measures),
            ", ".join(each.name for each in kind.face.ornaments) or "-",
        ]
        for kind in kinds
    ]
    title = f"Finished sizes, width x height in {WORDS[job.units].figures}"
    return TextTable(title, head, rows, ("panel", "layouts", "face", "shows"))


def _tell_form(job: Job, measures: Measures) -> str:
    radius = f" R {length_figure(measures.radius, job)}" if measures.radius else ""
    return f"{measures.form}{radius}"


def _list_sizes(job: Job, measures: Measures) -> list[str]:
    """Return the size along the face and, where it is curved, straight and along the back."""
    bent = [size_figure(*each, job) for each in (measures.chords, measures.backs)]
    return [size_figure(*measures.size, job), *(bent if measures.radius else ("-", "-"))]


def _list_diagonals(job: Job, measures: Measures) -> list[str]:
    """Return the diagonals, straight and, where a face bulges, as a tape lies over it."""
    straight = dict.fromkeys(length_figure(each, job) for each in measures.diagonals)
    over = length_figure(measures.over_diagonal, job) if measures.form == "convex" else "-"
    return [", ".join(straight), over]
