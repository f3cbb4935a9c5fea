"""Arithmetic of a circle's arc: its chord and its middle ordinate.

Lengths are floats in one unit throughout, whichever that is.
"""

import math


def arc_of_chord(chord: float, radius: float) -> float:
    """Return the length of the shorter arc over a chord.

    The half angle is taken from its tangent, which keeps full accuracy up to the diameter, where
    the arc sine loses half its digits.

    Raises
    ------
    ValueError
        Where the chord is longer than the diameter.

    Examples
    --------
    >>> round(arc_of_chord(2.0, 1.0), 12)
    3.14159265359
    """
    rest = 4 * radius * radius - chord * chord
    if rest < 0:
        raise ValueError("a chord is at most as long as the diameter")
    return 2 * radius * math.atan2(chord, math.sqrt(rest))


def chord_of_arc(arc: float, radius: float) -> float:
    """Return the straight distance between the ends of an arc.

    >>> round(chord_of_arc(math.pi, 1.0), 12)
    2.0
    """
    return 2 * radius * math.sin(arc / (2 * radius))


def middle_ordinate(arc: float, radius: float) -> float:
    """Return how far an arc stands above its chord at the middle.

    >>> round(middle_ordinate(math.pi, 1.0), 12)
    1.0
    """
    return 2 * radius * math.sin(arc / (4 * radius)) ** 2
