"""SVG text as a tree of elements; whatever could fetch, bloat or never end is refused."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NoReturn
from xml.parsers import expat

from nesting.errors import InputError, shown

MOST_ELEMENTS = 200_000
MOST_DEPTH = 200
_LONGEST_ENTITY = 2_000
_LONGEST_TEXT = 200_000  # of a title or a style sheet
_HOLDERS = ("svg", "g", "defs", "symbol", "switch")  # hold elements only
_KEPT_TEXT = ("title", "style")
_COMPRESSED = b"\x1f\x8b"


@dataclass(slots=True)
class Element:
    """One element: its local name, its attributes, what is in it, its line, and its style.

    ``sheet`` is what style sheets say of it. ``is_foreign`` is true of an element of another
    vocabulary, told by its prefix, which SVG does not show. Of attributes with a prefix only those
    are kept that name the element (as ``label``) or another (as ``href``).
    """

    tag: str
    attributes: dict[str, str]
    line: int
    children: list[Element] = field(default_factory=list)
    text: str = ""
    sheet: dict[str, str] = field(default_factory=dict)
    is_foreign: bool = False

    def get(self, name: str) -> str:
        """Return a property, empty where it is missing: by style, else by attribute."""
        return self.style.get(name) or self.attributes.get(name, "")

    @property
    def style(self) -> dict[str, str]:
        """What the ``style`` attribute sets, and where it is silent the style sheets."""
        own = self.attributes.get("style", "")
        return {**self.sheet, **read_values(own)} if own else self.sheet

    def descend(self) -> Iterator[Element]:
        """Yield the element and all that is in it."""
        yield self
        for child in self.children:
            yield from child.descend()

    @property
    def title(self) -> str:
        """The text of its own title."""
        return next((child.text.strip() for child in self.children if child.tag == "title"), "")


def read_values(text: str) -> dict[str, str]:
    """Return the properties a text sets, each with its value.

    >>> read_values("display: none !important; r:5px")
    {'display': 'none', 'r': '5px'}
    """
    pairs = (part.partition(":") for part in text.split(";"))
    found = ((key.strip().lower(), value) for key, sign, value in pairs if sign)
    return {key: value.replace("!important", "").strip() for key, value in found}


def parse_svg(where: str, content: bytes) -> Element:
    """Return the root element of an SVG file.

    Raises
    ------
    InputError
        With file and line: not XML, not SVG, too large or too deep, or with entities that reach
        outside the file or expand others.
    """
    if content.startswith(_COMPRESSED):
        raise InputError(where, "the file is compressed", remedy="save it uncompressed")
    builder = _Builder(where)
    try:
        builder.parser.Parse(content, True)
    except expat.ExpatError as error:
        reason = expat.errors.messages.get(error.code, "it cannot be parsed")
        raise InputError(f"{where}:{error.lineno}", f"the file is not XML: {reason}") from error
    except (UnicodeError, LookupError, ValueError) as error:
        if isinstance(error, InputError):
            raise
        raise InputError(where, "the file is not XML: its encoding is not known") from error
    if builder.root is None or builder.root.tag != "svg":
        got = builder.root.tag if builder.root else "nothing"
        raise InputError(where, "the file is not SVG", f"an element named {got[:40]}")
    return builder.root


class _Builder:
    def __init__(self, where: str) -> None:
        self._where, self._count = where, 0
        self._open: list[Element] = []
        self._prefix = ""  # of the root, and so of SVG
        self.root: Element | None = None
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._read
        self.parser.EntityDeclHandler = self._declare
        self.parser.ExternalEntityRefHandler = self._refuse_outside
        self.parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > MOST_ELEMENTS:
            self._refuse(f"a drawing has at most {MOST_ELEMENTS} elements")
        if len(self._open) >= MOST_DEPTH:
            self._refuse(f"elements nest at most {MOST_DEPTH} deep")
        prefix, _, tag = name.rpartition(":")
        element = Element(tag, _plain(attributes), self.parser.CurrentLineNumber)
        if self._open:
            element.is_foreign = prefix != self._prefix
            self._open[-1].children.append(element)
        else:
            self.root, self._prefix = element, prefix
        self._open.append(element)

    def _end(self, _name: str) -> None:
        self._open.pop()

    def _read(self, text: str) -> None:
        if self._open and self._open[-1].tag in _HOLDERS and text.strip():
            rule = "words stand between the elements, so a bracket is missing there"
            where = f"{self._where}:{self.parser.CurrentLineNumber}"
            raise InputError(where, rule, shown(text.strip()[:40]))
        if (
            self._open
            and self._open[-1].tag in _KEPT_TEXT
            and len(self._open[-1].text) < _LONGEST_TEXT
        ):
            self._open[-1].text += text

    def _declare(
        self,
        name: str,
        is_parameter: bool,
        value: str | None,
        _base: str | None,
        _system: str | None,
        _public: str | None,
        _notation: str | None,
    ) -> None:
        if value is None:
            self._refuse("an entity must not reach outside the file")
        if is_parameter or "&" in value or len(value) > _LONGEST_ENTITY:
            self._refuse("an entity must be short and hold no other")

    def _refuse_outside(self, *_: object) -> NoReturn:
        self._refuse("an entity must not reach outside the file")

    def _refuse(self, rule: str) -> NoReturn:
        remedy = "save the drawing anew, as SVG by the standard alone"
        raise InputError(f"{self._where}:{self.parser.CurrentLineNumber}", rule, remedy=remedy)


def _plain(attributes: dict[str, str]) -> dict[str, str]:
    """Return attributes without a prefix, and the few with one that are meant."""
    kept = {key: value for key, value in attributes.items() if ":" not in key}
    for key, value in attributes.items():
        prefix, sign, name = key.rpartition(":")
        if sign and name in ("label", "href"):
            kept.setdefault(name, value)
        elif sign and name == "id":
            kept.setdefault("id" if prefix == "xml" else "label", value)
    return kept
