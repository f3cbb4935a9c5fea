"""A panel size as people type it: width by height, each a length."""

import re
from pathlib import Path

from nesting.errors import InputError, shown
from nesting.files.lengths import MAX_LENGTH, LengthReaders
from nesting.units import has_feet, parse_steps

_BETWEEN = re.compile(r"\s*[xX\u00d7]\s*")  # a multiplication sign, too
_EXAMPLES = 'write it like 1500x900, "1500 mm x 900 mm" or "5 ft 3 in x 2 ft 11 1/2 in"'


def is_size(text: str) -> bool:
    """Whether a text given where a file or a size may stand is meant as a size.

    >>> is_size("1600 \u00d7 1200"), is_size("mixed.toml"), is_size("order")
    (True, False, False)
    """
    parts = _BETWEEN.split(text.strip())
    counts = [any(map(str.isnumeric, part)) for part in parts]
    return counts == [True, True] and not (Path(text).suffix == ".toml" or _is_file(text))


def size_mark(size: tuple[int, int], units: str) -> str:
    """Return the mark of a panel that has no other than its size [steps], in the job's units.

    >>> size_mark((12_801_600, 7_213_600), "mm"), size_mark((12_801_600, 7_213_600), "in")
    ('1600.2x901.7', '63x35.5')
    """
    lengths = LengthReaders(units)
    return "x".join(lengths.text(side).removesuffix(f" {units}") for side in size)


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


def sides_in_feet(text: str) -> tuple[bool, bool]:
    """Return for width and height of a size whether it is written with feet.

    >>> sides_in_feet("5 ft 3 in x 35 in")
    (True, False)
    """
    width, height = map(has_feet, _BETWEEN.split(text.strip()))
    return width, height


def _is_file(text: str) -> bool:
    try:
        return Path(text).is_file()
    except (OSError, ValueError):  # a name no file can have
        return False


def _side(part: str, unit: str, text: str) -> int:
    try:
        steps = parse_steps(part, unit)
    except InputError as error:
        raise InputError(f"Size {shown(text)}", error.rule, error.got, _EXAMPLES) from error
    if not 0 < steps <= MAX_LENGTH:
        rule = "width and height must be > 0 mm and at most 33 m"
        remedy = (
            f"plain numbers are in {unit}, as in the liner's file; write units where they are not"
        )
        raise InputError(f"Size {shown(text)}", rule, got=shown(part), remedy=remedy)
    return steps
