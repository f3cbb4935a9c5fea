"""The packet's front views: each kind of panel as it will hang, and what it measures then."""

from collections.abc import Sequence

from nesting.drawings.facerow import FACES_IN_ROW, draw_faces
from nesting.drawings.figures import length_figure, size_figure
from nesting.drawings.front import face_words
from nesting.files.columns import TextTable
from nesting.fronts.kinds import Kind, list_kinds
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
_STRAIGHT = "Chord and diagonals run straight from end to end and from corner to corner, in space."


def list_faces(job: Job, schedule: Schedule) -> Section:
    """Return the page of finished faces: a table of what they measure, then each one drawn."""
    kinds = list_kinds(job, schedule)
    rows = [kinds[at : at + FACES_IN_ROW] for at in range(0, len(kinds), FACES_IN_ROW)]
    figures = (Figure(draw_faces(job, row, f"faces-{at}")) for at, row in enumerate(rows, 1))
    table = grid_of(_size_table(job, kinds))
    blocks: tuple[Block, ...] = (Words(_SEEN), table, Words(_STRAIGHT), *figures)
    return Section(FACES, "Finished faces", blocks)


def _size_table(job: Job, kinds: Sequence[Kind]) -> TextTable:
    """Return what each kind measures; chords where a face is curved."""
    curved = any(kind.face.measures.radius for kind in kinds)
    sizes = ["along the face", "chord", "along the back"] if curved else ["size"]
    head = ["panel", "pieces", "layouts", *sizes, "both diagonals", "face", "shows"]
    rows = [_size_row(job, kind, len(sizes)) for kind in kinds]
    title = f"Finished sizes, width x height in {WORDS[job.units].figures}"
    return TextTable(title, head, rows, ("panel", "layouts", "face", "shows"))


def _size_row(job: Job, kind: Kind, sizes: int) -> list[str]:
    measures = kind.face.measures
    bent = [size_figure(*each, job) for each in (measures.chords, measures.backs)]
    bent = bent if measures.radius else ["-", "-"]
    diagonals = dict.fromkeys(length_figure(each, job) for each in measures.diagonals)
    return [
        kind.name,
        str(kind.pieces),
        ", ".join(map(str, dict.fromkeys(kind.layouts))),
        *[size_figure(*measures.size, job), *bent][:sizes],
        ", ".join(diagonals),
        face_words(job, measures).removeprefix("Face "),
        ", ".join(each.name for each in kind.face.ornaments) or "-",
    ]
