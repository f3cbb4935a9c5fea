"""The strip below each tile: its name, what it shows, the check bars, and a map of the tiles."""

from collections.abc import Sequence
from dataclasses import dataclass

from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.record import Area, AreaStyle, Line, Rect, Shape, Text
from nesting.templates.tiles import Cell, Grid, tile_number
from nesting.values.job import Units

FOOT = 34.0
MIRRORED_FOOT = 46.0
"""Height of a strip [mm], without and with the line that says a template is mirrored."""

_NAME, _MIDDLE, _MAP, _PAD = 26.0, 120.0, 60.0, 2.0
_NAME_HEIGHTS = (10.0, 8.0, 6.0, 5.0, 4.0, 3.0)
_BAR_HEIGHT, _LEAST_NAMED = 1.3, 5.0
_PRINT = {
    "mm": "In mm. Print at 100 %, no fit to page; measure both bars.",
    "in": "In inches. Print at 100 %, no fit to page; measure the bar.",
}
_JOIN = "Cut at dashed joins; lay on in order, cross on cross; tape."
_MIRRORED = "Trace it through from its back."


@dataclass(frozen=True, slots=True)
class Said:
    """What every strip of a template says."""

    title: str
    subject: str
    notes: tuple[str, ...]
    units: Units
    mirrored: bool
    stamp: str


def draw_tile_strip(
    place: Rect, said: Said, grid: Grid, cells: Sequence[Cell], cell: Cell
) -> tuple[Shape, ...]:
    """Return the strip of one tile."""
    shapes: list[Shape] = [Line((*place.ring, place.ring[0]), "rule")]
    if said.mirrored:
        band = place._replace(y0=place.y1 - (MIRRORED_FOOT - FOOT))
        place = place._replace(y1=band.y0)
        shapes += [Line(((band.x0, band.y0), (band.x1, band.y0)), "rule"), *_mirrored(band)]
    name = place._replace(x1=place.x0 + _NAME)
    map_width = min(_MAP, place.width - _NAME - _MIDDLE)
    chart = place._replace(x0=place.x1 - map_width)
    middle = Rect(name.x1, place.y0, chart.x0, place.y1)
    shapes += [Line(((x, place.y0), (x, place.y1)), "rule") for x in (name.x1, chart.x0)]
    shapes += _name(name, cells, cell)
    shapes += _middle(middle, said)
    return (*shapes, *_map(chart.grown(-_PAD), grid, cells, cell))


def _mirrored(band: Rect) -> list[Shape]:
    y = band.y0 + _PAD
    large = Text(band.x0 + _PAD, y, "MIRRORED", 8.0, "bold")
    x = large.rect.x1 + 2 * _PAD
    return [large, Text(x, y, shorten(_MIRRORED, band.x1 - x - _PAD, 3.5), 3.5)]


def _name(place: Rect, cells: Sequence[Cell], cell: Cell) -> list[Shape]:
    words, x = tile_number(cell), place.centre[0]
    room = place.width - 2 * _PAD
    height = _fitting(words, room, _NAME_HEIGHTS, bold=True)
    order = f"{cells.index(cell) + 1} of {len(cells)}"
    return [
        Text(x, place.y1 - 6.0, "sheet", 3.5, "plain", "middle"),
        Text(x, place.y0 + 14.0, words, height, "bold", "middle"),
        Text(
            x,
            place.y0 + 7.0,
            order,
            _fitting(order, room, (3.5, 2.5), bold=False),
            "plain",
            "middle",
        ),
    ]


def _fitting(words: str, room: float, heights: Sequence[float], *, bold: bool) -> float:
    """Return the first height at which the words fit, or the last."""
    widths = ((each, words_width(words, each, bold=bold)) for each in heights)
    return next((each for each, width in widths if width <= room), heights[-1])


def _middle(place: Rect, said: Said) -> list[Shape]:
    x, room = place.x0 + _PAD, place.width - 2 * _PAD
    many = len(said.notes) > 1
    head = f"{said.subject}, {said.title}" if many else said.subject
    told = said.notes[:2] if many else (said.title, *said.notes)
    head = shorten(head, room, 3.2, bold=True)
    shapes: list[Shape] = [Text(x, place.y1 - 4.6, head, 3.2, "bold")]
    for number, words in enumerate((*told, _PRINT[said.units], _JOIN, f"Drawn {said.stamp}.")):
        shapes.append(Text(x, place.y1 - 8.6 - 3.3 * number, shorten(words, room, 2.2), 2.2))
    if said.units == "mm":
        shapes += _bar(x, place.y0 + 7.4, 100.0, 10, "100 mm")
    return shapes + _bar(x, place.y0 + 2.2, 4 * 25.4, 8, "4 in")


def _bar(x: float, y: float, length: float, parts: int, words: str) -> list[Shape]:
    """Return a bar of two rows of black parts, set so that ink ends at both of its ends."""
    part = length / parts
    shapes: list[Shape] = []
    for number in range(parts):
        low = y + _BAR_HEIGHT * (number % 2)
        ring = Rect(x + number * part, low, x + (number + 1) * part, low + _BAR_HEIGHT).ring
        shapes.append(Area((ring,), "tile"))
    return [*shapes, Text(x + length + 1.5, y, words, 2.2)]


def _map(place: Rect, grid: Grid, cells: Sequence[Cell], cell: Cell) -> list[Shape]:
    """Return the tiles as boxes: this one black, those left out dashed and grey."""
    across, up = grid.width - grid.overlap, grid.height - grid.overlap
    scale = min(place.width / (across * grid.columns), place.height / (up * grid.rows))
    width, height = across * scale, up * scale
    x0 = place.centre[0] - width * grid.columns / 2
    y1 = place.centre[1] + height * grid.rows / 2
    kept, shapes = set(cells), list[Shape]()
    for row, column in sorted(grid.cells, key=lambda each: (each in kept, each == cell)):
        box = Rect(
            x0 + column * width,
            y1 - (row + 1) * height,
            x0 + (column + 1) * width,
            y1 - row * height,
        )
        here = (row, column)
        style: AreaStyle = "tile" if here == cell else "kept" if here in kept else "left_out"
        shapes.append(Area((box.ring,), style))
        words = tile_number(here)
        has_room = height >= _LEAST_NAMED and width >= words_width(words, 2.0)
        if here in kept and here != cell and has_room:
            x, y = box.centre
            shapes.append(Text(x, y - 1.0, words, 2.0, "plain", "middle"))
    return shapes
