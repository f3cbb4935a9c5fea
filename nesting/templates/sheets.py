"""Which way the paper lies, how much of it shows the template, and what its tiles are.

The paper lies the way that takes fewer sheets. All measures are mm.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Literal

from nesting.drawings.papers import ROLL_LIMIT, Paper
from nesting.drawings.record import Rect, Spot
from nesting.errors import InputError
from nesting.templates.tiles import Cell, Grid, choose_cells, count_windows, lay_grid

PaperWay = Literal["portrait", "landscape"]
MOST_SHEETS = 200
LEAST_OVERLAP = 8.0
_AROUND = 4.0
LEAST_WIDTH, LEAST_HEIGHT = 165.0, 60.0
"""Least window: the strip below it must hold its name, its bars and its map."""


@dataclass(frozen=True, slots=True)
class PaperChoice:
    """What the user chose: the paper, margins the printer leaves, the overlap, and the way, if any.

    ``foot`` is the height of the strip below each window.
    """

    paper: Paper
    margin: float
    overlap: float
    foot: float
    way: PaperWay | None = None


@dataclass(frozen=True, slots=True)
class Tiling:
    """The sheets of one template: size, grid, the cells needed, those of them without a line."""

    setting: PaperChoice
    width: float
    height: float
    grid: Grid
    cells: tuple[Cell, ...]
    bridges: tuple[Cell, ...]

    @property
    def window_place(self) -> Rect:
        """Where the window lies on every sheet."""
        x0, y1 = self.setting.margin, self.height - self.setting.margin
        return Rect(x0, y1 - self.grid.height, x0 + self.grid.width, y1)

    @property
    def strip_place(self) -> Rect:
        """Where the strip lies on every sheet: below the window, as wide as the printer reaches."""
        margin = self.setting.margin
        return Rect(margin, margin, self.width - margin, margin + self.setting.foot)


def tile_lines(lines: Sequence[Sequence[Spot]], setting: PaperChoice) -> Tiling:
    """Return the tiling of the ground the lines take, with the fewest sheets that hold a line.

    Raises
    ------
    InputError
        Where margins or overlap leave too little of the paper, and where more than 200 sheets
        would be needed.
    """
    spots = [spot for points in lines for spot in points]
    (low_x, high_x), (low_y, high_y) = ((min(each), max(each)) for each in zip(*spots, strict=True))
    region = Rect(low_x, low_y, high_x, high_y).grown(_AROUND)
    ways: tuple[PaperWay, ...] = (setting.way,) if setting.way else ("portrait", "landscape")
    refused: list[InputError] = []
    found: list[Tiling] = []
    for way in ways:
        try:
            found.append(_tile(region, lines, setting, *_size(region, setting, way)))
        except InputError as error:
            refused.append(error)
    if not found:
        raise refused[0]
    best = min(found, key=lambda tiling: (len(tiling.cells), tiling.width * tiling.height))
    if len(best.cells) > MOST_SHEETS:
        raise _too_many(len(best.cells), setting.paper)
    return best


def _size(region: Rect, setting: PaperChoice, way: PaperWay) -> tuple[float, float]:
    """Return width and height of the sheet; one cut from a roll is as long as it must be."""
    paper = setting.paper
    long, around = paper.height, 2 * setting.margin
    if paper.is_roll:
        around += setting.foot if way == "portrait" else 0.0
        least = LEAST_HEIGHT if way == "portrait" else LEAST_WIDTH
        extent = ceil(region.height if way == "portrait" else region.width) + 2
        sheets = count_windows(extent, ROLL_LIMIT - around, setting.overlap)
        long = max(ceil((extent + (sheets - 1) * setting.overlap) / sheets), least) + ceil(around)
    return (paper.width, long) if way == "portrait" else (long, paper.width)


def _tile(
    region: Rect, lines: Sequence[Sequence[Spot]], setting: PaperChoice, width: float, height: float
) -> Tiling:
    room = floor(width - 2 * setting.margin), floor(height - 2 * setting.margin - setting.foot)
    if room[0] < LEAST_WIDTH or room[1] < LEAST_HEIGHT:
        raise InputError(
            "--margin",
            f"margins must leave {LEAST_WIDTH:g} mm of the sheet's width and, with the strip of "
            f"{setting.foot:g} mm, {LEAST_HEIGHT + setting.foot:g} mm of its height",
            f"{setting.margin:g} mm on {setting.paper.words}",
            "give smaller margins or larger paper",
        )
    if not LEAST_OVERLAP <= setting.overlap <= min(room) / 2:
        raise InputError(
            "--overlap",
            f"must be {LEAST_OVERLAP:g} mm or more and at most half of what a sheet shows, "
            f"{min(room) / 2:g} mm",
            f"{setting.overlap:g} mm",
        )
    grid = lay_grid(region, *room, setting.overlap)
    if grid.rows * grid.columns > 100 * MOST_SHEETS:
        raise _too_many(grid.rows * grid.columns, setting.paper)
    return Tiling(setting, width, height, grid, *choose_cells(grid, lines))


def _too_many(count: int, paper: Paper) -> InputError:
    return InputError(
        "--paper",
        f"a template has at most {MOST_SHEETS} sheets",
        f"{count} sheets of {paper.name}",
        "take larger paper or a roll (--paper a0, --paper roll:914mm), or less of the layout "
        "(--dam, --panel)",
    )
