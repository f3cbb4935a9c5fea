"""What units are called, once: in reports, on drawings, in packets and in messages."""

from dataclasses import dataclass

from nesting.units import STEPS_PER_INCH, STEPS_PER_MM


@dataclass(frozen=True, slots=True)
class UnitWords:
    """The words of a file that measures in mm, or in inches.

    ``lengths`` are those of running text, ``figures`` those beside figures. Of ``area`` and
    ``small_area`` the unit and how many square steps it has.
    """

    lengths: str
    figures: str
    area: tuple[str, int]
    small_area: tuple[str, int]
    volume: str
    mass: str
    density: str


WORDS = {
    "mm": UnitWords(
        "millimetres",
        "mm",
        ("m2", (1000 * STEPS_PER_MM) ** 2),
        ("cm2", (10 * STEPS_PER_MM) ** 2),
        "litres",
        "kg",
        "kg/m3",
    ),
    "in": UnitWords(
        "inches",
        "inches",
        ("ft2", (12 * STEPS_PER_INCH) ** 2),
        ("in2", STEPS_PER_INCH**2),
        "ft3",
        "lb",
        "lb/ft3",
    ),
}
"""The words by the units of a file."""
