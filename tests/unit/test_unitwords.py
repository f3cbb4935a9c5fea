"""Units have one word each."""

from fractions import Fraction

from nesting.masses import M2_PER_FT2
from nesting.units import STEPS_PER_MM
from nesting.unitwords import WORDS


def test_every_unit_of_a_file_has_its_words():
    """Millimetres and inches, and nothing else."""
    assert list(WORDS) == ["mm", "in"]
    assert [words.lengths for words in WORDS.values()] == ["millimetres", "inches"]
    assert [words.mass for words in WORDS.values()] == ["kg", "lb"]


def test_areas_are_counted_in_square_steps():
    """A square metre is a million square millimetres; a square foot is 0.09290304 m2."""
    (_, metre), (_, foot) = (words.area for words in WORDS.values())
    assert metre == 10**6 * STEPS_PER_MM**2
    assert Fraction(foot, metre) == M2_PER_FT2
    assert metre == 10**4 * WORDS["mm"].small_area[1]
    assert foot == 144 * WORDS["in"].small_area[1]
