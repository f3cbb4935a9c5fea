"""Reads TOML text and finds the lines of its keys, which the standard reader does not tell."""

import json
import re
import tomllib
from collections.abc import Iterator, Sequence

from nesting.errors import InputError, shown

KeyPath = tuple[str | int, ...]
"""Keys, and places in arrays counted from 0: ``("panel", 1, "size")``."""

_KEY = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_KEYS = rf"{_KEY}(?:[ \t]*\.[ \t]*{_KEY})*"
_HEADER = re.compile(rf"[ \t]*(\[\[?)[ \t]*({_KEYS})[ \t]*\]")
_PAIR = re.compile(rf"[ \t]*({_KEYS})[ \t]*=")
_TOKEN = re.compile(
    r'''"""(?:[^\\]|\\.)*?"""|\'\'\'.*?\'\'\'|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|\#[^\n]*|[\[{\]}\n]''',
    re.DOTALL,
)
_PLACE = re.compile(r" \(at line (\d+), column (\d+)\)$")
_HINTS = (
    (re.compile("[\u201c\u201d\u201e]"), 'put text in straight quotes, "like this"'),
    (re.compile(r"^\s*\{"), "a job is TOML; JSON, as in schedule.json, is none"),
    (re.compile(r"^\s*[\w-]+\s*:"), "write a key, an equals sign and its value"),
    (re.compile(r"^\s*[\w-]+[ \t]+[\w-]+[^=\"']*="), "a key has no blanks, write dam_width"),
    (
        re.compile(r"^\s*\[[\w.-]+\]"),
        "double brackets begin one of several, as [[panel]]; any other stands once",
    ),
    (re.compile(r"""=\s*"[^"]*\\"""), "write / for each backslash of a path"),
    (re.compile(r"""^[^"']*=\s*"[^"]*$"""), "close the quotes on the same line"),
    (re.compile(r"[0-9],[0-9]+\s*(#.*)?$"), "write decimals with a point"),
    (
        re.compile(r"""[0-9]\s*(mm|cm|m|in|ft|'|"|/\s*[0-9])"""),
        'put a length with a unit or a fraction in quotes, for example "5 ft 3 7/16 in"',
    ),
    (re.compile(r"=\s*[0-9.]+\s+[A-Za-z]"), "write the number alone"),
    (re.compile(r"=\s*[A-Za-z]"), "put text in quotes"),
)
"""What a line that is no TOML looks like, and what to do; the first that fits is told."""
_TWICE = "its table has it already: drop one, or begin another table, as with [[panel]]"


def parse_toml(file: str, text: str) -> dict[str, object]:
    """Return the parsed file; InputError with the line and a hint where it is not TOML."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_error(file, text, str(error)) from error
    except (RecursionError, ValueError) as error:
        what = "nested too deep" if isinstance(error, RecursionError) else "a number is too long"
        raise InputError(file, f"the file is not TOML: {what}") from error


def quoted(text: str) -> str:
    r"""Return a text as a TOML string.

    >>> print(quoted('5 ft "3" in'))
    "5 ft \"3\" in"
    """
    return json.dumps(text, ensure_ascii=False)


def line_of(text: str, paths: Sequence[KeyPath]) -> list[int]:
    r"""Return the line, from 1, of each path or of the nearest table above it; 0 where unknown.

    >>> line_of("[liner]\nsize = [1, 2]", [("liner", "size"), ("liner", "name"), ("bed",)])
    [2, 1, 0]
    """
    lines = _index(text) if text and paths else {}
    return [_nearest_line(lines, path) for path in paths]


def _nearest_line(lines: dict[KeyPath, int], path: KeyPath) -> int:
    for length in range(len(path), 0, -1):
        if path[:length] in lines:
            return lines[path[:length]]
    return 0


def _index(text: str) -> dict[KeyPath, int]:
    lines: dict[KeyPath, int] = {}
    last: dict[KeyPath, int] = {}  # index of the latest table of each array
    table: KeyPath = ()
    for line, start in _statements(text):
        if header := _HEADER.match(text, start):
            table = _table_path(header[1], _parts(header[2]), last)
            for length in range(1, len(table) + 1):
                lines.setdefault(table[:length], line)
        elif pair := _PAIR.match(text, start):
            parts = _parts(pair[1])
            for length in range(1, len(parts) + 1):
                lines.setdefault(table + parts[:length], line)
    return lines


def _statements(text: str) -> Iterator[tuple[int, int]]:
    """Yield line and offset of every line that does not continue a list or a text."""
    depth, line = 0, 1
    yield line, 0
    for token in _TOKEN.finditer(text):
        mark = token[0]
        if mark in "[{":
            depth += 1
        elif mark in "]}":
            depth -= 1
        line += mark.count("\n")
        if mark == "\n" and depth == 0:
            yield line, token.end()


def _table_path(bracket: str, parts: KeyPath, last: dict[KeyPath, int]) -> KeyPath:
    path: KeyPath = ()
    for part in parts[:-1]:
        path = _into_array((*path, part), last)
    path = (*path, parts[-1])
    if bracket == "[[":
        last[path] = last.get(path, -1) + 1
    return _into_array(path, last)


def _into_array(path: KeyPath, last: dict[KeyPath, int]) -> KeyPath:
    return (*path, last[path]) if path in last else path


def _parts(keys: str) -> KeyPath:
    return tuple(_unquote(key) for key in re.findall(_KEY, keys))


def _unquote(key: str) -> str:
    if key[0] in "\"'":
        return str(tomllib.loads(f"key = {key}")["key"])
    return key


def _syntax_error(file: str, text: str, message: str) -> InputError:
    place = _PLACE.search(message)
    what = _PLACE.sub("", message).replace("Invalid", "unreadable").replace("invalid", "unreadable")
    what = what[:1].lower() + what[1:]
    if place is None:
        what = what.replace("(at end of document)", "at the end of the file")
        return InputError(file, f"the file is not TOML: {what}")
    line = text.replace("\r\n", "\n").split("\n")[int(place[1]) - 1]
    hint = next((hint for pattern, hint in _HINTS if pattern.search(line)), "")
    hint = _TWICE if what.startswith("cannot overwrite") else hint
    rule = f"the line is not TOML: {what} (column {place[2]})"
    return InputError(f"{file}:{place[1]}", rule, got=shown(line.strip()), remedy=hint)
