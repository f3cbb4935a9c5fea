"""The rules of a job file that say what liner and panels measure now: shrinkage and warmth."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.files.tomlcheck import Reader, Table
from nesting.units import decimal_text
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.liner import Liner

Rule = int | Fraction | None
"""A length [steps], another number, or None where there is a mistake."""

COLDEST, WARMEST = -50, 100
"""Within what a temperature must lie [degrees C]."""
MOST_EXPANSION = Fraction(1, 1000)
"""Most growth of a liner per degree C; polyurethane rubber has a fifth of it at most."""

_TEMPERATURE_KEYS = ("liner_temperature", "measured_temperature", "expansion")
_LONGEST = 30  # characters in one written number
_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_SHARE = re.compile(rf"({_NUMBER})\s*%")
_DEGREES = re.compile(rf"({_NUMBER})\s*°?\s*([CF])", re.IGNORECASE)


def read_share(value: object) -> Fraction:
    """Return a shrinkage from 0 to below 0.1, given as a fraction or as text in per cent."""
    rule = "must be a fraction, as 0.001, or text in per cent, as '0.1 %'"
    share = _exact(value)
    if isinstance(value, str):
        share = _matched(_SHARE, value, rule)[0] / 100
    if share is None:
        raise InputError("", rule, got=shown(value))
    if not 0 <= share < Fraction(1, 10):
        raise InputError("", "must be from 0 to below 0.1, which is 10 %", got=shown(value))
    return share


def read_temperature(value: object) -> Fraction:
    """Return degrees Celsius, given as a number of them or as text in Celsius or Fahrenheit."""
    rule = "must be a temperature: a number of degrees C, or text such as '20 C' or '68 F'"
    degrees = _exact(value)
    if isinstance(value, str):
        degrees, unit = _matched(_DEGREES, value, rule)
        degrees = (degrees - 32) * 5 / 9 if unit == "F" else degrees
    if degrees is None:
        raise InputError("", rule, got=shown(value))
    if not COLDEST <= degrees <= WARMEST:
        raise InputError("", f"must be from {COLDEST} to {WARMEST} C", got=shown(value))
    return degrees


def read_expansion(value: object) -> Fraction:
    """Return a growth per degree C from 0 to 0.001."""
    expansion = _exact(value)
    if expansion is None or not 0 <= expansion <= MOST_EXPANSION:
        rule = "must be a number from 0 to 0.001, the growth of each unit of length per degree C"
        raise InputError("", rule, got=shown(value))
    return expansion


CAST_READERS: dict[str, Reader[Fraction]] = {
    "liner_shrink": read_share,
    "liner_temperature": read_temperature,
    "measured_temperature": read_temperature,
    "expansion": read_expansion,
    "panel_shrink": read_share,
}
"""The reader of each of these rules by its key."""


def list_missing(rules: Mapping[str, Rule]) -> list[tuple[str, str]]:
    """Return (key, rule broken) for each rule on temperature that others call for.

    >>> list_missing({"expansion": None, "liner_temperature": None})
    [('measured_temperature', 'this key is needed where liner_temperature and expansion are given')]
    >>> list_missing({})
    []
    """
    given = [key for key in _TEMPERATURE_KEYS if key in rules]
    are = "is" if len(given) == 1 else "are"
    rule = f"this key is needed where {' and '.join(given)} {are} given"
    return [(key, rule) for key in _TEMPERATURE_KEYS if given and key not in rules]


def lay_as_cast(
    table: Table, liner: Liner | None, rules: Mapping[str, Rule]
) -> tuple[Liner | None, AsCast]:
    """Return the liner as it lies now and by what it and the panels are corrected.

    Where that cannot be worked out the liner is None and the mistake is noted at the table.
    """
    given = {key: Fraction(rules[key] or 0) for key in CAST_READERS if key in rules}
    if liner is None or not given or None in (rules[key] for key in given):
        return liner, AsCast()
    if list_missing(rules):
        return None, AsCast()
    box = liner.outline.bounds
    as_cast = AsCast(**given, drawn=(box.width, box.height))
    try:
        return lay_liner(liner, as_cast), as_cast
    except ValueError as error:
        rule = "the liner must keep its shape as it lies now"
        got = f"{error}, at {decimal_text(as_cast.factor, 6)} of its drawing"
        table.fault("liner", rule, got=got, remedy="check shrinkage and temperatures in the rules")
        return None, AsCast()


def _exact(value: object) -> Fraction | None:
    """Return a number as it is written, exactly, and None for what is no finite number."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        return Fraction(repr(value))
    except ValueError:  # nan, inf
        return None


def _matched(pattern: re.Pattern[str], text: str, rule: str) -> tuple[Fraction, str]:
    """Return the number in a text and, in capitals, the unit after it where there is one."""
    match = pattern.fullmatch(text.strip()) if len(text) <= _LONGEST else None
    if match is None:
        raise InputError("", rule, got=shown(text))
    unit = match[2].upper() if pattern.groups > 1 else ""
    return Fraction(match[1]), unit
