"""Arcs, chords and bends against printed figures; the source stands on top of each check.

Only figures the sources print are asserted. A tolerance is half a unit of the last place printed,
unless the check says why it is looser. "mm" stands for whichever unit the source uses: the
relations do not depend on it.
"""

import math
from fractions import Fraction

import pytest

from nesting.arcs import arc_of_chord, chord_of_arc, chord_of_ordinate, radius_of, strain
from nesting.bed import Bed
from nesting.beds import chord_length, face_length, flat_length
from nesting.units import to_steps

MM = 8000


def test_handbook_radius_from_chord_and_height():
    """Machinery's Handbook, 31st ed. 2020, p. 79: chord 16, height 6 gives radius 8 1/3."""
    assert radius_of(16, 6) == pytest.approx(25 / 3, rel=1e-12)


def test_handbook_chord_from_radius_and_height():
    """Same page: radius 60, height 8; the book cuts 59.8665 to 59.86, hence 0.01."""
    assert chord_of_ordinate(8, 60) == pytest.approx(59.86, abs=0.01)


def test_handbook_segment():
    """Same book, p. 50, examples 3 and 4: radius 12, depth 2: chord 13.27, arc 14.06.

    The angle is printed as 67.13 deg where 67.115 is right (taken from the rounded arc), hence
    0.02.
    """
    chord = chord_of_ordinate(2, 12)
    assert chord == pytest.approx(13.27, abs=0.005)
    assert arc_of_chord(chord, 12) == pytest.approx(14.06, abs=0.005)
    assert math.degrees(arc_of_chord(chord, 12) / 12) == pytest.approx(67.13, abs=0.02)


def test_surveyed_shallow_curve():
    """Solved surveying problem, simple curves: middle ordinate 2 m, chord 70 m: R = 307.25 m."""
    assert radius_of(70, 2) == pytest.approx(307.25, abs=0.005)


def test_surveyed_curve_through_a_bed():
    """Solved surveying problem: R 311 m, 26 deg: chord 139.92 m, arc 141.13 m.

    A concave bed of 312 under a liner of 1 has its face at 311 (lengths in units of 1 m). On it
    the flat length that spans 26 deg yields both the arc and the chord.
    """
    bed = Bed("curve", "concave", radius=312 * MM)
    flat = to_steps(Fraction(math.radians(26)) * Fraction(3115, 10))
    assert face_length(flat, bed, MM) / MM == pytest.approx(141.13, abs=0.005)
    assert chord_length(flat, bed, MM) / MM == pytest.approx(139.92, abs=0.005)
    assert chord_of_arc(math.radians(26) * 311, 311) == pytest.approx(139.92, abs=0.005)
    assert flat_length(to_steps(Fraction("139.92")), bed, MM, "chord") == pytest.approx(
        flat, abs=0.01 * MM
    )  # the printed chord is rounded to 0.005, and the arc grows 1.03 times as fast


def test_gere_wire_on_a_drum():
    """Gere, Mechanics of Materials, problem 5.4-1: 1/16 in wire, drum radius 24 in: 1300e-6."""
    assert strain(1 / 32, 24 + 1 / 32) == pytest.approx(1300e-6, abs=5e-6)


def test_gere_shortest_circle():
    """Same, problem 5.4-2: 3 mm wire at strain 0.0024 closes to a circle of 3.93 m at the least."""
    radius = 1.5 / 0.0024
    assert strain(1.5, radius) == pytest.approx(0.0024)
    assert 2 * math.pi * radius / 1000 == pytest.approx(3.93, abs=0.005)


def test_bend_allowance():
    """Sheet-metal workbook, 90 deg bend: t 0.050 in, r 0.032 in, K 0.447: allowance 0.085 in.

    The sheet on its punch is a liner on a convex bed: its flat length keeps on the neutral
    surface. Scaled by 1000, so that steps are fine against the printed thousandths.
    """
    punch = Bed("punch", "convex", radius=32 * MM, neutral=Fraction(447, 1000))
    face = to_steps(Fraction(math.pi / 2) * 82)
    assert flat_length(face, punch, 50 * MM) / MM == pytest.approx(85, abs=0.5)


@pytest.mark.parametrize(
    ("form", "neutral", "printed"),
    [
        ("convex", Fraction(1, 2), "2409.96"),
        ("convex", Fraction(0), "2420.00"),
        ("concave", Fraction(1, 2), "2389.96"),
        ("concave", Fraction(0), "2380.00"),
    ],
)
def test_liner_of_2400_on_a_bed_of_3000(form, neutral, printed):
    """Arithmetic from rule 10, no outside source: liner 2400 x 25 mm, R 3000 mm."""
    bed = Bed("drum", form, radius=3000 * MM, neutral=neutral)
    assert face_length(2400 * MM, bed, 25 * MM) / MM == pytest.approx(float(printed), abs=0.005)
