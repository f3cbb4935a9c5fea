"""The drawing to carve from: the new liner with its plain strips, measured from the datum corner.

Nothing is decided here: widths and uses are those of the answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from nesting.drawing import Drawing, Layer, Line, Shape, bounds_of
from nesting.figures import length_figure, size_figure
from nesting.geometry import Box
from nesting.job import Job
from nesting.key import Row, draw_key, lines_needed, rows_width
from nesting.labels import Taken
from nesting.lettering import shorten, wrap
from nesting.names import Names
from nesting.ordinates import Ordinate, draw_ordinates, longest, pitch
from nesting.sheet import Need, Sheet, View, sheets_for
from nesting.strip import draw_strip
from nesting.terrain import datum_shapes, layout_layers
from nesting.zonetrade import Offer
from nesting.zoneuses import Use

_MOST_KEY_COLUMNS = 8
_HEIGHT = 3.5
_ON_WITNESS, _ON_STRIP, _ON_ORNAMENT, _ON_RIM = 0.5, 1.0, 12.0, 12.0
_LEGEND = (
    Row(("Plain ground: carve nothing",), "zone"),
    Row(("Ornament",), "ornament"),
    Row(("Rim of the liner",), "rim"),
    Row(("Datum corner 0,0",), "datum"),
    Row(("Side of a plain strip",), "bold"),
    Row(("Rim",), "plain"),
)


def draw_carving(offer: Offer, uses: Sequence[Use]) -> Drawing:
    """Return the new liner on the smallest paper where every name has a place, or the largest."""
    job = offer.zoning.job
    frame = job.liner.outline.bounds
    key = _key_rows(job, uses)
    for sheet, dimensions in _sheets(job, uses, key):
        names = _name_everything(job, uses, sheet, dimensions)
        if not names.unplaced:
            break
    strip = draw_strip(sheet.strip, _title(offer, sheet), sheet.view, job.units)
    return Drawing(
        "carving",
        sheet.width,
        sheet.height,
        f"{job.title}: where it stays plain",
        f"Liner {job.liner.name}, {size_figure(frame.width, frame.height, job)}, with "
        f"{_count(len(uses), 'plain strip')}.",
        (
            Layer("sheet", sheet.shapes),
            *layout_layers(job, None, sheet.view),
            Layer("dimensions", (*chain(*dimensions), *datum_shapes(sheet.view))),
            Layer("names", names.shapes),
            Layer("key", draw_key(sheet, key)),
            Layer("strip", strip),
        ),
    )


def _sheets(
    job: Job, uses: Sequence[Use], key: Sequence[Row]
) -> Iterator[tuple[Sheet, tuple[tuple[Shape, ...], ...]]]:
    frame = job.liner.outline.bounds
    across, up = (_measure(job, uses, axis) for axis in ("x", "y"))
    need = Need(
        frame,
        len(across),
        len(up),
        (longest(across, wide=False), longest(up, wide=False)),
        (longest(across, wide=True), longest(up, wide=True)),
        pitch((*across, *up)),
        rows_width(key),
        tuple(lines_needed(key, columns) for columns in range(1, _MOST_KEY_COLUMNS + 1)),
    )
    for sheet in sheets_for(need, job.units):
        yield sheet, draw_ordinates(sheet, frame, across, up)


def _measure(job: Job, uses: Sequence[Use], axis: str) -> tuple[Ordinate, ...]:
    """Return the figures along an axis, rising: sides of strips, the datum and the liner's end."""
    frame = job.liner.outline.bounds
    end, reach = (frame.x1, (0, frame.y1)) if axis == "x" else (frame.y1, (0, frame.x1))
    sides = {at for use in uses if use.axis == axis for at in (use.low, use.high)}
    return tuple(
        Ordinate(
            at, reach, length_figure(at, job), length_figure(at, job, beside=True), at in sides
        )
        for at in sorted({0, end, *sides})
    )


def _box(job: Job, use: Use) -> Box:
    frame = job.liner.outline.bounds
    if use.axis == "x":
        return Box(use.low, 0, use.high, frame.y1)
    return Box(0, use.low, frame.x1, use.high)


def _name_everything(
    job: Job, uses: Sequence[Use], sheet: Sheet, dimensions: Sequence[Sequence[Shape]]
) -> Names:
    view = sheet.view
    names = Names(sheet.ground.grown(-1.0), _occupied(job, view, dimensions), _ON_STRIP)
    for use in uses:
        names.name_dam(view.rect(_box(job, use)), use.name)
    for ornament in job.liner.ornaments:
        names.name_ornament(view.rect(ornament.outline.bounds), ornament.name)
    return names


def _occupied(job: Job, view: View, dimensions: Sequence[Sequence[Shape]]) -> Taken:
    """Return what names must keep clear of: figures, the datum, ornaments, the rim."""
    taken = Taken()
    taken.take(bounds_of(datum_shapes(view)))
    for row in dimensions:
        witnesses = [line for line in row if isinstance(line, Line) and line.style == "witness"]
        taken.take(bounds_of(shape for shape in row if shape not in witnesses))
        for line in witnesses:
            taken.draw(line.points, _ON_WITNESS)
    for ornament in job.liner.ornaments:
        for ring in view.rings(ornament.outline):
            taken.draw((*ring, ring[0]), _ON_ORNAMENT)
    for ring in view.rings(job.liner.outline):
        taken.draw((*ring, ring[0]), _ON_RIM)
    return taken


def _key_rows(job: Job, uses: Sequence[Use]) -> tuple[Row, ...]:
    width = rows_width(_LEGEND)
    rows = [*_LEGEND, Row((f"Plain strips, from to, {job.units}",), is_heading=True)]
    for use in uses:
        gives = f", gives {', '.join(use.gives)}" if use.gives else ""
        low, high = length_figure(use.low, job), length_figure(use.high, job)
        words = f"{use.name}: {use.axis} {low} to {high}{gives}"
        rows += [Row((line,)) for line in wrap(words, width, _HEIGHT)]
    if job.liner.ornaments:
        heading = f"Ornaments, lower left corner x, y, {job.units}"
        rows.append(Row((heading,), is_heading=True))
    for ornament in job.liner.ornaments:
        box = ornament.outline.bounds
        place = f": {length_figure(box.x0, job)}, {length_figure(box.y0, job)}"
        name = shorten(ornament.name, width - 40, _HEIGHT)
        rows.append(Row((name + place,)))
    return tuple(rows)


def _title(offer: Offer, sheet: Sheet) -> list[list[str]]:
    job, zoning = offer.zoning.job, offer.zoning
    figures = {"mm": "Figures in mm", "in": "Figures in inches"}[job.units]
    figures += " (mm)" if sheet.wide and job.units == "in" else ""
    return [
        [job.title, "Where it stays plain"],
        [
            f"Liner {job.liner.name}, {size_figure(*zoning.size, job)} {job.units}",
            f"{_count(zoning.strips_used, 'strip')}, {_count(offer.schedule.casts, 'cast')}",
        ],
        [sheet.scale_words, figures],
    ]


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
