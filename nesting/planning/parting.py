"""Dam rings parted into strips: of the widths the shop has, few, and short in total."""

from bisect import bisect_left
from collections.abc import Iterator
from heapq import heapify, heappop, heappush
from itertools import combinations

import numpy as np

from nesting.planning.strips import StripRule
from nesting.search.solver import rows_of, solve
from nesting.shapes.geometry import Box, Polygon, slabs, turn_over

GapCell = tuple[int, int]
DamStrip = tuple[int, int, int, int]

_MOST_NODES = 2_000
_MOST_STRIPS = 20_000
"""With more strips to choose among than this a region is parted by simple ways alone."""


def part_region(region: Polygon, rule: StripRule) -> list[Box]:
    """Return a rectilinear region parted into strips: of listed widths, few, and short in total.

    Tries rows, columns, and the longest strips first. Where each of these asks for a strip of
    another width, the fewest strips of listed widths are sought that part the region exactly; where
    there are none, strips thinner than a dam are avoided.

    >>> corner = Polygon(((0, 0), (125, 0), (125, 105), (100, 105), (100, 25), (0, 25)))
    >>> for box in part_region(corner, StripRule(25, (25,))):
    ...     print(tuple(box))
    (0, 0, 125, 25)
    (100, 25, 125, 105)
    """

    def worth(boxes: list[Box]) -> tuple[int, int, int, int]:
        other = sum(not _is_listed(box, rule) for box in boxes)
        thin = sum(min(box.width, box.height) < rule.dam for box in boxes)
        return other, thin, len(boxes), sum(max(box.width, box.height) for box in boxes)

    ways = _rows(region), list(slabs(region)), _longest_first(region)
    best = min(([*_side_by_side(way, rule)] for way in ways), key=worth)
    if all(_is_listed(box, rule) for box in best):
        return best
    return _part_exactly(region, rule) or best


def _is_listed(box: Box, rule: StripRule) -> bool:
    return box.width in rule.widths or box.height in rule.widths


def _part_exactly(region: Polygon, rule: StripRule) -> list[Box] | None:
    """Return the fewest strips of listed widths, the shortest in total, or None."""
    xs, ys, cells = _cells(region)
    number = {cell: row for row, cell in enumerate(sorted(cells))}
    turned = {cell[::-1] for cell in cells}
    standing = ((b, a, d, c) for a, b, c, d in _listed_strips(ys, xs, turned, rule))
    strips = sorted({*_listed_strips(xs, ys, cells, rule), *standing})
    if not strips or len(strips) > _MOST_STRIPS:
        return None
    held: list[list[int]] = [[] for _ in number]
    for column, (a, b, c, d) in enumerate(strips):
        for i in range(a, c):
            for j in range(b, d):
                held[number[i, j]].append(column)
    boxes = [Box(xs[a], ys[b], xs[c], ys[d]) for a, b, c, d in strips]
    girth = sum(max(box.width, box.height) for box in boxes)
    cost = np.array([1 + max(box.width, box.height) / (girth + 1) for box in boxes])
    rows = rows_of([(np.array(row), 1.0, 1.0, 1.0) for row in held])
    found = solve(cost, rows, np.ones(len(strips)), most_nodes=_MOST_NODES)
    if found.values is None:
        return None
    return [box for box, use in zip(boxes, found.values, strict=True) if use > 0.5]


def _listed_strips(
    xs: list[int], ys: list[int], cells: set[GapCell], rule: StripRule
) -> Iterator[DamStrip]:
    """Yield the strips of cells whose height is a listed width."""
    for bottom, top in combinations(range(len(ys)), 2):
        if ys[top] - ys[bottom] not in rule.widths:
            continue
        free = [all((i, j) in cells for j in range(bottom, top)) for i in range(len(xs) - 1)]
        for first in range(len(free)):
            for last in range(first, len(free)):
                if not free[last]:
                    break
                yield first, bottom, last + 1, top


def _cells(region: Polygon) -> tuple[list[int], list[int], set[GapCell]]:
    """Return the coordinates of a region's corners along x and y, and the cells it is made of."""
    xs = sorted({x for ring in region.rings for x, _ in ring})
    ys = sorted({y for ring in region.rings for _, y in ring})
    cells = {
        (i, j)
        for box in slabs(region)
        for i in range(bisect_left(xs, box.x0), bisect_left(xs, box.x1))
        for j in range(bisect_left(ys, box.y0), bisect_left(ys, box.y1))
    }
    return xs, ys, cells


def _side_by_side(boxes: list[Box], rule: StripRule) -> Iterator[Box]:
    """Yield strips, for one two dams wide the two side by side, where none such is listed."""
    for box in boxes:
        x0, y0, x1, y1 = box
        if not _is_listed(box, rule) and box.width == 2 * rule.dam:
            yield from (Box(x0, y0, x0 + rule.dam, y1), Box(x0 + rule.dam, y0, x1, y1))
        elif not _is_listed(box, rule) and box.height == 2 * rule.dam:
            yield from (Box(x0, y0, x1, y0 + rule.dam), Box(x0, y0 + rule.dam, x1, y1))
        else:
            yield box


def _longest_first(region: Polygon) -> list[Box]:
    """Cut the longest strip that fits out of what is left, again and again."""
    xs, ys, left = _cells(region)
    heap = [_ranked(strip, xs, ys) for strip in {s for c in left for s in _strips(c, left)}]
    heapify(heap)
    boxes: list[Box] = []
    while left:
        *_, (a, b, c, d) = heappop(heap)
        cells = {(i, j) for i in range(a, c) for j in range(b, d)}
        if cells <= left:
            boxes.append(Box(xs[a], ys[b], xs[c], ys[d]))
            left -= cells
        else:
            for strip in {s for cell in cells & left for s in _strips(cell, left)}:
                heappush(heap, _ranked(strip, xs, ys))
    return boxes


def _ranked(strip: DamStrip, xs: list[int], ys: list[int]) -> tuple[int, int, DamStrip]:
    """Return a key by which the longest, then the largest strip comes first."""
    a, b, c, d = strip
    width, height = xs[c] - xs[a], ys[d] - ys[b]
    return -max(width, height), -width * height, strip


def _strips(cell: GapCell, left: set[GapCell]) -> Iterator[DamStrip]:
    """Yield the widest row and the tallest column of cells through one, thickened while it goes."""
    for lying in (True, False):

        def is_free(along: int, across: int, lying: bool = lying) -> bool:
            return ((along, across) if lying else (across, along)) in left

        i, j = cell if lying else cell[::-1]
        first, last, bottom, top = i, i + 1, j, j + 1
        while is_free(first - 1, j):
            first -= 1
        while is_free(last, j):
            last += 1
        while all(is_free(k, bottom - 1) for k in range(first, last)):
            bottom -= 1
        while all(is_free(k, top) for k in range(first, last)):
            top += 1
        yield (first, bottom, last, top) if lying else (bottom, first, top, last)


def _rows(polygon: Polygon) -> list[Box]:
    return [Box(y0, x0, y1, x1) for x0, y0, x1, y1 in slabs(turn_over(polygon))]
