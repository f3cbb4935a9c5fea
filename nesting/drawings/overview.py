"""The overview: the bare liner and every layout small, side by side on one sheet."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import chain
from math import ceil, floor

from nesting.drawings.compose import Head, lay_out
from nesting.drawings.figures import size_figure
from nesting.drawings.key import KeyRow, Swatch, divide_foot, draw_key
from nesting.drawings.labels import Taken
from nesting.drawings.legend import KEEP_CLEAR, legend_rows
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.names import MEDIUM, SMALL, PlacedNames
from nesting.drawings.record import Drawing, Layer, Rect, Shape, Text
from nesting.drawings.sheet import MARGIN, PAD, PAPERS, Page, SheetPlan
from nesting.drawings.terrain import layout_layers
from nesting.drawings.view import FACE_DOWN, View
from nesting.files.columns import count_of, sets_of_dams
from nesting.schedules.report import count_all
from nesting.shapes.geometry import Box, polygon_of
from nesting.units import share_text
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job, Units

_GAP = 8.0
_CAPTION_HEIGHT = 15.0
_LEAST_CELL_WIDTH = 80.0
_LEAST_LINER = 55.0
_LINE_COST = 2.5
_SCALES: dict[Units, tuple[Fraction, ...]] = {
    "mm": tuple(
        Fraction(first) * 10**power
        for power in range(4)
        for first in ("1", "1.25", "2", "2.5", "4", "5", "8")
    ),
    "in": tuple(Fraction(first) * 2**power for power in range(12) for first in ("1", "1.5")),
}
_MEANINGS: dict[Swatch, str] = {
    "panel": "Panel and its mark",
    "dam": "Dam",
    "masked": "Masked, not sprayed",
    "ornament": "Ornament",
    "zone": "Blank zone",
    "keep_clear": KEEP_CLEAR,
    "rim": "Rim of the liner",
}


@dataclass(frozen=True, slots=True)
class _Grid:
    """Equal cells on a sheet's ground, filled row by row from above."""

    sheet: SheetPlan
    columns: int
    cell_width: float
    cell_height: float

    def room(self, index: int) -> Rect:
        """Return the ground of one cell, without the gap to the next."""
        row, column = divmod(index, self.columns)
        x0 = self.sheet.ground.x0 + PAD + column * self.cell_width
        y1 = self.sheet.ground.y1 - PAD - row * self.cell_height
        return Rect(x0, y1 - self.cell_height + _GAP, x0 + self.cell_width - _GAP, y1)


def draw_overview(job: Job, schedule: Schedule) -> Drawing:
    """Return the bare liner and every layout, on the smallest paper that shows them well."""
    rows = legend_rows(job, schedule.layouts, _MEANINGS)
    cells: tuple[Layout | None, ...] = (None, *schedule.layouts)
    grid = _choose_grid(job, len(cells), rows)
    sheet = grid.sheet
    head = Head(
        "overview",
        f"{job.title}: overview",
        f"The liner {job.liner.name}; {count_all(schedule)}.",
        job.units,
        _title(job, schedule),
    )
    layers = (
        Layer(f"cell-{index:02d}", _draw_cell(job, cell, sheet.view, grid.room(index)))
        for index, cell in enumerate(cells)
    )
    return lay_out(head, sheet, layers, draw_key(sheet.key, sheet.key_columns, rows))


def _choose_grid(job: Job, cells: int, rows: tuple[KeyRow, ...]) -> _Grid:
    """Return the grid on the smallest paper, the liner as large as goes and not below a least size.

    The sheet is as high as its cells need. Where no standard paper does, it is as wide as the
    largest.
    """
    liner = job.liner.outline.bounds
    longest = max(liner.width, liner.height)
    large = [
        each for each in _SCALES[job.units] if View(each, 0, 0).length(longest) >= _LEAST_LINER
    ]
    scales = large or _SCALES[job.units][:1]
    for paper, width, height in PAPERS[job.units]:
        for scale in scales:
            grid = _grid(liner, rows, cells, paper, width, scale)
            if grid and grid.sheet.height <= height:
                return grid
    width = PAPERS[job.units][-1][1]
    grids = (
        _grid(liner, rows, cells, "a sheet cut to measure", width, each) for each in scales[::-1]
    )
    return next(grid for grid in grids if grid)


def _grid(
    liner: Box, rows: tuple[KeyRow, ...], cells: int, paper: str, width: float, scale: Fraction
) -> _Grid | None:
    """Return the grid of as many columns as fit the width, or None where not one does."""
    view = View(scale, 0, 0)
    cell_width = max(view.length(liner.width), _LEAST_CELL_WIDTH) + _GAP
    cell_height = view.length(liner.height) + _CAPTION_HEIGHT + _GAP
    columns = floor((width - 2 * MARGIN - 2 * PAD + _GAP) / cell_width)
    if not columns:
        return None
    ground_height = ceil(cells / columns) * cell_height - _GAP + 2 * PAD
    key_columns, key = divide_foot(Page(paper, width, 0.0).above, rows)
    ground = key._replace(y0=key.y1, y1=key.y1 + ground_height)
    sheet = SheetPlan(paper, width, ground.y1 + MARGIN, view, ground, key, key_columns)
    return _Grid(sheet, columns, cell_width, cell_height)


def _draw_cell(job: Job, layout: Layout | None, view: View, room: Rect) -> tuple[Shape, ...]:
    """Return one small drawing with its caption above it."""
    box = job.liner.outline.bounds
    view = View(view.scale, room.x0 - view.length(box.x0), room.y0 - view.length(box.y0))
    names = PlacedNames(room, _relief(job, view))
    for panel in layout.panels if layout else ():
        names.mark_panel(view.rect(panel.box), panel.mark + "*" * panel.turned)
    ground = chain(
        *(layer.shapes for layer in layout_layers(job.liner, layout, view, details=False))
    )
    return (*ground, *names.shapes, *_caption(job, layout, room))


def _relief(job: Job, view: View) -> Taken:
    """Return the ornaments as lines that marks had better not cross."""
    taken = Taken()
    for ornament in job.liner.ornaments:
        for ring in view.rings(polygon_of(ornament.outline.bounds)):
            taken.draw((*ring, ring[0]), _LINE_COST)
    return taken


def _caption(job: Job, layout: Layout | None, room: Rect) -> list[Text]:
    box = job.liner.outline.bounds
    if layout is None:
        head = f"Liner {job.liner.name}"
        line = f"{size_figure(box.width, box.height, job)} {job.units}"
    else:
        same = layout.same_dams_as
        head = f"Layout {layout.number}" + (f", dams of {same}" if same is not None else "")
        idle = f"idle {share_text(layout.areas.idle, layout.areas.liner)}"
        line = f"{_times(layout.repeats)}, {idle}, {layout.bed}"
    fits = words_width(head, MEDIUM, bold=True) <= room.width
    height = MEDIUM if fits else SMALL
    head = shorten(head, room.width, height, bold=True)
    return [
        Text(room.x0, room.y1 - MEDIUM - 1.5, head, height, "bold"),
        Text(room.x0, room.y1 - _CAPTION_HEIGHT + 2.5, shorten(line, room.width, SMALL), SMALL),
    ]


def _times(repeats: int) -> str:
    return count_of(repeats, "cast")


def _title(job: Job, schedule: Schedule) -> tuple[tuple[str, ...], ...]:
    layouts = count_of(len(schedule.layouts), "layout")
    proof = "proved fewest" if schedule.proved else f"at least {schedule.lower_bound} needed"
    liner = sum(layout.repeats * layout.areas.liner for layout in schedule.layouts)
    idle = sum(layout.repeats * layout.areas.idle for layout in schedule.layouts)
    return (
        (job.title, "Overview", _times(schedule.casts)),
        (
            f"Liner {job.liner.name}",
            FACE_DOWN,
            f"{sets_of_dams(schedule.different_layouts)}, {layouts}",
            f"{_times(schedule.casts)}, {proof}",
            f"Idle {share_text(idle, liner)}" if liner else "No casts",
        ),
    )
