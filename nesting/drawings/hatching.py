"""Hatches by number, so that many kinds of ground are told apart in black and white."""

from collections.abc import Iterator
from math import ceil, floor

from nesting.drawings.record import Line, Rect

_PITCH = 3.0
_DIRECTIONS = ((), ((1, 1),), ((1, -1),), ((0, 1),), ((1, 0),), ((1, 1), (1, -1)), ((0, 1), (1, 0)))
HATCHES = len(_DIRECTIONS)
"""How many different hatches there are, the empty one among them."""


def hatch(rect: Rect, number: int) -> tuple[Line, ...]:
    """Return the lines of a hatch inside the rectangle; hatch 0, and every seventh on, has none.

    Lines lie on one grid of the whole sheet, so that neighbours with one hatch look like one.
    """
    lines: list[Line] = []
    for across, up in _DIRECTIONS[number % HATCHES]:
        lines += _parallels(rect, across, up)
    return tuple(lines)


def _parallels(rect: Rect, across: int, up: int) -> Iterator[Line]:
    """Yield the lines along (across, up): those on which up * x - across * y is a multiple."""
    corners = [up * x - across * y for x, y in rect.ring]
    pitch = _PITCH * (2**0.5 if across and up else 1.0)
    for number in range(floor(min(corners) / pitch) + 1, ceil(max(corners) / pitch)):
        level = number * pitch
        if not across:
            yield Line(((level * up, rect.y0), (level * up, rect.y1)), "hatch")
        elif not up:
            yield Line(((rect.x0, -level), (rect.x1, -level)), "hatch")
        else:
            yield _slanted(rect, level, up)


def _slanted(rect: Rect, level: float, up: int) -> Line:
    """Return the part inside the rectangle of the line y = up * x - level."""
    ends = sorted(up * (level + y) for y in (rect.y0, rect.y1))
    x0, x1 = max(rect.x0, ends[0]), min(rect.x1, ends[1])
    return Line(((x0, up * x0 - level), (x1, up * x1 - level)), "hatch")
