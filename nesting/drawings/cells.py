"""Small drawings of the bare liner and its layouts, each under its caption, as overviews have them.

A panel too small for its mark bears a number, which a key beside the cells explains.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, count, islice
from math import ceil

from nesting.drawings.figures import size_figure
from nesting.drawings.key import HEIGHT
from nesting.drawings.labels import Taken
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.names import HEIGHTS, MEDIUM, SMALL, TINY, PlacedNames
from nesting.drawings.record import Layer, Rect, Shape, Text
from nesting.drawings.sheet import round_scale
from nesting.drawings.terrain import layout_layers
from nesting.drawings.view import View
from nesting.files.columns import count_of
from nesting.shapes.geometry import polygon_of
from nesting.units import STEPS_PER_MM, share_text
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job

GAP = 8.0
CAPTION = 15.0
"""Between two cells, and the height of a caption [mm]."""
_LINE_COST = 2.5
_NARROW = 80.0  # a cell not so wide has smaller letters


@dataclass(frozen=True, slots=True)
class Grid:
    """Equal cells on the ground, filled row by row from above, each with room for its caption."""

    ground: Rect
    columns: int
    rows: int

    @property
    def cell(self) -> tuple[float, float]:
        """Width and height of what a cell has for its liner."""
        wide = (self.ground.width + GAP) / self.columns - GAP
        return wide, (self.ground.height + GAP) / self.rows - GAP - CAPTION

    def room(self, index: int) -> Rect:
        """Return the ground of one cell with its caption, without the gap to the next."""
        row, column = divmod(index, self.columns)
        wide, high = self.cell
        x0 = self.ground.x0 + column * (wide + GAP)
        y1 = self.ground.y1 - row * (high + CAPTION + GAP)
        return Rect(x0, y1 - high - CAPTION, x0 + wide, y1)

    @property
    def has_room(self) -> bool:
        """Whether its cells have any."""
        return min(self.cell) > 0

    def scale(self, job: Job) -> Fraction:
        """Return the largest scale at which the liner goes into a cell that has room."""
        box = job.liner.outline.bounds
        sides = zip((box.width, box.height), self.cell, strict=True)
        fits = (Fraction(length, STEPS_PER_MM) / Fraction(room) for length, room in sides)
        return round_scale(max(fits), job.units)


def grid_on(ground: Rect, columns: int, cells: int) -> Grid:
    """Return the grid of so many cells in so many columns."""
    return Grid(ground, columns, ceil(cells / columns))


def draw_cells(
    job: Job, schedule: Schedule, grid: Grid, scale: Fraction, numbers: Mapping[str, int]
) -> tuple[tuple[Layer, ...], set[str]]:
    """Return a layer for the bare liner and each layout, and the marks that want a number."""
    cells: Sequence[Layout | None] = (None, *schedule.layouts)
    layers, wanting = [], set[str]()
    for index, layout in enumerate(cells):
        shapes, lost = _draw_cell(job, layout, scale, grid.room(index), numbers)
        layers.append(Layer(f"cell-{index:02d}", shapes))
        wanting |= lost
    return tuple(layers), wanting


def number_marks(job: Job, marks: Iterable[str]) -> dict[str, int]:
    """Return a number for each of the marks, in the order of the job; none is itself a mark.

    Empty for no marks.
    """
    wanted, used = set(marks), {panel.mark for panel in job.panels}
    known = dict.fromkeys(panel.mark for panel in job.panels)
    ordered = [*(mark for mark in known if mark in wanted), *sorted(wanted - set(known))]
    free = (number for number in count(1) if str(number) not in used)
    return dict(zip(ordered, islice(free, len(ordered)), strict=True))


def list_numbers(numbers: Mapping[str, int], width: float) -> list[str]:
    """Return what each number stands for, as a key of that width [mm] lists it.

    >>> list_numbers({"north side-light": 1}, 70)
    ['1: north side-light']
    """
    heads = ((f"{number}: ", mark) for mark, number in numbers.items())
    return [head + shorten(mark, width - words_width(head, HEIGHT), HEIGHT) for head, mark in heads]


def _draw_cell(
    job: Job, layout: Layout | None, scale: Fraction, room: Rect, numbers: Mapping[str, int]
) -> tuple[tuple[Shape, ...], set[str]]:
    """Return one small drawing with its caption above it, and the marks that want a number.

    The smallest panels are named first, for they have the least choice.
    """
    box = job.liner.outline.bounds
    size = View(scale, 0, 0)
    room = room._replace(y0=room.y1 - CAPTION - size.length(box.height))
    view = View(scale, room.x0 - size.length(box.x0), room.y0 - size.length(box.y0))
    heights = HEIGHTS if room.width >= _NARROW else (MEDIUM, SMALL, TINY)
    caption = _caption(job, layout, room, heights)
    names = PlacedNames(room, _relief(job, view))
    for text in caption:
        names.taken.take(text.rect)
    wanting = set[str]()
    for panel in sorted(layout.panels, key=lambda each: each.box.area) if layout else ():
        star = "*" * panel.turned
        number = f"{numbers[panel.mark]}{star}" if panel.mark in numbers else ""
        if not names.mark_panel(view.rect(panel.box), panel.mark + star, number, heights):
            wanting.add(panel.mark)
    ground = chain(
        *(layer.shapes for layer in layout_layers(job.liner, layout, view, details=False))
    )
    return (*ground, *names.shapes, *caption), wanting


def _relief(job: Job, view: View) -> Taken:
    """Return the ornaments as lines that marks had better not cross."""
    taken = Taken()
    for ornament in job.liner.ornaments:
        for ring in view.rings(polygon_of(ornament.outline.bounds)):
            taken.draw((*ring, ring[0]), _LINE_COST)
    return taken


def _caption(job: Job, layout: Layout | None, room: Rect, heights: Sequence[float]) -> list[Text]:
    box = job.liner.outline.bounds
    if layout is None:
        head = f"Liner {job.liner.name}"
        line = f"{size_figure(box.width, box.height, job)} {job.units}"
    else:
        same = layout.same_dams_as
        head = f"Layout {layout.number}" + (f", dams of {same}" if same is not None else "")
        idle = f"idle {share_text(layout.areas.idle, layout.areas.liner)}"
        line = f"{count_of(layout.repeats, 'cast')}, {idle}, {layout.bed}"
    _, large, small = heights
    if words_width(head, large, bold=True) > room.width:
        large = small
    head = shorten(head, room.width, large, bold=True)
    return [
        Text(room.x0, room.y1 - MEDIUM - 1.5, head, large, "bold"),
        Text(room.x0, room.y1 - CAPTION + 2.5, shorten(line, room.width, small), small),
    ]
