"""Pieces of a drawing: curves in turn, with the role they play and where they were found."""

from dataclasses import dataclass
from typing import Literal

from nesting.shapes.curves import Curve, Matrix, Segment, Spot

Role = Literal["outline", "ornament", "blank"]
Units = Literal["mm", "in"]
ROLES: tuple[Role, ...] = ("outline", "ornament", "blank")
"""What a closed curve of a drawing can be."""


_PARTS = 24


@dataclass(frozen=True, slots=True)
class Piece:
    """Curves that follow one another.

    Parameters
    ----------
    role
        What they bound, or help to bound.
    curves
        Each one ends where the next one starts.
    is_closed
        Whether the last one ends where the first one starts.
    where
        How messages name it: kind, layer and line or handle.
    name
        What it was called in the drawing; empty where it has no name.
    group
        Rings with the same group are one shape with holes; empty for a shape of its own.
    is_filled
        Whether an open piece bounds an area closed by a straight line.
    facts
        Keys and values the drawing tells of it: ``thickness``, ``relief``, ``unmarked``.
    """

    role: Role
    curves: tuple[Curve, ...]
    is_closed: bool
    where: str
    name: str = ""
    group: str = ""
    is_filled: bool = False
    facts: tuple[tuple[str, str], ...] = ()

    @property
    def start(self) -> Spot:
        """Where the first curve starts."""
        return self.curves[0].start

    @property
    def end(self) -> Spot:
        """Where the last curve ends."""
        return self.curves[-1].end

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Points along it, enough to show where it lies."""
        return (*(spot for curve in self.curves for spot in trace_curve(curve)), self.end)


def trace_curve(curve: Curve) -> tuple[Spot, ...]:
    """Return points along a curve but its last, enough to show how it runs."""
    parts = 1 if isinstance(curve, Segment) else _PARTS
    return tuple(curve.point(part / parts) for part in range(parts))


@dataclass(frozen=True, slots=True)
class Label:
    """A word of the drawing that names the shape it stands in."""

    role: Role
    words: str
    spot: Spot


@dataclass(frozen=True, slots=True)
class Stray:
    """Something of the drawing that is left out, and points that show where it lies.

    ``is_needed`` marks what should have been read, so that leaving it out must be asked for.
    """

    what: str
    why: str
    spots: tuple[Spot, ...] = ()
    is_needed: bool = False


@dataclass(frozen=True, slots=True)
class Sketch:
    """What a reader makes of a drawing: pieces in the file's own units, y up.

    ``place`` takes a point of the file to millimetres. ``notes`` are sentences without full stop.
    """

    pieces: tuple[Piece, ...]
    place: Matrix
    units: Units
    labels: tuple[Label, ...] = ()
    strays: tuple[Stray, ...] = ()
    notes: tuple[str, ...] = ()
