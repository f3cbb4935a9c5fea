"""Named tolerance classes: how much a length may differ, by published tables.

A class is a list of bands; a length falls into the one that holds it. Width and height of a panel
are looked up each for itself. Only limits that were read in a text stand here: a length between two
bands, for which none was, has no limits and is refused.
"""

from dataclasses import dataclass

from nesting.errors import InputError
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM, decimal_text, mm_text, to_mm

_FOOT = 12 * STEPS_PER_INCH
_SIXTEENTH = STEPS_PER_INCH // 16


@dataclass(frozen=True, slots=True)
class Band:
    """Lengths over ``over`` up to and including ``longest``, and their limits [steps].

    ``longest`` is 0 where there is no end. Each whole ``further`` [steps] of a length beyond
    ``over`` widens both limits by ``widened``; nothing is widened where ``further`` is 0.
    """

    over: int
    longest: int
    low: int
    high: int
    source: str
    further: int = 0
    widened: int = 0

    def limits(self, length: int) -> tuple[int, int]:
        """Return the limits [steps] of a length in this band."""
        more = (length - self.over) // self.further * self.widened if self.further else 0
        return self.low - more, self.high + more


_SMALL = "small GFRC units, any dimension: UFGS 02870 (US unified facilities guide specification)"
_TO_10_FT = (
    "length up to 10 ft: National Precast Concrete Association, typical tolerances (2023), after "
    "PCI"
)
_TO_40_FT = "length over 20 to 40 ft: GFRC project specification in the PCI form"
_OVER_40_FT = f"{_TO_40_FT}, and 1/16 in more for each further 10 ft"

CLASSES: dict[str, tuple[Band, ...]] = {
    "small-unit": (Band(0, 0, -3 * STEPS_PER_MM, 3 * STEPS_PER_MM, _SMALL),),
    "architectural": (
        Band(0, 10 * _FOOT, -2 * _SIXTEENTH, 2 * _SIXTEENTH, _TO_10_FT),
        Band(20 * _FOOT, 40 * _FOOT, -4 * _SIXTEENTH, 4 * _SIXTEENTH, _TO_40_FT),
        Band(40 * _FOOT, 0, -4 * _SIXTEENTH, 4 * _SIXTEENTH, _OVER_40_FT, 10 * _FOOT, _SIXTEENTH),
    ),
}
"""The bands of each class by its name, shortest lengths first."""


def find_band(name: str, length: int) -> Band:
    """Return the band of a class that a length [steps] falls into; KeyError for no such class.

    InputError where the class has no limits for the length.

    >>> find_band("architectural", 3048 * 8000).low / 25400
    -1.0
    """
    bands = CLASSES[name]
    for band in bands:
        if band.over < length and (length <= band.longest or not band.longest):
            return band
    least = max(band.longest for band in bands if band.longest < length)
    most = min(band.over for band in bands if band.over >= length)
    rule = (
        f"class '{name}' has no published limits for lengths over {mm_text(least)} to "
        f"{mm_text(most)} mm ({least // _FOOT} to {most // _FOOT} ft)"
    )
    got = f"{decimal_text(to_mm(length), 6)} mm"
    raise InputError("", rule, got, "give the limits of your contract as [low, high]")


def class_limits(name: str, length: int) -> tuple[int, int]:
    """Return by how much a length [steps] may differ: (low, high) [steps], low < 0 < high.

    Only whole further 10 ft widen the limits beyond 40 ft, which is the stricter reading.
    KeyError for no such class, InputError where it has no limits for the length.

    >>> class_limits("small-unit", 1500 * 8000)
    (-24000, 24000)
    """
    return find_band(name, length).limits(length)
