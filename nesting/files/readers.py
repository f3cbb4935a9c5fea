"""What one value of a file may be, and what it means.

Each reads the value as parsed and raises InputError, or InputErrors, where it breaks its rule.
"""

import unicodedata
from collections import Counter
from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import TypeVar

from nesting.errors import InputError, InputErrors, shown
from nesting.files.spelling import (
    Schema,
    Spelling,
    list_of,
    shared,
    spelled,
    write_list,
    write_number,
)
from nesting.files.tomltext import quoted

T = TypeVar("T")
Reader = Callable[[object], T]

MAX_TEXT = 200
"""Most characters of a text."""
MAX_NAME = 60
"""Most characters of a name or mark."""

_BARRED = "/\\\"'<>"  # in names
_JOINERS = "\u200c\u200d"  # needed to write some scripts; every other format character is refused


def read_choice(*choices: str) -> Spelling[str]:
    """Return the spelling of one of several words."""

    @spelled({"enum": list(choices)}, quoted)
    def read(value: object) -> str:
        if not isinstance(value, str) or value not in choices:
            raise InputError("", f"must be one of {', '.join(choices)}", got=shown(value))
        return value

    return read


@spelled({"type": "boolean"}, lambda flag: str(flag).lower())
def read_flag(value: object) -> bool:
    """Return true or false."""
    if not isinstance(value, bool):
        remedy = "write it without quotes" if value in ("true", "false") else ""
        raise InputError("", "must be true or false", shown(value), remedy)
    return value


def read_whole(least: int, most: int) -> Spelling[int]:
    """Return the spelling of a whole number within limits, both included."""

    @spelled({"type": "integer", "minimum": least, "maximum": most}, str)
    def read(value: object) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            rule = f"must be a whole number from {least} to {most}"
            quoted = isinstance(value, str) and value.strip().isdigit()
            remedy = "write it without quotes" if quoted else ""
            raise InputError("", rule, shown(value), remedy)
        return value

    return read


def read_each(read: Reader[T]) -> Reader[tuple[T, ...]]:
    """Return a reader of a list whose every value is read; its mistakes are raised together."""

    def read_all(value: object) -> tuple[T, ...]:
        items: list[T] = []
        errors: list[InputError] = []
        for index, item in enumerate(read_list(value), start=1):
            try:
                items.append(read(item))
            except InputError as inner:
                errors += [_inside(index, error) for error in inner.errors]
        if errors:
            raise InputErrors(errors)
        return tuple(items)

    return read_all


def read_list(value: object) -> list[object]:
    """Return the value if it is a list."""
    if not isinstance(value, list):
        raise InputError("", "must be a list", got=shown(value))
    return value


@spelled(shared("text"), quoted)
def read_text(value: object) -> str:
    """Return a text of 1 to 200 characters without control characters, not framed by blanks."""
    if not isinstance(value, str):
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        remedy = "put it in quotes" if is_number else ""
        raise InputError("", "must be text", got=shown(value), remedy=remedy)
    if not 1 <= len(value) <= MAX_TEXT:
        raise InputError(
            "", f"must have 1 to {MAX_TEXT} characters", got=f"{len(value)} characters"
        )
    if value != value.strip():
        raise InputError("", "must not begin or end with a blank", got=shown(value))
    if not is_printable(value):
        raise InputError("", "must have no control characters", got=shown(value))
    return value


@spelled(shared("name"), quoted)
def read_name(value: object) -> str:
    """Return a name or mark: a text of 1 to 60 characters without slash, quote or angle bracket."""
    if isinstance(value, str) and not 1 <= len(value) <= MAX_NAME:
        raise InputError("", f"must have 1 to {MAX_NAME} characters", f"{len(value)} characters")
    name = read_text(value)
    refused = next((character for character in name if character in _BARRED), "")
    if refused:
        rule = "must have no slashes, quotes or angle brackets"
        raise InputError("", rule, got=shown(name), remedy=f"leave out the {refused}")
    return name


@spelled(list_of(shared("name"), uniqueItems=True), lambda names: write_list(map(quoted, names)))
def read_names(value: object) -> tuple[str, ...]:
    """Return a list of different names."""
    names = read_each(read_name)(value)
    if len(set(names)) < len(names):
        twice = next(name for name, count in Counter(names).items() if count > 1)
        raise InputError("", "must name each one once", got=f"{shown(twice)} more than once")
    return names


@spelled({"type": "number", "minimum": 0, "maximum": 0.5}, write_number)
def read_half(value: object) -> Fraction:
    """Return a number from 0 to 0.5 as it is written, exactly."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value <= 0.5:
        raise InputError("", "must be a number from 0 to 0.5", got=shown(value))
    return Fraction(repr(value))


def text_schemas() -> dict[str, Schema]:
    """Return the schemas of texts that others refer to by name.

    A class of characters is written by its codes, which is the same in every dialect of patterns.
    """
    kept = range(0x10000)  # beyond it, and for halves of such, dialects differ
    refused = [code for code in kept if code >> 11 != 27 and not is_printable(chr(code))]
    barred = [*map(ord, _BARRED)]
    return {
        name: {"type": "string", "minLength": 1, "maxLength": most, "pattern": _framed(codes)}
        for name, most, codes in (
            ("text", MAX_TEXT, refused),
            ("name", MAX_NAME, [*refused, *barred]),
        )
    }


def _framed(refused: Iterable[int]) -> str:
    """Return the pattern of a text without those characters that no blanks frame."""
    codes = sorted(refused)
    firsts = [code for code in codes if code - 1 not in refused]
    lasts = [code for code in codes if code + 1 not in refused]
    none = "".join(f"\\u{a:04x}-\\u{b:04x}" for a, b in zip(firsts, lasts, strict=True))
    return f"^[^\\s{none}](?:[^{none}]*[^\\s{none}])?$"


def _inside(index: int, error: InputError) -> InputError:
    return InputError(f"[{index}]{error.where}", error.rule, error.got, error.remedy)


def is_printable(text: str) -> bool:
    """Whether a text holds nothing that steers a terminal or that a drawing cannot hold."""
    return all(
        character in _JOINERS
        or (
            unicodedata.category(character) not in ("Cc", "Cf", "Cs", "Zl", "Zp")
            and not _is_noncharacter(ord(character))
        )
        for character in text
    )


def _is_noncharacter(code: int) -> bool:
    return code & 0xFFFE == 0xFFFE or 0xFDD0 <= code <= 0xFDEF
