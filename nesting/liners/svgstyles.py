"""Style sheets of an SVG drawing, as far as they say where a shape lies and whether it is seen.

W3C, Selectors Level 3: rules for a type, a class, an id, or several of those on one element are
read. Of all that style sheets may say only what `READ` lists is looked at.
"""

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from nesting.errors import InputError
from nesting.liners.svgtree import Element, read_values

READ = frozenset(
    """display visibility fill clip-path mask transform transform-origin translate rotate scale
    d cx cy r rx ry x y width height""".split()  # noqa: SIM905
)
"""Properties that are looked at."""
MOST_RULES = 5_000
MOST_CHECKS = 2_000_000
"""Most pairs of a rule and an element that share a class, an id or a type."""

_COMMENT = re.compile(r"/\*.*?\*/|<!--|-->", re.DOTALL)
_RULE = re.compile(r"\s*([^{}]*)\{([^{}]*)\}")
_SIMPLE = re.compile(r"(\*|[A-Za-z][\w-]*)?((?:[.#][A-Za-z_\-][\w-]*)*)")
_PART = re.compile(r"([.#])([\w-]+)")


@dataclass(frozen=True, slots=True)
class _Rule:
    """What holds for elements of a type (any where empty), with these ids and classes."""

    weight: tuple[int, int, int]
    tag: str
    ids: frozenset[str]
    classes: frozenset[str]
    values: Mapping[str, str]

    @property
    def key(self) -> str:
        """One of the things an element must have for the rule to hold; empty where none."""
        first = [*(f"#{name}" for name in self.ids), *(f".{name}" for name in self.classes)]
        return min(first, default=self.tag)

    def fits(self, element: Element, classes: frozenset[str]) -> bool:
        own = element.attributes.get("id", "")
        return self.tag in ("", element.tag) and self.ids <= {own} and self.classes <= classes


def apply_sheets(where: str, root: Element) -> list[str]:
    """Give every element what the style sheets say of it; return what of them was not read.

    The element's own ``style`` goes before, its attributes come after (W3C, SVG 1.1, chapter 6.4).

    Raises
    ------
    InputError
        Where so many rules might hold for so many elements that it would take too long.
    """
    text = "\n".join(each.text for each in root.descend() if each.tag == "style")
    rules, unread = _read_rules(_COMMENT.sub(" ", text))
    by_key: defaultdict[str, list[int]] = defaultdict(list)
    rules.sort(key=lambda rule: rule.weight)
    for index, rule in enumerate(rules):
        by_key[rule.key].append(index)
    checks = 0
    for element in root.descend() if rules else ():
        classes = frozenset(element.attributes.get("class", "").split())
        own = f"#{element.attributes.get('id', '')}"
        keys = ("", element.tag, own, *(f".{name}" for name in classes))
        near = sorted(index for key in keys for index in by_key.get(key, ()))
        checks += len(near)
        if checks > MOST_CHECKS:
            told = "the style sheets must be small beside the drawing"
            raise InputError(where, told, remedy="save the drawing with styles as attributes")
        for index in near:
            if rules[index].fits(element, classes):
                element.sheet.update(rules[index].values)
    return unread


def _read_rules(text: str) -> tuple[list[_Rule], list[str]]:
    rules: list[_Rule] = []
    unread: list[str] = []
    at = 0
    while (found := _RULE.match(text, at)) and len(rules) < MOST_RULES:
        at = found.end()
        values = {key: each for key, each in read_values(found[2]).items() if key in READ}
        for selector in found[1].split(",") if values else ():
            rule = _simple_rule(selector.strip(), values)
            if rule is None:
                unread.append(" ".join(selector.split())[:60])
            else:
                rules.append(rule)
    rest = text[at:].strip()
    return rules, [*unread, rest[:60]] if rest else unread


def _simple_rule(selector: str, values: Mapping[str, str]) -> _Rule | None:
    found = _SIMPLE.fullmatch(selector)
    if found is None or not selector:
        return None
    parts = [(each[1], each[2]) for each in _PART.finditer(found[2])]
    ids = frozenset(name for sign, name in parts if sign == "#")
    classes = frozenset(name for sign, name in parts if sign == ".")
    tag = "" if found[1] in (None, "*") else found[1]
    return _Rule((len(ids), len(classes), bool(tag)), tag, ids, classes, values)
