"""The sizes nearest to one that have a place: one side changed alone, or both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from nesting.bed import Axis, Bed
from nesting.beds import flat_size, ordered_side
from nesting.castsizes import NO_SHRINK
from nesting.convex import Run
from nesting.ground import Ground
from nesting.panels import Panel
from nesting.positions import Wish, has_place
from nesting.sizerange import SizeBox, make_stepped, map_sizes
from nesting.sizes import wish_of
from nesting.units import STEPS_PER_MM
from nesting.widths import heights_at, widths_at

Size = tuple[int, int]
_FIRST_REACH = 60 * STEPS_PER_MM
_SLICES, _FEW = 2, 16
_WRITTEN = STEPS_PER_MM // 1000


@dataclass(frozen=True, slots=True)
class Nearest:
    """The nearest sizes with a place, as ordered [steps]; None where there is none.

    ``narrower``, ``wider``, ``lower`` and ``higher`` change one side alone. ``smaller`` and
    ``larger`` change one side or both, and the greater of the two changes is as small as can be;
    ``proved`` tells whether that is certain, as it is among axis-parallel obstacles.
    """

    narrower: Size | None
    wider: Size | None
    lower: Size | None
    higher: Size | None
    smaller: Size | None
    larger: Size | None
    proved: bool


class SizeAtlas:
    """Every size of one stepped ground, mapped when it is first asked for.

    It pays where many sizes are asked of one liner; the answers are the same without it.

    Raises ValueError where the ground has slopes.
    """

    def __init__(self, ground: Ground) -> None:
        if not ground.is_stepped:
            raise ValueError("sizes are mapped on stepped ground")
        self._ground = ground
        self._known: dict[Wish, tuple[SizeBox, ...]] = {}

    def boxes(self, wish: Wish) -> tuple[SizeBox, ...]:
        """Return all sizes with a place."""
        if wish not in self._known:
            frame = self._ground.frame
            self._known[wish] = map_sizes(self._ground, (0, frame.width), (0, frame.height), wish)
        return self._known[wish]

    def widths_at(self, height: int, wish: Wish) -> tuple[Run, ...]:
        """Return as `widths.widths_at`."""
        return tuple(b.widths for b in self.boxes(wish) if b.heights[0] <= height <= b.heights[1])

    def heights_at(self, width: int, wish: Wish) -> tuple[Run, ...]:
        """Return as `widths.heights_at`."""
        return tuple(b.heights for b in self.boxes(wish) if b.widths[0] <= width <= b.widths[1])


def find_nearest(
    ground: Ground,
    panel: Panel,
    bed: Bed,
    shrink: Fraction = NO_SHRINK,
    atlas: SizeAtlas | None = None,
) -> Nearest:
    """Return the sizes nearest to the panel's own that have a place on the bed.

    ``atlas``, where given, is that of the ground.
    """
    wish = wish_of(ground, panel)
    flat = flat_size(panel, bed, ground.liner.thickness, shrink)
    fit = _Fitting(ground, panel, bed, wish, shrink)
    widths = atlas.widths_at(flat[1], wish) if atlas else widths_at(ground, flat[1], wish)
    heights = atlas.heights_at(flat[0], wish) if atlas else heights_at(ground, flat[0], wish)
    narrower, wider = _beside(widths, flat[0])
    lower, higher = _beside(heights, flat[1])
    across = [None if width is None else fit.write((width, flat[1])) for width in (narrower, wider)]
    up = [None if height is None else fit.write((flat[0], height)) for height in (lower, higher)]
    if atlas:
        both = [_nearest_in(atlas.boxes(wish), flat, sign) for sign in (-1, 1)]
    else:
        stepped = _stepped(ground)
        both = [_diagonal(stepped, flat, wish, sign) for sign in (-1, 1)]
    written = [None if size is None else fit.write(size) for size in both]
    return Nearest(
        across[0],
        across[1],
        up[0],
        up[1],
        _closest(panel, [written[0], across[0], up[0]]),
        _closest(panel, [written[1], across[1], up[1]]),
        ground.is_stepped,
    )


def _stepped(ground: Ground) -> Ground:
    """Return ground of rectangles on which every place is real: stairs around slopes, or boxes.

    Stairs multiply the work, so where slanted pieces are many each has one box around it.
    """
    parts = (*ground.ornaments, ground.no_dam, ground.off_liner)
    slanted = sum(int(pieces.is_slanted().sum()) for pieces in parts)
    if not slanted:
        return ground
    return make_stepped(ground, _SLICES if slanted <= _FEW else 0, around=True)


@dataclass(frozen=True, slots=True)
class _Fitting:
    """Writes flat sizes as an order would state them, to 0.001 mm, so that they still fit."""

    ground: Ground
    panel: Panel
    bed: Bed
    wish: Wish
    shrink: Fraction

    def write(self, flat: Size) -> Size | None:
        """Return the ordered size, or None where none close by has a place."""
        thickness = self.ground.liner.thickness
        sides = [self.panel.width, self.panel.height]
        nominal = flat_size(self.panel, self.bed, thickness, self.shrink)
        changed = [axis for axis in (0, 1) if flat[axis] != nominal[axis]]
        for axis in changed:
            along: Axis = "x" if axis == 0 else "y"
            terms = self.panel, self.bed, thickness, along
            sides[axis] = ordered_side(*terms, flat[axis], self.shrink)
        for way in (_down, _up):
            tried = [way(side) if axis in changed else side for axis, side in enumerate(sides)]
            other = replace(self.panel, width=tried[0], height=tried[1])
            if has_place(
                self.ground, *flat_size(other, self.bed, thickness, self.shrink), self.wish
            ):
                return tried[0], tried[1]
        return None


def _down(length: int) -> int:
    return length // _WRITTEN * _WRITTEN


def _up(length: int) -> int:
    return -(-length // _WRITTEN) * _WRITTEN


def _beside(runs: Sequence[Run], extent: int) -> tuple[int | None, int | None]:
    """Return the greatest member below an extent and the least above it."""
    below = max((min(high, extent - 1) for low, high in runs if low < extent), default=None)
    above = min((max(low, extent + 1) for low, high in runs if high > extent), default=None)
    return below, above


def _diagonal(ground: Ground, size: Size, wish: Wish, sign: int) -> Size | None:
    """Return the nearest flat size with neither side larger (sign -1), or neither smaller.

    Nearest is the smallest greater change, then the smallest sum; it lies within the reach looked
    at, since every size beyond it is changed by more.
    """
    room = max(ground.frame.width, ground.frame.height)
    reach = _FIRST_REACH
    while True:
        spans = [(s - reach, s) if sign < 0 else (s, s + reach) for s in size]
        found = _nearest_in(map_sizes(ground, spans[0], spans[1], wish), size, sign)
        if found or reach > room:
            return found
        reach *= 4


def _nearest_in(boxes: Sequence[SizeBox], size: Size, sign: int) -> Size | None:
    """Return the nearest size of the boxes with neither side larger (sign -1), or smaller."""
    found = [
        (_clamp(size[0], box.widths), _clamp(size[1], box.heights))
        for box in boxes
        if all(
            run[0] <= side if sign < 0 else side <= run[1]
            for side, run in zip(size, (box.widths, box.heights), strict=True)
        )
    ]
    return min(found, key=lambda other: _change(size, other), default=None)


def _clamp(value: int, run: Run) -> int:
    return min(max(value, run[0]), run[1])


def _change(size: Sequence[int], other: Sequence[int]) -> tuple[int, int]:
    by = [abs(a - b) for a, b in zip(size, other, strict=True)]
    return max(by), sum(by)


def _closest(panel: Panel, sizes: Sequence[Size | None]) -> Size | None:
    known = [size for size in sizes if size is not None]
    return min(known, key=lambda size: _change((panel.width, panel.height), size), default=None)
