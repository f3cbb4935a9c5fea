"""The sizes nearest to one that have a place: one side changed alone, or both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Protocol

from nesting.maps.ground import Ground
from nesting.maps.positions import Wish, has_place
from nesting.maps.sizehunt import Hunts, hunt_size, hunt_width
from nesting.maps.sizerange import SizeBox, map_sizes
from nesting.maps.sizes import wish_of
from nesting.shapes.convex import Run
from nesting.units import STEPS_PER_MM
from nesting.values.bed import AXES
from nesting.values.bend import Bend
from nesting.values.panels import Panel, Size

_WRITTEN = STEPS_PER_MM // 1000
_MOST_MAPPED = 60


@dataclass(frozen=True, slots=True)
class Nearest:
    """The nearest sizes with a place, as ordered [steps]; None where there is none.

    ``narrower``, ``wider``, ``lower`` and ``higher`` change one side alone. ``smaller`` and
    ``larger`` change one side or both, and the greater of the two changes of the flat size is as
    small as can be. None is nearer by more than ``within`` [steps], which is 0 among axis-parallel
    obstacles and None where nothing is proved.
    """

    narrower: Size | None
    wider: Size | None
    lower: Size | None
    higher: Size | None
    smaller: Size | None
    larger: Size | None
    within: int | None

    @property
    def proved(self) -> bool:
        """Whether no size is nearer, or none by more than ``within``."""
        return self.within is not None


class Finder(Protocol):
    """Finds flat sizes with a place near others [steps], on one ground."""

    def find(self, size: Size, wish: Wish) -> NearestFlat:
        """Return the nearest sizes; ``size`` itself has no place."""

    def gives(self, size: Size, wish: Wish) -> bool:
        """Whether the size has a place."""


@dataclass(frozen=True, slots=True)
class NearestFlat:
    """Flat extents and sizes as in `Nearest`."""

    widths: tuple[int | None, int | None]
    heights: tuple[int | None, int | None]
    smaller: Size | None
    larger: Size | None
    within: int | None


def make_finder(ground: Ground, asked: int = 1) -> Finder:
    """Return the finder that is quickest for so many sizes asked of one ground.

    All sizes are mapped at once where many are asked of stepped ground with few obstacles.
    """
    few = sum(map(len, ground.parts)) <= _MOST_MAPPED
    return SizeAtlas(ground) if asked > 1 and few and ground.is_stepped else Hunter(ground)


class Hunter:
    """Finds sizes one by one, on any ground; what they share is made ready once."""

    def __init__(self, ground: Ground) -> None:
        self.hunts = Hunts(ground)

    def gives(self, size: Size, wish: Wish) -> bool:
        """Whether the size has a place."""
        return has_place(self.hunts.ground, *size, wish)

    def find(self, size: Size, wish: Wish) -> NearestFlat:
        """Return the nearest sizes, one side alone first: they bound the search for both."""
        ready, (width, height) = self.hunts.across(wish), size
        across = [hunt_width(ready, size, sign) for sign in (-1, 1)]
        up = [hunt_width(self.hunts.up(wish), (height, width), sign) for sign in (-1, 1)]
        both = []
        for sign, *alone in zip((-1, 1), across, up, strict=True):
            known = [alone[0].size, alone[1].size and (alone[1].size[1], alone[1].size[0])]
            both.append(hunt_size(ready, size, (sign, sign), _closest(size, known)))
        withins = [each.within for each in (*across, *up, *both)]
        return NearestFlat(
            (across[0].extent, across[1].extent),
            (up[0].extent, up[1].extent),
            both[0].size,
            both[1].size,
            None if None in withins else max(within or 0 for within in withins),
        )


class SizeAtlas:
    """Every size of one stepped ground, mapped when it is first asked for.

    It pays where many sizes are asked of one liner with few obstacles.

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

    def gives(self, size: Size, wish: Wish) -> bool:
        """Whether the size has a place."""
        return any(box.holds(*size) for box in self.boxes(wish))

    def find(self, size: Size, wish: Wish) -> NearestFlat:
        """Return the nearest sizes."""
        boxes, (width, height) = self.boxes(wish), size
        widths = [box.widths for box in boxes if box.heights[0] <= height <= box.heights[1]]
        heights = [box.heights for box in boxes if box.widths[0] <= width <= box.widths[1]]
        smaller, larger = (_nearest_in(boxes, size, sign) for sign in (-1, 1))
        return NearestFlat(_beside(widths, width), _beside(heights, height), smaller, larger, 0)


def find_nearest(ground: Ground, panel: Panel, bend: Bend, finder: Finder | None = None) -> Nearest:
    """Return the sizes nearest to the panel's own that have a place on the bed.

    ``finder``, where given, is one of the ground.
    """
    finder = finder or make_finder(ground)
    wish = wish_of(ground, panel)
    flat = bend.flat_size(panel)
    found = finder.find(flat, wish)
    fit = _Fitting(panel, bend, wish, finder)
    across = [fit.write((width, flat[1])) if width else None for width in found.widths]
    up = [fit.write((flat[0], height)) if height else None for height in found.heights]
    ordered = panel.width, panel.height
    return Nearest(
        across[0],
        across[1],
        up[0],
        up[1],
        _closest(ordered, [fit.write(found.smaller), across[0], up[0]]),
        _closest(ordered, [fit.write(found.larger), across[1], up[1]]),
        found.within,
    )


@dataclass(frozen=True, slots=True)
class _Fitting:
    """Writes flat sizes as an order would state them, to 0.001 mm, so that they still fit."""

    panel: Panel
    bend: Bend
    wish: Wish
    finder: Finder

    def write(self, flat: Size | None) -> Size | None:
        """Return the ordered size, or None where none within a micrometre has a place."""
        if flat is None:
            return None
        sides = [self.panel.width, self.panel.height]
        nominal = self.bend.flat_size(self.panel)
        choices = [[side] for side in sides]
        for axis in (0, 1):
            if flat[axis] != nominal[axis]:
                side = self.bend.ordered_side(self.panel, AXES[axis], flat[axis])
                choices[axis] = _rounded(side)
        tried = sorted(product(*choices), key=lambda pair: _change(sides, pair))
        for coarse in (True, False):
            for width, height in tried:
                if coarse == (width % _WRITTEN == 0 and height % _WRITTEN == 0):
                    other = replace(self.panel, width=width, height=height)
                    if self.finder.gives(self.bend.flat_size(other), self.wish):
                        return width, height
        return None


def _rounded(length: int) -> list[int]:
    """Return the whole micrometres next to a length, then the steps."""
    low, high = length // _WRITTEN * _WRITTEN, -(-length // _WRITTEN) * _WRITTEN
    return list(dict.fromkeys((low, high, length, length - 1, length + 1)))


def _beside(runs: Sequence[Run], extent: int) -> tuple[int | None, int | None]:
    """Return the greatest member below an extent and the least above it."""
    below = max((min(high, extent - 1) for low, high in runs if low < extent), default=None)
    above = min((max(low, extent + 1) for low, high in runs if high > extent), default=None)
    return below, above


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


def _closest(size: Size, others: Sequence[Size | None]) -> Size | None:
    known = [other for other in others if other is not None]
    return min(known, key=lambda other: _change(size, other), default=None)
