"""Names for what a drawing holds: valid in a job file, each once, numbered by where it lies."""

import re
from collections.abc import Iterable, Sequence

from nesting.files.readers import MAX_NAME, is_printable
from nesting.shapes.geometry import Polygon

_BARRED = re.compile(r"[/\\\"'<>]+")
_ROOM = MAX_NAME - 6  # for a number behind


def clean_name(text: str) -> str:
    r"""Return a text as a valid name, empty where nothing is left of it.

    >>> clean_name("  wing/left <2> "), clean_name("\t")
    ('wing-left -2-', '')
    """
    plain = "".join(each if is_printable(each) else " " for each in text)
    return " ".join(_BARRED.sub("-", plain).split())[:_ROOM].strip()


def give_names(wanted: Iterable[str], outlines: Sequence[Polygon], kind: str) -> tuple[str, ...]:
    """Return a name for each: the wanted one, numbered where it is taken, or ``kind`` and a number.

    Numbers rise from left to right by the left end of each outline, and upward where those are one,
    so that a number can be found at the liner.
    """
    cleaned = [clean_name(each) for each in wanted]
    taken = set(cleaned)
    first: set[str] = set()
    names = [""] * len(cleaned)
    count = 0
    for place in sorted(range(len(cleaned)), key=lambda index: outlines[index].bounds):
        name = cleaned[place]
        if name and name not in first:
            first.add(name)
            names[place] = name
            continue
        stem, number = (name, 2) if name else (kind, count + 1)
        while f"{stem} {number}" in taken:
            number += 1
        count = count if name else number
        names[place] = f"{stem} {number}"
        taken.add(names[place])
    return tuple(names)
