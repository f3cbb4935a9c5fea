"""Rectilinear stairs around a slanted outline and within it."""

from collections.abc import Iterator
from itertools import pairwise

from nesting.shapes.geometry import Box, Polygon, is_rectilinear, polygon_of, subtract, unite


def cover(outline: Polygon, steps: int) -> Polygon:
    """Return stairs around an outline, itself where it is rectilinear.

    Each of so many ``steps`` of equal height is as long as what it covers; one gives the box.

    >>> cover(Polygon(((0, 0), (8, 0), (0, 8))), 2).bounds
    Box(x0=0, y0=0, x1=8, y1=8)
    """
    if is_rectilinear(outline):
        return outline
    boxes = [
        Box(min(p.bounds.x0 for p in parts), box.y0, max(p.bounds.x1 for p in parts), box.y1)
        for box in _slices(outline.bounds, steps)
        if (parts := _within(outline, box))
    ]
    return unite([polygon_of(box) for box in boxes])[0]


def core(outline: Polygon, steps: int) -> tuple[Box, ...]:
    """Return boxes within an outline, at most one for each step, the longest there is.

    Its outermost corners are among them, as boxes of no size.
    """
    corners = outline.shell
    tips = {min(corners), max(corners)}
    tips |= {min(corners, key=lambda at: at[::-1]), max(corners, key=lambda at: at[::-1])}
    found = [Box(x, y, x, y) for x, y in sorted(tips)]
    for box in _slices(outline.bounds, steps):
        gaps = sorted((p.bounds.x0, p.bounds.x1) for p in subtract([polygon_of(box)], [outline]))
        ends = [box.x0]
        runs: list[tuple[int, int]] = []
        for low, high in gaps:
            runs.append((max(ends), low))
            ends.append(high)
        runs.append((max(ends), box.x1))
        low, high = max(runs, key=lambda run: run[1] - run[0])
        if low < high:
            found.append(Box(low, box.y0, high, box.y1))
    return tuple(found)


def _slices(box: Box, steps: int) -> Iterator[Box]:
    levels = [box.y0 + box.height * n // steps for n in range(steps + 1)]
    for low, high in pairwise(levels):
        if low < high:
            yield Box(box.x0, low, box.x1, high)


def _within(outline: Polygon, box: Box) -> tuple[Polygon, ...]:
    around = outline.bounds.grown(1, 1, 1, 1)
    beyond = subtract([polygon_of(around)], [polygon_of(box)])
    return subtract([outline], beyond)
