"""Weights, densities and shares at the door: what people write becomes exact numbers."""

import math
import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

from nesting.errors import InputError, shown
from nesting.units import STEPS_PER_MM, decimal_text
from nesting.unitwords import WORDS

KG_PER_LB = Fraction("0.45359237")  # Weights and Measures Act 1985 (UK), section 1
M_PER_FT = Fraction("0.3048")
M3_PER_FT3 = M_PER_FT**3  # 16 CFR 500.19: 1 ft = 30.48 cm exactly
KG_PER_M3_PER_PCF = KG_PER_LB / M3_PER_FT3
"""How many kg/m3 one lb/ft3 is."""
STEPS_PER_M = 1000 * STEPS_PER_MM
M2_PER_FT2 = Fraction("0.09290304")  # 16 CFR 500.19: 1 ft2 = 929.0304 cm2 exactly
LITRES_PER_FT3 = 1000 * M3_PER_FT3

LIGHTEST, DENSEST = 500, 5000
"""Least and greatest density that is taken for one [kg/m3]; a wrong unit falls outside."""
HEAVIEST = 1_000_000
"""Greatest weight that is taken for one [kg]."""

MASS_UNITS = {
    "kg": Fraction(1),
    "g": Fraction(1, 1000),
    "t": Fraction(1000),
    "lb": KG_PER_LB,
    "lbs": KG_PER_LB,
    "oz": KG_PER_LB / 16,
}
DENSITY_UNITS = {
    "kg/m3": Fraction(1),
    "t/m3": Fraction(1000),
    "g/cm3": Fraction(1000),
    "lb/ft3": KG_PER_M3_PER_PCF,
}
SHARE_UNITS = {"": Fraction(1), "%": Fraction(1, 100)}
"""The units of texts, and how much each one is."""
_NUMBER = r"-?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_WRITTEN = re.compile(rf"(?P<number>{_NUMBER}) ?(?P<unit>[a-z%][a-z0-9/]*)?")
_BLANKS, _MINUS = " \u00a0\u202f", "\u2212"
_PLAIN = str.maketrans({"³": "3", **dict.fromkeys(_BLANKS, " "), _MINUS: "-"})
_LONGEST = 40


def parse_mass(value: object, units: str) -> Fraction:
    """Return a weight above zero [kg], exact.

    Parameters
    ----------
    value
        A number of kg in ``mm`` jobs and of lb in ``in`` jobs, or text with kg, g, t, lb or oz.
    units
        ``mm`` or ``in``: the job's own.

    Raises
    ------
    InputError
        With an empty ``where``, for anything else, and for a weight beyond 1000 t.

    Examples
    --------
    >>> parse_mass("250 g", "mm"), parse_mass(1, "in") == parse_mass("16 oz", "mm")
    (Fraction(1, 4), True)
    """
    unit = WORDS[units].mass
    example = f'write a number of {unit}, or text like "23 kg" or "51 lb"'
    mass = _parse(value, MASS_UNITS, unit, "a weight", example)
    if not 0 < mass <= HEAVIEST:
        rule = f"must be > 0 {unit}" if mass <= 0 else "must be at most 1000 t"
        raise InputError("", rule, got=_got(value, unit))
    return mass


def parse_density(value: object, units: str) -> Fraction:
    """Return a density [kg/m3], exact; raises as `parse_mass`, and where it is that of no mix.

    >>> parse_density("2 t/m3", "in"), round(float(parse_density(120, "in")), 2)
    (Fraction(2000, 1), 1922.22)
    """
    unit = WORDS[units].density
    example = f'write a number of {unit}, or text like "1922 kg/m3" or "120 lb/ft3"'
    density = _parse(value, DENSITY_UNITS, unit, "a density", example)
    if not LIGHTEST <= density <= DENSEST:
        low, high = (decimal_text(end / KG_PER_M3_PER_PCF, 1) for end in (LIGHTEST, DENSEST))
        rule = f"must be from {LIGHTEST} to {DENSEST} kg/m3 ({low} to {high} lb/ft3)"
        raise InputError("", rule, got=_got(value, unit))
    return density


def parse_number(value: object) -> Fraction:
    """Return a finite plain number as it is written, exactly.

    >>> parse_number(0.1)
    Fraction(1, 10)
    """
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise InputError("", "must be a number", got=shown(value))
    return Fraction(value) if isinstance(value, int) else Fraction(repr(value))


def parse_share(value: object, what: str) -> Fraction:
    """Return a share from a number, ``0.05``, or from text, ``"5 %"``; ``what`` it is a share of.

    >>> parse_share("5 %", "the cement") == parse_share(0.05, "the cement")
    True
    """
    example = f'write it as a share of {what}, 0.05 or "5 %" for five parts in a hundred'
    return _parse(value, SHARE_UNITS, "", "a share", example)


def in_unit(kg: Fraction, units: str) -> Fraction:
    """Return a weight [kg] in the unit of the job."""
    return kg if units == "mm" else kg / KG_PER_LB


def in_density_unit(density: Fraction, units: str) -> Fraction:
    """Return a density [kg/m3] in the unit of the job."""
    return density if units == "mm" else density / KG_PER_M3_PER_PCF


def mass_text(kg: Fraction, units: str, decimals: int = 1) -> str:
    """Return a weight in the job's unit, and in the other in brackets.

    >>> mass_text(Fraction(23), "mm"), mass_text(51 * KG_PER_LB, "in")
    ('23.0 kg (50.7 lb)', '51.0 lb (23.1 kg)')
    """
    kilograms = f"{float(kg):.{decimals}f} kg"
    pounds = f"{float(kg / KG_PER_LB):.{decimals}f} lb"
    first, second = (kilograms, pounds) if units == "mm" else (pounds, kilograms)
    return f"{first} ({second})"


def number_pattern(units: Iterable[str]) -> str:
    """Return what a number as text with one of the units looks like, in any dialect of patterns."""
    words = "|".join("".join(map(_either_case, unit)) for unit in units)
    number = _NUMBER.replace("-", f"[{_MINUS}-]", 1)
    return f"[{_BLANKS}]*{number}[{_BLANKS}]*(?:{words})[{_BLANKS}]*"


def _either_case(letter: str) -> str:
    return "[3³]" if letter == "3" else f"[{letter}{letter.upper()}]"


def _parse(
    value: object, units: Mapping[str, Fraction], own: str, thing: str, example: str
) -> Fraction:
    if not isinstance(value, str):
        try:
            return parse_number(value) * units[own]
        except InputError as error:
            raise InputError("", f"must be {thing}", shown(value), example) from error
    if "," in value:
        rule = f"{thing} has no comma"
        raise InputError("", rule, shown(value), "write decimals with a point")
    plain = re.sub(" +", " ", value.translate(_PLAIN).lower()).strip()
    match = _WRITTEN.fullmatch(plain) if len(value) <= _LONGEST else None
    if match is None or (match["unit"] or own) not in units:
        raise InputError("", f"must be {thing}", shown(value), example)
    return Fraction(match["number"]) * units[match["unit"] or own]


def _got(value: object, unit: str) -> str:
    return shown(value) if isinstance(value, str) else f"{shown(value)} {unit}"
