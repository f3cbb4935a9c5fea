"""The tolerance classes against the published tables; the source stands beside each figure."""

import pytest

from nesting.errors import InputError
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.tolerances import class_limits, find_band

FOOT = 12 * STEPS_PER_INCH
NPCA = "National Precast Concrete Association, typical tolerances (2023), after PCI"
GFRC = "GFRC project specification in the PCI form"
UFGS = "UFGS 02870"

# source, class, length [ft], low and high [in]
INCH_FIGURES = [
    (NPCA, "architectural", 1, -1 / 8, 1 / 8),
    (NPCA, "architectural", 10, -1 / 8, 1 / 8),
    (GFRC, "architectural", 21, -1 / 4, 1 / 4),
    (GFRC, "architectural", 40, -1 / 4, 1 / 4),
    (GFRC, "architectural", 50, -5 / 16, 5 / 16),
    (GFRC, "architectural", 60, -3 / 8, 3 / 8),
]

# source, class, length, low and high [mm]
MM_FIGURES = [(UFGS, "small-unit", length, -3, 3) for length in (100, 610, 3000)]


@pytest.mark.parametrize(("source", "name", "feet", "low", "high"), INCH_FIGURES)
def test_a_length_has_the_printed_limits(source, name, feet, low, high):
    """Limits in inches, exactly, and the source printed with them is that of the table."""
    length = feet * FOOT
    assert class_limits(name, length) == (low * STEPS_PER_INCH, high * STEPS_PER_INCH)
    assert source in find_band(name, length).source


@pytest.mark.parametrize(("source", "name", "length", "low", "high"), MM_FIGURES)
def test_small_units_differ_by_three_millimetres(source, name, length, low, high):
    """UFGS 02870: any dimension +/- 3 mm."""
    limits = class_limits(name, length * STEPS_PER_MM)
    assert limits == (low * STEPS_PER_MM, high * STEPS_PER_MM)
    assert source in find_band(name, length * STEPS_PER_MM).source


@pytest.mark.parametrize("feet", [10.25, 15, 20])
def test_a_length_without_a_published_limit_has_none(feet):
    """Over 10 to 20 ft no text could be read; what was only recalled decides no size."""
    with pytest.raises(InputError, match=r"no published limits .* \(10 to 20 ft\)"):
        class_limits("architectural", round(feet * FOOT))
