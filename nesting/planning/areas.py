"""The area account: liner = panels + dams + masked, in whole square steps.

A liner with slanted sides may end in half a square step. The account then takes the whole square
steps below, so the half is missing from the masked area and from nothing else
(a hundred-millionth of a square millimetre).
"""

from __future__ import annotations

from collections.abc import Iterable

from nesting.values.casts import Areas, Dam, Placement
from nesting.values.liner import Liner


def account(liner: Liner, placements: Iterable[Placement], dams: Iterable[Dam]) -> Areas:
    """Return the area account of one cast.

    Panels and dams must be disjoint and lie on the liner; what they leave is masked. Without any,
    the whole liner is masked.

    Raises
    ------
    ValueError
        Where panels and dams cover more than the liner has.
    """
    whole = liner.outline.area
    panels = sum(placement.width * placement.height for placement in placements)
    strips = sum(dam.width * dam.height for dam in dams)
    if panels + strips > whole:
        raise ValueError("panels and dams cover more than the liner: they overlap or lie off it")
    return Areas(whole, panels, strips, whole - panels - strips)
