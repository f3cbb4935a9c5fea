"""How every style of the drawing record looks, in SVG and in PDF alike.

Every style reads in black and white: weight, dash and hatch carry the meaning, colour only helps.
On a full-size template lines are thin and nothing is filled, since a line is traced along its
middle and ink costs.
"""

from dataclasses import dataclass
from typing import Literal

from nesting.drawings.record import AreaStyle, LineStyle

INK = "#1a1a1a"
_WATER, _MOSS, _CLAY, _GREY = "#27506e", "#2f6b4f", "#8a5a2b", "#555555"


@dataclass(frozen=True, slots=True)
class Look:
    """Fill and stroke: colours as ``#rrggbb``, '' for none; width and dashes in mm of the sheet."""

    fill: str = ""
    opacity: float = 1.0
    stroke: str = ""
    width: float = 0.0
    dash: tuple[float, ...] = ()
    cap: Literal["butt", "round"] = "butt"
    join: Literal["miter", "round"] = "miter"


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines at 45 degrees, rising to the right: their pitch and width [mm]."""

    pitch: float
    width: float
    ink: str


MASKED = Hatch(2.6, 0.3, _GREY)
"""How masked ground is hatched; its outline is not drawn."""

HATCHED: tuple[AreaStyle, ...] = ("masked", "untried")
"""The areas that are hatched so; sizes nobody tried are as barred as masked ground."""

AREAS: dict[AreaStyle, Look] = {
    "paper": Look("#ffffff"),
    "liner": Look("#ffffff"),
    "zone": Look("#f6ead8"),
    "panel": Look("#e6f2ea", 0.75),
    "dam": Look(INK, stroke=INK, width=0.2),
    "ornament": Look(stroke=_WATER, width=0.6, join="round"),
    "plate": Look("#ffffff", 0.9),
    "tag": Look("#ffffff", stroke=INK, width=0.25),
    "datum": Look(INK),
    "bar": Look(INK, stroke=INK, width=0.25),
    "gap": Look("#ffffff", stroke=INK, width=0.25),
    "skin": Look(INK),
    "place": Look(_CLAY, 0.35),
    "tile": Look(INK),
    "left_out": Look("#c8c8c8"),
    "kept": Look("#ffffff", stroke=INK, width=0.2),
    "dams_0": Look("#5f8fb0", stroke=INK, width=0.3, join="round"),
    "dams_1": Look("#86afc9", stroke=INK, width=0.3, join="round"),
    "dams_2": Look("#b4d0df", stroke=INK, width=0.3, join="round"),
    "dams_3": Look("#dbe8ee", stroke=INK, width=0.3, join="round"),
    "dams_4": Look("#f5f0e2", stroke=INK, width=0.3, join="round"),
    "closed": Look("#e4e4e4"),
    "tint_1": Look("#e6f2ea"),
    "tint_2": Look("#f6ead8"),
    "tint_3": Look("#e2ecf5"),
    "tint_4": Look("#f6e4e4"),
    "tint_5": Look("#efe8f5"),
    "tint_6": Look("#f7f4d4"),
    "sunk": Look("#b9cfe0"),
    "low": Look("#d9d9d9"),
    "middle": Look("#bdbdbd"),
    "high": Look("#9a9a9a"),
    "plain": Look("#f0d9b5", 0.35),
    "old_dam": Look("#d2d2d2"),
    "staying_dam": Look("#8f8f8f", stroke=INK, width=0.2),
    "arrow": Look(_CLAY),
}
"""The look of each area that is not hatched."""

LINES: dict[LineStyle, Look] = {
    "ignored": Look(stroke="#b03a1e", width=0.4, dash=(2.4, 0.8, 0.4, 0.8)),
    "frame": Look(stroke=INK, width=0.7),
    "rule": Look(stroke=INK, width=0.25),
    "rim": Look(stroke=INK, width=0.6),
    "edge_side": Look(stroke=_MOSS, width=1.1, dash=(3.2, 1.6)),
    "meeting": Look(stroke="#ffffff", width=0.5),
    "zone": Look(stroke=_CLAY, width=0.3, dash=(0.3, 1.2), cap="round"),
    "witness": Look(stroke=_GREY, width=0.18, dash=(1.5, 0.8)),
    "leader": Look(stroke=INK, width=0.25),
    "place": Look(stroke=_CLAY, width=0.7, cap="round"),
    "trace": Look(stroke=INK, width=0.35),
    "strip": Look(stroke=INK, width=0.25),
    "ghost": Look(stroke="#808080", width=0.2),
    "join": Look(stroke=INK, width=0.15, dash=(4.0, 2.0)),
    "limit": Look(stroke="#808080", width=0.12),
    "cross": Look(stroke=INK, width=0.15),
    "only": Look(stroke=INK, width=1.1),
    "untried": Look(stroke=INK, width=0.8, dash=(1.0, 1.0)),
    "hatch": Look(stroke=_GREY, width=0.2),
    "keep_clear": Look(stroke="#b03a1e", width=0.35, dash=(1.2, 1.0)),
    "old_dam": Look(stroke=_GREY, width=0.25, dash=(1.0, 0.6)),
    "move": Look(stroke=_CLAY, width=0.7),
}
"""The look of each line, which is never filled."""
