"""The area account: liner = panels + dams + masked, in whole square steps, and its totals.

A liner with slanted sides may end in half a square step. The account then takes the whole square
steps below, so the half is missing from the masked area and from nothing else
(a hundred-millionth of a square millimetre).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from nesting.values.casts import Areas, Dam, Placement, Schedule
from nesting.values.liner import Liner


@dataclass(frozen=True, slots=True)
class Totals:
    """What all casts of a schedule come to: panels by mark, and areas [square steps]."""

    casts: int
    panels: tuple[tuple[str, int], ...]
    liner_area: int
    panel_area: int
    idle_area: int

    @property
    def idle_share(self) -> float:
        """Idle area over liner area; 0 where nothing is cast."""
        return self.idle_area / self.liner_area if self.liner_area else 0.0


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


def totals(schedule: Schedule) -> Totals:
    """Return the totals over all casts; marks in order of first appearance."""
    layouts = schedule.layouts
    return Totals(
        schedule.casts,
        tuple(schedule.panels.items()),
        sum(layout.repeats * layout.areas.liner for layout in layouts),
        sum(layout.repeats * layout.areas.panels for layout in layouts),
        sum(layout.repeats * layout.areas.idle for layout in layouts),
    )
