"""How values are spelled in a file: what is read, what is written, and what editors are told."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Generic, TypeVar

from nesting.files.tomltext import quoted
from nesting.units import decimal_text

T = TypeVar("T")
Schema = Mapping[str, Any]
"""A JSON Schema of draft 2020-12."""

_MOST_DECIMALS = 30


@dataclass(frozen=True, slots=True)
class Spelling(Generic[T]):
    """One kind of value: ``read`` from TOML and ``write`` as TOML, which is read back equal.

    ``read`` raises InputError where the value breaks its rule; ``schema`` says the rule to
    editors. ``write`` gives None for a value that cannot be spelled in this way.
    """

    read: Callable[[object], T]
    schema: Schema
    write: Callable[[T], str | None]

    def __call__(self, value: object) -> T:
        """Read the value, so that a spelling serves wherever a reader does."""
        return self.read(value)


def spelled(
    schema: Schema, write: Callable[[Any], str | None]
) -> Callable[[Callable[[object], T]], Spelling[T]]:
    """Return what makes a spelling of a reader that it decorates."""

    def make(read: Callable[[object], T]) -> Spelling[T]:
        return Spelling(read, schema, write)

    return make


def any_of(title: str, *schemas: Schema) -> Schema:
    """Return the schema of a value that may be spelled in several ways; the title names it."""
    return {"title": title, "anyOf": list(schemas)}


def text_like(pattern: str) -> Schema:
    """Return the schema of a text that looks so as a whole; nothing of Python's own is in it."""
    return {"type": "string", "pattern": f"^(?:{pattern})$"}


def shared(name: str) -> Schema:
    """Return the schema that refers to one of those all others share."""
    return {"$ref": f"#/$defs/{name}"}


def list_of(items: Schema, **limits: object) -> Schema:
    """Return the schema of a list."""
    return {"type": "array", "items": items, **limits}


def row_of(*items: Schema) -> Schema:
    """Return the schema of a list of so many values, each with a schema of its own."""
    count = len(items)
    return {"type": "array", "prefixItems": list(items), "minItems": count, "maxItems": count}


def write_list(texts: Iterable[str]) -> str:
    """Return a TOML list on one line."""
    return f"[{', '.join(texts)}]"


def write_number(
    value: Fraction, units: Sequence[tuple[str, Fraction]] = (("", Fraction(1)),)
) -> str:
    """Return a number in the first of the units, (name, how much it is), that spells it exactly.

    Without a name it is a plain number, else text. One that has no end in any is rounded.

    >>> thirds = [("", Fraction(1)), ("ft", Fraction(1, 3))]
    >>> write_number(Fraction(7, 20)), write_number(Fraction(2, 3), thirds)
    ('0.35', '"2 ft"')
    """
    for name, much in units:
        text = exact_decimal(value / much)
        if text is not None and name:
            return quoted(f"{text} {name}")
        if text is not None and Fraction(repr(float(text))) == Fraction(text):
            return text
    return repr(float(value / units[0][1]))


def exact_decimal(value: Fraction) -> str | None:
    """Return a number with all its decimals, None where they have no end.

    >>> exact_decimal(Fraction(1, 8)), exact_decimal(Fraction(1, 3))
    ('0.125', None)
    """
    decimals = (n for n in range(_MOST_DECIMALS) if 10**n % value.denominator == 0)
    count = next(decimals, None)
    return None if count is None else decimal_text(value, count)
