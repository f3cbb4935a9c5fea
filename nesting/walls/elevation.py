"""The elevation of a skin: its panels in their order, each with the face that hangs there.

A wall is walked with its inner side to the left. Before the outer skin the walk goes from left to
right; before the inner one, seen from inside, it goes from right to left: the order turns over.
Faces stand unrolled along the skin, curves and corners laid flat.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate

from nesting.errors import InputError
from nesting.fronts.kinds import Kind, list_kinds, list_pieces
from nesting.shapes.geometry import Box
from nesting.values.casts import Schedule
from nesting.values.job import Job
from nesting.walls.cladding import Corner, Skin, Stretch, Wall, face_length, order_of


@dataclass(frozen=True, slots=True)
class Standing:
    """A panel where it stands: its ground [steps], from the left end and the foot of the skin."""

    kind: Kind
    ground: Box


@dataclass(frozen=True, slots=True)
class Elevation:
    """One skin before whoever looks at it: ``length`` and ``height`` [steps], unrolled.

    Panels come row by row from below, each row from the left; ``corners`` are where the skin turns
    one [steps].
    """

    skin: Skin
    length: int
    height: int
    panels: tuple[Standing, ...]
    corners: tuple[int, ...]


def elevate_skins(
    wall: Wall, stretches: Sequence[Stretch], job: Job, schedule: Schedule
) -> list[Elevation]:
    """Return an elevation of each skin, clad with the panels a schedule casts.

    Pieces of one mark stand in the order in which they are cast, row by row from below and from the
    left; those left over stand nowhere.

    Raises
    ------
    InputError
        Where the job does not order what the wall takes.
    """
    _need_order(wall, stretches, job)
    pieces = list_pieces(list_kinds(job, schedule), schedule)
    return [_elevate(wall, stretches, skin, pieces) for skin in wall.skins]


def _need_order(wall: Wall, stretches: Sequence[Stretch], job: Job) -> None:
    """Refuse a job whose order lacks a panel of the wall, has too few of it, or of another size."""
    ordered = {panel.mark: panel for panel in job.panels}
    remedy = "take the order that nesting wall -o writes"
    for panel in order_of(wall, tuple(stretches))[1]:
        found = ordered.get(panel.mark)
        if found is None:
            raise InputError("--job", "must order every panel of the wall", panel.mark, remedy)
        sizes = [(each.width, each.height) for each in (panel, found)]
        if sizes[0] != sizes[1]:
            want, got = (job.tape.size_words(*size) for size in sizes)
            raise InputError("--job", f"panel {panel.mark!r} must measure {want}", got, remedy)
        if found.quantity < panel.quantity:
            rule = f"must order at least {panel.quantity} of panel {panel.mark!r}"
            raise InputError("--job", rule, str(found.quantity), remedy)


def _elevate(
    wall: Wall, stretches: Sequence[Stretch], skin: Skin, pieces: Mapping[str, list[Kind]]
) -> Elevation:
    lengths = [face_length(wall, index, skin) for index in range(len(wall.parts))]
    *starts, length = accumulate(lengths, initial=0.0)
    spots = [
        (stretch.mark, low, high)
        for stretch in stretches
        if stretch.skin == skin
        for low, high in _spans(wall, stretch, starts[stretch.part], length)
    ]
    corners = [starts[at] for at, part in enumerate(wall.parts) if isinstance(part, Corner)]
    if skin == "inner":
        spots = [(mark, length - high, length - low) for mark, low, high in spots]
        corners = [length - at for at in corners]
    spots.sort(key=lambda spot: spot[1])
    cast = {mark: iter(kinds) for mark, kinds in pieces.items()}
    pitch = wall.row_height + wall.joint
    standing = tuple(
        Standing(
            next(cast[mark]),
            Box(round(low), row * pitch, round(high), row * pitch + wall.row_height),
        )
        for row in range(wall.rows)
        for mark, low, high in spots
    )
    height = (wall.rows - 1) * pitch + wall.row_height
    inside = sorted(round(at) for at in corners if 0 < at < length)
    return Elevation(skin, round(length), height, standing, tuple(inside))


def _spans(wall: Wall, stretch: Stretch, start: float, length: float) -> list[tuple[float, float]]:
    """Return from where to where each panel of a row reaches along the whole skin [steps].

    The legs of a corner return stand on either side of their corner; where a closed wall meets
    itself in that, the first of them ends it and the second begins it.
    """
    if isinstance(wall.parts[stretch.part], Corner):
        end, begin = start or length, start if start < length else 0.0
        return [(end - stretch.width, end), (begin, begin + stretch.width)]
    return [(start + low, start + high) for low, high in stretch.spans]
