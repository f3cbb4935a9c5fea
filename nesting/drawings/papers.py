"""Papers by name, with where their sizes come from; and rolls, which have a width only."""

import difflib
from dataclasses import dataclass
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.units import MM_PER_INCH, decimal_text, parse_length

ISO, ASME, USE = "ISO 216", "ASME Y14.1", "common practice, no source"
ROLL_LIMIT = 5000.0
"""Longest sheet cut from a roll [mm]: a PDF page may have 14,400 pt, or 5080 mm, a side."""
_LEAST_ROLL = 200.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper standing upright [mm]; of a roll, ``height`` is the longest sheet cut from it."""

    name: str
    width: float
    height: float
    source: str = ""
    is_roll: bool = False

    @property
    def words(self) -> str:
        """The name and the size."""
        size = decimal_text(Fraction(self.width), 1)
        if self.is_roll:
            return f"a roll {size} mm wide"
        return f"{self.name} ({size} x {decimal_text(Fraction(self.height), 1)} mm)"


def _metric(name: str, width: int, height: int) -> Paper:
    return Paper(name, width, height, ISO)


def _inch(name: str, width: str, height: str, source: str) -> Paper:
    wide, high = (float(Fraction(side) * MM_PER_INCH) for side in (width, height))
    return Paper(name, wide, high, source)


_ALL = (
    _metric("A4", 210, 297),
    _metric("A3", 297, 420),
    _metric("A2", 420, 594),
    _metric("A1", 594, 841),
    _metric("A0", 841, 1189),
    _inch("letter", "17/2", "11", ASME),
    _inch("legal", "17/2", "14", USE),
    _inch("tabloid", "11", "17", ASME),
    _inch("ANSI-C", "17", "22", ASME),
    _inch("ANSI-D", "22", "34", ASME),
    _inch("ANSI-E", "34", "44", ASME),
    _inch("arch-A", "9", "12", USE),
    _inch("arch-B", "12", "18", USE),
    _inch("arch-C", "18", "24", USE),
    _inch("arch-D", "24", "36", USE),
    _inch("arch-E", "36", "48", USE),
    _inch("arch-E1", "30", "42", USE),
)
PAPERS: dict[str, Paper] = {paper.name.lower(): paper for paper in _ALL}
"""Every sheet of paper known, by its name in small letters."""
_ALIKE = {"ansi-a": "letter", "ansi-b": "tabloid", "ledger": "tabloid"}


def find_paper(text: str) -> Paper:
    """Return the paper of that name, in any case, or the roll of that width.

    Raises
    ------
    InputError
        For an unknown name, with the known ones; for a roll whose width is no length or does not
        suit a printer.

    Examples
    --------
    >>> find_paper("a4").words, find_paper("roll:36in").words
    ('A4 (210 x 297 mm)', 'a roll 914.4 mm wide')
    """
    name = text.strip().lower()
    if name.startswith("roll:"):
        return _roll(text, name.removeprefix("roll:"))
    name = name.replace(" ", "-").replace("_", "-")
    name = _ALIKE.get(name, name)
    if name not in PAPERS:
        near = difflib.get_close_matches(name, [*PAPERS, *_ALIKE], 1)
        remedy = f"the nearest is {near[0]}; known are " if near else "known are "
        remedy += f"{', '.join(PAPERS)}, and a roll by its width, as in roll:914mm or roll:36in"
        raise InputError("--paper", "must be a paper that is known", shown(text), remedy)
    return PAPERS[name]


def lying(*names: str, measure: str = "") -> tuple[tuple[str, float, float], ...]:
    """Return (name, long side, short side) [mm] of papers as drawings are laid out on them.

    With a ``measure`` a paper is called by its sides in it, as nobody need know a letter's size.

    >>> lying("a3"), lying("tabloid", measure="in")
    ((('A3', 420, 297),), (('11 x 17 in', 431.8, 279.4),))
    """
    papers = (PAPERS[name] for name in names)
    return tuple(
        (_sides(paper, measure) if measure else paper.name, paper.height, paper.width)
        for paper in papers
    )


def _sides(paper: Paper, measure: str) -> str:
    sides = (Fraction(repr(side)) / MM_PER_INCH for side in (paper.width, paper.height))
    return " x ".join(decimal_text(side, 2) for side in sides) + f" {measure}"


def _roll(text: str, written: str) -> Paper:
    try:
        width = float(parse_length(written, "mm"))
    except InputError as error:
        raise InputError("--paper", f"a roll's width: {error.rule}", shown(text)) from error
    if not _LEAST_ROLL <= width <= ROLL_LIMIT:
        rule = f"a roll must be {_LEAST_ROLL:g} to {ROLL_LIMIT:g} mm wide"
        remedy = "write its width with the unit, as in roll:914mm or roll:36in"
        raise InputError("--paper", rule, shown(text), remedy)
    return Paper(text.strip().lower().replace(" ", ""), width, ROLL_LIMIT, is_roll=True)
