"""The sheet a picture is drawn on: paper, scale, and which ground of it serves for what.

All measures are sheet mm unless they say steps. Of all ways to divide a paper, upright or lying,
the key beside or below, the one with the largest scale wins that leaves room for every label; the
paper grows only when the labels fit no smaller one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import count, product
from math import ceil, floor

from nesting.drawings.papers import lying
from nesting.drawings.record import Area, Line, Rect, Shape
from nesting.drawings.view import View
from nesting.shapes.geometry import Box
from nesting.units import STEPS_PER_MM
from nesting.values.job import Units

MARGIN = 10.0
PAD = 5.0
LEADER = 14.0
STRIP_HEIGHT = 24.0
ROW_PITCH = 4.6
_FINE = 20  # above it the second digit of a scale is whole

PaperSize = tuple[str, float, float]
"""Name, long side and short side [mm]."""
PAPERS: dict[Units, tuple[PaperSize, ...]] = {
    "mm": lying("a3", "a2", "a1", "a0"),
    "in": lying("tabloid", "ansi-c", "ansi-d", "ansi-e", measure="in"),
}


@dataclass(frozen=True, slots=True)
class Page:
    """A paper within its margins, the title strip along its foot."""

    paper: str
    width: float
    height: float

    @property
    def inside(self) -> Rect:
        """The page within its margins."""
        return Rect(MARGIN, MARGIN, self.width - MARGIN, self.height - MARGIN)

    @property
    def strip(self) -> Rect:
        """The ground of the title strip."""
        inside = self.inside
        return inside._replace(y1=inside.y0 + STRIP_HEIGHT)

    @property
    def above(self) -> Rect:
        """What the margins and the strip leave."""
        return self.inside._replace(y0=self.strip.y1)

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """The paper and the frame around everything."""
        paper = Rect(0, 0, self.width, self.height)
        return Area((paper.ring,), "paper"), Line((*self.inside.ring, self.inside.ring[0]), "frame")


@dataclass(frozen=True, slots=True)
class SheetNeed:
    """What a sheet must hold.

    ``frame`` is what is drawn to scale [steps], a liner with its datum, and ``around`` what must
    stay free on all its sides. ``across`` and ``up`` count the figures along x and y; ``depths``
    and ``wide_depths`` are the longest of them along x and along y, without and with mm beside
    inches; ``pitch`` is the least distance of two figures. The key's columns are ``column_width``
    wide; ``column_lines`` tells how many lines it takes in one column, two, ...
    """

    frame: Box
    column_width: float
    column_lines: tuple[int, ...]
    across: int = 0
    up: int = 0
    depths: tuple[float, float] = (0.0, 0.0)
    wide_depths: tuple[float, float] = (0.0, 0.0)
    pitch: float = 0.0
    around: float = 0.0


@dataclass(frozen=True, slots=True)
class SheetPlan(Page):
    """A page divided: the drawing's ``ground`` in its ``view``, and the ``key`` in columns.

    ``both_ends`` says for x and y whether figures stand on both sides of the liner; ``wide`` that
    there is room for mm beside inches.
    """

    view: View
    ground: Rect
    key: Rect
    key_columns: int
    both_ends: tuple[bool, bool] = (False, False)
    wide: bool = False

    @property
    def scale_words(self) -> str:
        """The scale and the paper it holds on."""
        return f"Scale 1:{float(self.view.scale):g} on {self.paper}"


def sheets_for(
    need: SheetNeed,
    units: Units,
    arounds: Sequence[float] = (0.0,),
    before: Sequence[PaperSize] = (),
) -> Iterator[SheetPlan]:
    """Yield for each paper, the smallest first, its sheet at the largest scale that holds the need.

    Papers ``before`` the usual ones are tried first. With several ``arounds`` each paper comes with
    every one of them that it allows. Where no standard paper does, one sheet cut to measure.
    """
    needs = [replace(need, around=around) for around in arounds]
    found = 0
    for paper, each in product((*before, *PAPERS[units]), needs):
        sheet = _divide_best(each, units, *paper)
        if sheet:
            found += 1
            yield sheet
    if not found:
        yield _cut_to_measure(needs[0], units)


def round_scale(least: Fraction, units: Units) -> Fraction:
    """Return the first round scale that is not below the least, nor below 1.

    Of mm drawings it has two digits, the second by halves below 20, so that a drawing lacks less
    than 5 % of its length. Of inch drawings it is whole, by quarters below 20, so that 2 in on
    paper are halves on the liner.

    >>> [str(round_scale(Fraction(each), "mm")) for each in ("0.4", "8.21", "12.6", "19.6", "124")]
    ['1', '83/10', '13', '20', '125']
    >>> [str(round_scale(Fraction(each), "in")) for each in ("0.4", "8.21", "12.6", "20.1")]
    ['1', '33/4', '51/4', '21']
    """
    if least <= 1:
        return Fraction(1)
    if units == "in":
        division = Fraction(1) if least > _FINE else Fraction(1, 4)
    else:
        unit = Fraction(10) ** (len(str(floor(least))) - 2)
        division = unit if least > _FINE * unit else unit / 2
    return ceil(least / division) * division


def _divide_best(
    need: SheetNeed, units: Units, paper: str, long: float, short: float
) -> SheetPlan | None:
    """Return the sheet with the largest scale; of equal ones the preferred. None where none fits.

    Preferred are: lying, figures on one side, mm beside inches, the key beside.
    """
    turns = ((long, short), (short, long))
    sides = ((False, False), (False, True), (True, False), (True, True))
    ways = (
        _divide(need, units, Page(paper, width, height), both, wide, key_beside)
        for (width, height), both, wide, key_beside in product(
            turns, sides, (True, False), (True, False)
        )
    )
    return min(filter(None, ways), key=lambda sheet: sheet.view.scale, default=None)


def _divide(
    need: SheetNeed,
    units: Units,
    page: Page,
    both_ends: tuple[bool, bool],
    wide: bool,
    key_beside: bool,
) -> SheetPlan | None:
    """Return the sheet so divided, or None where the liner, its figures or the key do not fit."""
    columns, key, ground = _divide_key(need, page.above, key_beside)
    if not columns:
        return None
    view = _place_liner(need, units, ground, both_ends, wide)
    if view is None:
        return None
    size = page.paper, page.width, page.height
    return SheetPlan(*size, view, ground, key, columns, both_ends, wide)


def _divide_key(need: SheetNeed, above: Rect, beside: bool) -> tuple[int, Rect, Rect]:
    """Return the number of key columns (0 where none fit), the key's ground and the rest."""
    pitch = need.column_width + PAD
    fitting = min(floor((above.width - PAD) / pitch), len(need.column_lines))
    if beside:
        room = (above.height - 2 * PAD) / ROW_PITCH
        enough = [n for n, lines in enumerate(need.column_lines, 1) if lines <= room]
        columns = min([n for n in enough if n <= fitting], default=0)
        split = above.x1 - columns * pitch - PAD
        return columns, above._replace(x0=split), above._replace(x1=split)
    if not fitting:
        return 0, above, above
    split = above.y0 + 2 * PAD + ROW_PITCH * need.column_lines[fitting - 1]
    return fitting, above._replace(y1=split), above._replace(y0=split)


def _place_liner(
    need: SheetNeed, units: Units, ground: Rect, both_ends: tuple[bool, bool], wide: bool
) -> View | None:
    """Return the view that puts the liner mid-ground, or None where its figures find no room."""
    below, left = (LEADER + depth for depth in (need.wide_depths if wide else need.depths))
    below, left = max(below, need.around), max(left, need.around)
    x = ground.x0 + PAD + left, ground.x1 - PAD - (left if both_ends[1] else need.around)
    y = ground.y0 + PAD + below, ground.y1 - PAD - (below if both_ends[0] else need.around)
    runs = _run(need.across, both_ends[0], need.pitch), _run(need.up, both_ends[1], need.pitch)
    rooms = x[1] - x[0], y[1] - y[0]
    if any(room <= 0 or room < run for room, run in zip(rooms, runs, strict=True)):
        return None
    lengths = need.frame.width, need.frame.height
    fits = (
        Fraction(length, STEPS_PER_MM) / Fraction(room)
        for length, room in zip(lengths, rooms, strict=True)
    )
    view = View(round_scale(max(fits), units), 0, 0)
    wide_on_paper, high_on_paper = map(view.length, lengths)
    if all(both_ends) and runs[1] > high_on_paper:
        return None
    at_x = _start(x, wide_on_paper, runs[0]) - view.length(need.frame.x0)
    at_y = _start(y, high_on_paper, runs[1]) - view.length(need.frame.y0)
    return replace(view, x=at_x, y=at_y)


def _run(count: int, both_ends: bool, pitch: float) -> float:
    """Return how long a row of so many figures is, half of them where there are two rows."""
    return (ceil(count / 2) if both_ends else count) * pitch


def _start(ends: tuple[float, float], length: float, run: float) -> float:
    """Return where the liner starts between the ends: midway, or lower where the run needs it."""
    return min((ends[0] + ends[1] - length) / 2, ends[1] - run)


def _cut_to_measure(need: SheetNeed, units: Units) -> SheetPlan:
    """Return the first sheet of 3, 4, 5... times A3 each way that holds the need."""
    sheets = (
        _divide_best(need, units, "a sheet cut to measure", 420.0 * times, 297.0 * times)
        for times in count(3)
    )
    return next(filter(None, sheets))
