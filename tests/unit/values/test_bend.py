"""Face, back and chord lengths to flat ones and back."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM
from hypothesis import assume, given
from hypothesis import strategies as st

from nesting.values.bed import Bed
from nesting.values.bend import (
    back_radius,
    chord_length,
    face_length,
    face_radius,
    flat_length,
    flat_range,
    flat_size,
    neutral_radius,
    off_nominal,
    ordered_length,
    ordered_side,
)
from nesting.values.panels import Panel

DRUM = Bed("drum", "convex", radius=3000 * MM, curved_axis="x")
TROUGH = replace(DRUM, name="trough", form="concave")
TABLE = Bed("table")
RUBBER = 25 * MM
PANEL = Panel("A1", 2420 * MM, 900 * MM, 1, "drum")


def test_radii_grow_outward_from_a_convex_bed_and_shrink_inward_from_a_concave_one():
    """Bed 3000, liner 25, panel 19 mm: face at 3025 or 2975, back at 3044 or 2956."""
    assert face_radius(DRUM, RUBBER) == 3025 * MM
    assert face_radius(TROUGH, RUBBER) == 2975 * MM
    assert back_radius(DRUM, RUBBER, 19 * MM) == 3044 * MM
    assert back_radius(TROUGH, RUBBER, 19 * MM) == 2956 * MM
    assert neutral_radius(DRUM, RUBBER) == Fraction(30125, 10) * MM
    assert neutral_radius(TROUGH, RUBBER) == Fraction(29875, 10) * MM


@pytest.mark.parametrize(
    ("bed", "measured_on", "ordered_mm", "flat_mm"),
    [
        (DRUM, "face", 2420, 2410),
        (DRUM, "back", 3044, 3012.5),
        (TROUGH, "face", 2380, 2390),
        (TROUGH, "back", 2956, 2987.5),
        (replace(DRUM, neutral=Fraction(0)), "face", 3025, 3000),
        (replace(DRUM, neutral=Fraction(1)), "face", 3025, 3025),
    ],
)
def test_a_flat_length_spans_the_same_angle(bed, measured_on, ordered_mm, flat_mm):
    """Worked out by hand: an arc equal to a radius spans one radian on every surface."""
    got = flat_length(ordered_mm * MM, bed, RUBBER, measured_on, 19 * MM)
    assert got == flat_mm * MM
    assert ordered_length(got, bed, RUBBER, measured_on, 19 * MM) == ordered_mm * MM


def test_a_chord_of_one_radius_spans_sixty_degrees():
    """The chord 3025 mm on the face radius 3025 mm: flat pi / 3 * 3012.5 = 3154.6826 mm."""
    assert flat_length(3025 * MM, DRUM, RUBBER, "chord") / MM == pytest.approx(3154.6826, abs=1e-4)


def test_the_diameter_is_the_longest_chord():
    """Up to the last step a chord gives half the circle, not a failure of the arithmetic."""
    assert flat_length(6050 * MM, DRUM, RUBBER, "chord") / MM == pytest.approx(9464.048, abs=1e-3)
    with pytest.raises(ValueError, match="at most as long as the diameter"):
        flat_length(6050 * MM + 1, DRUM, RUBBER, "chord")


def test_only_the_curved_axis_changes():
    """A bed curved along y leaves the width alone, and the reverse."""
    assert flat_size(PANEL, DRUM, RUBBER) == (2410 * MM, 900 * MM)
    tall = replace(PANEL, width=900 * MM, height=2420 * MM)
    assert flat_size(tall, replace(DRUM, curved_axis="y"), RUBBER) == (900 * MM, 2410 * MM)


@pytest.mark.parametrize("measured_on", ["face", "back", "chord"])
def test_a_flat_bed_changes_nothing(measured_on):
    """Flat, all three measures are the same length."""
    panel = replace(PANEL, measured_on=measured_on, tolerance=(-MM, MM))
    assert flat_size(panel, TABLE, RUBBER) == (2420 * MM, 900 * MM)
    assert ordered_length(7, TABLE, RUBBER, measured_on) == 7
    assert flat_range(panel, TABLE, RUBBER) == (
        (2419 * MM, 2421 * MM),
        (899 * MM, 901 * MM),
    )


def test_a_range_is_rounded_inward_and_holds_the_nominal_size():
    """2420 mm -0 +1 step is 2410 mm +0.996 step of flat liner: the whole step is beyond it."""
    (low, high), heights = flat_range(replace(PANEL, tolerance=(0, 1)), DRUM, RUBBER)
    assert (low, high) == (2410 * MM, 2410 * MM)
    assert heights == (900 * MM, 900 * MM + 1)


def test_a_size_off_nominal_is_stated_as_ordered():
    """A flat width 1 mm short is a face 3025 / 3012.5 mm short."""
    assert off_nominal(PANEL, DRUM, RUBBER, 2410 * MM, 900 * MM) == (0, 0)
    off = off_nominal(PANEL, DRUM, RUBBER, 2409 * MM, 900 * MM + 5)
    assert off == (-round(MM * 3025 / 3012.5), 5)


TENTH = Fraction(1, 10)


@pytest.mark.parametrize(
    ("bed", "flat"),
    [(TABLE, (2640 * MM, 990 * MM)), (DRUM, (round(2640 * MM / 3025 * 3012.5), 990 * MM))],
)
def test_a_panel_that_shrinks_is_cast_larger_along_both_axes(bed, flat):
    """2376 by 891 mm less a tenth of what was cast: 2640 by 990 mm, then the bend."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM)
    assert flat_size(panel, bed, RUBBER, TENTH) == flat
    assert [
        ordered_side(panel, bed, RUBBER, *side, TENTH) for side in zip("xy", flat, strict=True)
    ] == [
        pytest.approx(2376 * MM, abs=1),
        891 * MM,
    ]


def test_limits_of_a_panel_that_shrinks_are_those_of_its_size_once_it_has():
    """9 mm of tolerance on the order are 10 mm on the liner, off by 9 where all is taken."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM, tolerance=(-9 * MM, 9))
    assert flat_range(panel, TABLE, RUBBER, TENTH) == (
        (2630 * MM, 2640 * MM + 10),
        (980 * MM, 990 * MM + 10),
    )
    assert off_nominal(panel, TABLE, RUBBER, 2630 * MM, 990 * MM + 10, TENTH) == (-9 * MM, 9)
    assert off_nominal(panel, TABLE, RUBBER, 2640 * MM, 990 * MM, TENTH) == (0, 0)


def test_limits_that_shrink_to_a_part_of_a_step_are_rounded_inward():
    """8 steps of tolerance are 8 8/9 steps on the liner, of which the last part is not taken."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM, tolerance=(-8, 8))
    (low, high), _ = flat_range(panel, TABLE, RUBBER, TENTH)
    assert (low - 2640 * MM, high - 2640 * MM) == (-8, 8)


def test_the_chord_of_a_panel_that_shrinks_is_that_of_the_larger_panel():
    """2722.5 mm less a tenth of what was cast: the chord 3025 mm that spans sixty degrees."""
    flat = flat_length(round(2722.5 * MM), DRUM, RUBBER, "chord", shrink=TENTH)
    assert flat == flat_length(3025 * MM, DRUM, RUBBER, "chord")


def test_a_side_left_at_its_nominal_flat_length_is_off_by_nothing():
    """Face 801,919 steps rounds to a flat length whose face rounds one step away from it."""
    bed = replace(DRUM, radius=1000 * MM)
    panel = replace(PANEL, width=801_919)
    flat, height = flat_size(panel, bed, RUBBER)
    assert abs(face_length(flat, bed, RUBBER) - panel.width) == 1
    assert off_nominal(panel, bed, RUBBER, flat, height + 5) == (0, 5)


@pytest.mark.parametrize(
    ("length", "bed", "measured_on", "thickness", "message"),
    [
        (0, DRUM, "face", 0, "a length must be > 0 mm, got 0 mm"),
        (-MM, TABLE, "face", 0, "a length must be > 0 mm, got -1 mm"),
        (MM, replace(TROUGH, radius=25 * MM), "face", 0, "panel's face must be > 0 mm, got 0 mm"),
        (MM, replace(TROUGH, radius=40 * MM), "back", 19 * MM, "back must be > 0 mm, got -4 mm"),
        (MM, replace(DRUM, radius=-MM), "face", 0, "'drum': the radius .* must be > 0 mm"),
        (MM, DRUM, "back", 0, "needs the panel's thickness, > 0 mm"),
        (MM, replace(DRUM, neutral=Fraction(3, 2)), "face", 0, "neutral must be from 0 to 1"),
        (20_000 * MM, DRUM, "face", 0, "radius 3025 mm is longer than its circle"),
    ],
)
def test_an_impossible_length_is_refused(length, bed, measured_on, thickness, message):
    """What no bed can give is said, with the value."""
    with pytest.raises(ValueError, match=message):
        flat_length(length, bed, RUBBER, measured_on, thickness)


def test_a_flat_bed_has_no_radius():
    """Asking for one is an error, not zero."""
    with pytest.raises(ValueError, match="'table' is flat and has no radius"):
        face_radius(TABLE, RUBBER)


def test_a_tolerance_must_hold_the_nominal_size():
    """A band that leaves out the size ordered is a slip of the order."""
    with pytest.raises(ValueError, match="must run from <= 0 to >= 0 mm"):
        flat_range(replace(PANEL, tolerance=(1, 2)), DRUM, RUBBER)


BEDS = st.builds(
    Bed,
    name=st.just("bed"),
    form=st.sampled_from(["convex", "concave"]),
    radius=st.integers(300 * MM, 20_000 * MM),
    neutral=st.fractions(0, 1, max_denominator=64),
)


@given(BEDS, st.integers(1, 900 * MM), st.integers(1, 30 * MM))
def test_face_and_flat_are_inverse_to_the_step(bed, length, thickness):
    """There and back again ends at most one step away on any bed here."""
    flat = flat_length(length, bed, thickness)
    assert abs(face_length(flat, bed, thickness) - length) <= 1
    assert abs(flat_length(face_length(flat, bed, thickness), bed, thickness) - flat) <= 1


@given(BEDS, st.integers(MM, 500 * MM), st.integers(1, 30 * MM))
def test_chord_and_flat_are_inverse(bed, chord, thickness):
    """A chord well inside the half circle survives the way there and back."""
    assume(chord < face_radius(bed, thickness))
    assert (
        abs(chord_length(flat_length(chord, bed, thickness, "chord"), bed, thickness) - chord) <= 1
    )


@given(BEDS, st.integers(MM, 500 * MM), st.integers(1, 30 * MM))
def test_a_chord_is_shorter_than_its_arc(bed, length, thickness):
    """So a size stated as a chord needs at least as much liner as the same number on the face."""
    assume(length < face_radius(bed, thickness))
    assert flat_length(length, bed, thickness, "chord") >= flat_length(length, bed, thickness)


SHRINKS = st.sampled_from([Fraction(0), Fraction(1, 2000), Fraction("0.0999")])


@given(
    BEDS, st.integers(100 * MM, 800 * MM), st.integers(-3 * MM, 0), st.integers(0, 3 * MM), SHRINKS
)
def test_every_size_in_a_range_keeps_the_tolerance(bed, width, low, high, shrink):
    """The ends of the flat range, stated as ordered, are within the tolerance to the step."""
    panel = Panel("A1", width, width, 1, "bed", tolerance=(low, high))
    widths, heights = flat_range(panel, bed, 13 * MM, shrink)
    for flat in zip(widths, heights, strict=True):
        for off in off_nominal(panel, bed, 13 * MM, *flat, shrink):
            assert low <= off <= high
