"""Running dimensions: every dam face measured from the datum, along x and along y.

Figures stand in rows outside the liner. Each has a leader to its face; where faces are closer than
figures, the figures are spread and the leaders fan out, never crossing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from nesting.drawings.figures import length_figure
from nesting.drawings.labels import spread
from nesting.drawings.lettering import words_depth, words_rise, words_width
from nesting.drawings.record import Line, Rect, Shape, Spot, Text, TextStyle
from nesting.drawings.sheet import PAD, SheetPlan
from nesting.shapes.geometry import Box
from nesting.values.casts import Layout
from nesting.values.job import Job

HEIGHT = 3.5
_GAP, _STUB, _TAIL, _LEAST_KNEE, _APART = 1.0, 3.0, 2.0, 3.0, 1.0

End = Literal["bottom", "top", "left", "right"]


@dataclass(frozen=True, slots=True)
class Ordinate:
    """One figure along an axis.

    ``value`` [steps] from the datum; ``reach`` the lowest and highest point [steps], across the
    axis, of the dams that have a face there; ``is_panel_edge`` where a panel ends on it.
    """

    value: int
    reach: tuple[int, int]
    words: str
    is_panel_edge: bool

    @property
    def style(self) -> TextStyle:
        """Bold for a panel's edge, plain for any other face."""
        return "bold" if self.is_panel_edge else "plain"


def ordinate_at(value: int, reach: tuple[int, int], job: Job, *, is_panel_edge: bool) -> Ordinate:
    """Return the figure of a value in the units of the job."""
    return Ordinate(value, reach, length_figure(value, job), is_panel_edge)


def measure_faces(
    job: Job, layout: Layout, frame: Box
) -> tuple[tuple[Ordinate, ...], tuple[Ordinate, ...]]:
    """Return the figures along x and along y, rising: dam faces, the datum and the liner's ends."""
    dams = [dam.box for dam in layout.dams]
    panels = [panel.box for panel in layout.panels]
    across = _faces(job, dams, panels, frame)
    up = _faces(job, _turned(dams), _turned(panels), *_turned([frame]))
    return across, up


def pitch(ordinates: Iterable[Ordinate]) -> float:
    """Return the least distance of two figures [mm]."""
    words = [figure.words for figure in ordinates]
    rise = max((words_rise(each, HEIGHT) for each in words), default=0.0)
    return rise + max((words_depth(each, HEIGHT) for each in words), default=0.0) + _APART


def longest(ordinates: Iterable[Ordinate]) -> float:
    """Return the width of the longest figure [mm], 0 for none."""
    widths = (words_width(figure.words, HEIGHT, bold=figure.is_panel_edge) for figure in ordinates)
    return max(widths, default=0.0)


def draw_ordinates(
    sheet: SheetPlan, frame: Box, across: Sequence[Ordinate], up: Sequence[Ordinate]
) -> tuple[tuple[Shape, ...], ...]:
    """Return the rows of figures, each with its leaders and witness lines; no row is empty."""
    rim = sheet.view.rect(frame)
    lower, upper = _two_rows(across, sheet.both_ends[0], frame.y0 + frame.y1)
    left, right = _two_rows(up, sheet.both_ends[1], frame.x0 + frame.x1)
    rows = (
        _draw_row(sheet, "bottom", rim, lower),
        _draw_row(sheet, "top", rim, upper),
        _draw_row(sheet, "left", rim, left),
        _draw_row(sheet, "right", rim, right),
    )
    return tuple(tuple(row) for row in rows if row)


def _faces(
    job: Job, dams: Sequence[Box], panels: Sequence[Box], frame: Box
) -> tuple[Ordinate, ...]:
    """Return the figures along x of upright boxes; along y they are those of the turned boxes."""
    edges = {x for box in panels for x in (box.x0, box.x1)}
    reach = dict.fromkeys((0, frame.x0, frame.x1), (frame.y0, frame.y1))
    faces: dict[int, list[Box]] = {}
    for box in dams:
        for x in (box.x0, box.x1):
            faces.setdefault(x, []).append(box)
    for x, boxes in faces.items():
        reach[x] = (min(box.y0 for box in boxes), max(box.y1 for box in boxes))
    return tuple(
        ordinate_at(x, reach[x], job, is_panel_edge=x in edges and x in faces)
        for x in sorted(reach)
    )


def _turned(boxes: Iterable[Box]) -> list[Box]:
    return [Box(box.y0, box.x0, box.y1, box.x1) for box in boxes]


def _two_rows(
    figures: Sequence[Ordinate], both_ends: bool, middle: int
) -> tuple[list[Ordinate], list[Ordinate]]:
    """Return the figures of the lower and upper row; dams near the upper end go to the upper."""
    if not both_ends:
        return list(figures), []
    by_reach = sorted(figures, key=lambda figure: (sum(figure.reach) > middle, sum(figure.reach)))
    half = (len(by_reach) + 1) // 2
    lower, upper = set(by_reach[:half]), set(by_reach[half:])
    return [each for each in figures if each in lower], [each for each in figures if each in upper]


def _draw_row(sheet: SheetPlan, end: End, rim: Rect, figures: Sequence[Ordinate]) -> list[Shape]:
    if not figures:
        return []
    row = _Row(end, rim, all(sheet.both_ends))
    along = 0 if row.is_across else 1
    view = sheet.view
    wanted = [view.at((figure.value, figure.value))[along] for figure in figures]
    low, high = row.limits(sheet.ground)
    low = min(low, wanted[0])
    places = spread(wanted, pitch(figures), low, high)
    room = row.room(sheet.ground) - longest(figures) - _GAP - _STUB - _TAIL
    shift = max(abs(place - face) for place, face in zip(places, wanted, strict=True))
    knee = min(max(_LEAST_KNEE, shift / 2), room)
    shapes: list[Shape] = []
    for figure, face, place in zip(figures, wanted, places, strict=True):
        reach = [view.at((y, y))[1 - along] for y in figure.reach]
        shapes += row.draw(figure, figure.words, face, place, knee, reach)
    return shapes


@dataclass(frozen=True, slots=True)
class _Row:
    """One row of figures outside one end of the liner; ``out`` is the distance from the rim.

    Rows may run on beyond the liner's far end, ``is_short`` ones along y may not: then another row
    stands there.
    """

    end: End
    rim: Rect
    is_short: bool

    @property
    def is_across(self) -> bool:
        return self.end in ("bottom", "top")

    @property
    def is_lower(self) -> bool:
        return self.end in ("bottom", "left")

    def limits(self, ground: Rect) -> tuple[float, float]:
        """Return from where to where figures may stand."""
        if self.is_across:
            return self.rim.x0, ground.x1 - PAD
        return self.rim.y0, self.rim.y1 if self.is_short else ground.y1 - PAD

    def room(self, ground: Rect) -> float:
        """Return the depth between the rim and the end of the ground."""
        return {
            "bottom": self.rim.y0 - ground.y0,
            "top": ground.y1 - self.rim.y1,
            "left": self.rim.x0 - ground.x0,
            "right": ground.x1 - self.rim.x1,
        }[self.end] - PAD / 2

    def spot(self, along: float, out: float) -> Spot:
        """Return the point at that place along the row and that distance from the rim."""
        return {
            "bottom": (along, self.rim.y0 - out),
            "top": (along, self.rim.y1 + out),
            "left": (self.rim.x0 - out, along),
            "right": (self.rim.x1 + out, along),
        }[self.end]

    def draw(
        self,
        figure: Ordinate,
        words: str,
        face: float,
        place: float,
        knee: float,
        reach: Sequence[float],
    ) -> list[Shape]:
        """Return the witness line on the liner, the leader outside it, and the figure."""
        outs = (_GAP, _STUB, _STUB + knee, _STUB + knee + _TAIL)
        leader = [
            self.spot(along, out)
            for along, out in zip((face, face, place, place), outs, strict=True)
        ]
        x, y = self.spot(place, outs[-1] + _GAP)
        half = HEIGHT / 2
        text = Text(
            x + half * self.is_across,
            y - half * (not self.is_across),
            words,
            HEIGHT,
            figure.style,
            "end" if self.is_lower else "start",
            upright=self.is_across,
        )
        shapes: list[Shape] = [Line(tuple(leader), "leader"), text]
        near = reach[0] if self.is_lower else reach[1]
        foot, head = self.spot(face, 0), (face, near) if self.is_across else (near, face)
        return shapes if foot == head else [Line((foot, head), "witness"), *shapes]
