"""Path data, transforms and lengths of SVG: W3C, SVG 1.1 Second Edition, chapters 7 and 8."""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.shapes.curves import (
    IDENTITY,
    Arc,
    Bezier,
    Curve,
    Matrix,
    Segment,
    Spot,
    combined,
    cos_sin,
    cubic,
)
from nesting.units import MM_PER_INCH

MOST_CURVES = 200_000
"""Most curves of one path."""

_PX_PER_INCH = 96  # W3C, CSS Values and Units 3, Absolute Lengths
MM_PER_LENGTH = {
    "": MM_PER_INCH / _PX_PER_INCH,
    "px": MM_PER_INCH / _PX_PER_INCH,
    "mm": Fraction(1),
    "cm": Fraction(10),
    "q": Fraction(1, 4),
    "in": MM_PER_INCH,
    "pt": MM_PER_INCH / 72,
    "pc": MM_PER_INCH / 6,
}
"""How many mm one of a unit is; a px is 1/96 in."""

_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,4})?"
_TOKEN = re.compile(rf"[\s,]*(?:(?P<letter>[A-Za-z])|(?P<number>{_NUMBER}))")
NUMBER = re.compile(_NUMBER)
"""A number as SVG writes it; no blank is needed before a sign or a second point."""
_FLAG = re.compile(r"[\s,]*(?P<flag>[01])")
_TRANSFORM = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,]*")
_LENGTH = re.compile(rf"\s*({_NUMBER})\s*([A-Za-z%]*)\s*")
_COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_FAR = 1e12


@dataclass(frozen=True, slots=True)
class Subpath:
    """One run of a path and whether it was closed."""

    curves: tuple[Curve, ...]
    is_closed: bool


def read_length(text: str) -> tuple[float, str]:
    """Return the number and the unit of a length; InputError where it is none.

    >>> read_length(" 12.5mm")
    (12.5, 'mm')
    """
    match = _LENGTH.fullmatch(text)
    if match is None or not abs(float(match[1])) < _FAR:
        raise InputError("", "must be a length", shown(text))
    return float(match[1]), match[2].lower()


def read_transform(text: str) -> Matrix:
    """Return a list of transforms as one map; InputError where one is not known.

    >>> read_transform("translate(3 4) rotate(90)")
    (0.0, 1.0, -1.0, 0.0, 3.0, 4.0)
    """
    matrix, at = IDENTITY, 0
    while at < len(text.rstrip()):
        match = _TRANSFORM.match(text, at)
        if match is None:
            raise InputError("", "must be a list of transforms", shown(text))
        matrix = combined(matrix, _one_transform(match[1], match[2]))
        at = match.end()
    return matrix


def _one_transform(name: str, text: str) -> Matrix:
    parts = re.findall(_NUMBER, text)
    rest = re.sub(_NUMBER, "", text).replace(",", "").strip()
    values = [float(part) for part in parts]
    count = len(values)
    if not rest and all(abs(value) < _FAR for value in values):
        if name == "matrix" and count == 6:
            a, b, c, d, e, f = values
            return a, b, c, d, e, f
        if name == "translate" and count in (1, 2):
            return 1.0, 0.0, 0.0, 1.0, values[0], values[1] if count == 2 else 0.0
        if name == "scale" and count in (1, 2):
            return values[0], 0.0, 0.0, values[-1], 0.0, 0.0
        if name == "rotate" and count in (1, 3):
            return _rotation(*values)
        if name == "skewX" and count == 1:
            return 1.0, 0.0, math.tan(math.radians(values[0])), 1.0, 0.0, 0.0
        if name == "skewY" and count == 1:
            return 1.0, math.tan(math.radians(values[0])), 0.0, 1.0, 0.0, 0.0
    raise InputError("", "must be a transform", shown(f"{name}({text})"))


def _rotation(angle: float, x: float = 0.0, y: float = 0.0) -> Matrix:
    cos, sin = cos_sin(math.radians(angle))
    return cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y


def read_path(data: str) -> tuple[Subpath, ...]:
    """Return the runs of a path.

    Raises
    ------
    InputError
        With the character where the data breaks a rule, or where there are too many curves.
    """
    return tuple(_Pen(data).run())


class _Pen:
    """Follows path data from command to command."""

    def __init__(self, data: str) -> None:
        self._data, self._at = data, 0
        self._spot = self._first = (0.0, 0.0)
        self._handle: tuple[str, Spot] = ("", (0.0, 0.0))
        self._curves: list[Curve] = []
        self._count = 0
        self._is_started = False

    def run(self) -> Iterator[Subpath]:
        """Yield each run."""
        letter = ""
        while True:
            token = _TOKEN.match(self._data, self._at)
            if token is None:
                if self._data[self._at :].strip(" \t\r\n\f,"):
                    raise self._trouble()
                break
            if token["letter"]:
                letter = token["letter"]
                self._at = token.end()
            elif letter in ("", "z", "Z"):
                raise self._trouble()
            kind = letter.upper()
            if kind not in _COUNTS or not (self._is_started or kind == "M"):
                raise self._trouble()
            yield from self._obey(kind, self._values(kind), relative=letter.islower())
            letter = {"M": "L", "m": "l"}.get(letter, letter)
        yield from self._finish(closed=False)

    def _obey(self, kind: str, values: list[float], *, relative: bool) -> Iterator[Subpath]:
        self._count += 1
        if self._count > MOST_CURVES:
            raise InputError("", f"a path has at most {MOST_CURVES} curves")
        x, y = self._spot if relative else (0.0, 0.0)
        if kind == "Z":
            if math.dist(self._spot, self._first) > 0:
                self._draw(Segment(self._spot, self._first))
            yield from self._finish(closed=True)
            self._spot = self._first
            return
        if kind == "M":
            yield from self._finish(closed=False)
            self._spot = self._first = (x + values[0], y + values[1])
            self._is_started = True
            return
        if kind in "HV":
            end = (x + values[0], self._spot[1]) if kind == "H" else (self._spot[0], y + values[0])
            self._draw(Segment(self._spot, end))
        elif kind == "A":
            self._draw_arc(values[:5], (x + values[5], y + values[6]))
        else:
            spots = [(x + a, y + b) for a, b in zip(values[::2], values[1::2], strict=True)]
            self._draw_bezier(kind, spots)

    def _draw(self, curve: Curve) -> None:
        self._curves.append(curve)
        self._spot = curve.end
        self._handle = ("", self._spot)

    def _draw_bezier(self, kind: str, spots: list[Spot]) -> None:
        start, family = self._spot, "CS" if kind in "CS" else "QT"
        if kind in "ST":
            was, handle = self._handle
            turned = (2 * start[0] - handle[0], 2 * start[1] - handle[1])
            spots.insert(0, turned if was == family else start)
        if kind == "L":
            self._draw(Segment(start, spots[0]))
        elif family == "CS":
            self._draw(cubic(start, *spots))
        else:
            self._draw(Bezier(tuple((x, y, 1.0) for x, y in (start, *spots))))
        if kind != "L":
            self._handle = (family, spots[-2])

    def _draw_arc(self, values: list[float], end: Spot) -> None:
        start = self._spot
        rx, ry, angle, large, sweep = values
        if start == end:
            return
        if not rx or not ry:
            self._draw(Segment(start, end))
            return
        arc = _arc(start, end, abs(rx), abs(ry), math.radians(angle), bool(large), bool(sweep))
        self._draw(arc)
        self._spot = end

    def _finish(self, *, closed: bool) -> Iterator[Subpath]:
        if self._curves:
            yield Subpath(tuple(self._curves), closed)
        self._curves = []

    def _values(self, kind: str) -> list[float]:
        values: list[float] = []
        for index in range(_COUNTS[kind]):
            is_flag = kind == "A" and index in (3, 4)
            token = (_FLAG if is_flag else _TOKEN).match(self._data, self._at)
            number = token and token["flag" if is_flag else "number"]
            if token is None or not number or not abs(float(number)) < _FAR:
                raise self._trouble()
            values.append(float(number))
            self._at = token.end()
        return values

    def _trouble(self) -> InputError:
        rest = self._data[self._at :].lstrip(" \t\r\n\f,")
        place = len(self._data) - len(rest) + 1
        return InputError("", f"must be path data, character {place}", shown(rest[:20]))


def _arc(
    start: Spot, end: Spot, rx: float, ry: float, angle: float, large: bool, sweep: bool
) -> Arc:
    """Return an arc from its ends: SVG 1.1, appendix F.6.5; radii too small grow, F.6.6."""
    cos, sin = cos_sin(angle)
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = (cos * half_x + sin * half_y) / rx, (cos * half_y - sin * half_x) / ry
    short = math.hypot(x, y)
    rx, ry, x, y = (rx * short, ry * short, x / short, y / short) if short > 1 else (rx, ry, x, y)
    square = x * x + y * y
    reach = math.sqrt(max(0.0, 1 / square - 1)) * (-1 if large == sweep else 1)
    cx, cy = reach * y, -reach * x
    first = math.atan2(y - cy, x - cx)
    turn = math.atan2(-y - cy, -x - cx) - first
    if sweep and turn <= 0:
        turn += math.tau
    elif not sweep and turn >= 0:
        turn -= math.tau
    centre = (
        cos * rx * cx - sin * ry * cy + (start[0] + end[0]) / 2,
        sin * rx * cx + cos * ry * cy + (start[1] + end[1]) / 2,
    )
    return Arc(centre, (cos * rx, sin * rx), (-sin * ry, cos * ry), first, turn)
