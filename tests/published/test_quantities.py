"""Weights, mixes and rubber against published figures; the source stands beside each."""

from dataclasses import replace
from fractions import Fraction

import pytest
from printed import LAST_PLACE, Figure

from nesting.amounts.mixes import shares_of, split_mix, weigh_batch
from nesting.amounts.rubber import rubber_volume
from nesting.amounts.weights import weigh_panel
from nesting.masses import KG_PER_LB, mass_text, parse_density, parse_mass
from nesting.shapes.geometry import Box, polygon_of
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.bed import Bed
from nesting.values.casts import Placement, Sides
from nesting.values.job import Job, Rules
from nesting.values.liner import Liner
from nesting.values.material import BACKING_MIX, LIFTING, USUAL, Material
from nesting.values.panels import Panel

ACT = "Weights and Measures Act 1985 (UK), section 1"
UFGS = "UFGS 02870 (US unified facilities guide specification)"
ARITHMETIC = "arithmetic, no outside source"
SHEET = "data sheet figures, arithmetic"
TABLES = "handbook tables quoted in data pages, arithmetic"

MIX = replace(BACKING_MIX, water=Fraction("0.32"))
"""Sand 1, all water 0.32, polymer 0.05 in a dispersion of 50 %, plasticiser 0.01, fibre 5 %."""


def panel_kg(width_in, height_in, thickness_in, pcf):
    """Return what a plain panel on a flat bed weighs [kg], by the whole way of a job."""
    width, height = round(width_in * STEPS_PER_INCH), round(height_in * STEPS_PER_INCH)
    thickness = round(thickness_in * STEPS_PER_INCH)
    liner = Liner("plain", polygon_of(Box(0, 0, width, height)), STEPS_PER_INCH)
    density = parse_density(pcf, "in")
    face, backing = (
        replace(mix, wet_density=density, cured_density=density)
        for mix in (USUAL.face, USUAL.backing)
    )
    panel = Material(thickness, STEPS_PER_INCH // 8, 0)
    materials = replace(USUAL, panel=panel, face=face, backing=backing)
    order = (Panel("P", width, height, 1, "table"),)
    rules = Rules(STEPS_PER_INCH, 0, 0, STEPS_PER_INCH // 16)
    job = Job("plain", "in", liner, rules, (Bed("table"),), order, materials=materials)
    placed = Placement("P", 0, 0, width, height, Sides("edge", "edge", "edge", "edge"))
    return weigh_panel(job, placed, "table").weight.cured


def panel_lb(*size):
    """Return the same in lb."""
    return panel_kg(*size) / KG_PER_LB


def dispersion(solids):
    """Return the dispersion that brings 5 % solids on 100 lb of cement [lb]."""
    mix = replace(MIX, dispersion_solids=solids, water=Fraction("0.4"))
    split = split_mix(mix, Fraction(1000))
    return split["dispersion"] / split["cement"] * 100


def whole_of_fifty():
    """Return what the mix on 50 kg of cement weighs [kg]."""
    return 50 / shares_of(MIX)["cement"]


def of_fifty(name):
    """Return one ingredient of the mix on 50 kg of cement [kg]."""
    return split_mix(MIX, whole_of_fifty())[name]


def rubber_kg(density):
    """Return the rubber of a plain liner of 1 m2, 10 mm thick [kg]."""
    volume = rubber_volume((1000 * STEPS_PER_MM) ** 2, 10 * STEPS_PER_MM, ())
    return volume * parse_density(density, "mm")


FIGURES = (
    Figure(ACT, "1000 lb, in kg", "453.59237", lambda: parse_mass(1000, "in")),
    Figure(
        UFGS,
        "120 lb/ft³, in kg/m³",
        "1922",
        lambda: float(parse_density("120 lb/ft3", "mm")),
        "0.5",
        LAST_PLACE,
    ),
    Figure(
        "arithmetic",
        "1 lb/ft³, in kg/m³",
        "16.018463",
        lambda: float(parse_density("100 lb/ft3", "mm") / 100),
        "0.0000005",
        LAST_PLACE,
    ),
    Figure(
        UFGS, "1 ft² of 1/2 in at 120 lb/ft³, in lb", "5.000", lambda: panel_lb(12, 12, 0.5, 120)
    ),
    Figure(
        UFGS,
        "1 ft² of 1/2 in at 140 lb/ft³, in lb",
        "5.833",
        lambda: float(panel_lb(12, 12, 0.5, 140)),
        "0.0005",
        LAST_PLACE,
    ),
    Figure(
        ARITHMETIC,
        "dispersion of 47 % solids for 5 % on 100 lb of cement, in lb",
        "10.638",
        lambda: float(dispersion(Fraction("0.47"))),
        "0.0005",
        LAST_PLACE,
    ),
    Figure(
        ARITHMETIC,
        "dispersion of 51 % solids for the same, in lb",
        "9.804",
        lambda: float(dispersion(Fraction("0.51"))),
        "0.0005",
        LAST_PLACE,
    ),
    Figure(SHEET, "water to 50 kg of cement, in kg", "13.5", lambda: of_fifty("water")),
    Figure(SHEET, "dispersion to 50 kg of cement, in kg", "5", lambda: of_fifty("dispersion")),
    Figure(
        SHEET,
        "the whole mix to 50 kg of cement, fibre 5 % of it, in kg",
        "125.26",
        lambda: float(whole_of_fifty()),
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SHEET,
        "its volume at 2.0 t/m³, in litres",
        "62.6",
        lambda: float(whole_of_fifty() / parse_density("2.0 t/m3", "mm") * 1000),
        "0.05",
        LAST_PLACE,
    ),
    Figure(
        SHEET,
        "its water : cement on added water",
        "0.27",
        lambda: of_fifty("water") / of_fifty("cement"),
    ),
    Figure(
        TABLES, "1 m² of rubber 10 mm thick at 1050 kg/m³, in kg", "10.5", lambda: rubber_kg(1050)
    ),
    Figure(TABLES, "the same at 1250 kg/m³, in kg", "12.5", lambda: rubber_kg(1250)),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_weights_and_mixes_are_the_printed_ones(figure):
    """Ours, by the way a job takes, against the figure printed."""
    assert figure.off() <= Fraction(figure.within), figure.source


def test_the_batch_on_the_data_sheet_is_weighed_as_it_is_printed():
    """Data sheet figures: cement 50, sand 50, dispersion 5, plasticiser 0.5, water 13.5 kg."""
    batch = weigh_batch(MIX, Fraction("125.26"), Fraction("0.01"))
    printed = {"cement": 50, "sand": 50, "dispersion": 5, "plasticiser": 0.5, "water": 13.5}
    assert {name: float(batch[name]) for name in printed} == printed
    assert float(sum(batch.values())) == 125.26
    assert batch["pigment"] == 0


def test_published_limits_are_printed_as_they_stand():
    """NIOSH 94-110 has 23 kg and 51 lb: the default shows as both."""
    assert mass_text(LIFTING.hand_limit, "mm", 0) == "23 kg (51 lb)"
