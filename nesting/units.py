"""Lengths at the door: what people write becomes whole steps, and steps become what people read.

One millimetre is 8000 steps: the coarsest grid on which every whole micrometre and every 1/64 in
(3175 steps) is exact.
"""

from __future__ import annotations

from fractions import Fraction

STEPS_PER_MM = 8000
MM_PER_INCH = Fraction(127, 5)  # 16 CFR 500.19: 1 in = 2.54 cm exactly


def to_steps(millimetres: Fraction) -> int:
    """Round a length [mm] to the nearest whole step, halves away from zero: the rule at the door.

    >>> to_steps(Fraction(1)), to_steps(Fraction(127, 5) / 64), to_steps(Fraction(1, 16000))
    (8000, 3175, 1)
    """
    doubled = 2 * abs(millimetres) * STEPS_PER_MM
    steps = (doubled.numerator // doubled.denominator + 1) // 2
    return steps if millimetres >= 0 else -steps


def to_mm(steps: int) -> Fraction:
    """Return steps as exact millimetres."""
    return Fraction(steps, STEPS_PER_MM)
