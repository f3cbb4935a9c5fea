"""Lengths at the door: what people write becomes whole steps, and steps become what people read.

One millimetre is 8000 steps: the coarsest grid on which every whole micrometre and every 1/64 in
(3175 steps) is exact.
"""

import math
import re
import unicodedata
from fractions import Fraction

from nesting.errors import InputError, shown

STEPS_PER_MM = 8000
STEPS_PER_INCH = 203_200
MM_PER_INCH = Fraction(127, 5)  # 16 CFR 500.19: 1 in = 2.54 cm exactly
MM_PER_UNIT = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": MM_PER_INCH}

_LONGEST = 60  # characters in one written length


def to_steps(millimetres: Fraction) -> int:
    """Round a length [mm] to the nearest whole step, halves away from zero: the rule at the door.

    >>> to_steps(Fraction(1)), to_steps(Fraction(127, 5) / 64), to_steps(Fraction(1, 16000))
    (8000, 3175, 1)
    """
    return nearest(millimetres * STEPS_PER_MM)


def to_mm(steps: int) -> Fraction:
    """Return steps as exact millimetres."""
    return Fraction(steps, STEPS_PER_MM)


def to_mm2(square_steps: int) -> Fraction:
    """Return an area of square steps as exact square millimetres."""
    return Fraction(square_steps, STEPS_PER_MM**2)


def parse_length(value: int | float | str, unit: str, *, signed: bool = False) -> Fraction:
    r"""Return what was written as exact millimetres.

    Parameters
    ----------
    value
        A number in ``unit``, or text: ``1612.9 mm``, ``161.29 cm``, ``63 7/16 in``, ``63-7/16"``,
        ``5' 3-7/16"``, ``5 ft 3 in``. Text without a unit is in ``unit`` too.
    unit
        ``mm`` or ``in``.
    signed
        Whether a sign is allowed, as on coordinates and tolerances.

    Raises
    ------
    InputError
        With the reason and an empty ``where``, for whatever leaves a doubt: commas, exponents,
        decimals mixed with a fraction, improper fractions, 12 in or more after feet, fractions of
        a millimetre, a sign where none belongs, nothing at all.

    Examples
    --------
    >>> parse_length("5' 3-7/16\"", "mm") == parse_length(63.4375, "in") == Fraction("1611.3125")
    True
    >>> parse_length("63 17/16 in", "mm")
    Traceback (most recent call last):
    ...
    nesting.errors.InputError: a fraction must be less than 1 in, got '63 17/16 in'.
    """
    if isinstance(value, str):
        return _parse_text(value, unit, signed)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise InputError("", "a length must be a number or text", got=shown(value))
    if isinstance(value, float) and not math.isfinite(value):
        raise InputError("", "a length must be finite", got=shown(value))
    if value < 0 and not signed:
        raise InputError("", "a length must not be negative", got=shown(value))
    exact = Fraction(value) if isinstance(value, int) else Fraction(repr(value))
    return exact * MM_PER_UNIT[unit]


def parse_steps(value: int | float | str, unit: str) -> int:
    """Return ``to_steps(parse_length(value, unit, signed=True))``, quickly for plain numbers.

    Below 2**40 steps a float product is off by less than 2**-12 of a step, so the exact way is
    needed only where the product comes that near to a half.

    >>> parse_steps(1612.9, "mm"), parse_steps(-0.5, "in")
    (12903200, -101600)
    """
    per_unit = STEPS_PER_MM if unit == "mm" else STEPS_PER_INCH
    if type(value) is int:
        return value * per_unit
    if type(value) is float and abs(value * per_unit) < 2**40:
        whole = round(value * per_unit)
        if abs(value * per_unit - whole) < 0.499:
            return whole
    return to_steps(parse_length(value, unit, signed=True))


def has_feet(value: object) -> bool:
    """Whether a length is written with feet.

    >>> has_feet("5 ft 3 7/16 in"), has_feet("63 in"), has_feet(63)
    (True, False, False)
    """
    if not isinstance(value, str) or len(value) > _LONGEST:
        return False
    match = _LENGTH.fullmatch(_plain(value))
    return match is not None and bool(match["feet"] or match["feet_alone"])


def decimal_text(value: Fraction, decimals: int) -> str:
    """Return a number rounded to so many decimals, halves away from zero, without trailing zeros.

    >>> decimal_text(Fraction(1, 8), 2), decimal_text(Fraction(-1, 1000), 2)
    ('0.13', '0')
    """
    text = _fixed(value, decimals)
    return text.rstrip("0").rstrip(".") if decimals else text


def mm_text(steps: int) -> str:
    """Return a length in millimetres, without the unit, to at most three decimals.

    >>> mm_text(12_903_200), mm_text(-4000), mm_text(1), mm_text(24_000_000)
    ('1612.9', '-0.5', '0', '3000')
    """
    return decimal_text(to_mm(steps), 3)


def length_schemas() -> dict[str, dict[str, object]]:
    """Return what texts of lengths look like, as JSON Schemas by their names: any, > 0, >= 0, <= 0.

    That inches after feet are below 12 and fractions below 1 in is reckoned, not looked at.
    """
    stacked = f"[⁰¹²³⁴⁵⁶⁷⁸⁹]+[{_SLASHES}](?:[₀₁₂₃₄₅₆₇₈₉]+|[0-9]+)"
    typeset = f"(?:[0-9]+[{_BLANKS}]*)?(?:[{_FRACTIONS}]|{stacked})[{_BLANKS}]*"
    plain = re.sub(r"\?P<\w+>", "?:", "".join(_LENGTH.pattern.replace("\\ ", "~").split()))
    tokens = "|".join(map(re.escape, _ECMA))
    pattern = re.sub(tokens, lambda token: _ECMA[token[0]], plain.replace(_WHOLE, f"@|{_WHOLE}"))
    pattern = f"^[{_BLANKS}]*(?:{pattern.replace('@', typeset)})[{_BLANKS}]*$"
    below, some = f"^[{_BLANKS}]*[{_DASHES}]", f"[1-9¹²³⁴⁵⁶⁷⁸⁹{_FRACTIONS}]"
    length = {"type": "string", "maxLength": _LONGEST, "pattern": pattern}
    refer: dict[str, object] = {"$ref": "#/$defs/length"}
    return {
        "length": length,
        "length-above-0": {**refer, "pattern": some, "not": {"pattern": below}},
        "length-from-0": {**refer, "not": {"pattern": below}},
        "length-to-0": {**refer, "anyOf": [{"pattern": below}, {"not": {"pattern": some}}]},
    }


def nearest(value: Fraction) -> int:
    """Return the nearest whole number, halves away from zero."""
    doubled = 2 * abs(value)
    nearest = (doubled.numerator // doubled.denominator + 1) // 2
    return nearest if value >= 0 else -nearest


def share_text(part: float | Fraction, whole: float | Fraction = 1) -> str:
    """Return a share in per cent with one decimal, halves away from zero; 0.0 % of nothing.

    >>> share_text(1695, 10_000), share_text(1, 6), share_text(0, 0)
    ('17.0 %', '16.7 %', '0.0 %')
    """
    return f"{_fixed(100 * Fraction(part) / Fraction(whole or 1), 1)} %"


def _fixed(value: Fraction, decimals: int) -> str:
    units = nearest(value * 10**decimals)
    whole, part = divmod(abs(units), 10**decimals)
    return f"{'-' if units < 0 else ''}{whole}" + (f".{part:0{decimals}d}" if decimals else "")


# What people write. [0-9] and not \d, which matches the digits of every script.
_FRACTIONS = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
_PRIMES, _DOUBLE_PRIMES = "'\u2032\u2018\u2019", "\u2033\u201c\u201d"
_DASHES, _SLASHES = "\u2010\u2011\u2012\u2013\u2212-", "/\u2044\u2215"
_BLANKS = " \t\u00a0\u2007\u2009\u202f"
_PLAIN = str.maketrans(
    {
        **{part: f" {unicodedata.normalize('NFKC', part)} " for part in _FRACTIONS},
        **dict.fromkeys(_PRIMES, "'"),
        **dict.fromkeys(_DOUBLE_PRIMES, '"'),
        **dict.fromkeys(_DASHES, "-"),
        "\u2215": "/",
        **dict.fromkeys(_BLANKS, " "),
    }
)
_STACKED = re.compile("([⁰¹²³⁴⁵⁶⁷⁸⁹]+)[/\u2044\u2215]([₀₁₂₃₄₅₆₇₈₉]+|[0-9]+)")
_NUMBER = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_FEET = r"(?:'|ft\.?|foot|feet)"
_LENGTH = re.compile(
    rf"""(?P<sign>[+-])?\ ?(?:
        (?P<metric>{_NUMBER})\ ?(?P<unit>mm|cm|m)
      | (?P<feet_alone>{_NUMBER})\ ?{_FEET}
      | (?:(?P<feet>[0-9]+)\ ?{_FEET}\ ?-?\ ?)?
        (?:(?P<number>{_NUMBER})
         | (?:(?P<whole>[0-9]+)[\ -])?(?P<top>[0-9]+)\ ?/\ ?(?P<bottom>[0-9]+))
        \ ?(?P<inches>"|in\.?|inch|inches)?
    )""",
    re.VERBOSE,
)
_ECMA = {
    "[~-]": f"(?:[{_BLANKS}]+|[{_DASHES}])",
    "[+-]": f"[+{_DASHES}]",
    "-?": f"[{_DASHES}]?",
    "~?": f"[{_BLANKS}]*",
    "'": f"[{_PRIMES}]",
    '"': f'(?:["{_DOUBLE_PRIMES}]|[{_PRIMES}]{{2}})',
    "/": f"[{_SLASHES}]",
    **{letter: f"[{letter}{letter.upper()}]" for letter in "abcdefghijklmnopqrstuvwxyz"},
}
_WHOLE = "(?:(?:[0-9]+)[~-])?"  # before a fraction
_DOUBTS = (
    (r",", "a length has no comma", "write decimals with a point and thousands without a sign"),
    (r"nan|inf", "a length must be finite", ""),
    (r"[0-9.] ?e ?[+-]?[0-9]", "a length has no exponent", "write its digits out"),
    (r"\.[0-9]*[ -][0-9]+ ?/|\.[0-9]* ?/|/ ?[0-9]*\.", "a length has decimals or a fraction", ""),
    (r"/.*m$", "only inches have fractions", "write millimetres with decimals"),
)
_EXAMPLES = 'write it like "1612.9 mm", "63 7/16 in" or "5 ft 3 7/16 in"'


def _parse_text(text: str, unit: str, signed: bool) -> Fraction:
    plain = _plain(text)
    match = _LENGTH.fullmatch(plain) if len(text) <= _LONGEST else None
    if match is None:
        raise _refusal(text, plain)
    if match["sign"] and not signed:
        raise InputError("", "a length must have no sign", got=shown(text))
    length = _metric(match, unit) if _is_metric(match, unit) else _imperial(match, text, unit)
    return -length if match["sign"] == "-" else length


def _plain(text: str) -> str:
    """Return the text in plain characters: ``3½`` becomes ``3 1/2``."""
    text = _STACKED.sub(lambda part: f" {unicodedata.normalize('NFKC', part[0])} ", text)
    text = text.translate(_PLAIN).replace("\u2044", "/").lower()
    return re.sub(" +", " ", text).strip(" ").replace("''", '"')


def _is_metric(match: re.Match[str], unit: str) -> bool:
    unmarked = match["number"] and not match["inches"] and not match["feet"]
    return bool(match["metric"] or (unmarked and unit == "mm"))


def _metric(match: re.Match[str], unit: str) -> Fraction:
    return Fraction(match["metric"] or match["number"]) * MM_PER_UNIT[match["unit"] or unit]


def _imperial(match: re.Match[str], text: str, unit: str) -> Fraction:
    if match["feet_alone"]:
        return Fraction(match["feet_alone"]) * 12 * MM_PER_INCH
    inches = Fraction(match["number"] or match["whole"] or 0)
    if match["top"]:
        inches += _fraction(int(match["top"]), int(match["bottom"]), text)
    if match["feet"] and inches >= 12:
        raise InputError("", "inches after feet must be < 12", got=shown(text))
    if match["feet"] and not match["inches"]:
        raise InputError("", "inches after feet need their unit", shown(text), _EXAMPLES)
    if not match["inches"] and unit == "mm":
        raise InputError("", "only inches have fractions", shown(text), _EXAMPLES)
    return (12 * Fraction(match["feet"] or 0) + inches) * MM_PER_INCH


def _fraction(top: int, bottom: int, text: str) -> Fraction:
    if top >= bottom:
        raise InputError("", "a fraction must be less than 1 in", got=shown(text))
    return Fraction(top, bottom)


def _refusal(text: str, plain: str) -> InputError:
    if not plain:
        return InputError("", "a length must not be empty", got=shown(text), remedy=_EXAMPLES)
    if len(text) > _LONGEST:
        return InputError("", f"a length has at most {_LONGEST} characters", got=shown(text))
    for pattern, rule, remedy in _DOUBTS:
        if re.search(pattern, plain):
            return InputError("", rule, got=shown(text), remedy=remedy)
    return InputError("", "must be a length", got=shown(text), remedy=_EXAMPLES)
