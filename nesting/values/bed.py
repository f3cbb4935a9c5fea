"""What the liner lies on."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Form = Literal["flat", "convex", "concave"]
Axis = Literal["x", "y"]
AXES: tuple[Axis, Axis] = ("x", "y")


@dataclass(frozen=True, slots=True)
class Bed:
    """A flat, convex or concave casting bed.

    ``radius`` [steps] is that of the bed's own surface; ``neutral`` the place of the liner's
    neutral surface as a fraction of its thickness from the underside. Both are unused when flat.
    """

    name: str
    form: Form = "flat"
    radius: int = 0
    curved_axis: Axis = "x"
    neutral: Fraction = Fraction(1, 2)
