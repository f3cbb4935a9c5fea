"""What the shop says of the ties between two skins: how far apart, in how many rows, how near."""

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class TieRule:
    """Ties stand at most ``spacing`` apart along the back, in ``rows`` up each panel [steps].

    The middle of an insert keeps ``edge_distance`` from the panel's edges and ``hollow_distance``
    from hollows that leave too little thickness. ``mass`` [kg] is that of a tie with both its
    inserts, 0 where it is not told.
    """

    spacing: int
    rows: int
    edge_distance: int
    hollow_distance: int
    mass: Fraction = Fraction(0)
