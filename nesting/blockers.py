"""What stands in the way of a panel at one place, in the shop's words."""

from __future__ import annotations

from nesting.casts import Sides
from nesting.convex import Pieces, square_distances
from nesting.geometry import Box
from nesting.ground import Ground
from nesting.positions import keep_off_strips, ring_strips

_WORDS = ("left", "right", "bottom", "top")


def list_blockers(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    """Return what a panel at that place would cut, crowd or leave; empty where it may lie there.

    Ornaments come first, in the liner's order, then dams without blank ground, then the rim.
    """
    return [
        *_ornaments(ground, panel, sides),
        *_dams(ground, panel, sides),
        *["it would reach beyond the liner"] * _meets(ground.off_liner, panel),
    ]


def _ornaments(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    strips = [
        strip.moved(panel.x0, panel.y0)
        for strip in keep_off_strips(panel.width, panel.height, sides, ground.rules)
    ]
    found = []
    for ornament, pieces in zip(ground.liner.ornaments, ground.ornaments, strict=True):
        if any(_meets(pieces, strip) for strip in strips):
            inside = _meets(pieces, panel)
            cut = inside and not panel.contains(ornament.outline.bounds)
            found.append(f"it would {'cut' if cut else 'crowd'} ornament {ornament.name!r}")
    return found


def _dams(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    found = []
    for number, word in enumerate(_WORDS):
        alone = Sides(*("dam" if k == number == number_of(sides, k) else "edge" for k in range(4)))
        strips = ring_strips(panel.width, panel.height, alone, ground.rules.dam_width)
        if any(_meets(ground.no_dam, strip.moved(panel.x0, panel.y0)) for strip in strips):
            found.append(f"its {word} dam would lie on ground that is not blank")
    return found


def number_of(sides: Sides, k: int) -> int:
    """Return k where side number k has a dam, and -1 where it lies on the rim."""
    return k if sides[k] == "dam" else -1


def _meets(pieces: Pieces, box: Box) -> bool:
    return bool(len(pieces)) and bool((square_distances(pieces, box) < 0).any())
