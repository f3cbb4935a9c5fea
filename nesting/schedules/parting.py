"""Where a dam longer than its sheet is parted: pieces as even as corners of panels allow."""

from collections.abc import Iterable

from nesting.units import STEPS_PER_MM

KEPT_OFF = 50 * STEPS_PER_MM
"""How far from every panel's corner a dam is parted at least [steps]."""


def part_length(
    length: int, most: int, corners: Iterable[int], division: int
) -> tuple[int, ...] | None:
    """Return where a length is parted into the fewest pieces, ascending; () where it is one.

    Each place is a whole number of divisions from the start, so that a tape finds it.

    Parameters
    ----------
    length, most
        What is parted, and the longest a piece may be [steps].
    corners
        Where panels have corners along it [steps from its start]; some may lie beyond it.
    division
        That of the rule people mark with [steps].

    Returns
    -------
    tuple of int, or None
        None where no such places exist, as panels are too many and too small.

    Examples
    --------
    >>> mm = STEPS_PER_MM
    >>> [at // mm for at in part_length(3000 * mm, 1200 * mm, [0, 1020 * mm], mm)]
    [970, 2000]
    >>> part_length(300 * mm, 120 * mm, [0, 90 * mm, 180 * mm, 270 * mm], mm) is None
    True
    """
    bans = sorted((corner - KEPT_OFF, corner + KEPT_OFF) for corner in corners)
    # From either end as far as a piece goes: no place lies beyond these with so few pieces.
    forward, at = list[int](), 0
    while length - at > most:
        place = _latest(at + most, bans, division)
        if place <= at:
            return None
        forward.append(place)
        at = place
    backward, at = list[int](), length
    for _ in forward:
        at = _earliest(at - most, bans, division)
        backward.append(at)
    places, at = list[int](), 0
    for number, least in enumerate(reversed(backward), start=1):
        even, limit = length * number // (len(forward) + 1), _latest(at + most, bans, division)
        near = (
            _latest(min(even, limit), bans, division),
            _earliest(max(even, least), bans, division),
        )
        at = min((each for each in near if least <= each <= limit), key=lambda at: abs(at - even))
        places.append(at)
    return tuple(places)


def _latest(limit: int, bans: list[tuple[int, int]], division: int) -> int:
    """Return the last place up to a limit that lies in no ban; touching one is allowed."""
    place = limit // division * division
    for low, high in reversed(bans):
        if low < place < high:
            place = low // division * division
    return place


def _earliest(limit: int, bans: list[tuple[int, int]], division: int) -> int:
    """Return the first place from a limit on that lies in no ban."""
    place = -(-limit // division) * division
    for low, high in bans:
        if low < place < high:
            place = -(-high // division) * division
    return place
