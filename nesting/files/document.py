"""The one way JSON is written: format and version first, other keys sorted, numbers exact.

Every document printed with ``--json``, every JSON file and what the page is answered.
"""

import json
from collections.abc import Mapping
from fractions import Fraction

_DIGITS = 6  # of a millimetre: a step, 1/8000 mm, is exact


def to_json(kind: str, version: int, values: Mapping[str, object]) -> str:
    """Return a document as JSON text with a newline at its end.

    ``kind`` is its format, as in ``nesting-schedule``. Letters stay as they are, fractions become
    numbers, and a number that is none raises ValueError.

    >>> print(to_json("nesting-trial", 1, {"width": Fraction(1, 8), "mark": "Ä1"}), end="")
    {
     "format": "nesting-trial",
     "version": 1,
     "mark": "Ä1",
     "width": 0.125
    }
    """
    document = {"format": kind, "version": version, **_plain_entries(values)}
    return json.dumps(document, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def to_line(values: Mapping[str, object]) -> str:
    """Return values for a script of ours as one line of ASCII, under the same rules."""
    return json.dumps(_plain_entries(values), allow_nan=False)


def number(value: Fraction) -> int | float:
    """Return a number to six decimals, whole where it is.

    >>> number(Fraction(12)), number(Fraction(1, 8000))
    (12, 0.000125)
    """
    rounded = round(value, _DIGITS)
    return int(rounded) if rounded.denominator == 1 else float(rounded)


def _plain_entries(values: Mapping[str, object]) -> dict[str, object]:
    return {key: _plain(values[key]) for key in sorted(values)}


def _plain(value: object) -> object:
    if isinstance(value, Mapping):
        return _plain_entries(value)
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return number(value) if isinstance(value, Fraction) else value
