"""What a length, a size or a shape of a file may be, and what it means in steps."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from nesting.errors import InputError, InputErrors, shown
from nesting.files.readers import Reader, read_each, read_list, text_schemas
from nesting.files.spelling import (
    Schema,
    Spelling,
    any_of,
    list_of,
    row_of,
    shared,
    spelled,
    write_list,
)
from nesting.files.tomltext import quoted
from nesting.shapes.geometry import MAX_VERTICES, Box, Polygon, Ring, polygon_of
from nesting.tape import Tape
from nesting.units import (
    MM_PER_INCH,
    STEPS_PER_INCH,
    STEPS_PER_MM,
    decimal_text,
    has_feet,
    length_schemas,
    parse_steps,
    to_mm,
)

MAX_LENGTH = 33_000 * STEPS_PER_MM
"""Longest length and farthest coordinate of a job [steps]."""
MAX_RADIUS = 10_000_000 * STEPS_PER_MM
"""Largest radius of a bed [steps]: 10 km, flat to the eye."""
MAX_CHOICE = 20
"""Most lengths one may choose among."""

_PER_LINE = 6  # points on one line of an outline
_INCH_DECIMALS = 6  # of 1/64 in


@dataclass(frozen=True, slots=True)
class LengthReaders:
    """Spellings of lengths and shapes [steps] in a file whose plain numbers are in ``units``.

    Without units they can only be written: each length is then text with its unit.
    """

    units: str

    @property
    def signed(self) -> Spelling[int]:
        """A length that may lie below zero."""
        return self._length("length", -MAX_LENGTH)

    @property
    def not_negative(self) -> Spelling[int]:
        """A length of at least zero."""
        return self._length("length-from-0", 0)

    @property
    def positive(self) -> Spelling[int]:
        """A length above zero."""
        return self._length("length-above-0", 1)

    @property
    def radius(self) -> Spelling[int]:
        """A radius above zero."""
        return self._length("length-above-0", 1, MAX_RADIUS)

    @property
    def size(self) -> Spelling[tuple[int, int]]:
        """``[width, height]``, both above zero."""
        side = self.positive

        def read(value: object) -> tuple[int, int]:
            width, height = self._parts(value, width=side, height=side)
            return width, height

        return Spelling(read, row_of(side.schema, side.schema), self._write_row)

    @property
    def size_in_feet(self) -> Spelling[tuple[tuple[int, int], tuple[bool, bool]]]:
        """``[width, height]``, and for each whether an inch file writes it with feet."""
        size = self.size

        def read(value: object) -> tuple[tuple[int, int], tuple[bool, bool]]:
            sides = size(value)
            assert isinstance(value, list)  # size read it
            width, height = (self.units == "in" and has_feet(side) for side in value)
            return sides, (width, height)

        def write(value: tuple[tuple[int, int], tuple[bool, bool]]) -> str:
            sides = zip(*value, strict=True)
            return write_list(self._write_feet(*side) for side in sides)

        return Spelling(read, size.schema, write)

    @property
    def choice(self) -> Spelling[tuple[int, ...]]:
        """A list of different lengths above zero, read in ascending order."""
        side = self.positive

        def read(value: object) -> tuple[int, ...]:
            items = read_each(side.read)(value)
            if not 1 <= len(items) <= MAX_CHOICE:
                raise InputError("", f"must hold 1 to {MAX_CHOICE} lengths", got=str(len(items)))
            if len(set(items)) < len(items):
                twice = next(each for each in items if items.count(each) > 1)
                raise InputError("", "must name each length once", f"{self.text(twice)} twice")
            return tuple(sorted(items))

        schema = list_of(side.schema, minItems=1, maxItems=MAX_CHOICE)
        return Spelling(read, schema, self._write_row)

    @property
    def sized_box(self) -> Spelling[Polygon]:
        """``[width, height]``: a rectangle from the datum corner, whatever its holes."""
        size = self.size

        def write(outline: Polygon) -> str | None:
            box = outline.bounds
            is_sized = _is_plain_box(outline) and box[:2] == (0, 0)
            return size.write((box.width, box.height)) if is_sized else None

        return Spelling(lambda value: polygon_of(Box(0, 0, *size(value))), size.schema, write)

    @property
    def spot(self) -> Spelling[Box]:
        """``[x, y]``: a box without width and height."""
        place = self.signed

        def read(value: object) -> Box:
            x, y = self._parts(value, x=place, y=place)
            return Box(x, y, x, y)

        def write(box: Box) -> str | None:
            return None if box.area else self._write_row(box[:2])

        return Spelling(read, row_of(place.schema, place.schema), write)

    @property
    def box(self) -> Spelling[Box]:
        """``[x, y, width, height]``: a box."""
        place, side = self.signed, self.positive

        def read(value: object) -> Box:
            x, y, width, height = self._parts(value, x=place, y=place, width=side, height=side)
            return read_polygon(Box(x, y, x + width, y + height).ring).bounds

        def write(box: Box) -> str | None:
            return self._write_row((*box[:2], box.width, box.height))

        return Spelling(read, row_of(*[place.schema] * 2, *[side.schema] * 2), write)

    @property
    def rect(self) -> Spelling[Polygon]:
        """The same as a polygon."""
        box = self.box

        def write(outline: Polygon) -> str | None:
            return box.write(outline.bounds) if _is_plain_box(outline) else None

        return Spelling(lambda value: polygon_of(box(value)), box.schema, write)

    @property
    def outline(self) -> Spelling[Polygon]:
        """A list of points ``[x, y]``: a polygon; its holes are no part of it."""
        schema = list_of(shared("point"), minItems=3, maxItems=MAX_VERTICES)
        return Spelling(
            lambda value: read_polygon(self._ring(value)),
            schema,
            lambda outline: f"[\n{self._write_points(outline.shell, '    ')}]",
        )

    @property
    def rings(self) -> Spelling[tuple[Ring, ...]]:
        """A list of outlines: rings, each one simple."""
        outline = self.outline

        def read(value: object) -> tuple[Ring, ...]:
            return tuple(polygon.shell for polygon in read_each(outline)(value))

        def write(rings: tuple[Ring, ...]) -> str:
            texts = (f"    [\n{self._write_points(ring, '        ')}    ],\n" for ring in rings)
            return f"[\n{''.join(texts)}]"

        return Spelling(read, list_of(outline.schema), write)

    @property
    def tolerance(self) -> Spelling[tuple[int, int]]:
        """``[low, high]`` with low <= 0 <= high."""
        side = self.signed

        def read(value: object) -> tuple[int, int]:
            low, high = self._parts(value, low=side, high=side)
            if not low <= 0 <= high:
                got = f"[{self.text(low)}, {self.text(high)}]"
                raise InputError("", "must be [low, high] with low <= 0 <= high", got)
            return low, high

        below = any_of("length <= 0", _between(-MAX_LENGTH, 0), shared("length-to-0"))
        return Spelling(read, row_of(below, self.not_negative.schema), self._write_row)

    def write(self, steps: int) -> str:
        """Return a length as a TOML value that is read back as exactly so many steps.

        >>> LengthReaders("mm").write(12_903_200), LengthReaders("").write(12_903_200)
        ('1612.9', '"1612.9 mm"')
        >>> LengthReaders("in").write(-101_600), LengthReaders("in").write(8000)
        ('-0.5', '"1 mm"')
        """
        millimetres = decimal_text(to_mm(steps), 6)  # exact: a step is 0.000125 mm
        if self.units == "mm":
            return millimetres
        inches = Fraction(steps, STEPS_PER_INCH)
        text = decimal_text(inches, _INCH_DECIMALS)
        is_short = self.units == "in" and Fraction(text) == inches
        return text if is_short else f'"{millimetres} mm"'

    def _write_feet(self, steps: int, in_feet: bool) -> str:
        """Return a length as a TOML value, in feet and inches where that is wanted and exact."""
        if not in_feet or self.units != "in" or steps % (STEPS_PER_INCH // 64):
            return self.write(steps)
        return quoted(Tape("in").stated(steps, in_feet=True))

    def text(self, steps: int) -> str:
        """Return a length as messages give it, in the file's own units."""
        length = to_mm(steps) / (MM_PER_INCH if self.units == "in" else 1)
        return f"{decimal_text(length, 4)} {self.units or 'mm'}"

    def place_text(self, x: int, y: int) -> str:
        """Return a point as messages give it."""
        return f"({self.text(x)}, {self.text(y)})"

    def _length(self, text: str, least: int, most: int = MAX_LENGTH) -> Spelling[int]:
        """Return the spelling of a length between limits [steps], 1 for > 0, or of its text."""
        titles = {1: "length > 0", 0: "length >= 0"}
        schema = any_of(titles.get(least, "length"), _between(least, most), shared(text))
        return Spelling(lambda value: self._within(value, least, most), schema, self.write)

    def _write_row(self, steps: Iterable[int]) -> str:
        return write_list(map(self.write, steps))

    def _write_points(self, ring: Ring, indent: str) -> str:
        lines = (ring[start : start + _PER_LINE] for start in range(0, len(ring), _PER_LINE))
        return "".join(f"{indent}{', '.join(map(self._write_row, line))},\n" for line in lines)

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
        x, y = (self._within(each, -MAX_LENGTH, MAX_LENGTH) for each in value)
        return x, y


def read_tolerance(
    lengths: LengthReaders, classes: Iterable[str]
) -> Spelling[tuple[tuple[int, int], str]]:
    """Return the spelling of limits ``[low, high]`` [steps] or of the name of a tolerance class.

    It yields both: the limits and no name, or zeros and the name.
    """
    known = tuple(classes)
    limits = lengths.tolerance

    def write(value: tuple[tuple[int, int], str]) -> str | None:
        return quoted(value[1]) if value[1] else limits.write(value[0])

    @spelled(any_of("tolerance", limits.schema, {"enum": list(known)}), write)
    def read(value: object) -> tuple[tuple[int, int], str]:
        if not isinstance(value, str):
            return limits(value), ""
        if value not in known:
            remedy = f"give [low, high] or one of the known classes: {', '.join(known)}"
            raise InputError("", "there is no such tolerance class", shown(value), remedy)
        return (0, 0), value

    return read


def _between(least: int, most: int) -> Schema:
    """Return the schema of a plain number of mm between limits [steps], 1 for > 0."""
    bound = {"exclusiveMinimum": 0} if least == 1 else {"minimum": least // STEPS_PER_MM}
    return {"type": "number", **bound, "maximum": most // STEPS_PER_MM}


def _is_plain_box(outline: Polygon) -> bool:
    """Whether the outline is a rectangle and has no more points than its corners."""
    return len(outline.shell) == 4 and polygon_of(outline.bounds).shell == outline.shell


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


def shared_schemas() -> dict[str, Schema]:
    """Return the schemas that others refer to by name."""
    place = any_of("length", _between(-MAX_LENGTH, MAX_LENGTH), shared("length"))
    return {
        **text_schemas(),
        "point": row_of(place, place),
        **length_schemas(),
    }
