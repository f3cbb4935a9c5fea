"""Checks a parsed file key by key and reports every mistake with its line and key path.

A *reader* turns one value into what is wanted and raises InputError, whose ``where`` is then the
place inside the value (``[3][1]``, empty for the value itself). A `Table` applies readers to keys,
collects the mistakes instead of stopping at the first, and yields None where there was one.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable, Mapping
from typing import Final, TypeGuard, TypeVar

from nesting.errors import InputError, shown
from nesting.files.tomltext import KeyPath, line_of

T = TypeVar("T")
Reader = Callable[[object], T]

MAX_MISTAKES = 100
"""Most mistakes of one file that are listed one by one."""


class _Needed:
    """Marks a key that has no default."""


NEEDED: Final = _Needed()


class Mistakes:
    """The mistakes of one file, collected with their key paths until all are known.

    Parameters
    ----------
    file
        The file's name as messages give it.
    text
        Its TOML text, from which lines are found; empty where lines are not known.
    """

    def __init__(self, file: str, text: str = "") -> None:
        self._file, self._text = file, text
        self._found: list[tuple[KeyPath, InputError]] = []

    def add(self, path: KeyPath, error: InputError) -> None:
        """Note a mistake at a key path; ``error.where`` is the place inside the value."""
        self._found.append((path, error))

    def __len__(self) -> int:
        return len(self._found)

    def located(self) -> list[InputError]:
        """Return the mistakes in the order of the file, each with file, line and key path."""
        lines = line_of(self._text, [path for path, _ in self._found])
        order = sorted(range(len(self._found)), key=lambda index: (lines[index], index))
        listed = [self._locate(*self._found[index], lines[index]) for index in order[:MAX_MISTAKES]]
        if len(order) > MAX_MISTAKES:
            listed.append(InputError(self._file, f"{len(order) - MAX_MISTAKES} more mistakes"))
        return listed

    def _locate(self, path: KeyPath, error: InputError, line: int) -> InputError:
        place = ":".join([self._file, *([str(line)] if line else [])])
        keys = path_text(path) + error.where
        where = f"{place}: {keys}" if keys else place
        return InputError(where, error.rule, error.got, error.remedy)


class Table:
    """One table of a file, read key by key; `close` then refuses every key that was not read."""

    def __init__(self, values: Mapping[str, object], path: KeyPath, mistakes: Mistakes) -> None:
        self._values, self.path, self._mistakes = values, path, mistakes
        self._known: list[str] = []
        self._mistaken: set[str] = set()

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys that are given, in the order of the file."""
        return tuple(self._values)

    def __contains__(self, key: str) -> bool:
        return key in self._values

    def is_mistaken(self, key: str) -> bool:
        """Whether the value of a key had a mistake."""
        return key in self._mistaken

    def take(self, key: str, read: Reader[T], default: T | _Needed = NEEDED) -> T | None:
        """Return the value of a key as its reader gives it, None after a mistake."""
        self._known.append(key)
        if key not in self._values:
            if isinstance(default, _Needed):
                self.fault(key, "this key is needed")
                return None
            return default
        try:
            return read(self._values[key])
        except InputError as error:
            for each in error.errors:
                self.fault(key, each.rule, each.got, each.remedy, within=each.where)
        return None

    def raw_text(self, key: str) -> str | None:
        """Return a text as it stands, None where there is none; checks nothing."""
        value = self._values.get(key)
        return value if isinstance(value, str) else None

    def table(self, key: str, *, needed: bool = True, remedy: str = "") -> Table | None:
        """Return the table under a key, None where it is absent or no table.

        ``remedy`` says what to do where a needed one is absent.
        """
        self._known.append(key)
        if key not in self:
            if needed:
                self.fault(key, "this table is needed", remedy=remedy)
            return None
        values = self.take(key, _table_reader(path_text((*self.path, key))))
        return None if values is None else Table(values, (*self.path, key), self._mistakes)

    def table_or_empty(self, key: str) -> Table | None:
        """Return the table under a key, an empty one where it is absent, None where it is none."""
        if key in self:
            return self.table(key)
        self._known.append(key)
        return Table({}, (*self.path, key), self._mistakes)

    def tables(self, key: str, *, needed: bool = False, remedy: str = "") -> list[Table]:
        """Return the tables of an array of tables; none where it is absent or has a mistake."""
        self._known.append(key)
        rows = self.take(key, _tables_reader(remedy)) if needed or key in self else None
        return [
            Table(row, (*self.path, key, index), self._mistakes)
            for index, row in enumerate(rows or ())
        ]

    def take_one(self, **readers: Reader[T]) -> T | None:
        """Return the value of the one key that is given of several that mean the same."""
        self._known += readers
        given = [key for key in readers if key in self]
        if len(given) == 1:
            return self.take(given[0], readers[given[0]])
        rule = f"give either {' or '.join(readers)}"
        self.fault(given[1] if given else "", rule, got="both" if given else "neither")
        return None

    def refuse(self, key: str, rule: str, remedy: str = "") -> None:
        """Note a mistake where a key is given that has no place here."""
        self._known.append(key)
        if key in self:
            self.fault(key, rule, remedy=remedy)

    def fault(
        self, key: str, rule: str, got: str = "", remedy: str = "", *, within: str = ""
    ) -> None:
        """Note a mistake at one key, ``within`` its value, or at the table where key is empty."""
        self._mistaken.add(key)
        path = (*self.path, key) if key else self.path
        self._mistakes.add(path, InputError(within, rule, got, remedy))

    def close(self) -> None:
        """Note every key that no one has asked for, with the nearest known key."""
        for key in self._values:
            if key not in self._known:
                self.fault(key, "unknown key", remedy=self._nearest_key(key))

    def _nearest_key(self, key: str) -> str:
        if len(self._mistakes) >= MAX_MISTAKES:  # not listed any more, and comparing takes time
            return ""
        near = difflib.get_close_matches(key[:100], self._known, 1)
        if near:
            return f"the nearest known key is {near[0]}"
        return f"known keys here: {', '.join(dict.fromkeys(self._known))}"


def whole(make: Callable[..., T], **parts: object) -> T | None:
    """Return ``make(**parts)``, or None where one of the parts had a mistake and is None."""
    return None if any(part is None for part in parts.values()) else make(**parts)


def complete(items: Iterable[T | None]) -> tuple[T, ...] | None:
    """Return the items, or None where one had a mistake and is None."""
    listed = tuple(items)
    known = tuple(item for item in listed if item is not None)
    return known if len(known) == len(listed) else None


def path_text(path: KeyPath) -> str:
    """Return a key path as people write it, arrays counted from 1.

    >>> path_text(("liner", "ornament", 1, "outline")), path_text(("a b",))
    ('liner.ornament[2].outline', "'a b'")
    """
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{_key_text(part)}"
    return text.removeprefix(".")


def _table_reader(keys: str) -> Reader[dict[str, object]]:
    def read(value: object) -> dict[str, object]:
        if not isinstance(value, dict):
            remedy = f"write it once, as [{keys}]" if value and _is_tables(value) else ""
            raise InputError("", "must be a table", got=shown(value), remedy=remedy)
        return value

    return read


def _tables_reader(remedy: str) -> Reader[list[dict[str, object]]]:
    def read(value: object) -> list[dict[str, object]]:
        if not _is_tables(value):
            raise InputError("", "must be a list of tables", got=shown(value), remedy=remedy)
        return value

    return read


def _is_tables(value: object) -> TypeGuard[list[dict[str, object]]]:
    return isinstance(value, list) and all(isinstance(row, dict) for row in value)


def _key_text(key: str) -> str:
    return key if re.fullmatch("[A-Za-z0-9_-]{1,60}", key) else shown(key)
