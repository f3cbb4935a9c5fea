"""The drawing record: plain shapes on a sheet in mm, y up, each with the name of its style.

What a shape means is decided before it is recorded; how a style looks is decided by whoever shows
the record. Nothing here knows the liner's own coordinates.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import chain
from typing import Literal, NamedTuple

from nesting.drawings.lettering import clean, words_depth, words_rise, words_width

Spot = tuple[float, float]

AreaStyle = Literal[
    "paper",
    "liner",
    "zone",
    "masked",
    "panel",
    "dam",
    "ornament",
    "plate",
    "tag",
    "datum",
    "bar",
    "gap",
    "skin",
    "place",
    "dams_0",
    "dams_1",
    "dams_2",
    "dams_3",
    "dams_4",
    "untried",
    "closed",
    "tint_1",
    "tint_2",
    "tint_3",
    "tint_4",
    "tint_5",
    "tint_6",
    "tile",
    "kept",
    "left_out",
    "sunk",
    "low",
    "middle",
    "high",
    "plain",
    "old_dam",
    "staying_dam",
    "arrow",
]
LineStyle = Literal[
    "frame",
    "rule",
    "rim",
    "edge_side",
    "meeting",
    "zone",
    "witness",
    "leader",
    "place",
    "only",
    "untried",
    "hatch",
    "trace",
    "strip",
    "ghost",
    "join",
    "limit",
    "cross",
    "ignored",
    "keep_clear",
    "old_dam",
    "move",
]
TextStyle = Literal["plain", "bold"]
TextAnchor = Literal["start", "middle", "end"]


class Rect(NamedTuple):
    """An upright rectangle on the sheet [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Extent along the sheet's x [mm]."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Extent along the sheet's y [mm]."""
        return self.y1 - self.y0

    @property
    def centre(self) -> Spot:
        """The middle."""
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    @property
    def ring(self) -> tuple[Spot, ...]:
        """The four corners, counter-clockwise from the lower left."""
        return (self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1)

    def grown(self, by: float) -> Rect:
        """Return the rectangle with every side moved outward [mm]; inward where negative."""
        return Rect(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def overlaps(self, other: Rect) -> bool:
        """Whether the open interiors meet."""
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def holds(self, other: Rect) -> bool:
        """Whether the other rectangle lies inside this one; a shared boundary is allowed."""
        return (
            self.x0 <= other.x0
            and self.y0 <= other.y0
            and other.x1 <= self.x1
            and other.y1 <= self.y1
        )


@dataclass(frozen=True, slots=True)
class Area:
    """Ground inside the rings, counted even-odd: what an even number of rings surrounds is out."""

    rings: tuple[tuple[Spot, ...], ...]
    style: AreaStyle

    def __post_init__(self) -> None:
        object.__setattr__(self, "rings", tuple(_rounded(ring) for ring in self.rings))


@dataclass(frozen=True, slots=True)
class Line:
    """A line through the points in turn."""

    points: tuple[Spot, ...]
    style: LineStyle

    def __post_init__(self) -> None:
        object.__setattr__(self, "points", _rounded(self.points))


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words: the base line's ``anchor`` at (x, y), capitals ``height`` mm high.

    ``upright`` words read from below to above. Control characters are dropped from ``words``.
    """

    x: float
    y: float
    words: str
    height: float
    style: TextStyle = "plain"
    anchor: TextAnchor = "start"
    upright: bool = False

    def __post_init__(self) -> None:
        ((x, y),) = _rounded([(self.x, self.y)])
        object.__setattr__(self, "x", x)
        object.__setattr__(self, "y", y)
        object.__setattr__(self, "words", clean(self.words))

    @property
    def rect(self) -> Rect:
        """Ground the words cover at most, in any common sans-serif face [mm]."""
        width = words_width(self.words, self.height, bold=self.style == "bold")
        start = -width * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        low, high = -words_depth(self.words, self.height), words_rise(self.words, self.height)
        if self.upright:
            return Rect(self.x - high, self.y + start, self.x - low, self.y + start + width)
        return Rect(self.x + start, self.y + low, self.x + start + width, self.y + high)


Shape = Area | Line | Text


def moved(shape: Shape, by: Spot) -> Shape:
    """Return the shape shifted along x and y [mm]."""
    dx, dy = by
    if isinstance(shape, Text):
        return replace(shape, x=shape.x + dx, y=shape.y + dy)
    if isinstance(shape, Line):
        return replace(shape, points=tuple((x + dx, y + dy) for x, y in shape.points))
    return replace(
        shape, rings=tuple(tuple((x + dx, y + dy) for x, y in ring) for ring in shape.rings)
    )


def bounds_of(shapes: Iterable[Shape]) -> Rect:
    """Return the smallest rectangle around the shapes; ValueError for none."""
    corners: list[Spot] = []
    for shape in shapes:
        if isinstance(shape, Text):
            corners += shape.rect.ring
        else:
            corners += shape.points if isinstance(shape, Line) else chain(*shape.rings)
    xs, ys = zip(*corners, strict=True)
    return Rect(min(xs), min(ys), max(xs), max(ys))


@dataclass(frozen=True, slots=True)
class Layer:
    """Shapes that belong together, the first one lowest.

    Where there is a ``window``, the layer shows that part of the sheet only, and its shapes are in
    coordinates of their own whose origin lies at ``origin`` on the sheet: several sheets can show
    parts of one picture.
    """

    name: str
    shapes: tuple[Shape, ...]
    window: Rect | None = None
    origin: Spot = (0.0, 0.0)

    @property
    def placed(self) -> tuple[Shape, ...]:
        """The shapes as they lie on the sheet, those outside the window too."""
        return tuple(moved(shape, self.origin) for shape in self.shapes)


@dataclass(frozen=True, slots=True)
class Drawing:
    """One sheet [mm] and its layers, the first one lowest.

    ``name`` tells this drawing's parts from those of others shown on the same page: letters, digits
    and hyphens. ``title`` and ``summary`` say in words what the drawing shows.
    """

    name: str
    width: float
    height: float
    title: str
    summary: str
    layers: tuple[Layer, ...]

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """All shapes as they lie on the sheet, the lowest first."""
        return tuple(shape for layer in self.layers for shape in layer.placed)

    @property
    def texts(self) -> tuple[Text, ...]:
        """All texts, the lowest first."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))


def _rounded(points: Iterable[Spot]) -> tuple[Spot, ...]:
    """Round to whole micrometres of the sheet; ``+ 0.0`` turns -0.0 into 0.0."""
    spots = tuple((round(float(x), 3) + 0.0, round(float(y), 3) + 0.0) for x, y in points)
    if not all(math.isfinite(x) and math.isfinite(y) for x, y in spots):
        raise ValueError(f"a point on a drawing must be finite, got {spots}")
    return spots
