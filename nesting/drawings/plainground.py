"""The liner with the ground that is or must be made plain, measured from the datum corner.

Nothing is decided here.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from nesting.drawings.compose import (
    Figures,
    Head,
    Painted,
    Picture,
    compose,
    measured,
    start_names,
)
from nesting.drawings.figures import length_figure
from nesting.drawings.key import HEIGHT, KeyRow, heading
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.names import PlacedNames
from nesting.drawings.ordinates import Ordinate, ordinate_at
from nesting.drawings.record import Area, Drawing, Layer
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.terrain import layout_layers
from nesting.drawings.view import FROM_ABOVE
from nesting.shapes.geometry import Box, Polygon
from nesting.values.job import Job

_ON_STRIP = 1.0


@dataclass(frozen=True, slots=True)
class Spots:
    """What a drawing of plain ground shows: named boxes [steps], and what it is called.

    ``name`` is that of the file; ``title`` and ``tells`` describe the picture, ``cells`` are the
    title strip's rows but the last. ``hatched`` is ground that is to be changed.
    """

    name: str
    title: str
    tells: str
    boxes: tuple[tuple[str, Box], ...]
    key: tuple[KeyRow, ...]
    cells: tuple[tuple[str, ...], ...]
    hatched: tuple[Polygon, ...] = ()


def draw_ground(job: Job, spots: Spots) -> Drawing:
    """Return the job's liner on the smallest paper where every name has a place, or the largest."""
    *above, last = spots.cells
    cells = (*above, (*last, FROM_ABOVE))
    head = Head(spots.name, spots.title, spots.tells, job.units, cells)
    across, up = (_measure(job, spots.boxes, axis) for axis in ("x", "y"))
    picture = Picture(head, job.liner.outline.bounds, (spots.key,), across, up)

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        names = _name_everything(job, spots, sheet, figures)
        hatched = tuple(Area(sheet.view.rings(each), "masked") for each in spots.hatched)
        layers = (
            *layout_layers(job.liner, None, sheet.view),
            *([Layer("changed", hatched)] if hatched else []),
            measured(sheet, figures),
            Layer("names", names.shapes),
        )
        return Painted(layers, len(names.unplaced))

    return compose(picture, paint)


def list_ornaments(job: Job, width: float) -> Iterator[KeyRow]:
    """Yield key rows with the lower left corner of each ornament, from the datum corner."""
    if job.liner.ornaments:
        yield heading(f"Ornaments, lower left corner x, y, {job.units}")
    for ornament in job.liner.ornaments:
        box = ornament.outline.bounds
        place = f": {length_figure(box.x0, job)}, {length_figure(box.y0, job)}"
        room = width - words_width(place, HEIGHT)
        yield KeyRow((shorten(ornament.name, room, HEIGHT) + place,))


def _measure(job: Job, boxes: Sequence[tuple[str, Box]], axis: str) -> tuple[Ordinate, ...]:
    """Return the figures along an axis, rising: sides of the boxes, the datum, the liner's end."""
    frame = job.liner.outline.bounds
    end, reach = (frame.x1, (0, frame.y1)) if axis == "x" else (frame.y1, (0, frame.x1))
    low, high = (0, 2) if axis == "x" else (1, 3)
    sides = {at for _, box in boxes for at in (box[low], box[high])} - {0, end}
    return tuple(
        ordinate_at(at, reach, job, is_panel_edge=at in sides) for at in sorted({0, end, *sides})
    )


def _name_everything(job: Job, spots: Spots, sheet: SheetPlan, figures: Figures) -> PlacedNames:
    ornaments = job.liner.ornaments
    relief = [ornament.outline for ornament in ornaments]
    names = start_names(sheet, figures, job.liner.outline, relief, _ON_STRIP)
    for name, box in spots.boxes:
        names.name_dam(sheet.view.rect(box), name)
    for ornament in ornaments:
        names.name_ornament(sheet.view.rect(ornament.outline.bounds), ornament.name)
    return names
