"""What the drawings of finished faces are called: ``face-MARK.svg``."""

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

FACE_PATTERN = r"face-.+\.svg"
"""What every such name looks like."""


def name_face_files(marks: Sequence[str]) -> list[str]:
    """Return a file name for each kind of panel, given by its mark, in turn.

    Kinds of one mark are numbered; so are marks that no two files could bear beside each other, as
    where they differ in case alone. What is no letter, digit or hyphen becomes a hyphen.

    >>> name_face_files(["A1", "A1", "B 2", "b/2"])
    ['face-A1-1.svg', 'face-A1-2.svg', 'face-B-2.svg', 'face-b-2-1.svg']
    """
    names: dict[str, str] = {}
    several = Counter(marks)
    for mark in marks:
        number = int(several[mark] > 1)
        while (name := _name(mark, number)).casefold() in names:
            number += 1
        names[name.casefold()] = name
    return list(names.values())


def list_face_files(layouts: Iterable[Mapping[str, Any]]) -> list[str]:
    """Return every name that a face of a schedule's layouts, as a file has them, can have had.

    A number is passed over only for a file whose name begins alike, so none is higher than there
    are panels whose marks do.
    """
    panels = Counter(panel["mark"] for layout in layouts for panel in layout.get("panels", ()))
    stems = {mark: _stem(mark).casefold() for mark in panels}
    names: list[str] = []
    for mark, stem in stems.items():
        most = sum(panels[other] for other in stems if stems[other].startswith(stem))
        names += (_name(mark, number) for number in range(most + 1))
    return names


def _name(mark: str, number: int) -> str:
    return f"face-{_stem(mark)}-{number}.svg" if number else f"face-{_stem(mark)}.svg"


def _stem(mark: str) -> str:
    return re.sub(r"[^\w-]+", "-", mark)
