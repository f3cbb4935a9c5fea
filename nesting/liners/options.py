"""What a person may say about how a drawing is read."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.shapes.pieces import ROLES, Role
from nesting.units import MM_PER_UNIT, STEPS_PER_MM
from nesting.values.liner import Unmarked

DRAWING_UNITS: dict[str, Fraction] = {
    **MM_PER_UNIT,
    "ft": 12 * MM_PER_UNIT["in"],
    "pt": MM_PER_UNIT["in"] / 72,
    "px": MM_PER_UNIT["in"] / 96,  # W3C, CSS Values and Units 3, Absolute Lengths
}
"""Units a drawing may be in, and how many mm each one is."""


@dataclass(frozen=True, slots=True)
class DrawingOptions:
    """How a drawing is read; all lengths [steps].

    Parameters
    ----------
    units
        The unit of the drawing, whatever the file says; None to go by the file.
    layers
        The names that stand for each role, in lower case.
    gap
        The widest gap between two ends that is closed.
    chord_error
        The most by which a polygon may lie off its curve.
    thickness
        The liner's; None where the drawing must tell it.
    name
        The liner's; empty to go by the drawing.
    unmarked
        What ground without a mark is; None to go by the drawing, else detail.
    keep_origin
        Whether positions are counted from the drawing's origin, not from the outline's corner.
    lenient
        Whether what cannot be read or closed is left out.
    """

    units: str | None = None
    layers: Mapping[Role, frozenset[str]] = field(
        default_factory=lambda: {role: frozenset({role}) for role in ROLES}
    )
    gap: int = STEPS_PER_MM // 10
    chord_error: int = STEPS_PER_MM // 20
    thickness: int | None = None
    name: str = ""
    unmarked: Unmarked | None = None
    keep_origin: bool = False
    lenient: bool = False

    def role_of(self, name: str) -> Role | None:
        """Return the role a layer of that name has, whatever its capitals."""
        key = name.strip().casefold()
        return next((role for role in ROLES if key in self.layers[role]), None)


def read_layers(given: tuple[str, ...]) -> dict[Role, frozenset[str]]:
    """Return the layer names of each role from texts like ``outline=RIM,ornament=RELIEF``.

    A role that is given goes by the given names only; one that is not goes by its own.

    >>> sorted(read_layers(("outline=RIM,ornament=A", "ornament=B"))["ornament"])
    ['a', 'b']
    """
    named: dict[Role, set[str]] = {}
    for part in (part for text in given for part in text.split(",")):
        word, sign, name = part.partition("=")
        role = next((role for role in ROLES if role == word.strip().casefold()), None)
        if role is None or not sign or not name.strip():
            remedy = f"write ROLE=NAME with a role of {', '.join(ROLES)}"
            raise InputError("--layer", "must name a role and a layer", shown(part), remedy)
        named.setdefault(role, set()).add(name.strip().casefold())
    layers = {role: frozenset(named.get(role, {role})) for role in ROLES}
    for role in ROLES:
        for other in ROLES[: ROLES.index(role)]:
            for name in sorted(layers[role] & layers[other]):
                rule = "a layer has one role only"
                raise InputError("--layer", rule, f"{shown(name)} for {other} and {role}")
    return layers
