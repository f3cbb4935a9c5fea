"""The keys of tables, each told once: what its value is, its default, and what it says.

The reader, the writer and the schema that editors use all go by them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final

from nesting.files.spelling import Schema, Spelling
from nesting.files.tomlcheck import NEEDED, Table

SHAPE: Final = "outline"
"""Under this name stands the value of the one key given of several that mean the same."""


class _OneOf:
    """Marks keys of which exactly one is given."""


ONE_OF: Final = _OneOf()


@dataclass(frozen=True, slots=True)
class Key:
    """A key with a value.

    ``default`` is what holds where it is not given: NEEDED where it must be, ONE_OF where it or
    another so marked must be, None where nothing holds then. What is ``stated`` is written even at
    its default.
    """

    spelling: Spelling[Any]
    says: str
    default: Any = NEEDED
    stated: bool = False


@dataclass(frozen=True, slots=True)
class Inner:
    """A key with a table, or with ``many``; one that is ``stated`` is written without keys too."""

    keys: Keys
    says: str
    many: bool = False
    needed: bool = False
    stated: bool = False


@dataclass(frozen=True, slots=True)
class Keys:
    """The keys of one table in the order they are written, and what a schema says ``also``."""

    rows: Mapping[str, Key | Inner]
    also: Schema = field(default_factory=dict)

    @property
    def values(self) -> dict[str, Key]:
        """The keys with values."""
        return {name: key for name, key in self.rows.items() if isinstance(key, Key)}

    @property
    def shapes(self) -> list[str]:
        """The keys of which exactly one is given."""
        return [name for name, key in self.values.items() if key.default is ONE_OF]


def take_keys(table: Table, keys: Keys, leave: Collection[str] = ()) -> dict[str, Any]:
    """Return the values of a table by their keys, None where one has a mistake.

    Those to ``leave`` are not read, nor are inner tables.
    """
    found, shapes = {}, {}
    for name, key in keys.rows.items():
        if isinstance(key, Inner) or name in leave:
            continue
        if key.default is ONE_OF:
            shapes[name] = key.spelling.read
        else:
            found[name] = table.take(name, key.spelling.read, key.default)
    if shapes:
        found[SHAPE] = table.take_one(**shapes)
    return found


def write_keys(keys: Keys, values: Mapping[str, Any], path: str = "") -> list[str]:
    """Return the lines of a table: keys that are not at their defaults, then its inner tables.

    ``values`` holds those of inner tables as mappings, of many as sequences of them; a key that is
    not among them, or is None, is left out.
    """
    lines = []
    for name, key in keys.values.items():
        if key.default is ONE_OF:
            text = _write_shape(name, keys, values)
        else:
            value = values.get(name)
            is_told = value is not None and (key.stated or value != key.default)
            text = key.spelling.write(value) if is_told else None
        lines += [] if text is None else [f"{name} = {text}"]
    for name, inner in keys.rows.items():
        if isinstance(inner, Inner):
            lines += _write_inner(f"{path}.{name}" if path else name, inner, values.get(name))
    return lines


def table_schema(keys: Keys, twin: Keys) -> dict[str, Any]:
    """Return the schema of a table; ``twin`` has its keys in other units.

    A default is told where it is the same in both and no day, for which JSON has no value.
    """
    needed = [name for name, key in keys.rows.items() if _is_needed(key)]
    shapes = keys.shapes
    return {
        "type": "object",
        "properties": {name: _key_schema(key, twin.rows[name]) for name, key in keys.rows.items()},
        **({"required": needed} if needed else {}),
        **({"oneOf": [{"required": [name]} for name in shapes]} if shapes else {}),
        "additionalProperties": False,
        **keys.also,
    }


def _write_shape(name: str, keys: Keys, values: Mapping[str, Any]) -> str | None:
    """Return the shape as the first of its keys that can spell it does."""
    if values.get(SHAPE) is None:
        return None
    texts = ((each, keys.values[each].spelling.write(values[SHAPE])) for each in keys.shapes)
    first, text = next((each, text) for each, text in texts if text is not None)
    return text if name == first else None


def _write_inner(
    path: str, inner: Inner, values: Mapping[str, Any] | Sequence[Mapping[str, Any]] | None
) -> list[str]:
    if values is None:
        return []
    lines = []
    for row in [values] if isinstance(values, Mapping) else values:
        body = write_keys(inner.keys, row, path)
        has_own = inner.many or inner.stated or body[:1] not in ([], [""])
        head = f"[[{path}]]" if inner.many else f"[{path}]"
        lines += [*(["", head] if has_own else []), *body]
    return lines


def _is_needed(key: Key | Inner) -> bool:
    return key.needed if isinstance(key, Inner) else key.default is NEEDED


def _key_schema(key: Key | Inner, twin: Key | Inner) -> dict[str, Any]:
    if isinstance(key, Inner) and isinstance(twin, Inner):
        inner = table_schema(key.keys, twin.keys)
        found = {"type": "array", "items": inner} if key.many else inner
    elif isinstance(key, Key) and isinstance(twin, Key):
        found = {**key.spelling.schema, **_default(key, twin)}
    return {**found, "description": key.says}


def _default(key: Key, twin: Key) -> dict[str, Any]:
    if key.default in (None, NEEDED, ONE_OF, ""):
        return {}
    texts = {each.spelling.write(each.default) for each in (key, twin)}
    value = tomllib.loads(f"key = {texts.pop()}")["key"]
    return {} if texts or isinstance(value, date) else {"default": value}
