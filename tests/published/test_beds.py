"""Arcs, chords and bends against printed figures; the source stands in each.

Only figures the sources print are asserted. "mm" stands for whichever unit the source uses: the
relations do not depend on it.
"""

import math
from fractions import Fraction

import pytest
from printed import LAST_PLACE, Figure, chord_of_ordinate

from nesting.shapes.arcs import arc_of_chord, chord_of_arc
from nesting.units import to_steps
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.panels import Panel

MM = 8000
SEGMENTS = "Machinery's Handbook, 31st ed. 2020, p. 50, examples 3 and 4"
SURVEY = "solved surveying problem, simple curves"
BENDS = "sheet-metal workbook, 90 degree bends"
OWN = "arithmetic, no outside source"


# Arcs on paper


def segment_arc():
    """Return the arc of the segment of radius 12 and depth 2."""
    return arc_of_chord(chord_of_ordinate(2, 12), 12)


# Arcs on beds

# A concave bed of 312 under a liner of 1 has its face at 311, in units of 1 m. On it the flat
# length that spans 26 deg yields both the arc and the chord of the surveyor's curve.
CURVE = Bend(Bed("curve", "concave", radius=312 * MM), MM)
SPAN = to_steps(Fraction(math.radians(26)) * Fraction(3115, 10))

# The sheet on its punch is a liner on a convex bed: its flat length keeps on the neutral surface.
# In thousandths of an inch, so that steps are fine against the printed figure.
PUNCH = Bend(Bed("punch", "convex", radius=32 * MM, neutral=Fraction(447, 1000)), 50 * MM)


def arc_by_way_of_the_chord():
    """Return the surveyor's arc from his chord: to a flat length, and from there to the face."""
    flat = CURVE.flat_length(to_steps(Fraction("139.92")), "x", "chord")
    return CURVE.ordered_length(flat, "x") / MM


def bend_allowance_in():
    """Return the flat length [in] of a quarter turn over the punch."""
    return PUNCH.flat_length(to_steps(Fraction(math.pi / 2) * 82), "x") / MM / 1000


def cast_on_3000(form, neutral):
    """Return the face [mm] of 2400 mm of liner, 25 mm thick, on a bed of radius 3000 mm."""
    bed = Bed("drum", form, radius=3000 * MM, neutral=neutral)
    return Bend(bed, 25 * MM).ordered_length(2400 * MM, "x") / MM


def diagonal_of(form, radius, width):
    """Return the diagonal [mm] of a face so wide and 900 mm high, a liner of 13 mm on the bed."""
    bend = Bend(Bed("drum", form, radius=radius * MM), 13 * MM)
    return bend.diagonals(bend.flat_size(Panel("A1", width * MM, 900 * MM, 1, "drum")))[0] / MM


FIGURES = (
    Figure(
        SEGMENTS,
        "arc of the segment of radius 12 and depth 2",
        "14.06",
        segment_arc,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SEGMENTS,
        "angle of the same segment, in degrees",
        "67.13",
        lambda: math.degrees(segment_arc() / 12),
        "0.02",
        "the book takes it from its rounded arc",
    ),
    Figure(
        SURVEY,
        "arc of 26 degrees at radius 311 m, as a face on a bed, in m",
        "141.13",
        lambda: CURVE.ordered_length(SPAN, "x") / MM,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SURVEY,
        "chord of the same, as a face on a bed, in m",
        "139.92",
        lambda: CURVE.ordered_length(SPAN, "x", "chord") / MM,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SURVEY,
        "chord of the same, on paper, in m",
        "139.92",
        lambda: chord_of_arc(math.radians(26) * 311, 311),
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SURVEY,
        "arc of the same from its printed chord, by way of the flat length, in m",
        "141.13",
        arc_by_way_of_the_chord,
        "0.0102",
        "half a unit of the last place of both; an arc grows 1.03 times as fast as its chord",
    ),
    Figure(
        BENDS,
        "bend allowance for thickness 0.050 in, radius 0.032 in, K 0.447, in in",
        "0.085",
        bend_allowance_in,
        "0.0005",
        LAST_PLACE,
    ),
    *(
        Figure(
            OWN,
            f"face of 2400 mm of liner, 25 mm thick, {form} bed of radius 3000 mm, neutral "
            f"{float(neutral):g}, in mm",
            printed,
            lambda form=form, neutral=neutral: cast_on_3000(form, neutral),
            "0.005",
            LAST_PLACE,
        )
        for form, neutral, printed in [
            ("convex", Fraction(1, 2), "2409.96"),
            ("convex", Fraction(0), "2420.00"),
            ("concave", Fraction(1, 2), "2389.96"),
            ("concave", Fraction(0), "2380.00"),
        ]
    ),
    *(
        Figure(
            OWN,
            f"diagonal in space of a face {width} by 900 mm on a {form} bed of radius {radius} mm "
            "under 13 mm, from four points on its cylinder, in mm",
            printed,
            lambda form=form, radius=radius, width=width: diagonal_of(form, radius, width),
            "0.005",
            LAST_PLACE,
        )
        for form, radius, width, printed in [
            ("convex", 3000, 1540, "1769.30"),
            ("concave", 2600, 730, "1157.31"),
        ]
    ),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_our_figure_is_the_printed_one(figure):
    """Arcs, chords, bends and what beds make of them come out as printed."""
    assert figure.off() <= Fraction(figure.within), figure.source
