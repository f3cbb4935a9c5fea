"""The defaults: each lies within the range its source gives."""

from fractions import Fraction

from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.material import BACKING_MIX, FACE_MIX, USUAL, default_materials


def test_thicknesses_are_round_in_the_units_of_the_job():
    """About 19 mm or 3/4 in in all, and a face coat within 1/8 to 3/16 in."""
    mm, inch = default_materials("mm").panel, default_materials("in").panel
    assert (mm.thickness, inch.thickness) == (19 * STEPS_PER_MM, 3 * STEPS_PER_INCH // 4)
    for panel in (mm, inch):
        assert STEPS_PER_INCH // 8 <= panel.face_coat <= 3 * STEPS_PER_INCH // 16
        assert 10 * STEPS_PER_MM <= panel.least_thickness <= 16 * STEPS_PER_MM


def test_mixes_lie_within_the_printed_ranges():
    """Sand 1 : 1, water 0.33 to 0.38 in the face coat, fibre 4 to 6 % in the backing only."""
    assert FACE_MIX.sand == BACKING_MIX.sand == 1
    assert Fraction("0.33") <= FACE_MIX.water <= Fraction("0.38")
    assert FACE_MIX.fibre == 0
    assert Fraction("0.04") <= BACKING_MIX.fibre <= Fraction("0.06")
    assert 1050 <= USUAL.rubber.density <= 1250


def test_the_dispersion_brings_water():
    """Five parts of solids in a dispersion of one half come with five parts of water."""
    assert FACE_MIX.dispersion_water == Fraction("0.05")


def test_each_unit_system_has_batches_to_a_round_scale():
    """Both scales weigh at least a hundred divisions into the mixer."""
    for units in ("mm", "in"):
        batch = default_materials(units).batch
        assert batch.mixer >= 100 * batch.scale
