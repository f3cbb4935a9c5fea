"""How a length is read off a tape: the one writer of lengths for people.

A tape has marks. A length on a mark is that mark; one beside a mark is "full" where it is a little
more and "scant" where it is a little less. Files for machines have exact numbers instead.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, decimal_text, mm_text, nearest

CLOSE = STEPS_PER_MM // 20
"""How near a mark a length is on it [steps]: 0.05 mm, which no tape shows."""
FULL_OR_SCANT = "Full is a little more than the mark before it, scant a little less."
_FOOT = 12 * STEPS_PER_INCH
_FINEST = 64  # marks of an inch
_BESIDE = re.compile(r"[0-9](?: in| mm)? (?:full|scant)(?![-\w])")


@dataclass(frozen=True, slots=True)
class Tape:
    """A tape in ``mm`` or ``in``, read to the marks of ``set_out`` [steps].

    What lies on none of these is read to the nearest 1/64 in, or to the nearest whole mm unless
    ``set_out`` is finer. 0 is the usual set-out: whole mm, or whatever an inch is parted into.

    >>> tape = Tape("in")
    >>> tape.figure(27 * 203_200), tape.words(5_529_316), tape.size(5_529_316, 101_600)
    ('27', '27 7/32 in scant', '27 7/32 scant x 1/2')
    >>> Tape("mm").words(12_903_200), Tape("mm", 4000).words(12_900_000), Tape("mm").figure(-8000)
    ('1613 mm scant', '1612.5 mm', '-1')
    """

    units: Literal["mm", "in"]
    set_out: int = 0

    def figure(self, steps: int) -> str:
        """Return a length without its unit."""
        return self._write(steps, "")

    def words(self, steps: int) -> str:
        """Return a length with its unit."""
        return self._write(steps, f" {self.units}")

    def size(self, width: int, height: int) -> str:
        """Return a size without its unit."""
        return f"{self.figure(width)} x {self.figure(height)}"

    def size_words(self, width: int, height: int) -> str:
        """Return a size with its unit."""
        return f"{self.size(width, height)} {self.units}"

    def stated(self, steps: int, *, in_feet: bool = False) -> str:
        """Return a length without its unit as it is stated, not measured: decimals of a mm stay.

        What is stated in feet and inches has its units with it.

        >>> Tape("mm").stated(12_903_200), Tape("in").stated(38 * 203_200 + 101_600, in_feet=True)
        ('1612.9', '3 ft 2 1/2 in')
        >>> Tape("in").stated(36 * 203_200, in_feet=True), Tape("in").stated(203_200, in_feet=True)
        ('3 ft', '1 in')
        """
        if self.units == "mm":
            return mm_text(steps)
        if not in_feet:
            return self.figure(steps)
        mark, beside = self._read(steps)
        feet, rest = divmod(mark, _FOOT)
        inches = [f"{_fraction_text(rest)} in"] if rest or not feet else []
        return " ".join([f"{feet} ft"] * bool(feet) + inches) + beside

    def stated_size(
        self,
        sides: tuple[int, int],
        in_feet: tuple[bool, bool] = (False, False),
        *,
        words: bool = False,
        times: str = " x ",
    ) -> str:
        """Return a size as an order states it, in ``words`` with its unit.

        Where either side has feet, each has its own units.

        >>> Tape("in").stated_size((36 * 203_200, 203_200), (True, False))
        '3 ft x 1 in'
        """
        texts = [self.stated(side, in_feet=feet) for side, feet in zip(sides, in_feet, strict=True)]
        if self.units == "mm" or not any(in_feet):
            return times.join(texts) + f" {self.units}" * words
        pairs = zip(texts, in_feet, strict=True)
        return times.join(text if feet else f"{text} in" for text, feet in pairs)

    def stated_words(self, steps: int) -> str:
        """Return a length with its unit as it is stated: an amount, a thickness, a tolerance.

        >>> Tape("mm").stated_words(12_903_200), Tape("in").stated_words(8000)
        ('1612.9 mm', '3/64 in scant')
        """
        return f"{mm_text(steps)} mm" if self.units == "mm" else self.words(steps)

    def signed(self, steps: int, *, words: bool = False) -> str:
        """Return a change as it is stated, with a plus where it is more, in words with its unit.

        >>> Tape("in").signed(203_200), Tape("mm").signed(-4000, words=True), Tape("mm").signed(0)
        ('+1', '-0.5 mm', '0')
        """
        text = self.stated_words(steps) if words else self.stated(steps)
        return f"+{text}" if steps > 0 and self.stated(steps) != "0" else text

    def exact(self, steps: int) -> str:
        """Return a length in decimals of its unit, to 0.001 mm or 0.0001 in.

        >>> Tape("mm").exact(12_903_200), Tape("in").exact(5_529_316)
        ('1612.9', '27.2112')
        """
        if self.units == "mm":
            return mm_text(steps)
        return decimal_text(Fraction(steps, STEPS_PER_INCH), 4)

    def list_exact(self, lengths: Mapping[str, int]) -> str:
        """Return in decimals, by their names, those lengths that lie on no mark; '-' for none.

        >>> Tape("in").list_exact({"left": 203_200, "right": 5_529_316})
        'right 27.2112'
        """
        beside = {name: steps for name, steps in lengths.items() if self._read(steps)[0] != steps}
        return ", ".join(f"{name} {self.exact(steps)}" for name, steps in beside.items()) or "-"

    def _write(self, steps: int, unit: str) -> str:
        mark, beside = self._read(abs(steps))
        text = mm_text(mark) if self.units == "mm" else _fraction_text(mark)
        return f"{'-' if steps < 0 and (mark or beside) else ''}{text}{unit}{beside}"

    def _read(self, steps: int) -> tuple[int, str]:
        """Return the mark a length is read by [steps], and whether it is full or scant of it."""
        for division in self._divisions:
            mark = nearest(Fraction(steps, division)) * division
            if abs(steps - mark) <= CLOSE:
                return mark, ""
        return mark, " full" if steps > mark else " scant"

    @property
    def _divisions(self) -> tuple[int, ...]:
        """The distances between marks [steps]: the set-out's, then the tape's own."""
        if self.units == "mm":
            shown = self.set_out and self.set_out % CLOSE == 0
            fine = self.set_out if shown and self.set_out < STEPS_PER_MM else STEPS_PER_MM
            return (self.set_out, fine) if shown else (fine,)
        shown = self.set_out and STEPS_PER_INCH % self.set_out == 0
        fine = STEPS_PER_INCH // _FINEST
        return (self.set_out, fine) if shown and self.set_out >= fine else (fine,)


def explain_beside(text: str) -> str:
    """Return what full and scant mean where the text has either, else nothing.

    >>> explain_beside("27 7/32 in scant"), explain_beside("the flat is full")
    ('Full is a little more than the mark before it, scant a little less.', '')
    """
    return FULL_OR_SCANT if _BESIDE.search(text) else ""


def _fraction_text(steps: int) -> str:
    """Return a whole number of marks as inches and a fraction of one.

    >>> _fraction_text(203_200), _fraction_text(304_800), _fraction_text(3175), _fraction_text(0)
    ('1', '1 1/2', '1/64', '0')
    """
    whole, part = divmod(Fraction(steps, STEPS_PER_INCH), 1)
    return " ".join([str(whole)] * bool(whole or not part) + [str(part)] * bool(part))
