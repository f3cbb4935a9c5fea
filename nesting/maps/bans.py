"""The keep-off rule: which strip of a panel no obstacle of which kind may meet.

The search has it from here alone; the checker states its own. Strips are open rectangles around a
panel whose lower left corner is at (0, 0), obstacles are open pieces: touching is allowed.
"""

from collections.abc import Collection
from functools import lru_cache
from typing import Literal, NamedTuple

from nesting.maps.ground import Ground
from nesting.shapes.convex import Pieces, joined
from nesting.shapes.geometry import Box
from nesting.values.casts import Sides
from nesting.values.job import Rules

Kind = Literal["ornament", "no_dam", "keep_clear", "off_liner", "hidden"]
"""What an obstacle is: ornament, ground no dam may touch, ground too near to a place that dams keep
off, ground no panel may touch, ornament to be left out."""

OPEN_SIZE = 2**40
"""Stands for a size that is not known; far beyond any liner."""

_OPEN = OPEN_SIZE, OPEN_SIZE
_ALL_DAMS = Sides("dam", "dam", "dam", "dam")


class Ban(NamedTuple):
    """No obstacle of that kind may meet that strip [steps]."""

    kind: Kind
    strip: Box


def list_bans(width: int, height: int, sides: Sides, rules: Rules) -> list[Ban]:
    """Return all that a panel of flat ``width`` x ``height`` [steps] with those sides keeps off."""
    ring, body = ring_strips(width, height, sides, rules.dam_width), Box(0, 0, width, height)
    return [
        *(Ban("ornament", strip) for strip in keep_off_strips(width, height, sides, rules)),
        *(Ban("no_dam", strip) for strip in ring),
        *(Ban("keep_clear", strip) for strip in ring),
        Ban("off_liner", body),
        Ban("hidden", body),
    ]


def list_obstacles(ground: Ground, hidden: Collection[int] = ()) -> dict[Kind, Pieces]:
    """Return the obstacles of each kind; ``hidden`` are the ornaments to be left out, by index."""
    return {
        "ornament": joined(ground.ornaments),
        "no_dam": ground.no_dam,
        "keep_clear": joined(ground.keep_clear),
        "off_liner": ground.off_liner,
        "hidden": joined([ground.ornaments[index] for index in sorted(hidden)]),
    }


@lru_cache(maxsize=64)
def reach_of(kind: Kind, rules: Rules) -> tuple[int, int]:
    """Return how near to a dam side such an obstacle may lie: beyond it, and inside the panel.

    >>> reach_of("ornament", Rules(25, 6, 12, 1)), reach_of("no_dam", Rules(25, 6, 12, 1))
    ((31, 12), (25, 0))
    """
    strips = [strip for its, strip in list_bans(*_OPEN, _ALL_DAMS, rules) if its == kind]
    x0, _, x1, _ = min(strip for strip in strips if strip.y0 <= 0 and strip.y1 >= OPEN_SIZE)
    return -x0, x1


def ring_strips(width: int, height: int, sides: Sides, dam: int) -> list[Box]:
    """Return the dam ring around a panel at (0, 0) as disjoint rectangles, corners included.

    >>> for strip in ring_strips(100, 80, Sides("edge", "dam", "edge", "dam"), 25):
    ...     print(tuple(strip))
    (100, 0, 125, 105)
    (0, 80, 100, 105)
    """
    left, right, bottom, top = sides.widths(dam)
    strips = [
        Box(-left, -bottom, 0, height + top),
        Box(width, -bottom, width + right, height + top),
        Box(0, -bottom, width, 0),
        Box(0, height, width, height + top),
    ]
    return [strip for strip in strips if strip.area]


def keep_off_strips(width: int, height: int, sides: Sides, rules: Rules) -> list[Box]:
    """Return what no ornament may meet around a panel at (0, 0), as rectangles.

    Outside the panel that is the dam ring grown by the clearance, with square corners (rule 4);
    inside, the edge margin along dam sides (rule 5).
    """
    panel = Box(0, 0, width, height)
    grown = [
        strip.grown(*4 * (rules.dam_clearance,))
        for strip in ring_strips(width, height, sides, rules.dam_width)
    ]
    outside = {part for strip in grown for part in _outside(strip, panel)}
    margins = {strip for strip in _margins(panel, sides, rules.edge_margin) if strip.area}
    if all(side == "dam" for side in sides):
        return sorted(_reach_in(strip, panel, rules.edge_margin) for strip in _largest(outside))
    return sorted(_largest(outside) | margins)


def _reach_in(strip: Box, panel: Box, margin: int) -> Box:
    """Return an outer strip drawn in over the edge margin: one rectangle for both."""
    across, up = min(margin, panel.width), min(margin, panel.height)
    if strip.x1 == 0:
        return strip.grown(0, 0, across, 0)
    if strip.x0 == panel.width:
        return strip.grown(across, 0, 0, 0)
    return strip.grown(0, 0, 0, up) if strip.y1 == 0 else strip.grown(0, up, 0, 0)


def _outside(strip: Box, panel: Box) -> list[Box]:
    """Return the parts of a strip beyond each side of the panel; together all of it outside."""
    x0, y0, x1, y1 = strip
    parts = [
        Box(x0, y0, min(x1, panel.x0), y1),
        Box(max(x0, panel.x1), y0, x1, y1),
        Box(x0, y0, x1, min(y1, panel.y0)),
        Box(x0, max(y0, panel.y1), x1, y1),
    ]
    return [part for part in parts if part.x0 < part.x1 and part.y0 < part.y1]


def _largest(boxes: set[Box]) -> set[Box]:
    """Drop boxes that lie inside another."""
    return {box for box in boxes if not any(o != box and o.contains(box) for o in boxes)}


def _margins(panel: Box, sides: Sides, margin: int) -> list[Box]:
    across, up = min(margin, panel.width), min(margin, panel.height)
    strips = (
        Box(0, 0, across, panel.height),
        Box(panel.width - across, 0, panel.width, panel.height),
        Box(0, 0, panel.width, up),
        Box(0, panel.height - up, panel.width, panel.height),
    )
    return [strip for strip, side in zip(strips, sides, strict=True) if side == "dam"]
