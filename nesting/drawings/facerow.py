"""Finished faces side by side, small, as a page of text has room for: each as it will hang.

Each face fills its cell, so neighbours may be in different scales.
"""

from collections.abc import Sequence
from fractions import Fraction

from nesting.drawings.figures import size_figure
from nesting.drawings.front import draw_arrow, draw_relief, keep_off_relief
from nesting.drawings.labels import Taken
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.names import MEDIUM, SMALL, PlacedNames
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Text, bounds_of
from nesting.drawings.view import FROM_FRONT, View
from nesting.fronts.kinds import Kind
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.job import Job

FACES_IN_ROW = 3
"""How many faces stand side by side."""

_CELL, _GAP, _CAPTION, _HIGHEST, _BESIDE, _FOOT = 76.0, 6.0, 13.0, 42.0, 18.0, 4.0
_MOST_NAMED = 4
_SPARE, _ON_RIM = 8.0, 12.0


def draw_faces(job: Job, kinds: Sequence[Kind], name: str) -> Drawing:
    """Return one row of faces with their names and sizes above; ``name`` is that of the drawing."""
    views = [_scale(kind) for kind in kinds]
    along = list(zip(kinds, views, strict=True))
    height = max(view.length(kind.face.measures.size[1]) for kind, view in along) + _CAPTION + _FOOT
    layers: list[Layer] = []
    for at, (kind, view) in enumerate(along):
        x0 = at * (_CELL + _GAP)
        room = Rect(x0, 0, x0 + _CELL, height)
        layers.append(Layer(f"face-{at + 1}", _draw_cell(job, kind, view.scale, room)))
    names = ", ".join(kind.name for kind in kinds)
    width = FACES_IN_ROW * (_CELL + _GAP) - _GAP
    tells = f"Finished faces of {names}, {FROM_FRONT.lower()}."
    return Drawing(name, width, height, f"{job.title}: {names}", tells, tuple(layers))


def _scale(kind: Kind) -> View:
    width, height = (Fraction(side, STEPS_PER_MM) for side in kind.face.measures.size)
    scale = max(width / Fraction(_CELL - _BESIDE), height / Fraction(_HIGHEST))
    return View(scale, 0.0, 0.0)


def _draw_cell(job: Job, kind: Kind, scale: Fraction, room: Rect) -> tuple[Shape, ...]:
    """Return one face with its caption above and its arrow beside."""
    box = Box(0, 0, *kind.face.measures.size)
    top = room.y1 - _CAPTION - View(scale, 0, 0).length(box.height)
    view = View(scale, room.x0 + 1, top)
    rim, arrow = view.rect(box), draw_arrow(view.rect(box))
    taken = Taken()
    taken.take(bounds_of(arrow))
    taken.draw((*rim.ring, rim.ring[0]), _ON_RIM)
    keep_off_relief(taken, view, kind.face.ornaments)
    names = PlacedNames(room._replace(y1=rim.y1), taken, _SPARE)
    has_names = len(kind.face.ornaments) <= _MOST_NAMED
    for shown in kind.face.ornaments if has_names else ():
        names.name_ornament(view.rect(shown.bounds), shown.name, is_needed=True, nearby=0)
    size = f"{size_figure(*kind.face.measures.size, job)} {job.units}"
    size = size if words_width(size, SMALL) <= _CELL else ""
    return (
        Area((rim.ring,), "panel"),
        *draw_relief(view, kind.face.ornaments),
        Line((*rim.ring, rim.ring[0]), "rim"),
        *arrow,
        *names.shapes,
        Text(room.x0, room.y1 - 5.5, shorten(kind.name, _CELL, MEDIUM, bold=True), MEDIUM, "bold"),
        Text(room.x0, room.y1 - 10.8, size, SMALL),
    )
