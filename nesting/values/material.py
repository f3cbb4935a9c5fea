"""What panels and liner are made of: thicknesses, the two mixes, batches, rubber, lifting, prices.

Every value is an input of the job; the defaults stand here, each with its source. Lengths are
steps, weights kg, densities kg/m3, and shares plain numbers, all exact.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from nesting.masses import KG_PER_LB, KG_PER_M3_PER_PCF
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM

INGREDIENTS = ("cement", "sand", "water", "dispersion", "plasticiser", "pigment", "fibre")
"""What a mix is weighed from, in the order of the tables."""


@dataclass(frozen=True, slots=True)
class Material:
    """How thick panels are [steps]: ``thickness`` in all, ``face_coat`` of it.

    ``least_thickness`` is what a hollow must leave, or there is a warning.
    """

    thickness: int
    face_coat: int
    least_thickness: int


@dataclass(frozen=True, slots=True)
class Mix:
    """A mix by weight. Shares are of the cement, but ``fibre``, which is of the whole.

    ``water`` is all the water, that of the polymer dispersion counted; ``polymer`` the solids of
    the dispersion, of which ``dispersion_solids`` is their share. Densities [kg/m3].
    """

    sand: Fraction
    water: Fraction
    polymer: Fraction
    dispersion_solids: Fraction
    plasticiser: Fraction
    pigment: Fraction
    fibre: Fraction
    wet_density: Fraction
    cured_density: Fraction

    @property
    def dispersion_water(self) -> Fraction:
        """The water the dispersion brings, as a share of the cement."""
        return self.polymer / self.dispersion_solids - self.polymer


@dataclass(frozen=True, slots=True)
class Batching:
    """How mix is batched: ``overspray`` and ``loss`` are added to what is in the panels, as shares.

    ``mixer`` is the most one batch may weigh and ``scale`` the division it is weighed to [kg].
    """

    overspray: Fraction
    loss: Fraction
    mixer: Fraction
    scale: Fraction


@dataclass(frozen=True, slots=True)
class SecondLiner:
    """One more liner that might be made: its size and thickness [steps] and ornaments by name."""

    width: int
    height: int
    thickness: int
    ornaments: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RubberData:
    """The liner's rubber [kg/m3] and the time a liner takes.

    ``model_days`` go into the model it is made from, ``making_hours`` into filling, and after
    ``demould_hours`` it leaves the model.
    """

    density: Fraction
    model_days: int
    making_hours: Fraction
    demould_hours: Fraction
    second: SecondLiner | None = None


@dataclass(frozen=True, slots=True)
class Lifting:
    """At how many ``points`` a panel is lifted, and what one person may lift at most [kg]."""

    points: int
    hand_limit: Fraction


@dataclass(frozen=True, slots=True)
class Prices:
    """Unit prices in one currency: ``ingredients`` and ``rubber`` [1/kg], ``dam`` strip [1/m].

    ``liner`` is the price of this liner and ``pulls`` how many casts it is expected to give. What
    has no price is None, or not among ``ingredients``.
    """

    currency: str = ""
    ingredients: tuple[tuple[str, Fraction], ...] = ()
    rubber: Fraction | None = None
    dam: Fraction | None = None
    liner: Fraction | None = None
    pulls: int | None = None


@dataclass(frozen=True, slots=True)
class Materials:
    """All of it; ``prices`` is None where the job gives none."""

    panel: Material
    face: Mix
    backing: Mix
    batch: Batching
    rubber: RubberData
    lifting: Lifting
    prices: Prices | None = None


def default_material(units: str) -> Material:
    """Return the thicknesses of a job of these units that does not say.

    About 19 mm or 3/4 in for a self-standing curved panel: common practice, no source. Face coat
    1/8 to 3/16 in: trade articles; the middle is taken. Least 10 mm: GRC property tables and a
    cladding textbook give 10 to 15 mm, UFGS 02870 gives 10 to 16 mm for small units.
    """
    least = 10 * STEPS_PER_MM
    if units == "in":
        return Material(3 * STEPS_PER_INCH // 4, 5 * STEPS_PER_INCH // 32, least)
    return Material(19 * STEPS_PER_MM, 4 * STEPS_PER_MM, least)


FACE_MIX = Mix(
    sand=Fraction(1),  # sand : cement 1 : 1, trade articles
    water=Fraction("0.35"),  # water : cement 0.33 to 0.38, trade articles
    polymer=Fraction("0.05"),  # polymer solids 5 % of cement, trade articles
    dispersion_solids=Fraction("0.50"),  # data sheet figures
    plasticiser=Fraction("0.01"),  # 0.5 on 50 cement, data sheet figures
    pigment=Fraction(0),
    fibre=Fraction(0),  # face coat without fibre, trade articles
    wet_density=Fraction(2000),  # data sheet figures
    cured_density=120 * KG_PER_M3_PER_PCF,  # 120 lb/ft3, UFGS 02870
)
"""The face coat's mix where the job does not say."""

BACKING_MIX = replace(
    FACE_MIX,
    water=Fraction("0.32"),  # 0.32 counting the dispersion, data sheet figures
    fibre=Fraction("0.05"),  # 4 to 6 % sprayed, trade articles
)
"""The backing's mix where the job does not say."""


_ALLOWED = Fraction("0.05")


def default_batching(units: str) -> Batching:
    """Return the batching of a job of these units that does not say: our own figures, no source."""
    if units == "in":
        return Batching(_ALLOWED, _ALLOWED, 130 * KG_PER_LB, KG_PER_LB / 50)
    return Batching(_ALLOWED, _ALLOWED, Fraction(60), Fraction("0.01"))


RUBBER = RubberData(
    density=Fraction(1150),  # polyurethane 1050 to 1250 kg/m3, handbook tables
    model_days=0,
    making_hours=Fraction(4),  # our own figure, no source
    demould_hours=Fraction(16),  # about 16 h: common practice, no source
)
"""The rubber where the job does not say."""

LIFTING = Lifting(
    points=2,  # our own figure, no source
    hand_limit=Fraction(23),  # revised NIOSH lifting equation, NIOSH 94-110
)
"""Lifting where the job does not say."""


def default_materials(units: str) -> Materials:
    """Return what holds for a job of these units without any of the tables."""
    return Materials(
        default_material(units),
        FACE_MIX,
        BACKING_MIX,
        default_batching(units),
        RUBBER,
        LIFTING,
    )


USUAL = default_materials("mm")
"""What holds for a mm job without any of the tables."""
