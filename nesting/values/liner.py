"""The liner: its outline, its ornaments and its detail-free zones, what dams keep off."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from nesting.shapes.geometry import Box, Polygon, Ring
from nesting.shapes.rounded import round_around

Unmarked = Literal["detail", "blank"]
OnPanel = Literal["boss", "hollow", ""]


@dataclass(frozen=True, slots=True)
class Ornament:
    """A relief motif; every panel holds it whole or leaves it out whole.

    ``relief`` is how far it stands out of, or sinks into, the ground [steps]. ``on_panel`` says
    what it is there: a boss on the panel is a hollow in the liner; empty where it is not stated.
    ``fill`` is its mean relief over its outline as a share of ``relief``.
    """

    name: str
    outline: Polygon
    relief: int = 0
    on_panel: OnPanel = ""
    fill: Fraction = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class BlankZone:
    """Ground marked free of detail, where a dam may lie."""

    name: str
    outline: Polygon


@dataclass(frozen=True, slots=True)
class KeepClear:
    """A place no dam may come nearer to than ``distance`` [steps]: a lifting point, a splice.

    It is a rectangle, or a point: a ``place`` without width and height. Panels may lie over it.
    """

    name: str
    place: Box
    distance: int

    @property
    def ground(self) -> Ring:
        """The rim of the ground no dam may meet, at round corners up to 0.02 mm too far out."""
        return round_around(self.place, self.distance)


@dataclass(frozen=True, slots=True)
class Liner:
    """The flexible relief mat, in flat coordinates from its datum corner [steps].

    ``unmarked`` says whether ground that is neither ornament nor blank zone is detail, where no dam
    may lie, or blank, where one may.
    """

    name: str
    outline: Polygon
    thickness: int
    unmarked: Unmarked = "detail"
    ornaments: tuple[Ornament, ...] = ()
    zones: tuple[BlankZone, ...] = ()
    keep_clear: tuple[KeepClear, ...] = ()
