"""What stands in the way of a panel at one place, in the shop's words."""

from __future__ import annotations

import numpy as np

from nesting.maps.ground import Ground
from nesting.maps.positions import keep_off_strips, ring_strips
from nesting.shapes.convex import Pieces, joined, square_distances
from nesting.shapes.geometry import Box
from nesting.values.casts import Sides

SIDE_WORDS = ("left", "right", "bottom", "top")


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
    owners = np.repeat(np.arange(len(ground.ornaments)), [len(each) for each in ground.ornaments])
    pieces = joined(ground.ornaments)
    met = [owners[square_distances(pieces, strip) < 0] for strip in strips if len(pieces)]
    found = []
    for index in np.unique(np.concatenate([owners[:0], *met])).tolist():
        ornament = ground.liner.ornaments[index]
        inside = _meets(ground.ornaments[index], panel)
        cut = inside and not panel.contains(ornament.outline.bounds)
        found.append(f"it would {'cut' if cut else 'crowd'} ornament {ornament.name!r}")
    return found


def _dams(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    all_blank = ground.liner.unmarked == "blank"
    return [
        f"its {word} dam would reach beyond the liner" if all_blank else off_blank(word)
        for number, word in enumerate(SIDE_WORDS)
        if (strip := _dam_strip(ground, panel, sides, number)) and _meets(ground.no_dam, strip)
    ]


def off_blank(side: str) -> str:
    """Return the words for a dam that finds no blank ground."""
    return f"its {side} dam would lie on ground that is not blank"


def find_zone(ground: Ground, panel: Box, sides: Sides, number: int) -> str:
    """Return the name of the blank zone that most of one side's dam lies along, or ''."""
    strip = _dam_strip(ground, panel, sides, number)
    if strip is None:
        return ""
    best, name = max(strip.width, strip.height) // 2, ""
    for zone in ground.liner.zones:
        box = zone.outline.bounds
        across = min(strip.x1, box.x1) - max(strip.x0, box.x0)
        up = min(strip.y1, box.y1) - max(strip.y0, box.y0)
        if min(across, up) > 0 and max(across, up) > best:
            best, name = max(across, up), zone.name
    return name


def _dam_strip(ground: Ground, panel: Box, sides: Sides, number: int) -> Box | None:
    """Return the dam of one side without its corners, None on an edge side."""
    if sides[number] != "dam":
        return None
    alone = Sides(*("dam" if k == number else "edge" for k in range(4)))
    (strip,) = ring_strips(panel.width, panel.height, alone, ground.rules.dam_width)
    return strip.moved(panel.x0, panel.y0)


def _meets(pieces: Pieces, box: Box) -> bool:
    return bool(len(pieces)) and bool((square_distances(pieces, box) < 0).any())
