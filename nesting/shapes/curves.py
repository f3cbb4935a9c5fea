"""Curves of a drawing: straight lines, arcs of circles and ellipses, and Bezier curves.

A parameter t runs from 0 at a curve's start to 1 at its end. Nothing here is rounded.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np

Spot = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]
"""``(a, b, c, d, e, f)`` takes (x, y) to (a x + c y + e, b x + d y + f)."""
Poly = np.ndarray
"""Coefficients of a polynomial, the highest power first."""

IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
_END = 1e-9  # a cut nearer to an end of the curve than this is no cut
_UNREAL = 1e-6  # imaginary part up to which a root counts as real: one cut too many does no harm
_LEAST_BULGE = 2e-8
_FLAT = 1e-9  # of the curve's size: below it a derivative counts as nought


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight line."""

    start: Spot
    end: Spot

    def point(self, t: float) -> Spot:
        """Return the point at t."""
        (x0, y0), (x1, y1) = self.start, self.end
        return x0 + t * (x1 - x0), y0 + t * (y1 - y0)

    def heading(self, t: float, *, ahead: bool = True) -> Spot:
        """Return the direction in which the line runs, of length 1; (0, 0) where it has none."""
        return _unit(self.end[0] - self.start[0], self.end[1] - self.start[1])

    def bends(self) -> tuple[float, ...]:
        """Return no cuts."""
        return ()

    def moved(self, matrix: Matrix) -> Segment:
        """Return the line under an affine map."""
        return Segment(apply(matrix, self.start), apply(matrix, self.end))

    def turned(self) -> Segment:
        """Return the same line run from its end."""
        return Segment(self.end, self.start)


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of an ellipse: centre + cos(angle) across + sin(angle) up, from ``first`` by ``sweep``.

    ``across`` and ``up`` need not be square to each other; the angles are parameters [rad].
    """

    centre: Spot
    across: Spot
    up: Spot
    first: float
    sweep: float

    @property
    def start(self) -> Spot:
        """The first point."""
        return self.point(0.0)

    @property
    def end(self) -> Spot:
        """The last point."""
        return self.start if abs(self.sweep) == math.tau else self.point(1.0)

    def point(self, t: float) -> Spot:
        """Return the point at t."""
        cos, sin = cos_sin(self.first + t * self.sweep)
        (x, y), (ax, ay), (ux, uy) = self.centre, self.across, self.up
        return x + cos * ax + sin * ux, y + cos * ay + sin * uy

    def heading(self, t: float, *, ahead: bool = True) -> Spot:
        """Return the direction in which the arc runs at t, of length 1."""
        cos, sin = cos_sin(self.first + t * self.sweep)
        sign = math.copysign(1.0, self.sweep)
        (ax, ay), (ux, uy) = self.across, self.up
        return _unit(sign * (cos * ux - sin * ax), sign * (cos * uy - sin * ay))

    def bends(self) -> tuple[float, ...]:
        """Return where the arc runs along x or along y."""
        crests = [math.atan2(self.up[axis], self.across[axis]) for axis in (0, 1)]
        low, high = sorted((self.first, self.first + self.sweep))
        turns = [
            crest + math.pi * number
            for crest in crests
            for number in range(
                math.ceil((low - crest) / math.pi), math.floor((high - crest) / math.pi) + 1
            )
        ]
        return _cuts((turn - self.first) / self.sweep for turn in turns)

    def moved(self, matrix: Matrix) -> Arc:
        """Return the arc under an affine map."""
        linear = (*matrix[:4], 0.0, 0.0)
        return Arc(
            apply(matrix, self.centre),
            apply(linear, self.across),
            apply(linear, self.up),
            self.first,
            self.sweep,
        )

    def turned(self) -> Arc:
        """Return the same arc run from its end."""
        return Arc(self.centre, self.across, self.up, self.first + self.sweep, -self.sweep)


@dataclass(frozen=True, slots=True)
class _Polys:
    """A Bezier curve as polynomials of t, the highest power first.

    ``place`` is weight times (x, y), counted from the start, and weight; ``motions`` are dx and dy,
    then their derivatives; where both are within ``least`` they count as nought.
    """

    place: tuple[list[float], list[float], list[float]]
    motions: tuple[tuple[list[float], list[float]], ...]
    least: float


@dataclass(frozen=True, slots=True)
class Bezier:
    """A Bezier curve of any degree by its control points (x, y, weight), weights above 0."""

    points: tuple[tuple[float, float, float], ...]
    _kept: _Polys | None = field(default=None, init=False, repr=False, compare=False)
    _bends: tuple[float, ...] | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def start(self) -> Spot:
        """The first point."""
        return self.points[0][:2]

    @property
    def end(self) -> Spot:
        """The last point."""
        return self.points[-1][:2]

    def point(self, t: float) -> Spot:
        """Return the point at t."""
        if t in (0.0, 1.0):
            return self.end if t else self.start
        x = y = weight = 0.0
        for a, b, c in zip(*self._polys.place, strict=True):
            x, y, weight = x * t + a, y * t + b, weight * t + c
        start = self.points[0]
        return start[0] + x / weight, start[1] + y / weight

    def heading(self, t: float, *, ahead: bool = True) -> Spot:
        """Return the direction in which the curve runs at t, of length 1; (0, 0) for a mere point.

        Where the curve stands still the direction just ``ahead`` of t is returned, or that behind.
        """
        sign = 1.0
        for dx, dy in self._polys.motions:
            x, y = _value(dx, t), _value(dy, t)
            if math.hypot(x, y) > self._polys.least:
                return _unit(sign * x, sign * y)
            sign = sign if ahead else -sign
        return 0.0, 0.0

    def bends(self) -> tuple[float, ...]:
        """Return where the curve runs along x or y, and where it turns from left to right."""
        if self._bends is None:
            motion = self._polys.motions[0]
            polys = (*motion, _turning(self._polys, self.points))
            found = _cuts(root for poly in polys for root in _roots(poly))
            object.__setattr__(self, "_bends", found)
        return self._bends or ()

    def moved(self, matrix: Matrix) -> Bezier:
        """Return the curve under an affine map."""
        moved = Bezier(tuple((*apply(matrix, (x, y)), weight) for x, y, weight in self.points))
        if matrix[:4] == IDENTITY[:4]:  # its polynomials count from its start: they stay the same
            object.__setattr__(moved, "_kept", self._kept)
            object.__setattr__(moved, "_bends", self._bends)
        return moved

    def turned(self) -> Bezier:
        """Return the same curve run from its end."""
        return Bezier(self.points[::-1])

    @property
    def _polys(self) -> _Polys:
        """Its polynomials, worked out once and only where they are needed."""
        if self._kept is None:
            object.__setattr__(self, "_kept", _polys_of(self.points))
        return self._kept or _polys_of(self.points)


Curve = Segment | Arc | Bezier


def apply(matrix: Matrix, spot: Spot) -> Spot:
    """Return where an affine map takes a point.

    >>> apply((0, 1, -1, 0, 10, 0), (2, 3))
    (7, 2)
    """
    a, b, c, d, e, f = matrix
    return a * spot[0] + c * spot[1] + e, b * spot[0] + d * spot[1] + f


def combined(outer: Matrix, inner: Matrix) -> Matrix:
    """Return the map that applies the inner one first.

    >>> combined((1, 0, 0, 1, 5, 0), (2, 0, 0, 2, 0, 1))
    (2, 0, 0, 2, 5, 1)
    """
    a, b, c, d, e, f = inner
    origin = (outer[4], outer[5])
    x, y = apply(outer, (a, b)), apply(outer, (c, d))
    return (
        x[0] - origin[0],
        x[1] - origin[1],
        y[0] - origin[0],
        y[1] - origin[1],
        *apply(outer, (e, f)),
    )


def cubic(start: Spot, first: Spot, second: Spot, end: Spot) -> Bezier:
    """Return a cubic Bezier curve."""
    return Bezier(tuple((x, y, 1.0) for x, y in (start, first, second, end)))


def bulge_arc(start: Spot, end: Spot, bulge: float) -> Curve:
    """Return the arc between two points whose bulge is the tangent of a quarter of its angle.

    A bulge above 0 runs counter-clockwise; 0 is a straight line, and so is what rises by less than
    a hundred-millionth of its chord, where the centre is too far away to reckon with. (DXF
    reference, group code 42.)

    >>> bulge_arc((0, 0), (2, 0), 1).point(0.5)
    (1.0, -1.0)
    """
    if abs(bulge) < _LEAST_BULGE or start == end:
        return Segment(start, end)
    dx, dy = end[0] - start[0], end[1] - start[1]
    rise = (1 - bulge * bulge) / (4 * bulge)
    centre = (start[0] + dx / 2 - dy * rise, start[1] + dy / 2 + dx * rise)
    radius = math.hypot(start[0] - centre[0], start[1] - centre[1])
    first = math.atan2(start[1] - centre[1], start[0] - centre[0])
    return Arc(centre, (radius, 0.0), (0.0, radius), first, 4 * math.atan(bulge))


def _polys_of(points: Sequence[tuple[float, float, float]]) -> _Polys:
    x0, y0, _ = points[0]
    place = (
        _powers([(x - x0) * weight for x, _, weight in points]),
        _powers([(y - y0) * weight for _, y, weight in points]),
        _powers([weight for _, _, weight in points]),
    )
    motions = [_velocity(*place)]
    while max(len(poly) for poly in motions[-1]) > 1:
        motions.append((_slope(motions[-1][0]), _slope(motions[-1][1])))
    size = sum(abs(each) for poly in motions[0] for each in poly)
    return _Polys(place, tuple(motions), _FLAT * max(size, 1e-300))


def _powers(values: Sequence[float]) -> list[float]:
    """Return the coefficients of the polynomial whose Bezier coefficients these are."""
    degree, differences, found = len(values) - 1, list(values), []
    for power in range(degree + 1):
        found.append(math.comb(degree, power) * differences[0])
        differences = [after - before for before, after in pairwise(differences)]
    return found[::-1]


def _slope(poly: Sequence[float]) -> list[float]:
    """Return the derivative of a polynomial."""
    degree = len(poly) - 1
    return [each * (degree - index) for index, each in enumerate(poly[:-1])]


def _velocity(
    x: list[float], y: list[float], weight: list[float]
) -> tuple[list[float], list[float]]:
    """Return dx and dy as polynomials of t, both times the weight squared."""
    slope = _slope(weight)
    if not any(slope):
        return _slope(x), _slope(y)
    dx: Poly = np.polysub(np.polymul(_slope(x), weight), np.polymul(x, slope))
    dy: Poly = np.polysub(np.polymul(_slope(y), weight), np.polymul(y, slope))
    return dx.tolist(), dy.tolist()


def _value(poly: Sequence[float], t: float) -> float:
    total = 0.0
    for each in poly:
        total = total * t + each
    return total


def _turning(polys: _Polys, points: Sequence[tuple[float, float, float]]) -> Poly:
    """Return the polynomial whose sign is that of the bend: of equal weights the plain product."""
    if len({weight for _, _, weight in points}) == 1:
        if len(polys.motions) < 2:
            return np.zeros(1)
        (dx, dy), (ddx, ddy) = polys.motions[:2]
        return np.convolve(dx, ddy) - np.convolve(dy, ddx)
    first = [np.polyder(poly) for poly in polys.place]
    return _triple(polys.place, first, [np.polyder(poly) for poly in first])


def _triple(
    first: Sequence[Sequence[float]], second: Sequence[Poly], third: Sequence[Poly]
) -> Poly:
    """Return the determinant of three rows of polynomials: its sign is that of the bend."""
    total = np.zeros(1)
    for i, j, k in ((0, 1, 2), (1, 2, 0), (2, 0, 1)):
        minor: Poly = np.polysub(np.polymul(second[j], third[k]), np.polymul(second[k], third[j]))
        total = np.polyadd(total, np.polymul(first[i], minor))
    return total


def _roots(coefficients: Poly | Sequence[float]) -> list[float]:
    """Return the real roots; none of what is nought throughout."""
    largest = max((abs(each) for each in coefficients), default=0.0)
    kept = [float(each) if abs(each) > 1e-13 * largest else 0.0 for each in coefficients]
    while kept and not kept[0]:
        del kept[0]
    if len(kept) <= 3:
        return _roots_of_square(*[0.0] * (3 - len(kept)), *kept)
    return [float(root.real) for root in np.roots(kept) if abs(root.imag) < _UNREAL]


def _roots_of_square(a: float, b: float, c: float) -> list[float]:
    """Return the real roots of a t^2 + b t + c, in a way that loses no digits."""
    if not a:
        return [-c / b] if b else []
    inside = b * b - 4 * a * c
    if inside < 0:
        is_double = math.sqrt(-inside) < 2 * _UNREAL * abs(a)
        return [-b / (2 * a)] if is_double else []
    larger = -(b + math.copysign(math.sqrt(inside), b)) / 2
    return [larger / a, c / larger] if larger else [0.0]


def _cuts(values: Iterable[float]) -> tuple[float, ...]:
    """Return the values inside the curve in order, each once."""
    found: list[float] = []
    for value in sorted(value for value in values if _END < value < 1 - _END):
        if not found or value - found[-1] > _END:
            found.append(value)
    return tuple(found)


def cos_sin(angle: float) -> Spot:
    """Return cosine and sine, exact at whole quarter turns."""
    quarters = angle / (math.pi / 2)
    whole = round(quarters)
    if abs(quarters - whole) < 1e-12:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[whole % 4]
    return math.cos(angle), math.sin(angle)


def _unit(x: float, y: float) -> Spot:
    length = math.hypot(x, y)
    return (x / length, y / length) if length else (0.0, 0.0)
