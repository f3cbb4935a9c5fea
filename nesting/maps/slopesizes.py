"""Which size of a panel fits between slopes, where stops of its sides are not finitely many.

As `sizes` chooses it on stepped ground: the nominal size wherever it has a place, else the
nearest one within the tolerance.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

from nesting.maps.ground import Ground
from nesting.maps.positions import map_positions
from nesting.maps.sizehunt import Hunted, HuntingGround, find_row, hunt_size
from nesting.maps.sizes import Size, wish_of
from nesting.planning.beds import flat_range, flat_size, off_nominal
from nesting.values.bed import Bed
from nesting.values.castsizes import NO_SHRINK
from nesting.values.panels import Panel


def choose_on_slopes(
    ground: Ground, panel: Panel, bed: Bed, ready: HuntingGround, shrink: Fraction = NO_SHRINK
) -> tuple[Size, int] | None:
    """Return the size to use and the y of one place, None where it has none within tolerance.

    ``ready`` is the ground made ready for the panel's wish. A size other than the nominal one is
    the nearest to within `sizehunt.TOLERANCE`.
    """
    wish = wish_of(ground, panel)
    thickness = ground.liner.thickness
    nominal = flat_size(panel, bed, thickness, shrink)
    row = find_row(ready, nominal)
    if row is not None:
        return Size(panel, map_positions(ground, *nominal, wish), wish), row
    across, up = flat_range(panel, bed, thickness, shrink)
    found: list[Hunted] = []
    for wide, high in product((-1, 1), repeat=2):
        reach = abs(across[wide > 0] - nominal[0]), abs(up[high > 0] - nominal[1])
        if any(reach):
            found.append(hunt_size(ready, nominal, (wide, high), reach=reach))
    sizes = [(each.size, each.y) for each in found if each.size is not None]
    if not sizes:
        return None

    def change(size: tuple[int, int]) -> tuple[int, int]:
        by = [abs(a - b) for a, b in zip(size, nominal, strict=True)]
        return max(by), sum(by)

    size, row = min(sizes, key=lambda each: (change(each[0]), each))
    off = off_nominal(panel, bed, thickness, *size, shrink)
    return Size(panel, map_positions(ground, *size, wish), wish, off), row
