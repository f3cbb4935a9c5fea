"""From panels to the cut list: dam rings as disjoint strips, with zones, clearances and areas."""

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from heapq import heapify, heappop, heappush

from nesting.maps.bans import ring_strips
from nesting.shapes.convex import Pieces, pieces_of, square_distances
from nesting.shapes.geometry import Box, Polygon, polygon_of, slabs, subtract, turn_over
from nesting.values.casts import Areas, Dam, Placement
from nesting.values.job import Rules
from nesting.values.liner import Liner
from nesting.values.names import dam_name


def place_dams(liner: Liner, rules: Rules, panels: Sequence[Placement]) -> tuple[Dam, ...]:
    """Return the dams of a cast, numbered from the datum upward and then to the right.

    Together they fill the panels' dam rings and do not overlap. A gap between two panels narrower
    than two dams is one dam of the gap's own width.
    """
    boxes = [
        box
        for polygon in _rings(panels, rules.dam_width)
        for box in part_region(polygon, rules.dam_width)
    ]
    ornaments, zones = _ground_pieces(liner)
    return tuple(
        _dam(dam_name(number), box, ornaments, zones)
        for number, box in enumerate(sorted(boxes, key=lambda b: (b.y0, b.x0)), start=1)
    )


@lru_cache(maxsize=16)
def _ground_pieces(liner: Liner) -> tuple[Pieces, tuple[tuple[str, Pieces], ...]]:
    """Return the ornaments in pieces, and the zones by name, which every cast asks for."""
    ornaments = pieces_of(ornament.outline for ornament in liner.ornaments)
    return ornaments, tuple((zone.name, pieces_of([zone.outline])) for zone in liner.zones)


def part_region(region: Polygon, dam: int) -> list[Box]:
    """Return a rectilinear region parted into strips: none too thin, few, and short in total.

    Tries rows, columns, and the longest strips first; a strip thinner than a dam is avoided where
    one of them avoids it.

    >>> corner = Polygon(((0, 0), (125, 0), (125, 105), (100, 105), (100, 25), (0, 25)))
    >>> for box in part_region(corner, 25):
    ...     print(tuple(box))
    (0, 0, 125, 25)
    (100, 25, 125, 105)
    """

    def worth(boxes: list[Box]) -> tuple[int, int, int]:
        thin = sum(min(box.width, box.height) < dam for box in boxes)
        return thin, len(boxes), sum(max(box.width, box.height) for box in boxes)

    return min(_rows(region), list(slabs(region)), _longest_first(region), key=worth)


def _longest_first(region: Polygon) -> list[Box]:
    """Cut the longest strip that fits out of what is left, again and again."""
    xs = sorted({x for ring in region.rings for x, _ in ring})
    ys = sorted({y for ring in region.rings for _, y in ring})
    left = {
        (i, j)
        for box in slabs(region)
        for i in range(bisect_left(xs, box.x0), bisect_left(xs, box.x1))
        for j in range(bisect_left(ys, box.y0), bisect_left(ys, box.y1))
    }
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


GapCell = tuple[int, int]
DamStrip = tuple[int, int, int, int]


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


def _rings(panels: Sequence[Placement], dam: int) -> tuple[Polygon, ...]:
    strips = [
        polygon_of(strip.moved(panel.x, panel.y))
        for panel in panels
        for strip in ring_strips(panel.width, panel.height, panel.sides, dam)
    ]
    return subtract(strips, [])


def _rows(polygon: Polygon) -> list[Box]:
    return [Box(y0, x0, y1, x1) for x0, y0, x1, y1 in slabs(turn_over(polygon))]


def _dam(name: str, box: Box, ornaments: Pieces, zones: Sequence[tuple[str, Pieces]]) -> Dam:
    inside = tuple(zone for zone, pieces in zones if (square_distances(pieces, box) < 0).any())
    clearance = int(square_distances(ornaments, box).min()) if len(ornaments) else None
    return Dam(name, box.x0, box.y0, box.width, box.height, inside, clearance)


def account(liner: Liner, placements: Iterable[Placement], dams: Iterable[Dam]) -> Areas:
    """Return the area account of one cast.

    Liner = panels + dams + masked, in whole square steps. Panels and dams must be disjoint and lie
    on the liner; what they leave is masked. Without any, the whole liner is masked. A liner with
    slanted sides may end in half a square step. The account then takes the whole square steps
    below, so the half is missing from the masked area and from nothing else
    (a hundred-millionth of a square millimetre).

    Raises
    ------
    ValueError
        Where panels and dams cover more than the liner has.
    """
    whole = liner.outline.area
    panels = sum(placement.width * placement.height for placement in placements)
    strips = sum(dam.width * dam.height for dam in dams)
    if panels + strips > whole:
        raise ValueError("panels and dams cover more than the liner: they overlap or lie off it")
    return Areas(whole, panels, strips, whole - panels - strips)
