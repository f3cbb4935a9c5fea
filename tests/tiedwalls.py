"""Small walls with ties, worked out in the head; lengths in mm."""

import math
from fractions import Fraction

from handjob import MM

from nesting.walls.cladding import Corner, Wall, WallArc, WallRun
from nesting.walls.clearing import Forbidden
from nesting.walls.tierule import TieRule


def tie_rule(spacing=400, rows=3, edge=60, hollow=40, mass=Fraction(0)):
    """Return a rule of ties, lengths in mm."""
    return TieRule(spacing * MM, rows, edge * MM, hollow * MM, mass)


def tied_wall(*parts, ties=None, **changes):
    """Return two skins of the parts: panels 25 mm, cavity 150, 650 mm high, joints 20 mm."""
    values = {
        "title": "Bath house, apse",
        "units": "mm",
        "parts": parts,
        "skins": ("inner", "outer"),
        "cavity": 150 * MM,
        "panel_thickness": 25 * MM,
        "height": 650 * MM,
        "joint": 20 * MM,
        "liner_thickness": 25 * MM,
        "ties": ties or tie_rule(),
    }
    return Wall(**{**values, **changes})


def flat_wall(**changes):
    """Return a run of one panel, 800 x 650, in either skin."""
    return tied_wall(WallRun("A", 800 * MM, "axis", 1), **changes)


def round_wall(degrees=60, radius=3000, toward="inner", panels=3, **changes):
    """Return an arc whose inner face has the radius."""
    arc = WallArc("A", radius * MM, math.radians(degrees), "inner", toward, panels)
    return tied_wall(arc, **changes)


def cornered_wall(**changes):
    """Return two runs about a right angle toward the inner side, without a corner return."""
    first, last = (WallRun(name, 1000 * MM, "axis", 1) for name in "AC")
    return tied_wall(first, Corner("B", math.pi / 2), last, **changes)


def pond(name, x, y, width, height):
    """Return a rectangle of ground where no insert may stand."""
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Forbidden(name, (tuple((round(a * MM), round(b * MM)) for a, b in corners),))


HERON = pond("heron", 300, 200, 220, 400)
"""The ornament of the hand-sized job, on a panel that begins at the liner's datum."""
