"""A liner with everything that is awkward to write: odd steps, a hole, letters of other scripts."""

from fractions import Fraction

from handjob import rect

from nesting.shapes.geometry import Polygon
from nesting.values.liner import BlankZone, Liner, Ornament

LEAF = Polygon(((2_000_003, 2_000_000), (4_000_000, 2_000_005), (3_000_000, 3_333_333)))
ODD = Liner(
    "Röhricht (links)",
    Polygon(rect(0, 0, 1200.5, 800.125).shell, (rect(700, 500, 40, 30).shell,)),
    104_001,
    "blank",
    (
        Ornament("héron", LEAF, 72_000, "boss", Fraction(3, 5)),
        Ornament("reed 1", rect(10, 10, 5, 80)),
    ),
    (BlankZone("nord 北", rect(0, 690, 1200, 60)),),
)
