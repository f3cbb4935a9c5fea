"""A panel size as people type it: width by height, each a length."""

from __future__ import annotations

import re

from nesting.errors import InputError, shown
from nesting.units import parse_steps

_BETWEEN = re.compile(r"\s*[xX\u00d7]\s*")  # a multiplication sign, too
_EXAMPLES = 'write it like 1500x900, "1500 mm x 900 mm" or "5 ft 3 in x 2 ft 11 1/2 in"'
_LONGEST = 33_000 * 8000


def parse_size(text: str, unit: str) -> tuple[int, int]:
    """Return width and height [steps] of a size like ``1500x900``; plain numbers are in ``unit``.

    Raises InputError where it is none.

    >>> parse_size("5 ft 3 in x 2 ft 11 1/2 in", "mm")
    (12801600, 7213600)
    """
    parts = _BETWEEN.split(text.strip())
    if len(parts) != 2:
        rule = "must be a width and a height with an x between"
        raise InputError("Size", rule, got=shown(text), remedy=_EXAMPLES)
    width, height = (_side(part, unit, text) for part in parts)
    return width, height


def _side(part: str, unit: str, text: str) -> int:
    try:
        steps = parse_steps(part, unit)
    except InputError as error:
        raise InputError(f"Size {shown(text)}", error.rule, error.got, _EXAMPLES) from error
    if not 0 < steps <= _LONGEST:
        rule = "width and height must be > 0 mm and at most 33 m"
        remedy = (
            f"plain numbers are in {unit}, as in the liner's file; write units where they are not"
        )
        raise InputError(f"Size {shown(text)}", rule, got=shown(part), remedy=remedy)
    return steps
