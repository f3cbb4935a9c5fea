"""Face, back and chord lengths to flat ones and back."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM
from hypothesis import assume, given
from hypothesis import strategies as st

from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.panels import Panel

RUBBER = 25 * MM


def bent(bend, **changes):
    """Return a bend with its bed changed."""
    return replace(bend, bed=replace(bend.bed, **changes))


DRUM = Bend(Bed("drum", "convex", radius=3000 * MM, curved_axis="x"), RUBBER)
TROUGH = bent(DRUM, name="trough", form="concave")
TABLE = Bend(Bed("table"), RUBBER)
PANEL = Panel("A1", 2420 * MM, 900 * MM, 1, "drum")


def test_radii_grow_outward_from_a_convex_bed_and_shrink_inward_from_a_concave_one():
    """Bed 3000, liner 25, panel 19 mm: face at 3025 or 2975, back at 3044 or 2956."""
    assert DRUM.face_radius == 3025 * MM
    assert TROUGH.face_radius == 2975 * MM
    assert DRUM.back_radius(19 * MM) == 3044 * MM
    assert TROUGH.back_radius(19 * MM) == 2956 * MM
    assert DRUM.neutral_radius == Fraction(30125, 10) * MM
    assert TROUGH.neutral_radius == Fraction(29875, 10) * MM


@pytest.mark.parametrize(
    ("bend", "measured_on", "ordered_mm", "flat_mm"),
    [
        (DRUM, "face", 2420, 2410),
        (DRUM, "back", 3044, 3012.5),
        (TROUGH, "face", 2380, 2390),
        (TROUGH, "back", 2956, 2987.5),
        (bent(DRUM, neutral=Fraction(0)), "face", 3025, 3000),
        (bent(DRUM, neutral=Fraction(1)), "face", 3025, 3025),
    ],
)
def test_a_flat_length_spans_the_same_angle(bend, measured_on, ordered_mm, flat_mm):
    """Worked out by hand: an arc equal to a radius spans one radian on every surface."""
    got = bend.flat_length(ordered_mm * MM, "x", measured_on, 19 * MM)
    assert got == flat_mm * MM
    assert bend.ordered_length(got, "x", measured_on, 19 * MM) == ordered_mm * MM


def test_a_chord_of_one_radius_spans_sixty_degrees():
    """The chord 3025 mm on the face radius 3025 mm: flat pi / 3 * 3012.5 = 3154.6826 mm."""
    assert DRUM.flat_length(3025 * MM, "x", "chord") / MM == pytest.approx(3154.6826, abs=1e-4)


def test_the_diameter_is_the_longest_chord():
    """Up to the last step a chord gives half the circle, not a failure of the arithmetic."""
    assert DRUM.flat_length(6050 * MM, "x", "chord") / MM == pytest.approx(9464.048, abs=1e-3)
    with pytest.raises(ValueError, match="at most as long as the diameter"):
        DRUM.flat_length(6050 * MM + 1, "x", "chord")


def test_only_the_curved_axis_changes():
    """A bed curved along y leaves the width alone, and the reverse."""
    assert DRUM.flat_size(PANEL) == (2410 * MM, 900 * MM)
    tall = replace(PANEL, width=900 * MM, height=2420 * MM)
    assert bent(DRUM, curved_axis="y").flat_size(tall) == (900 * MM, 2410 * MM)


@pytest.mark.parametrize("measured_on", ["face", "back", "chord"])
def test_a_flat_bed_changes_nothing(measured_on):
    """Flat, all three measures are the same length."""
    panel = replace(PANEL, measured_on=measured_on, tolerance=(-MM, MM))
    assert TABLE.flat_size(panel) == (2420 * MM, 900 * MM)
    assert TABLE.ordered_length(7, "x", measured_on) == 7
    assert TABLE.flat_range(panel) == (
        (2419 * MM, 2421 * MM),
        (899 * MM, 901 * MM),
    )


def test_a_range_is_rounded_inward_and_holds_the_nominal_size():
    """2420 mm -0 +1 step is 2410 mm +0.996 step of flat liner: the whole step is beyond it."""
    (low, high), heights = DRUM.flat_range(replace(PANEL, tolerance=(0, 1)))
    assert (low, high) == (2410 * MM, 2410 * MM)
    assert heights == (900 * MM, 900 * MM + 1)


def test_a_size_off_nominal_is_stated_as_ordered():
    """A flat width 1 mm short is a face 3025 / 3012.5 mm short."""
    assert DRUM.off_nominal(PANEL, (2410 * MM, 900 * MM)) == (0, 0)
    off = DRUM.off_nominal(PANEL, (2409 * MM, 900 * MM + 5))
    assert off == (-round(MM * 3025 / 3012.5), 5)


TENTH = Fraction(1, 10)


@pytest.mark.parametrize(
    ("bend", "flat"),
    [(TABLE, (2640 * MM, 990 * MM)), (DRUM, (round(2640 * MM / 3025 * 3012.5), 990 * MM))],
)
def test_a_panel_that_shrinks_is_cast_larger_along_both_axes(bend, flat):
    """2376 by 891 mm less a tenth of what was cast: 2640 by 990 mm, then the bend."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM)
    bend = replace(bend, shrink=TENTH)
    assert bend.flat_size(panel) == flat
    assert [bend.ordered_side(panel, *side) for side in zip("xy", flat, strict=True)] == [
        pytest.approx(2376 * MM, abs=1),
        891 * MM,
    ]


def test_limits_of_a_panel_that_shrinks_are_those_of_its_size_once_it_has():
    """9 mm of tolerance on the order are 10 mm on the liner, off by 9 where all is taken."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM, tolerance=(-9 * MM, 9))
    bend = replace(TABLE, shrink=TENTH)
    assert bend.flat_range(panel) == (
        (2630 * MM, 2640 * MM + 10),
        (980 * MM, 990 * MM + 10),
    )
    assert bend.off_nominal(panel, (2630 * MM, 990 * MM + 10)) == (-9 * MM, 9)
    assert bend.off_nominal(panel, (2640 * MM, 990 * MM)) == (0, 0)


def test_limits_that_shrink_to_a_part_of_a_step_are_rounded_inward():
    """8 steps of tolerance are 8 8/9 steps on the liner, of which the last part is not taken."""
    panel = replace(PANEL, width=2376 * MM, height=891 * MM, tolerance=(-8, 8))
    (low, high), _ = replace(TABLE, shrink=TENTH).flat_range(panel)
    assert (low - 2640 * MM, high - 2640 * MM) == (-8, 8)


def test_the_chord_of_a_panel_that_shrinks_is_that_of_the_larger_panel():
    """2722.5 mm less a tenth of what was cast: the chord 3025 mm that spans sixty degrees."""
    flat = replace(DRUM, shrink=TENTH).flat_length(round(2722.5 * MM), "x", "chord")
    assert flat == DRUM.flat_length(3025 * MM, "x", "chord")


def test_a_side_left_at_its_nominal_flat_length_is_off_by_nothing():
    """Face 801,919 steps rounds to a flat length whose face rounds one step away from it."""
    bend = bent(DRUM, radius=1000 * MM)
    panel = replace(PANEL, width=801_919)
    flat, height = bend.flat_size(panel)
    assert abs(bend.ordered_length(flat, "x") - panel.width) == 1
    assert bend.off_nominal(panel, (flat, height + 5)) == (0, 5)


@pytest.mark.parametrize(
    ("length", "bend", "measured_on", "thickness", "message"),
    [
        (0, DRUM, "face", 0, "a length must be > 0 mm, got 0 mm"),
        (-MM, TABLE, "face", 0, "a length must be > 0 mm, got -1 mm"),
        (MM, bent(TROUGH, radius=25 * MM), "face", 0, "panel's face must be > 0 mm, got 0 mm"),
        (MM, bent(TROUGH, radius=40 * MM), "back", 19 * MM, "back must be > 0 mm, got -4 mm"),
        (MM, bent(DRUM, radius=-MM), "face", 0, "'drum': the radius .* must be > 0 mm"),
        (MM, DRUM, "back", 0, "needs the panel's thickness, > 0 mm"),
        (MM, bent(DRUM, neutral=Fraction(3, 2)), "face", 0, "neutral must be from 0 to 1"),
        (20_000 * MM, DRUM, "face", 0, "radius 3025 mm is longer than its circle"),
    ],
)
def test_an_impossible_length_is_refused(length, bend, measured_on, thickness, message):
    """What no bed can give is said, with the value."""
    with pytest.raises(ValueError, match=message):
        bend.flat_length(length, "x", measured_on, thickness)


def test_a_flat_bed_has_no_radius():
    """Asking for one is an error, not zero."""
    with pytest.raises(ValueError, match="'table' is flat and has no radius"):
        _ = TABLE.face_radius


def test_a_tolerance_must_hold_the_nominal_size():
    """A band that leaves out the size ordered is a slip of the order."""
    with pytest.raises(ValueError, match="must run from <= 0 to >= 0 mm"):
        DRUM.flat_range(replace(PANEL, tolerance=(1, 2)))


BEDS = st.builds(
    Bed,
    name=st.just("bed"),
    form=st.sampled_from(["convex", "concave"]),
    radius=st.integers(300 * MM, 20_000 * MM),
    neutral=st.fractions(0, 1, max_denominator=64),
)
BENDS = st.builds(Bend, BEDS, st.integers(1, 30 * MM))


@given(BENDS, st.integers(1, 900 * MM))
def test_face_and_flat_are_inverse_to_the_step(bend, length):
    """There and back again ends at most one step away on any bed here."""
    flat = bend.flat_length(length, "x")
    face = bend.ordered_length(flat, "x")
    assert abs(face - length) <= 1
    assert abs(bend.flat_length(face, "x") - flat) <= 1


@given(BENDS, st.integers(MM, 500 * MM))
def test_chord_and_flat_are_inverse(bend, chord):
    """A chord well inside the half circle survives the way there and back."""
    assume(chord < bend.face_radius)
    flat = bend.flat_length(chord, "x", "chord")
    assert abs(bend.ordered_length(flat, "x", "chord") - chord) <= 1


@given(BENDS, st.integers(MM, 500 * MM))
def test_a_chord_is_shorter_than_its_arc(bend, length):
    """So a size stated as a chord needs at least as much liner as the same number on the face."""
    assume(length < bend.face_radius)
    assert bend.flat_length(length, "x", "chord") >= bend.flat_length(length, "x")


SHRINKS = st.sampled_from([Fraction(0), Fraction(1, 2000), Fraction("0.0999")])


@given(
    BEDS, st.integers(100 * MM, 800 * MM), st.integers(-3 * MM, 0), st.integers(0, 3 * MM), SHRINKS
)
def test_every_size_in_a_range_keeps_the_tolerance(bed, width, low, high, shrink):
    """The ends of the flat range, stated as ordered, are within the tolerance to the step."""
    panel = Panel("A1", width, width, 1, "bed", tolerance=(low, high))
    bend = Bend(bed, 13 * MM, shrink)
    for flat in zip(*bend.flat_range(panel), strict=True):
        for off in bend.off_nominal(panel, flat):
            assert low <= off <= high


@pytest.mark.parametrize("bend", [DRUM, TROUGH])
@pytest.mark.parametrize("axis", ["x", "y"])
def test_diagonals_are_those_of_four_corners_on_a_cylinder(bend, axis):
    """The corners put into space, by angle and height, are as far apart as the diagonals say."""
    bend, flat = bent(bend, curved_axis=axis), (2410 * MM, 900 * MM)
    along, straight = flat if axis == "x" else flat[::-1]
    half, radius = along / bend.neutral_radius / 2, bend.face_radius
    lower_left, upper_left, lower_right, upper_right = (
        (radius * math.sin(angle), radius * math.cos(angle), height)
        for angle in (-half, half)
        for height in (0, straight)
    )
    apart = math.dist(lower_left, upper_right), math.dist(upper_left, lower_right)
    assert bend.diagonals(flat) == pytest.approx(apart, abs=2)


def test_diagonals_of_a_panel_that_shrinks_are_those_once_it_has():
    """Cast 300 by 400 mm and shrunk by a tenth: 450 mm from corner to corner."""
    assert replace(TABLE, shrink=Fraction(1, 10)).diagonals((300 * MM, 400 * MM))[0] == 450 * MM


@pytest.mark.parametrize("axis", ["x", "y"])
@given(radius=st.integers(500, 20_000), flat=st.tuples(st.integers(1, 9000), st.integers(1, 9000)))
def test_diagonals_of_a_bent_face_are_shorter_than_the_way_over_it(axis, radius, flat):
    """A straight line between two corners never exceeds the shortest way on the surface."""
    bend = bent(DRUM, radius=radius * MM, curved_axis=axis)
    width, height = (length * MM for length in flat)
    assume(max(width, height) < math.tau * bend.neutral_radius)
    arc, up = bend.ordered_length(width, "x"), bend.ordered_length(height, "y")
    assert bend.diagonals((width, height))[0] <= math.hypot(arc, up) + 2


THICK = 100 * MM


def test_plumb_ends_give_face_and_back_one_chord():
    """A face arc of 1500 mm on 3025 or 2975 mm: the same chord spans less of a larger circle."""
    for bend, back in ((bent(DRUM, ends="plumb"), 3125), (bent(TROUGH, ends="plumb"), 2875)):
        flat = bend.flat_length(1500 * MM, "x")
        chord = bend.ordered_length(flat, "x", "chord") / MM
        asked = 2 * back * math.asin(chord / 2 / back)
        assert bend.ordered_length(flat, "x", "back", THICK) / MM == pytest.approx(asked, abs=1e-3)
        assert bend.flat_length(round(asked * MM), "x", "back", THICK) == pytest.approx(flat, abs=1)


def test_square_ends_give_face_and_back_one_angle():
    """A face of 1512.5 mm on 3025 mm has a back of 1562.5 mm on 3125 mm: half a radian both."""
    flat = DRUM.flat_length(15125 * MM // 10, "x")
    assert DRUM.ordered_length(flat, "x", "back", THICK) == 15625 * MM // 10


@given(
    st.sampled_from([DRUM, TROUGH]),
    st.integers(100 * MM, 4000 * MM),
    st.integers(1 * MM, 200 * MM),
    st.sampled_from(["square", "plumb"]),
)
def test_a_back_length_survives_the_way_to_the_liner_and_back(bend, length, thickness, ends):
    """Whatever the ends, the flat length of a back yields that back again."""
    bend = bent(bend, ends=ends)
    flat = bend.flat_length(length, "x", "back", thickness)
    assert bend.ordered_length(flat, "x", "back", thickness) == pytest.approx(length, abs=2)


@pytest.mark.parametrize(("bend", "lesser"), [(DRUM, 3025), (TROUGH, 2875)])
def test_plumb_ends_reach_as_far_apart_as_the_smaller_circle_is_wide(bend, lesser):
    """The longest face and the longest back have the chord that is twice the lesser radius."""
    bend = bent(bend, ends="plumb")
    for surface, radius in (("face", bend.face_radius), ("back", bend.back_radius(THICK))):
        longest = bend.longest_arc(surface, THICK)
        chord = 2 * radius * math.sin(longest / 2 / radius)
        assert chord / MM == pytest.approx(2 * lesser)
    with pytest.raises(ValueError, match="too long for plumb ends"):
        bend.flat_length(math.ceil(bend.longest_arc("back", THICK)), "x", "back", THICK)


def test_a_face_too_wide_for_plumb_ends_is_told_the_widest_back():
    """Beyond half a circle of the back there is nothing wider to tell."""
    bend = bent(TROUGH, ends="plumb")
    widest = bend.ordered_length(9300 * MM, "x", "back", THICK)
    assert widest / MM == pytest.approx(math.pi * 2875, abs=1e-3)
