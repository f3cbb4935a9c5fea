"""The rules of a job file that say what liner and panels measure now: shrinkage and warmth."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from nesting.files.tomlcheck import Table
from nesting.jobs.keys import CAST_KEYS, TEMPERATURES
from nesting.units import decimal_text
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.liner import Liner

Rule = int | Fraction | None
"""A length [steps], another number, or None where there is a mistake."""


def list_missing(rules: Mapping[str, Rule]) -> list[tuple[str, str]]:
    """Return (key, rule broken) for each rule on temperature that others call for.

    >>> list_missing({"expansion": None, "liner_temperature": None})
    [('measured_temperature', 'this key is needed where liner_temperature and expansion are given')]
    >>> list_missing({})
    []
    """
    given = [key for key in TEMPERATURES if key in rules]
    are = "is" if len(given) == 1 else "are"
    rule = f"this key is needed where {' and '.join(given)} {are} given"
    return [(key, rule) for key in TEMPERATURES if given and key not in rules]


def lay_as_cast(
    table: Table, liner: Liner | None, rules: Mapping[str, Rule]
) -> tuple[Liner | None, AsCast]:
    """Return the liner as it lies now and by what it and the panels are corrected.

    Where that cannot be worked out the liner is None and the mistake is noted at the table.
    """
    given: dict[str, Any] = {key: Fraction(rules[key] or 0) for key in CAST_KEYS if key in rules}
    if liner is None or not given or None in (rules[key] for key in given):
        return liner, AsCast()
    if list_missing(rules):
        return None, AsCast()
    as_cast = replace(AsCast(), **given)
    as_cast = replace(as_cast, drawn=liner if as_cast.factor != 1 else None)
    try:
        return lay_liner(liner, as_cast), as_cast
    except ValueError as error:
        rule = "the liner must keep its shape as it lies now"
        got = f"{error}, at {decimal_text(as_cast.factor, 6)} of its drawing"
        table.fault("liner", rule, got=got, remedy="check shrinkage and temperatures in the rules")
        return None, AsCast()
