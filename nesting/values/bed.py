"""What the liner lies on."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Form = Literal["flat", "convex", "concave"]
Axis = Literal["x", "y"]
AXES: tuple[Axis, Axis] = ("x", "y")
Ends = Literal["square", "plumb"]
NO_SIZE = 0, 0
"""The size of a bed that is not known."""


@dataclass(frozen=True, slots=True)
class Bed:
    """A flat, convex or concave casting bed.

    ``radius`` [steps] is that of the bed's own surface; ``neutral`` the place of the liner's
    neutral surface as a fraction of its thickness from the underside. Both are unused when flat.
    ``size`` [steps] is its arc along the curve, then its straight length, along x and y when flat;
    ``ends`` of panels along the curve are square to the face, or plumb: parallel to each other.
    """

    name: str
    form: Form = "flat"
    radius: int = 0
    curved_axis: Axis = "x"
    neutral: Fraction = Fraction(1, 2)
    size: tuple[int, int] = NO_SIZE
    ends: Ends = "square"
