"""From full-size ground to sheets of paper: a grid of tiles, which are needed, and how they join.

Neighbours overlap. Down the middle of each overlap runs a *join*: the next sheet is cut along it
and laid on the one before, register cross on register cross. Between its joins a tile has a *core*;
the cores part the ground without gap or overlap. All measures are mm, y up; rows run from above.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

from nesting.drawings.crop import crop_segment
from nesting.drawings.record import Rect, Spot
from nesting.values.names import sheet_name, sheet_number

Cell = tuple[int, int]
"""A row and a column, both from 0."""

_CROSS_PITCH = 300.0
_CROSS_INSET = 12.0
_SLIP = 1e-6


def tile_number(cell: Cell) -> str:
    """Return row and column of a tile, both from 1.

    >>> tile_number((1, 11))
    '2-12'
    """
    return sheet_number(cell[0] + 1, cell[1] + 1)


def tile_name(cell: Cell) -> str:
    """Return the name of a tile.

    >>> tile_name((0, 0))
    'sheet 1-1'
    """
    return sheet_name(cell[0] + 1, cell[1] + 1)


@dataclass(frozen=True, slots=True)
class Grid:
    """Tiles in rows and columns; the upper left corner of the first one's window is (x0, y1).

    Every window is ``width`` x ``height`` and shares ``overlap`` with each neighbour.
    """

    x0: float
    y1: float
    width: float
    height: float
    overlap: float
    rows: int
    columns: int

    @property
    def cells(self) -> Iterator[Cell]:
        """Every cell, row by row."""
        return ((row, column) for row in range(self.rows) for column in range(self.columns))

    def window(self, cell: Cell) -> Rect:
        """Return the ground a tile shows."""
        x0 = self.x0 + cell[1] * (self.width - self.overlap)
        y1 = self.y1 - cell[0] * (self.height - self.overlap)
        return Rect(x0, y1 - self.height, x0 + self.width, y1)

    def core(self, cell: Cell) -> Rect:
        """Return the ground between a tile's joins; at the ends of the grid up to its window."""
        window, half = self.window(cell), self.overlap / 2
        return Rect(
            window.x0 + half * (cell[1] > 0),
            window.y0 + half * (cell[0] < self.rows - 1),
            window.x1 - half * (cell[1] < self.columns - 1),
            window.y1 - half * (cell[0] > 0),
        )

    def cells_near(self, start: Spot, end: Spot) -> Iterator[Cell]:
        """Yield the cells whose cores may meet a segment."""
        (left, right), (low, high) = sorted((start[0], end[0])), sorted((start[1], end[1]))
        across, up = self.width - self.overlap, self.height - self.overlap
        columns = floor((left - self.x0) / across) - 1, floor((right - self.x0) / across)
        rows = floor((self.y1 - high) / up) - 1, floor((self.y1 - low) / up)
        for row in range(max(rows[0], 0), min(rows[1], self.rows - 1) + 1):
            for column in range(max(columns[0], 0), min(columns[1], self.columns - 1) + 1):
                yield row, column


def lay_grid(region: Rect, width: float, height: float, overlap: float) -> Grid:
    """Return the fewest windows of that size that show the region, from its upper left corner on.

    The corner is moved out to whole millimetres.
    """
    x0, y1 = floor(region.x0 + _SLIP), ceil(region.y1 - _SLIP)
    rows = count_windows(y1 - region.y0, height, overlap)
    columns = count_windows(region.x1 - x0, width, overlap)
    return Grid(x0, y1, width, height, overlap, rows, columns)


def count_windows(extent: float, window: float, overlap: float) -> int:
    """Return how many overlapping windows in a row it takes to show an extent.

    >>> count_windows(190, 190, 16), count_windows(191, 190, 16), count_windows(365, 190, 16)
    (1, 2, 3)
    """
    return max(1, ceil((extent - overlap - _SLIP) / (window - overlap)))


def choose_cells(
    grid: Grid, lines: Iterable[Sequence[Spot]]
) -> tuple[tuple[Cell, ...], tuple[Cell, ...]]:
    """Return the cells that are needed, row by row, and those of them that hold no line.

    A cell is needed where a line runs through its core; and where cells with lines would form
    islands, cells between them are needed to join the sheets.
    """
    inked: set[Cell] = set()
    for points in lines:
        for start, end in pairwise(points):
            inked |= {
                cell
                for cell in grid.cells_near(start, end)
                if _runs_through(grid, cell, start, end)
            }
    bridges = _bridges(grid, inked)
    return tuple(sorted(inked | bridges)), tuple(sorted(bridges))


def _runs_through(grid: Grid, cell: Cell, start: Spot, end: Spot) -> bool:
    """Whether a segment meets the core, whose right and lower sides belong to the next cells."""
    core = grid.core(cell)
    own = core._replace(
        x1=core.x1 - _SLIP * (cell[1] < grid.columns - 1),
        y0=core.y0 + _SLIP * (cell[0] < grid.rows - 1),
    )
    return crop_segment(own, start, end) is not None


def _bridges(grid: Grid, inked: set[Cell]) -> set[Cell]:
    """Return cells that join all islands of cells, by a shortest way from island to island."""
    added: set[Cell] = set()
    if not inked:
        return added
    island = _island(min(inked), inked)
    while inked - island:
        way = _shortest_way(grid, island, inked - island)
        added |= way - inked
        island = _island(min(island), inked | added)
    return added


def _island(first: Cell, cells: set[Cell]) -> set[Cell]:
    found, waiting = {first}, [first]
    while waiting:
        for cell in _beside(waiting.pop()):
            if cell in cells and cell not in found:
                found.add(cell)
                waiting.append(cell)
    return found


def _shortest_way(grid: Grid, sources: set[Cell], targets: set[Cell]) -> set[Cell]:
    came: dict[Cell, Cell | None] = dict.fromkeys(sorted(sources))
    waiting = deque(came)
    while waiting:
        cell = waiting.popleft()
        if cell in targets:
            break
        for other in _beside(cell):
            if other not in came and 0 <= other[0] < grid.rows and 0 <= other[1] < grid.columns:
                came[other] = cell
                waiting.append(other)
    way: set[Cell] = set()
    step: Cell | None = cell
    while step is not None:
        way.add(step)
        step = came[step]
    return way


def _beside(cell: Cell) -> tuple[Cell, Cell, Cell, Cell]:
    row, column = cell
    return (row - 1, column), (row, column - 1), (row, column + 1), (row + 1, column)


def cross_spots(grid: Grid) -> tuple[Spot, ...]:
    """Return the middles of all register crosses: where joins meet, at their ends, and between."""
    ys = {cell[0]: _stops(grid.core(cell), grid, cell, "y") for cell in grid.cells}
    xs = {cell[1]: _stops(grid.core(cell), grid, cell, "x") for cell in grid.cells}
    spots = {
        (grid.core((0, column)).x1, y)
        for column in range(grid.columns - 1)
        for row in range(grid.rows)
        for y in ys[row]
    }
    spots |= {
        (x, grid.core((row, 0)).y0)
        for row in range(grid.rows - 1)
        for column in range(grid.columns)
        for x in xs[column]
    }
    return tuple(sorted(spots))


def _stops(core: Rect, grid: Grid, cell: Cell, axis: str) -> list[float]:
    """Return where crosses lie along a core's side: its ends, inset at the rim, and between."""
    if axis == "x":
        low, high = core.x0, core.x1
        is_first, is_last = cell[1] == 0, cell[1] == grid.columns - 1
    else:
        low, high = core.y0, core.y1
        is_first, is_last = cell[0] == grid.rows - 1, cell[0] == 0
    low, high = low + _CROSS_INSET * is_first, high - _CROSS_INSET * is_last
    parts = max(1, ceil((high - low) / _CROSS_PITCH))
    return [low + (high - low) * part / parts for part in range(parts + 1)]
