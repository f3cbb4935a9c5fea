"""The sheet a picture is drawn on: paper, scale, and which ground of it serves for what.

All measures are sheet mm unless they say steps. The largest scale wins that leaves room for every
label; the paper grows only when the labels fit no smaller one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import count, islice, product
from math import ceil, floor

from nesting.drawings.papers import lying
from nesting.drawings.record import Area, Line, Rect, Shape
from nesting.drawings.view import View
from nesting.shapes.geometry import Box
from nesting.values.job import Units

MARGIN = 10.0
PAD = 5.0
LEADER = 14.0
STRIP_HEIGHT = 30.0
ROW_PITCH = 6.2

PAPERS: dict[Units, tuple[tuple[str, float, float], ...]] = {
    "mm": lying("a3", "a2", "a1", "a0"),
    "in": lying("tabloid", "ansi-c", "ansi-d", "ansi-e", measure="in"),
}
_SCALES: dict[Units, tuple[Fraction, ...]] = {
    "mm": tuple(map(Fraction, ("1", "2", "5/2", "5", "10", "20", "25")))
    + tuple(Fraction(n * 10**power) for power in range(1, 6) for n in (5, 10, 20)),
    "in": (*map(Fraction, (1, 2, 4, 8, 12, 16)), *(Fraction(24 * 2**n) for n in range(16))),
}
_CUT_SCALE, _LONGEST_CUT = 48, 5000.0


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
    need: SheetNeed, units: Units, arounds: Sequence[float] = (0.0,)
) -> Iterator[SheetPlan]:
    """Yield for each paper, the smallest first, its sheet at the largest scale that holds the need.

    With several ``arounds`` each paper comes with every one of them that it allows. Where no
    standard paper does, one sheet cut to measure.
    """
    needs = [replace(need, around=around) for around in arounds]
    found = 0
    for (paper, long, short), each in product(PAPERS[units], needs):
        ways = (way for scale in _SCALES[units] for way in _ways(each, paper, long, short, scale))
        for sheet in islice(ways, 1):
            found += 1
            yield sheet
    if not found:
        yield _cut_to_measure(needs[0], units)


def _ways(
    need: SheetNeed, paper: str, long: float, short: float, scale: Fraction
) -> Iterator[SheetPlan]:
    """Yield every way the need fits the paper at this scale, the preferred one first."""
    turns = ((long, short), (short, long))
    sides = ((False, False), (False, True), (True, False), (True, True))
    for (width, height), both, wide, key_beside in product(
        turns, sides, (True, False), (True, False)
    ):
        sheet = _divide(need, paper, width, height, scale, both, wide, key_beside)
        if sheet:
            yield sheet


def _divide(
    need: SheetNeed,
    paper: str,
    width: float,
    height: float,
    scale: Fraction,
    both_ends: tuple[bool, bool],
    wide: bool,
    key_beside: bool,
) -> SheetPlan | None:
    """Return the sheet so divided, or None where the liner, its figures or the key do not fit."""
    columns, key, ground = _divide_key(need, Page(paper, width, height).above, key_beside)
    if not columns:
        return None
    view = _place_liner(need, ground, scale, both_ends, wide)
    if view is None:
        return None
    return SheetPlan(paper, width, height, view, ground, key, columns, both_ends, wide)


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
    need: SheetNeed, ground: Rect, scale: Fraction, both_ends: tuple[bool, bool], wide: bool
) -> View | None:
    """Return the view that puts the liner mid-ground, or None where its figures find no room."""
    below, left = (LEADER + depth for depth in (need.wide_depths if wide else need.depths))
    below, left = max(below, need.around), max(left, need.around)
    span = View(scale, 0, 0)
    x = _place(
        (ground.x0 + PAD, ground.x1 - PAD),
        span.length(need.frame.width),
        (left, left if both_ends[1] else need.around),
        _run(need.across, both_ends[0], need.pitch),
    )
    y = _place(
        (ground.y0 + PAD, ground.y1 - PAD),
        span.length(need.frame.height),
        (below, below if both_ends[0] else need.around),
        _run(need.up, both_ends[1], need.pitch),
    )
    ends_meet = all(both_ends) and _run(need.up, True, need.pitch) > span.length(need.frame.height)
    if x is None or y is None or ends_meet:
        return None
    return View(scale, x - span.length(need.frame.x0), y - span.length(need.frame.y0))


def _run(count: int, both_ends: bool, pitch: float) -> float:
    """Return how long a row of so many figures is, half of them where there are two rows."""
    return (ceil(count / 2) if both_ends else count) * pitch


def _place(
    ends: tuple[float, float], length: float, depths: tuple[float, float], run: float
) -> float | None:
    """Return where the liner starts between the ends: midway, or lower where the run needs it."""
    low, high = ends[0] + depths[0], ends[1] - depths[1]
    if high - low < max(length, run):
        return None
    return min(low + (high - low - length) / 2, high - run)


def _cut_to_measure(need: SheetNeed, units: Units) -> SheetPlan:
    """Return the first sheet of 2, 3, 4... times A3 each way that holds the need."""
    longest = max(need.frame.width, need.frame.height)
    scales = (each for each in _SCALES[units] if each >= _CUT_SCALE)
    fitting = (each for each in scales if View(each, 0, 0).length(longest) <= _LONGEST_CUT)
    scale = next(fitting, _SCALES[units][-1])
    sizes = ((420.0 * times, 297.0 * times) for times in count(2))
    ways = (way for size in sizes for way in _ways(need, "a sheet cut to measure", *size, scale))
    return next(ways)
