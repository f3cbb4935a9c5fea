"""Which panels of a schedule look alike, so that each look is drawn once."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from nesting.fronts.faces import Face, show_face
from nesting.shapes.geometry import Box
from nesting.values.casts import Layout, Placement, Schedule
from nesting.values.job import Job
from nesting.values.names import kind_name

Ground = tuple[Box, bool] | None
"""The window of the liner a face is cast in, and whether it is turned there."""


@dataclass(frozen=True, slots=True)
class Kind:
    """Panels of one mark that look alike.

    ``ground`` is where on the liner they are cast and whether turned, where that tells them from
    others. ``number`` counts the kinds of a mark that has several, and is 0 where it has one.
    ``layouts`` has the number of a layout for each panel of the kind in it; ``pieces`` all casts
    yield.
    """

    face: Face
    ground: Ground
    number: int
    layouts: tuple[int, ...]
    pieces: int

    @property
    def name(self) -> str:
        """What it is called."""
        return kind_name(self.face.mark, self.number)


def list_kinds(job: Job, schedule: Schedule) -> tuple[Kind, ...]:
    """Return the kinds of panels a schedule casts, in the order of the job, then of the layouts.

    Panels of one mark look alike where they show the same ornaments at the same places; where the
    liner has detail between its ornaments, only those cast at one place of it the same way round.
    """
    repeats = {layout.number: layout.repeats for layout in schedule.layouts}
    found: dict[tuple[Face, Ground], list[int]] = {}
    for layout in schedule.layouts:
        for placed in layout.panels:
            found.setdefault(_look(job, placed), []).append(layout.number)
    kinds: list[Kind] = []
    for panel in job.panels:
        own = [(look, where) for look, where in found.items() if look[0].mark == panel.mark]
        for number, (look, where) in enumerate(own, 1):
            pieces = sum(repeats[layout] for layout in where)
            kinds.append(Kind(*look, number if len(own) > 1 else 0, tuple(where), pieces))
    return tuple(kinds)


def name_panels(job: Job, schedule: Schedule, layout: Layout) -> list[str]:
    """Return the name of the kind of each panel of a layout, in their order there."""
    names = {(kind.face, kind.ground): kind.name for kind in list_kinds(job, schedule)}
    return [names[_look(job, placed)] for placed in layout.panels]


def list_pieces(kinds: Sequence[Kind], schedule: Schedule) -> Mapping[str, list[Kind]]:
    """Return for every mark the kinds of its pieces, in the order in which they are cast."""
    pieces: dict[str, list[Kind]] = {}
    for layout in schedule.layouts:
        cast = [kind for kind in kinds for each in kind.layouts if each == layout.number]
        for kind in cast * layout.repeats:
            pieces.setdefault(kind.face.mark, []).append(kind)
    return pieces


def _look(job: Job, placed: Placement) -> tuple[Face, Ground]:
    """Return what panels that look alike have alike."""
    ground = None if job.liner.unmarked == "blank" else (placed.box, placed.turned)
    return show_face(job, placed), ground
