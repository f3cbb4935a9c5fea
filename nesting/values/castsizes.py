"""What the liner and the panels measure now, against their drawing and their order.

Rubber shrinks once it is cured and grows with warmth, alike along every axis; a panel shrinks while
it cures and dries. Factors are exact; a coordinate or a length is rounded once, to the nearest
step.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeVar

from nesting.shapes.geometry import Box, Point, Polygon, Ring
from nesting.units import nearest
from nesting.values.liner import BlankZone, Liner, Ornament

NO_SHRINK = Fraction(0)

DrawnPart = TypeVar("DrawnPart", Ornament, BlankZone)


@dataclass(frozen=True, slots=True)
class AsCast:
    """By how much liner and panels differ from drawing and order; nothing by default.

    ``liner_shrink`` of the rubber since its drawing and ``panel_shrink`` of a panel since its cast
    are fractions of a length; temperatures are in degrees Celsius and ``expansion`` is the growth
    of the rubber per degree. ``drawn`` is the liner as drawn, None where it lies so.
    """

    liner_shrink: Fraction = NO_SHRINK
    liner_temperature: Fraction = Fraction(0)
    measured_temperature: Fraction = Fraction(0)
    expansion: Fraction = Fraction(0)
    panel_shrink: Fraction = NO_SHRINK
    drawn: Liner | None = None

    @property
    def warmer(self) -> Fraction:
        """By how many degrees the liner is warmer than when it was measured."""
        return self.liner_temperature - self.measured_temperature

    @property
    def growth(self) -> Fraction:
        """By what fraction of its length the liner grew with warmth; below 0 where it is colder."""
        return self.expansion * self.warmer

    @property
    def factor(self) -> Fraction:
        """What a drawn length of the liner is to be multiplied with for what it measures now.

        >>> AsCast(Fraction(1, 1000), Fraction(30), Fraction(20), Fraction(2, 10_000)).factor
        Fraction(500499, 500000)
        """
        return (1 - self.liner_shrink) * (1 + self.growth)

    @property
    def is_plain(self) -> bool:
        """Whether there is nothing to correct and nothing to warn of."""
        return not (self.liner_shrink or self.growth or self.panel_shrink)


def cast_length(ordered: int, shrink: Fraction) -> Fraction:
    """Return what a length [steps] must measure when cast to be as ordered once it has shrunk.

    >>> cast_length(999, Fraction(1, 1000)), cast_length(999, NO_SHRINK)
    (Fraction(1000, 1), Fraction(999, 1))
    """
    return ordered / (1 - shrink)


def lay_liner(liner: Liner, as_cast: AsCast) -> Liner:
    """Return the liner as it lies now: all places on it, scaled about the datum corner.

    Its thickness, the relief of its ornaments and the distances of dams stay as they are.

    Raises
    ------
    ValueError
        With the part and the reason, where the liner then reaches farther than lengths are reckoned
        or a part of it has shrunk to nothing.
    """
    factor = as_cast.factor
    if factor == 1:
        return liner

    def scale(coordinate: int) -> int:
        return nearest(coordinate * factor)

    return replace(
        liner,
        outline=_scaled("its outline", liner.outline, scale),
        ornaments=tuple(_part(f"ornament {each.name!r}", each, scale) for each in liner.ornaments),
        zones=tuple(_part(f"blank zone {each.name!r}", each, scale) for each in liner.zones),
        keep_clear=tuple(
            replace(each, place=Box(*map(scale, each.place))) for each in liner.keep_clear
        ),
    )


def _part(name: str, part: DrawnPart, scale: Callable[[int], int]) -> DrawnPart:
    return replace(part, outline=_scaled(name, part.outline, scale))


def _scaled(name: str, polygon: Polygon, scale: Callable[[int], int]) -> Polygon:
    shell, *holes = (tuple((scale(x), scale(y)) for x, y in ring) for ring in polygon.rings)
    try:
        return Polygon(shell, tuple(holes))
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from error


def draw_ground(ground: Polygon, factor: Fraction) -> Polygon:
    """Return ground of the liner as it lies, as it must be drawn to hold all of it by `lay_liner`.

    Where a step comes of no drawn one, on a liner that grew, sides along an axis move outward by
    one; a slanted side may end up to a step off.
    """

    def draw(coordinate: int, outward: int) -> int:
        drawn = round(coordinate / factor)
        off = nearest(drawn * factor) - coordinate
        return drawn if off * outward >= 0 else drawn + (1 if outward > 0 else -1)

    shell, *holes = (
        tuple((draw(x, right), draw(y, up)) for (x, y), right, up in _outward(ring))
        for ring in ground.rings
    )
    return Polygon(shell, tuple(holes))


def _outward(ring: Ring) -> Iterator[tuple[Point, int, int]]:
    """Yield each vertex and to which side along x and y the ground ends there, 0 for neither.

    Ground lies left of its rims, so it ends to the right of one that goes up.
    """
    for before, at, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        sides = (before, at), (at, after)
        right = sum(end[1] - start[1] for start, end in sides if start[0] == end[0])
        up = sum(start[0] - end[0] for start, end in sides if start[1] == end[1])
        yield at, right, up
