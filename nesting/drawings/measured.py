"""A liner measured from its datum corner: on each paper with its figures, and what names keep off.

Nothing is decided here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from nesting.drawings.key import KeyRow, lines_needed, rows_width
from nesting.drawings.labels import Taken
from nesting.drawings.ordinates import Ordinate, draw_ordinates, longest, pitch
from nesting.drawings.record import Line, Shape, bounds_of
from nesting.drawings.sheet import SheetNeed, SheetPlan, View, sheets_for
from nesting.drawings.terrain import datum_shapes
from nesting.shapes.geometry import Box, Polygon
from nesting.values.job import Job, Units

Figures = tuple[tuple[Shape, ...], ...]
"""The figures of a drawing, row by row."""

_MOST_KEY_COLUMNS = 8
_ON_WITNESS, _ON_ORNAMENT, _ON_RIM = 0.5, 12.0, 12.0


def measured_sheets(
    units: Units,
    frame: Box,
    across: Sequence[Ordinate],
    up: Sequence[Ordinate],
    key: Sequence[KeyRow],
) -> Iterator[tuple[SheetPlan, Figures]]:
    """Yield each paper that holds the frame, its figures and the key, the smallest first."""
    need = SheetNeed(
        frame,
        len(across),
        len(up),
        (longest(across, wide=False), longest(up, wide=False)),
        (longest(across, wide=True), longest(up, wide=True)),
        pitch((*across, *up)),
        rows_width(key),
        tuple(lines_needed(key, columns) for columns in range(1, _MOST_KEY_COLUMNS + 1)),
    )
    for sheet in sheets_for(need, units):
        yield sheet, draw_ordinates(sheet, frame, across, up)


def keep_clear(
    view: View, figures: Iterable[Sequence[Shape]], rim: Polygon, ornaments: Iterable[Polygon]
) -> Taken:
    """Return what names must keep clear of: figures, the datum, ornaments, the rim."""
    taken = Taken()
    taken.take(bounds_of(datum_shapes(view)))
    for row in figures:
        witnesses = [line for line in row if isinstance(line, Line) and line.style == "witness"]
        taken.take(bounds_of(shape for shape in row if shape not in witnesses))
        for line in witnesses:
            taken.draw(line.points, _ON_WITNESS)
    for outline in ornaments:
        for ring in view.rings(outline):
            taken.draw((*ring, ring[0]), _ON_ORNAMENT)
    for ring in view.rings(rim):
        taken.draw((*ring, ring[0]), _ON_RIM)
    return taken


def scale_cells(job: Job, sheet: SheetPlan) -> list[str]:
    """Return the last row of the title strip: the scale, and what the figures are in."""
    figures = {"mm": "Figures in mm", "in": "Figures in inches"}[job.units]
    figures += " (mm)" if sheet.wide and job.units == "in" else ""
    return [sheet.scale_words, figures]
