"""What stands in the way of a panel at one place, in the shop's words."""

from nesting.maps.bans import Kind, list_bans
from nesting.maps.ground import Ground
from nesting.shapes.convex import Pieces, square_distances
from nesting.shapes.geometry import Box
from nesting.values.casts import Sides

SIDE_WORDS = ("left", "right", "bottom", "top")
_NO_DAMS = Sides("edge", "edge", "edge", "edge")


def list_blockers(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    """Return what a panel at that place would cut, crowd or leave; empty where it may lie there.

    Ornaments come first, in the liner's order, then dams without blank ground, then places that
    dams keep off, then the rim.
    """
    beyond = any(_meets(ground.off_liner, strip) for strip in _strips("off_liner", ground, panel))
    return [
        *_ornaments(ground, panel, sides),
        *_dams(ground, panel, sides),
        *_keep_clear(ground, panel, sides),
        *["it would reach beyond the liner"] * beyond,
    ]


def _strips(kind: Kind, ground: Ground, panel: Box, sides: Sides = _NO_DAMS) -> list[Box]:
    """Return the strips around a panel at its place that no obstacle of the kind may meet."""
    bans = list_bans(panel.width, panel.height, sides, ground.rules)
    return [strip.moved(panel.x0, panel.y0) for its, strip in bans if its == kind]


def _ornaments(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    strips = _strips("ornament", ground, panel, sides)
    found = []
    for ornament, pieces in zip(ground.liner.ornaments, ground.ornaments, strict=True):
        box = ornament.outline.bounds
        if any(strip.overlaps(box) and _meets(pieces, strip) for strip in strips):
            cut = _meets(pieces, panel) and not panel.contains(box)
            found.append(f"it would {'cut' if cut else 'crowd'} ornament {ornament.name!r}")
    return found


def _dams(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    all_blank = ground.liner.unmarked == "blank"
    return [
        f"its {word} dam would reach beyond the liner" if all_blank else off_blank(word)
        for number, word in enumerate(SIDE_WORDS)
        if (strip := _dam_strip(ground, panel, sides, number)) and _meets(ground.no_dam, strip)
    ]


def _keep_clear(ground: Ground, panel: Box, sides: Sides) -> list[str]:
    strips = _strips("keep_clear", ground, panel, sides)
    return [
        f"a dam would come too near to {each.name!r}"
        for each, pieces in zip(ground.liner.keep_clear, ground.keep_clear, strict=True)
        if any(_meets(pieces, strip) for strip in strips)
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
    (strip,) = _strips("no_dam", ground, panel, alone)
    return strip


def _meets(pieces: Pieces, box: Box) -> bool:
    return bool(len(pieces)) and bool((square_distances(pieces, box) < 0).any())
