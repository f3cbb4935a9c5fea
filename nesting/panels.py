"""One size in the order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

MeasuredOn = Literal["face", "back", "chord"]
Turn = Literal["none", "half"]


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel as ordered: width along x and height along y [steps], before any bed is considered.

    ``tolerance`` (low, high) [steps] is used only where the nominal size has no place on the
    liner. ``thickness`` [steps] is the panel's own, needed where ``measured_on`` is ``back``.
    """

    mark: str
    width: int
    height: int
    quantity: int
    bed: str
    measured_on: MeasuredOn = "face"
    turn: Turn = "none"
    tolerance: tuple[int, int] = (0, 0)
    thickness: int = 0
    must_show: tuple[str, ...] = ()
    must_hide: tuple[str, ...] = ()
