"""Shapes the checker judges by: the liner as shapely sees it, what meets what, how far off.

Coordinates are whole steps, which floats hold exactly; whether interiors meet and whether one
shape covers another are decided by predicates that make no rounding error. Nothing here is shared
with the search.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from nesting.checking.rects import StepRect, grown
from nesting.shapes.geometry import Polygon
from nesting.values.liner import Liner

INTERIORS_MEET = "T********"
SLIVER = 1
"""Half the width [steps] of a gap between slanted zones that still counts as blank."""

Shapes = NDArray[Any]


def boxes(rects: Iterable[StepRect]) -> Shapes:
    """Return the rectangles as prepared shapely polygons."""
    corners = np.array(list(rects), dtype=float).reshape(-1, 4)
    shapes: Shapes = shapely.box(*corners.T)
    shapely.prepare(shapes)
    return shapes


class Outlines:
    """Shapes that can be asked which of them a rectangle meets and how far off they are."""

    def __init__(self, names: Sequence[str], shapes: Sequence[shapely.Polygon]) -> None:
        self.names = tuple(names)
        self.shapes: Shapes = np.array(shapes, dtype=object)
        self._tree = shapely.STRtree(self.shapes)
        self._bounds = shapely.bounds(self.shapes).reshape(-1, 4).astype(np.int64)
        self._vertices = shapely.get_coordinates(self.shapes).astype(np.int64)

    def __len__(self) -> int:
        return len(self.names)

    def only(self, index: int) -> Outlines:
        """Return a collection of that one shape."""
        return Outlines(self.names[index : index + 1], self.shapes[index : index + 1].tolist())

    def met_by(self, rects: Sequence[StepRect]) -> Iterator[tuple[int, int]]:
        """Yield (rectangle, shape) index pairs whose interiors meet; touching does not count."""
        asked = boxes(rects)
        rect, shape = self._tree.query(asked)
        met = shapely.relate_pattern(asked[rect], self.shapes[shape], INTERIORS_MEET)
        yield from sorted(zip(rect[met].tolist(), shape[met].tolist(), strict=True))

    def split(self, rects: Sequence[StepRect]) -> tuple[list[set[int]], list[set[int]]]:
        """Return per rectangle the shapes wholly inside it, and the shapes it cuts."""
        inside: list[set[int]] = [set() for _ in rects]
        cut: list[set[int]] = [set() for _ in rects]
        for rect, shape in self._tree.query(boxes(rects), predicate="covers").T.tolist():
            inside[rect].add(shape)
        for rect, shape in self.met_by(rects):
            if shape not in inside[rect]:
                cut[rect].add(shape)
        return inside, cut

    def distance(self, rect: StepRect) -> int | None:
        """Return the distance [steps] to the nearest shape, measured square to the rectangle.

        It is the most the rectangle can grow on all sides before interiors meet, found by halving,
        so it is rounded down to whole steps; 0 where they already meet, None without shapes.
        """
        if not len(self):
            return None
        low = max(0, int(_square_gaps(rect, self._bounds[:, :2], self._bounds[:, 2:]).min()))
        high = max(0, int(_square_gaps(rect, self._vertices, self._vertices).min()))
        middle = low + 1  # where the nearest side is parallel to the dam, low is the answer
        while low < high:
            if any(self.met_by([grown(rect, middle)])):
                high = middle - 1
            else:
                low = middle
            middle = (low + high + 1) // 2
        return low


def _square_gaps(rect: StepRect, lower: Shapes, upper: Shapes) -> Shapes:
    gaps = np.stack(
        [
            lower[:, 0] - rect.x1,
            rect.x0 - upper[:, 0],
            lower[:, 1] - rect.y1,
            rect.y0 - upper[:, 1],
        ]
    )
    found: Shapes = gaps.max(axis=0)
    return found


@dataclass(frozen=True)
class LinerShapes:
    """The liner to the checker: its outline, where dams may lie, its zones and its ornaments."""

    outline: shapely.Polygon
    rim: shapely.Geometry
    blank: shapely.Geometry
    slanted: bool
    zones: Outlines
    ornaments: Outlines

    def holds(self, rects: Sequence[StepRect]) -> list[bool]:
        """Whether each rectangle lies on the liner."""
        held: list[bool] = shapely.covers(self.outline, boxes(rects)).tolist()
        return held

    def has_rim_along(self, line: StepRect) -> bool:
        """Whether the whole of a line lies on the liner's rim."""
        ends = shapely.LineString([(line.x0, line.y0), (line.x1, line.y1)])
        return bool(shapely.covers(self.rim, ends))

    def is_blank(self, rects: Sequence[StepRect]) -> list[bool]:
        """Whether each rectangle lies inside blank ground.

        Exact where all zones have axis-parallel sides. Where some side is slanted, ground less
        than two steps (0.00025 mm) wide between or beside zones is not held against a dam.
        """
        asked = boxes(rects)
        return [
            held or (self.slanted and self._is_sliver(shape))
            for held, shape in zip(shapely.covers(self.blank, asked).tolist(), asked, strict=True)
        ]

    def _is_sliver(self, shape: shapely.Polygon) -> bool:
        rest = shapely.difference(shape, self.blank)
        return bool(shapely.buffer(rest, -SLIVER, join_style="mitre").is_empty)


def shape_liner(liner: Liner) -> LinerShapes:
    """Return the liner as the checker sees it."""
    outline = _shape(liner.outline)
    zones = [_shape(zone.outline) for zone in liner.zones]
    blank = outline if liner.unmarked == "blank" else shapely.union_all(zones)
    rim = shapely.boundary(outline)
    for shape in (outline, rim, blank):
        shapely.prepare(shape)
    return LinerShapes(
        outline,
        rim,
        blank,
        any(_is_slanted(zone) for zone in zones),
        Outlines([zone.name for zone in liner.zones], zones),
        Outlines(
            [ornament.name for ornament in liner.ornaments],
            [_shape(ornament.outline) for ornament in liner.ornaments],
        ),
    )


def _shape(polygon: Polygon) -> shapely.Polygon:
    return shapely.Polygon(polygon.shell, polygon.holes)


def _is_slanted(shape: shapely.Polygon) -> bool:
    rings = [shape.exterior, *shape.interiors]
    steps = [np.diff(shapely.get_coordinates(ring), axis=0) for ring in rings]
    return any(bool(np.any(step.all(axis=1))) for step in steps)
