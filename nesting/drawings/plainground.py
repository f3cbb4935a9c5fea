"""The liner with the ground that is or must be made plain, measured from the datum corner.

Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from nesting.drawings.figures import length_figure
from nesting.drawings.key import KeyRow, draw_key
from nesting.drawings.lettering import shorten
from nesting.drawings.measured import Figures, keep_clear, measured_sheets, scale_cells
from nesting.drawings.names import PlacedNames
from nesting.drawings.ordinates import Ordinate
from nesting.drawings.record import Area, Drawing, Layer, Shape
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.strip import draw_strip
from nesting.drawings.terrain import datum_shapes, layout_layers
from nesting.shapes.geometry import Box, Polygon
from nesting.values.job import Job

KEY_HEIGHT = 3.5
"""The height of a key's words [mm]."""
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
    for sheet, dimensions in _sheets(job, spots):
        names = _name_everything(job, spots, sheet, dimensions)
        if not names.unplaced:
            break
    rows = [*map(list, spots.cells), scale_cells(job, sheet)]
    hatched = [Area(sheet.view.rings(each), "masked") for each in spots.hatched]
    return Drawing(
        spots.name,
        sheet.width,
        sheet.height,
        spots.title,
        spots.tells,
        (
            Layer("sheet", sheet.shapes),
            *layout_layers(job, None, sheet.view),
            *([Layer("changed", tuple(hatched))] if hatched else []),
            Layer("dimensions", (*chain(*dimensions), *datum_shapes(sheet.view))),
            Layer("names", names.shapes),
            Layer("key", draw_key(sheet, spots.key)),
            Layer("strip", draw_strip(sheet.strip, rows, sheet.view, job.units)),
        ),
    )


def list_ornaments(job: Job, width: float) -> Iterator[KeyRow]:
    """Yield key rows with the lower left corner of each ornament, from the datum corner."""
    if job.liner.ornaments:
        yield KeyRow((f"Ornaments, lower left corner x, y, {job.units}",), is_heading=True)
    for ornament in job.liner.ornaments:
        box = ornament.outline.bounds
        place = f": {length_figure(box.x0, job)}, {length_figure(box.y0, job)}"
        yield KeyRow((shorten(ornament.name, width - 40, KEY_HEIGHT) + place,))


def _sheets(job: Job, spots: Spots) -> Iterator[tuple[SheetPlan, Figures]]:
    frame = job.liner.outline.bounds
    across, up = (_measure(job, spots.boxes, axis) for axis in ("x", "y"))
    return measured_sheets(job.units, frame, across, up, spots.key)


def _measure(job: Job, boxes: Sequence[tuple[str, Box]], axis: str) -> tuple[Ordinate, ...]:
    """Return the figures along an axis, rising: sides of the boxes, the datum, the liner's end."""
    frame = job.liner.outline.bounds
    end, reach = (frame.x1, (0, frame.y1)) if axis == "x" else (frame.y1, (0, frame.x1))
    low, high = (0, 2) if axis == "x" else (1, 3)
    sides = {at for _, box in boxes for at in (box[low], box[high])} - {0, end}
    return tuple(
        Ordinate(
            at, reach, length_figure(at, job), length_figure(at, job, beside=True), at in sides
        )
        for at in sorted({0, end, *sides})
    )


def _name_everything(
    job: Job, spots: Spots, sheet: SheetPlan, dimensions: Sequence[Sequence[Shape]]
) -> PlacedNames:
    view = sheet.view
    ornaments = [ornament.outline for ornament in job.liner.ornaments]
    taken = keep_clear(view, dimensions, job.liner.outline, ornaments)
    names = PlacedNames(sheet.ground.grown(-1.0), taken, _ON_STRIP)
    for name, box in spots.boxes:
        names.name_dam(view.rect(box), name)
    for ornament in job.liner.ornaments:
        names.name_ornament(view.rect(ornament.outline.bounds), ornament.name)
    return names
