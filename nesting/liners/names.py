"""Names for what a drawing holds: valid in a job file, each once, in the order of the drawing."""

from __future__ import annotations

import re
from collections.abc import Iterable

from nesting.files.readers import MAX_NAME, is_printable

_BARRED = re.compile(r"[/\\\"'<>]+")
_ROOM = MAX_NAME - 6  # for a number behind


def clean_name(text: str) -> str:
    r"""Return a text as a valid name, empty where nothing is left of it.

    >>> clean_name("  wing/left <2> "), clean_name("\t")
    ('wing-left -2-', '')
    """
    plain = "".join(each if is_printable(each) else " " for each in text)
    return " ".join(_BARRED.sub("-", plain).split())[:_ROOM].strip()


def give_names(wanted: Iterable[str], kind: str) -> tuple[str, ...]:
    """Return a name for each: the wanted one, numbered where it is taken, or ``kind`` and a number.

    >>> give_names(["heron", "", "heron", "ornament 1", ""], "ornament")
    ('heron', 'ornament 2', 'heron 2', 'ornament 1', 'ornament 3')
    """
    cleaned = [clean_name(each) for each in wanted]
    taken = set(cleaned)
    first: set[str] = set()
    names: list[str] = []
    count = 0
    for name in cleaned:
        if name and name not in first:
            first.add(name)
            names.append(name)
            continue
        stem, number = (name, 2) if name else (kind, count + 1)
        while f"{stem} {number}" in taken:
            number += 1
        count = count if name else number
        names.append(f"{stem} {number}")
        taken.add(names[-1])
    return tuple(names)
