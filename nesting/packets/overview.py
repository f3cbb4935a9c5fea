"""The packet's first page: the bare liner and every layout, small, true to the width of the page.

Each row of cells is a drawing of its own, so that a long packet runs over pages between rows.
"""

from dataclasses import replace
from fractions import Fraction
from math import ceil

from nesting.drawings.cells import CAPTION, GAP, Grid, draw_cells, grid_on, number_marks
from nesting.drawings.record import Drawing, Layer, Rect, moved
from nesting.drawings.view import View
from nesting.files.columns import TextTable
from nesting.packets.figure import PAGE_WIDTH
from nesting.packets.parts import Block, Figure, Section, Words, grid_of
from nesting.schedules.report import write_result
from nesting.values.casts import Schedule
from nesting.values.job import Job

OVERVIEW = "overview"
"""The ref of the page."""
_ROOM, _HIGHEST = 225.0, 64.0
"""What a page holds of cells [mm], and the most a row may take so that it is not made smaller."""


def list_overview(job: Job, schedule: Schedule) -> Section:
    """Return the page: the result, the cells, and what the numbers on small panels stand for."""
    cells = 1 + len(schedule.layouts)
    grid, scale = _choose_grid(job, cells)
    _, wanting = draw_cells(job, schedule, grid, scale, {})
    numbers = number_marks(job, wanting)
    layers, _ = draw_cells(job, schedule, grid, scale, numbers)
    blocks: list[Block] = [Words(write_result(schedule), "strong")]
    for first in range(0, cells, grid.columns):
        blocks.append(Figure(_draw_row(job, grid, layers, first)))
    if numbers:
        rows = [[str(number), mark] for mark, number in numbers.items()]
        table = TextTable("Panels by number", ["number", "panel"], rows, ("panel",))
        blocks.append(grid_of(table))
    return Section(OVERVIEW, "Overview", tuple(blocks))


def _choose_grid(job: Job, cells: int) -> tuple[Grid, Fraction]:
    """Return two columns where one page holds them, else three; a row is only as high as it must.

    Of a liner that is very high the rows are as high as a drawing is printed at most.
    """
    box = job.liner.outline.bounds
    for columns in (2, 3):
        rows = ceil(cells / columns)
        grid = grid_on(Rect(0, 0, PAGE_WIDTH, rows * (_HIGHEST + GAP) - GAP), columns, cells)
        scale = grid.scale(job)
        high = View(scale, 0, 0).length(box.height) + CAPTION
        if rows * (high + GAP) <= _ROOM:
            break
    return replace(grid, ground=Rect(0, 0, PAGE_WIDTH, rows * (high + GAP) - GAP)), scale


def _draw_row(job: Job, grid: Grid, layers: tuple[Layer, ...], first: int) -> Drawing:
    """Return the cells of one row as a drawing as wide as the page."""
    low = grid.room(first).y0
    row = (
        Layer(layer.name, tuple(moved(shape, (0.0, -low)) for shape in layer.shapes))
        for layer in layers[first : first + grid.columns]
    )
    return Drawing(
        f"overview-{first // grid.columns + 1:02d}",
        PAGE_WIDTH,
        grid.cell[1] + CAPTION,
        f"{job.title}: overview",
        "The liner and its layouts, small.",
        tuple(row),
    )
