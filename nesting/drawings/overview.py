"""The overview: the bare liner and every layout small, side by side on one sheet."""

from collections.abc import Iterator
from itertools import count

from nesting.drawings.cells import Grid, draw_cells, grid_on, list_numbers, number_marks
from nesting.drawings.compose import Head, lay_out
from nesting.drawings.key import KeyRow, Swatch, divide_foot, draw_key, rows_width, table
from nesting.drawings.legend import KEEP_CLEAR, legend_rows
from nesting.drawings.record import Drawing, Layer
from nesting.drawings.sheet import PAD, PAPERS, Page, SheetPlan
from nesting.drawings.view import FACE_DOWN, View
from nesting.files.columns import count_of, sets_of_dams
from nesting.schedules.report import count_all
from nesting.units import share_text
from nesting.values.casts import Schedule
from nesting.values.job import Job

_LEAST_CELL_WIDTH = 80.0
_LEAST_LINER = 55.0
_MEANINGS: dict[Swatch, str] = {
    "panel": "Panel and its mark",
    "dam": "Dam",
    "masked": "Masked, not sprayed",
    "ornament": "Ornament",
    "zone": "Blank zone",
    "keep_clear": KEEP_CLEAR,
    "rim": "Rim of the liner",
}


def draw_overview(job: Job, schedule: Schedule) -> Drawing:
    """Return the bare liner and every layout, on the smallest paper that shows them well.

    The key lists the panels that bear a number for want of room; as it grows by them, the grid is
    chosen anew until no further panel wants one.
    """
    legend = legend_rows(job, schedule.layouts, _MEANINGS)
    width, numbers = rows_width(legend), dict[str, int]()
    while True:
        listed = table("Panels by number", list_numbers(numbers, width), width)
        rows = (*legend, *listed)
        sheet, grid = _choose_grid(job, 1 + len(schedule.layouts), rows)
        layers, wanting = draw_cells(job, schedule, grid, sheet.view.scale, numbers)
        if not wanting:
            return _finish(job, schedule, sheet, layers, rows)
        numbers = number_marks(job, wanting | set(numbers))


def _finish(
    job: Job,
    schedule: Schedule,
    sheet: SheetPlan,
    layers: tuple[Layer, ...],
    rows: tuple[KeyRow, ...],
) -> Drawing:
    head = Head(
        "overview",
        f"{job.title}: overview",
        f"The liner {job.liner.name}; {count_all(schedule)}.",
        job.units,
        _title(job, schedule),
    )
    return lay_out(head, sheet, layers, draw_key(sheet.key, sheet.key_columns, rows))


def _choose_grid(job: Job, cells: int, rows: tuple[KeyRow, ...]) -> tuple[SheetPlan, Grid]:
    """Return the grid on the smallest paper, the liner as large as goes and not below a least size.

    Where no standard paper does, the sheet is as wide as the largest, and as long as it must be.
    """
    box = job.liner.outline.bounds
    longest = max(box.width, box.height)
    for pages in _list_pages(job):
        found = [each for page in pages for each in _list_grids(job, cells, rows, page)]
        best = min(found, key=lambda each: each[0].view.scale, default=None)
        if best and (best[0].view.scale == 1 or best[0].view.length(longest) >= _LEAST_LINER):
            return best
    raise AssertionError("papers grow without end")


def _list_pages(job: Job) -> Iterator[tuple[Page, ...]]:
    """Yield the papers, the smallest first, each lying and upright; then ever longer sheets."""
    for paper, long, short in PAPERS[job.units]:
        yield Page(paper, long, short), Page(paper, short, long)
    for times in count(2):
        yield (Page("a sheet cut to measure", long, times * short),)


def _list_grids(
    job: Job, cells: int, rows: tuple[KeyRow, ...], page: Page
) -> Iterator[tuple[SheetPlan, Grid]]:
    """Yield the sheet in each number of columns that it holds, at the largest scale."""
    key_columns, key = divide_foot(page.above, rows)
    ground = page.above._replace(y0=key.y1)
    for columns in range(1, cells + 1):
        grid = grid_on(ground.grown(-PAD), columns, cells)
        if grid.has_room and (columns == 1 or grid.cell[0] >= _LEAST_CELL_WIDTH):
            size, view = (page.paper, page.width, page.height), View(grid.scale(job), 0, 0)
            yield SheetPlan(*size, view, ground, key, key_columns), grid


def _title(job: Job, schedule: Schedule) -> tuple[tuple[str, ...], ...]:
    layouts = count_of(len(schedule.layouts), "layout")
    casts = count_of(schedule.casts, "cast")
    proof = "proved fewest" if schedule.proved else f"at least {schedule.lower_bound} needed"
    liner = sum(layout.repeats * layout.areas.liner for layout in schedule.layouts)
    idle = sum(layout.repeats * layout.areas.idle for layout in schedule.layouts)
    return (
        (job.title, "Overview", casts),
        (
            f"Liner {job.liner.name}",
            f"{sets_of_dams(schedule.different_layouts)}, {layouts}",
            f"Idle {share_text(idle, liner)}" if liner else "No casts",
        ),
        (FACE_DOWN, f"{casts}, {proof}"),
    )
