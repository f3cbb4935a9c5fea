"""Arithmetic of a circle's arc."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.shapes.arcs import arc_of_chord, chord_of_arc, middle_ordinate


@given(st.floats(0.01, 3.1), st.floats(1.0, 1e8))
def test_an_arc_up_to_the_half_circle_is_that_of_its_chord(angle, radius):
    """Arc to chord and back is the same arc."""
    arc = angle * radius
    assert arc_of_chord(chord_of_arc(arc, radius), radius) == pytest.approx(arc, rel=1e-7)


@given(st.floats(0.01, 3.1), st.floats(1.0, 1e8))
def test_chord_ordinate_and_radius_fit_one_circle(angle, radius):
    """Half the chord, squared, is the ordinate times what is left of the diameter."""
    arc = angle * radius
    chord, ordinate = chord_of_arc(arc, radius), middle_ordinate(arc, radius)
    assert ordinate * (2 * radius - ordinate) == pytest.approx(chord * chord / 4, rel=1e-9)


def test_a_chord_beyond_the_diameter_is_refused():
    """No circle has one."""
    with pytest.raises(ValueError, match="at most as long as the diameter"):
        arc_of_chord(2.001, 1.0)


def test_accuracy_holds_at_the_diameter():
    """One part in 10^12 short of the diameter the arc is right to a part in 10^12.

    With e = 1e-12 the half angle is pi / 2 - sqrt(2 e), to first order.
    """
    expected = 2 * (math.pi / 2 - math.sqrt(2e-12))
    assert arc_of_chord(2 * (1 - 1e-12), 1.0) == pytest.approx(expected, abs=1e-9)
