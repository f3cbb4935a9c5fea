"""Readers: what one value of a file may be, and what it means in steps.

Each takes the value as parsed and raises InputError, or InputErrors, where it breaks its rule.
"""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from nesting.errors import InputError, InputErrors, shown
from nesting.shapes.geometry import MAX_VERTICES, Box, Polygon, Ring, polygon_of
from nesting.units import MM_PER_INCH, STEPS_PER_MM, decimal_text, parse_steps, to_mm

T = TypeVar("T")
Reader = Callable[[object], T]

MAX_LENGTH = 33_000 * STEPS_PER_MM
"""Longest length and farthest coordinate of a job [steps]."""
MAX_RADIUS = 10_000_000 * STEPS_PER_MM
"""Largest radius of a bed [steps]: 10 km, flat to the eye."""
MAX_NAME = 60
"""Most characters of a name or mark."""

_JOINERS = "\u200c\u200d"  # needed to write some scripts; every other format character is refused


def read_choice(*choices: str) -> Reader[str]:
    """Return a reader of one of several words."""

    def read(value: object) -> str:
        if not isinstance(value, str) or value not in choices:
            raise InputError("", f"must be one of {', '.join(choices)}", got=shown(value))
        return value

    return read


def read_whole(least: int, most: int) -> Reader[int]:
    """Return a reader of a whole number within limits, both included."""

    def read(value: object) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            rule = f"must be a whole number from {least} to {most}"
            quoted = isinstance(value, str) and value.strip().isdigit()
            remedy = "write it without quotes" if quoted else ""
            raise InputError("", rule, shown(value), remedy)
        return value

    return read


def read_each(read: Reader[T]) -> Reader[tuple[T, ...]]:
    """Return a reader of a list whose every value is read; its mistakes are raised together."""

    def read_all(value: object) -> tuple[T, ...]:
        items: list[T] = []
        errors: list[InputError] = []
        for index, item in enumerate(read_list(value), start=1):
            try:
                items.append(read(item))
            except InputError as inner:
                errors += [_inside(index, error) for error in inner.errors]
        if errors:
            raise InputErrors(errors)
        return tuple(items)

    return read_all


def read_list(value: object) -> list[object]:
    """Return the value if it is a list."""
    if not isinstance(value, list):
        raise InputError("", "must be a list", got=shown(value))
    return value


def read_text(value: object) -> str:
    """Return a text of 1 to 200 characters without control characters, not framed by blanks."""
    if not isinstance(value, str):
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        remedy = "put it in quotes" if is_number else ""
        raise InputError("", "must be text", got=shown(value), remedy=remedy)
    if not 1 <= len(value) <= 200:
        raise InputError("", "must have 1 to 200 characters", got=f"{len(value)} characters")
    if value != value.strip():
        raise InputError("", "must not begin or end with a blank", got=shown(value))
    if not is_printable(value):
        raise InputError("", "must have no control characters", got=shown(value))
    return value


def read_name(value: object) -> str:
    """Return a name or mark: a text of 1 to 60 characters without slash, quote or angle bracket."""
    if isinstance(value, str) and not 1 <= len(value) <= MAX_NAME:
        raise InputError("", f"must have 1 to {MAX_NAME} characters", f"{len(value)} characters")
    name = read_text(value)
    refused = next((character for character in name if character in "/\\\"'<>"), "")
    if refused:
        rule = "must have no slashes, quotes or angle brackets"
        raise InputError("", rule, got=shown(name), remedy=f"leave out the {refused}")
    return name


def read_names(value: object) -> tuple[str, ...]:
    """Return a list of different names."""
    names = read_each(read_name)(value)
    if len(set(names)) < len(names):
        twice = next(name for name, count in Counter(names).items() if count > 1)
        raise InputError("", "must name each one once", got=f"{shown(twice)} more than once")
    return names


def read_tolerance(
    lengths: LengthReaders, classes: Iterable[str]
) -> Reader[tuple[tuple[int, int], str]]:
    """Return a reader of limits ``[low, high]`` [steps] or of the name of a tolerance class.

    It yields both: the limits and no name, or zeros and the name.
    """
    known = tuple(classes)

    def read(value: object) -> tuple[tuple[int, int], str]:
        if not isinstance(value, str):
            return lengths.tolerance(value), ""
        if value not in known:
            remedy = f"give [low, high] or one of the known classes: {', '.join(known)}"
            raise InputError("", "there is no such tolerance class", shown(value), remedy)
        return (0, 0), value

    return read


def read_half(value: object) -> Fraction:
    """Return a number from 0 to 0.5 as it is written, exactly."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= 0.5:
        raise InputError("", "must be a number from 0 to 0.5", got=shown(value))
    return Fraction(repr(value))


@dataclass(frozen=True, slots=True)
class LengthReaders:
    """Readers of lengths and shapes [steps] in a file whose plain numbers are in ``units``."""

    units: str

    def signed(self, value: object) -> int:
        """Return a length that may lie below zero."""
        return self._within(value, -MAX_LENGTH, MAX_LENGTH)

    def not_negative(self, value: object) -> int:
        """Return a length of at least zero."""
        return self._within(value, 0, MAX_LENGTH)

    def positive(self, value: object) -> int:
        """Return a length above zero."""
        return self._within(value, 1, MAX_LENGTH)

    def radius(self, value: object) -> int:
        """Return a radius above zero."""
        return self._within(value, 1, MAX_RADIUS)

    def size(self, value: object) -> tuple[int, int]:
        """Return ``[width, height]``, both above zero."""
        width, height = self._parts(value, width=self.positive, height=self.positive)
        return width, height

    def sized_box(self, value: object) -> Polygon:
        """Return ``[width, height]`` as a rectangle from the datum corner."""
        return polygon_of(Box(0, 0, *self.size(value)))

    def rect(self, value: object) -> Polygon:
        """Return ``[x, y, width, height]`` as a rectangle."""
        x, y, width, height = self._parts(
            value, x=self.signed, y=self.signed, width=self.positive, height=self.positive
        )
        return read_polygon(Box(x, y, x + width, y + height).ring)

    def spot(self, value: object) -> Box:
        """Return ``[x, y]`` as a box without width and height."""
        x, y = self._parts(value, x=self.signed, y=self.signed)
        return Box(x, y, x, y)

    def outline(self, value: object) -> Polygon:
        """Return a list of points ``[x, y]`` as a polygon."""
        return read_polygon(self._ring(value))

    def rings(self, value: object) -> tuple[Ring, ...]:
        """Return a list of outlines as rings, each one simple."""
        return tuple(polygon.shell for polygon in read_each(self.outline)(value))

    def tolerance(self, value: object) -> tuple[int, int]:
        """Return ``[low, high]`` with low <= 0 <= high."""
        low, high = self._parts(value, low=self.signed, high=self.signed)
        if not low <= 0 <= high:
            got = f"[{self.text(low)}, {self.text(high)}]"
            raise InputError("", "must be [low, high] with low <= 0 <= high", got)
        return low, high

    def text(self, steps: int) -> str:
        """Return a length as messages give it, in the file's own units."""
        length = to_mm(steps) / (MM_PER_INCH if self.units == "in" else 1)
        return f"{decimal_text(length, 4)} {self.units}"

    def place_text(self, x: int, y: int) -> str:
        """Return a point as messages give it."""
        return f"({self.text(x)}, {self.text(y)})"

    def _within(self, value: object, least: int, most: int) -> int:
        if isinstance(value, bool) or not isinstance(value, int | float | str):
            rule = f"must be a length: a number of {self.units}, or text with a unit"
            raise InputError("", rule, got=shown(value))
        steps = parse_steps(value, self.units)
        if steps < least:
            bound = {1: f"> 0 {self.units}", 0: f">= 0 {self.units}"}
            rule = f"must be {bound.get(least, f'>= {self.text(least)}')}"
            raise InputError("", rule, got=self._got(value))
        if steps > most:
            raise InputError("", f"must be at most {self.text(most)}", got=self._got(value))
        return steps

    def _got(self, value: int | float | str) -> str:
        text = shown(value)
        return f"{text} {self.units}" if text[-1].isdigit() else text

    def _parts(self, value: object, **readers: Reader[int]) -> list[int]:
        """Read a list whose values have names, which the messages then give."""
        if not isinstance(value, list) or len(value) != len(readers):
            raise InputError("", f"must be [{', '.join(readers)}]", got=shown(value))
        parts: list[int] = []
        errors: list[InputError] = []
        for (name, read), part in zip(readers.items(), value, strict=True):
            try:
                parts.append(read(part))
            except InputError as error:
                verb = error.rule.removeprefix("a length ")
                says_must = verb.startswith(("must ", "has "))
                rule = f"{name} {verb}" if says_must else f"{name}: {error.rule}"
                errors.append(InputError("", rule, error.got, error.remedy))
        if errors:
            raise InputErrors(errors)
        return parts

    def _ring(self, value: object) -> Ring:
        points = read_list(value)
        if len(points) > MAX_VERTICES:
            rule = f"an outline has at most {MAX_VERTICES} points"
            raise InputError("", rule, got=f"{len(points)} points")
        return read_each(self._point)(points)

    def _point(self, value: object) -> tuple[int, int]:
        if not isinstance(value, list) or len(value) != 2:
            raise InputError("", "must be a point [x, y]", got=shown(value))
        return self.signed(value[0]), self.signed(value[1])


def read_polygon(shell: Ring, holes: Iterable[Ring] = ()) -> Polygon:
    """Return the polygon; InputError with the reason and the place where it is not simple."""
    try:
        return Polygon(shell, tuple(holes))
    except ValueError as error:
        reason = str(error)
        if " at (" in reason:
            rule = "must bound one area without touching or crossing itself"
            raise InputError("", rule, got=reason) from error
        raise InputError("", reason) from error


def _inside(index: int, error: InputError) -> InputError:
    return InputError(f"[{index}]{error.where}", error.rule, error.got, error.remedy)


def is_printable(text: str) -> bool:
    """Whether a text holds nothing that steers a terminal or that a drawing cannot hold."""
    return all(
        character in _JOINERS
        or (
            unicodedata.category(character) not in ("Cc", "Cf", "Cs", "Zl", "Zp")
            and not _is_noncharacter(ord(character))
        )
        for character in text
    )


def _is_noncharacter(code: int) -> bool:
    return code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF
