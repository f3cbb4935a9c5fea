"""What a value of a job may be that is no length: shares, weights, warmth, prices, days."""

import re
from collections.abc import Mapping, Sequence
from datetime import date
from fractions import Fraction

from nesting.errors import InputError, InputErrors, shown
from nesting.files.dates import WEEKDAYS, read_date, read_minutes, read_weekday
from nesting.files.readers import read_each, read_whole
from nesting.files.spelling import (
    Schema,
    Spelling,
    any_of,
    list_of,
    row_of,
    spelled,
    text_like,
    write_list,
    write_number,
)
from nesting.files.tomltext import quoted
from nesting.masses import (
    DENSEST,
    DENSITY_UNITS,
    HEAVIEST,
    KG_PER_M3_PER_PCF,
    LIGHTEST,
    MASS_UNITS,
    SHARE_UNITS,
    number_pattern,
    parse_density,
    parse_mass,
    parse_number,
    parse_share,
)
from nesting.unitwords import WORDS
from nesting.values.shopdays import duration_text

COLDEST, WARMEST = -50, 100
"""Within what a temperature must lie [degrees C]."""
MOST_EXPANSION = Fraction(1, 1000)
"""Most growth of a liner per degree C; polyurethane rubber has a fifth of it at most."""
MOST_BEDS = 20
"""Most beds of one name, and most liners."""

_MOST_PRICE = 10**9
_MOST_DATES = 2_000
_LONGEST = 30  # characters in one written number
_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_SHARE = rf"({_NUMBER})\s*%"
_DEGREES = rf"({_NUMBER})\s*°?\s*([CFcf])"


def read_share(
    what: str, most: int, *, least: Fraction = Fraction(0), below: bool = False
) -> Spelling[Fraction]:
    """Return the spelling of a share of ``what`` from ``least`` to ``most``, or ``below`` it."""
    ends: Schema = {"minimum": float(least), "exclusiveMaximum" if below else "maximum": most}
    schema = any_of("share", {"type": "number", **ends}, text_like(number_pattern(SHARE_UNITS)))

    @spelled(schema, lambda share: write_number(share, [*SHARE_UNITS.items()]))
    def read(value: object) -> Fraction:
        share = parse_share(value, what)
        if not least <= share <= most or (below and share == most):
            end = f"and < {most}" if below else f"and <= {most}"
            rule = f"must be >= {float(least):g} {end}, as a share of {what}"
            remedy = 'write five parts in a hundred as 0.05 or "5 %"' if share >= 1 else ""
            raise InputError("", rule, shown(value), remedy)
        return share

    return read


def read_mass(units: str) -> Spelling[Fraction]:
    """Return the spelling of a weight [kg] in a file of those units."""
    most = float(HEAVIEST / MASS_UNITS["lb"])
    schema = any_of(
        "weight",
        {"type": "number", "exclusiveMinimum": 0, "maximum": most},
        text_like(number_pattern(MASS_UNITS)),
    )
    own = ("", MASS_UNITS[WORDS[units or "mm"].mass])
    return Spelling(
        lambda value: parse_mass(value, units),
        schema,
        lambda mass: write_number(mass, [own, *MASS_UNITS.items()]),
    )


def read_density(units: str) -> Spelling[Fraction]:
    """Return the spelling of a density [kg/m3] in a file of those units."""
    least = float(LIGHTEST / KG_PER_M3_PER_PCF)
    schema = any_of(
        "density",
        {"type": "number", "minimum": least, "maximum": DENSEST},
        text_like(number_pattern(DENSITY_UNITS)),
    )
    own = ("", DENSITY_UNITS[WORDS[units or "mm"].density])
    return Spelling(
        lambda value: parse_density(value, units),
        schema,
        lambda density: write_number(density, [own, *DENSITY_UNITS.items()]),
    )


@spelled(
    any_of(
        "share",
        {"type": "number", "minimum": 0, "exclusiveMaximum": 0.1},
        text_like(rf"\s*{_SHARE}\s*"),
    ),
    write_number,
)
def read_shrink(value: object) -> Fraction:
    """Return a shrinkage from 0 to below 0.1, given as a fraction or as text in per cent."""
    rule = "must be a fraction, as 0.001, or text in per cent, as '0.1 %'"
    if isinstance(value, str):
        share = Fraction(_matched(_SHARE, value, rule)[1]) / 100
    else:
        share = _exact(value, rule)
    if not 0 <= share < Fraction(1, 10):
        raise InputError("", "must be from 0 to below 0.1, which is 10 %", got=shown(value))
    return share


def _write_temperature(degrees: Fraction) -> str:
    plain = write_number(degrees)
    fahrenheit = write_number(degrees * 9 / 5 + 32)
    return plain if Fraction(plain) == degrees else quoted(f"{fahrenheit} F")


@spelled(
    any_of(
        "temperature",
        {"type": "number", "minimum": COLDEST, "maximum": WARMEST},
        text_like(rf"\s*{_DEGREES}\s*"),
    ),
    _write_temperature,
)
def read_temperature(value: object) -> Fraction:
    """Return degrees Celsius, given as a number of them or as text in Celsius or Fahrenheit."""
    rule = "must be a temperature: a number of degrees C, or text such as '20 C' or '68 F'"
    if isinstance(value, str):
        match = _matched(_DEGREES, value, rule)
        degrees = Fraction(match[1])
        degrees = (degrees - 32) * 5 / 9 if match[2] in "fF" else degrees
    else:
        degrees = _exact(value, rule)
    if not COLDEST <= degrees <= WARMEST:
        raise InputError("", f"must be from {COLDEST} to {WARMEST} C", got=shown(value))
    return degrees


def _number(rule: str, most: Fraction, unit: Fraction = Fraction(1)) -> Spelling[Fraction]:
    """Return the spelling of a plain number from 0 to ``most``, read per ``unit``."""

    @spelled(
        {"type": "number", "minimum": 0, "maximum": float(most)},
        lambda number: write_number(number * unit),
    )
    def read(value: object) -> Fraction:
        number = _exact(value, rule)
        if not 0 <= number <= most:
            raise InputError("", rule, shown(value))
        return number / unit

    return read


read_expansion = _number(
    "must be a number from 0 to 0.001, the growth of each unit of length per degree C",
    MOST_EXPANSION,
)
"""A growth per degree C."""
read_hours = _number("must be a number of hours from 0 to 10000", Fraction(10_000))
"""A time [hours]."""


def read_price(unit: Fraction = Fraction(1)) -> Spelling[Fraction]:
    """Return the spelling of a price that is given for so much: 0.4536 kg where it is per lb."""
    return _number(f"must be a price from 0 to {_MOST_PRICE}", Fraction(_MOST_PRICE), unit)


@spelled(
    list_of(read_date.schema, maxItems=_MOST_DATES),
    lambda days: write_list(day.isoformat() for day in days),
)
def read_dates(value: object) -> tuple[date, ...]:
    """Return a list of days, rising and each once."""
    if isinstance(value, list) and len(value) > _MOST_DATES:
        raise InputError("", f"must have at most {_MOST_DATES} dates", got=str(len(value)))
    return tuple(sorted(set(read_each(read_date)(value))))


@spelled(
    {
        **list_of(read_weekday.schema),
        "not": {"allOf": [{"contains": {"const": day}} for day in WEEKDAYS]},
    },
    lambda days: write_list(read_weekday.write(day) or "" for day in days),
)
def read_weekdays(value: object) -> tuple[int, ...]:
    """Return a list of weekdays by their numbers of ISO 8601, rising, not all seven."""
    days = tuple(sorted(set(read_each(read_weekday)(value))))
    if len(days) == len(WEEKDAYS):
        raise InputError("", "must leave a day to work on", got="all seven")
    return days


def _write_counts(counts: Sequence[tuple[str, int]]) -> str:
    return f"{{ {', '.join(f'{quoted(name)} = {count}' for name, count in counts)} }}"


_read_count = read_whole(0, MOST_BEDS)


@spelled({"type": "object", "additionalProperties": _read_count.schema}, _write_counts)
def read_counts(value: object) -> tuple[tuple[str, int], ...]:
    """Return a table of how many there are of each name."""
    if not isinstance(value, Mapping):
        rule = "must be a table of numbers like { table = 2, drum = 1 }"
        raise InputError("", rule, got=shown(value))
    counts, errors = [], []
    for name, count in value.items():
        try:
            counts.append((name, _read_count(count)))
        except InputError as error:
            errors.append(InputError(f".{name}", error.rule, error.got))
    if errors:
        raise InputErrors(errors)
    return tuple(counts)


@spelled(row_of(*[read_minutes.schema] * 2), lambda window: write_list(map(str, window)))
def read_window(value: object) -> tuple[int, int]:
    """Return the least and the most of a duration [minutes]."""
    if not isinstance(value, list) or len(value) != 2:
        raise InputError("", "must be [least, most] minutes", got=shown(value))
    least, most = read_each(read_minutes)(value)
    if least > most:
        got = " to ".join(map(duration_text, (least, most)))
        raise InputError("", "must be [least, most] with least <= most", got=got)
    return least, most


def _exact(value: object, rule: str) -> Fraction:
    """Return a plain number exactly as it is written; InputError with the rule for all else."""
    try:
        return parse_number(value)
    except InputError as error:
        raise InputError("", rule, got=shown(value)) from error


def _matched(pattern: str, text: str, rule: str) -> re.Match[str]:
    match = re.fullmatch(pattern, text.strip()) if len(text) <= _LONGEST else None
    if match is None:
        raise InputError("", rule, got=shown(text))
    return match
