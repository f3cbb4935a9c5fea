"""What makes the edges of the region of sizes: the rims, zones and ornaments that stop a panel.

A size at an edge has no room to grow, or to shrink, along one axis: something stops each of its
two sides. Looked at is a place of the size in the middle of the edge.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from nesting.maps.bans import reach_of
from nesting.maps.ground import Ground
from nesting.maps.positions import map_positions
from nesting.shapes.convex import Pieces, Run
from nesting.shapes.geometry import Box, Polygon, edges
from nesting.values.casts import Side

_LEAST_SHARE = 60
EDGE_MARGIN = "the edge margin"
"""The cause of the least sizes: a panel is at least as wide and as high as its edge margin."""


@dataclass(frozen=True, slots=True)
class Ledge:
    """A straight edge of the region: at one width over a run of heights, or the other way round.

    ``axis`` is what is constant, ``at`` its value and ``span`` the run of the other [steps].
    ``is_most`` says that no larger size lies beyond; otherwise no smaller one does. ``cause`` names
    what stops the left and the right side, or the bottom and the top; '' where the place looked at
    does not show it.
    """

    axis: str
    at: int
    span: Run
    is_most: bool
    cause: str = ""

    def scaled(self, width: Callable[[int], int], height: Callable[[int], int]) -> Ledge:
        """Return the ledge with its lengths converted along each axis."""
        along, across = (width, height) if self.axis == "width" else (height, width)
        return replace(self, at=along(self.at), span=(across(self.span[0]), across(self.span[1])))


def name_ledges(
    ground: Ground, outline: Sequence[Polygon], lines: Sequence[Box]
) -> tuple[Ledge, ...]:
    """Return the longer edges of the outline, and the lines, with what causes them.

    Left out are edges shorter than one sixtieth of the liner along their direction. Widths come
    first, each axis in order. ``ground`` is made of rectangles.
    """
    found = [ledge for polygon in outline for ring in polygon.rings for ledge in _edges(ring)]
    found += [_of_line(line) for line in lines]
    least = {"width": ground.frame.height, "height": ground.frame.width}
    long = {
        ledge
        for ledge in found
        if (ledge.span[1] - ledge.span[0]) * _LEAST_SHARE >= least[ledge.axis]
    }
    order = sorted(
        long, key=lambda ledge: (ledge.axis != "width", ledge.at, ledge.span, ledge.is_most)
    )
    return tuple(_named(ground, ledge) for ledge in order)


def _edges(ring: Sequence[tuple[int, int]]) -> list[Ledge]:
    """Return the edges of a ring that has its inside on the left."""
    found: list[Ledge] = []
    for (x0, y0), (x1, y1) in edges(tuple(ring)):
        if x0 == x1:
            found.append(Ledge("width", x0, (min(y0, y1), max(y0, y1)), y1 > y0))
        else:
            found.append(Ledge("height", y0, (min(x0, x1), max(x0, x1)), x1 < x0))
    return found


def _of_line(line: Box) -> Ledge:
    if line.width:
        return Ledge("height", line.y0, (line.x0, line.x1), True)
    return Ledge("width", line.x0, (line.y0, line.y1), True)


def _named(ground: Ground, ledge: Ledge) -> Ledge:
    if not ledge.is_most and ledge.at == max(1, ground.rules.edge_margin):
        return replace(ledge, cause=EDGE_MARGIN)
    middle = sum(ledge.span) // 2
    size = (ledge.at, middle) if ledge.axis == "width" else (middle, ledge.at)
    axis = 0 if ledge.axis == "width" else 1
    best = ("", "")
    for sheet in map_positions(ground, *size).sheets:
        place = sheet.first_place()
        if place is not None:
            panel = Box(*place, place[0] + size[0], place[1] + size[1])
            near, far = sheet.sides[2 * axis : 2 * axis + 2]
            stops = (
                _stop(ground, panel, near, axis, -1, ledge.is_most),
                _stop(ground, panel, far, axis, 1, ledge.is_most),
            )
            best = max(best, stops, key=lambda names: sum(map(bool, names)))
    return replace(ledge, cause=f"{best[0]} to {best[1]}") if all(best) else ledge


def _stop(ground: Ground, panel: Box, side: Side, axis: int, sign: int, is_most: bool) -> str:
    """Return the name of what one side touches outward, or inward where the size is the least.

    ``sign`` is -1 for the near side and 1 for the far one.
    """
    if side == "edge":
        return "rim"
    rules = ground.rules
    at = panel[axis + 2 if sign > 0 else axis]
    outward = sign if is_most else -sign
    far, beside = reach_of("ornament", rules), reach_of("no_dam", rules)
    ornament, dam = (at + sign * (reach[0] if is_most else -reach[1]) for reach in (far, beside))
    reach, near = panel.grown(*4 * (far[0],)), panel.grown(*4 * (beside[0],))
    for item, pieces in zip(ground.liner.ornaments, ground.ornaments, strict=True):
        if _touches(pieces, reach if is_most else panel, axis, outward, ornament):
            return f"ornament '{item.name}'"
    for place, pieces in zip(ground.liner.keep_clear, ground.keep_clear, strict=True):
        if _touches(pieces, near, axis, outward, dam):
            return f"'{place.name}', kept clear"
    if not _touches(ground.no_dam, near, axis, outward, dam):
        return ""
    return _name_zone(ground, panel, axis, sign, dam, outward)


def _touches(pieces: Pieces, reach: Box, axis: int, outward: int, at: int) -> bool:
    """Whether a piece has its face at ``at``, as seen going outward, within reach across."""
    face = pieces.boxes[:, axis if outward > 0 else axis + 2]
    low, high = pieces.boxes[:, 1 - axis], pieces.boxes[:, 3 - axis]
    across = (low < reach[3 - axis]) & (high > reach[1 - axis])
    return bool(np.any((face == at) & across))


def _name_zone(ground: Ground, panel: Box, axis: int, sign: int, dam: int, outward: int) -> str:
    """Return the zone at whose face the dam stops, else the rim the dam lies along."""
    width = ground.rules.dam_width
    at = panel[axis + 2 if sign > 0 else axis]
    low, high = sorted((at, at + sign * width))
    middle = (panel[1 - axis] + panel[3 - axis]) // 2
    under: list[str] = []
    for zone in ground.liner.zones:
        box = zone.outline.bounds
        holds = box[axis] <= low and high <= box[axis + 2]
        if holds and box[1 - axis] <= middle <= box[3 - axis]:
            if box[axis + 2 if outward > 0 else axis] == dam:
                return f"zone '{zone.name}'"
            under.append(zone.name)
    return f"zone '{under[0]}'" if under else "a dam along the rim"
