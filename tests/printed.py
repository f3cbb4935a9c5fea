"""A figure from outside the project beside our own, as tests and docs/validation.md need it."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from nesting.units import decimal_text

LAST_PLACE = "half a unit of the last place printed"


@dataclass(frozen=True)
class Figure:
    """What a source prints for a case, and how ours comes about.

    ``printed`` stands as in the source, in the unit that ``case`` names; ``ours`` works out ours in
    the same unit. The two may differ by ``within``, and ``why`` says why by so much.
    """

    source: str
    case: str
    printed: str
    ours: Callable[[], Fraction | float]
    within: str = "0"
    why: str = "exact"

    def off(self) -> Fraction:
        """Return by how much ours differs from the printed figure."""
        return abs(Fraction(self.ours()) - sum(map(Fraction, self.printed.split())))

    def ours_text(self) -> str:
        """Return ours to seven digits, or in full where it is exact."""
        value = self.ours()
        if isinstance(value, float):
            return f"{value:.7g}"
        return str(value) if "/" in self.printed else decimal_text(Fraction(value), 6)

    def tolerance_text(self) -> str:
        """Return how far the two may be apart, and why."""
        return self.why if self.within == "0" else f"{self.within}: {self.why}"


def chord_of_ordinate(ordinate, radius):
    """Return the chord whose arc stands that high above it at the middle."""
    return 2 * math.sqrt(ordinate * (2 * radius - ordinate))
