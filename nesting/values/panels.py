"""One size in the order."""

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from nesting.values.shopdays import NO_DUE

MeasuredOn = Literal["face", "back", "chord"]
Turn = Literal["none", "half"]
Size = tuple[int, int]
"""Width along x and height along y [steps]."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A panel as ordered: width along x and height along y [steps], before any bed is considered.

    ``tolerance`` (low, high) [steps] is used only where the nominal size has no place on the
    liner. It holds for width and height, unless ``tolerance_height`` gives the height limits of its
    own, as a named ``tolerance_class`` may. ``thickness`` [steps] is the panel's own, needed where
    ``measured_on`` is ``back``. ``due`` is the last day to demould one without being late.
    ``in_feet`` tells for width and height whether the order states them in feet and inches.
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
    tolerance_height: tuple[int, int] | None = None
    tolerance_class: str = ""
    due: date = NO_DUE
    in_feet: tuple[bool, bool] = field(default=(False, False), compare=False)

    @property
    def limits(self) -> tuple[tuple[int, int], tuple[int, int]]:
        """By how much width, then height may differ: (low, high) [steps] for each."""
        return self.tolerance, self.tolerance_height or self.tolerance
