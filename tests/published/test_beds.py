"""Arcs, chords and bends against printed figures; the source stands in each.

Only figures the sources print are asserted. "mm" stands for whichever unit the source uses: the
relations do not depend on it.
"""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import hand_job, hand_schedule
from printed import LAST_PLACE, Figure, chord_of_ordinate

from nesting.schedules.cuts import dam_cuts
from nesting.schedules.onbed import measure_panels
from nesting.shapes.arcs import arc_of_chord, chord_of_arc
from nesting.units import to_steps
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Dam
from nesting.values.job import DamStock
from nesting.values.panels import Panel

MM = 8000
SEGMENTS = "Machinery's Handbook, 31st ed. 2020, p. 50, examples 3 and 4"
CHORDS = "Machinery's Handbook, 31st ed. 2020, p. 79"
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


# Dams on beds

UNIT = 100 * MM


def dam_on(radius, rise):
    """Return a dam as it is cut whose foot has that radius and rise, in units of 100 mm.

    On the concave bed the liner, one unit thick, leaves the face that radius.
    """
    bed = Bed("flat", "concave", round((radius + 1) * UNIT))
    job = hand_job()
    job = replace(job, beds=(bed,), liner=replace(job.liner, thickness=UNIT))
    job = replace(job, dams=DamStock(height=UNIT // 10, on_curve="cut"))
    angle = 2 * math.acos(1 - Fraction(rise) / Fraction(radius))
    flat = round(Bend(bed, UNIT).neutral_radius * Fraction(angle))
    strip = Dam("dam 1", 0, 0, flat, 25 * MM)
    layout = replace(hand_schedule().layouts[0], bed="flat", dams=(strip,), panels=())
    return dam_cuts(job, layout)[0]


def ring_of(radius, rise):
    """Return the profile of that dam."""
    return dam_on(radius, rise).profile


def sixty_degrees(form="convex", height=4):
    """Return bend and flat size of a panel of 60 degrees at a face radius of 3 m, height in m."""
    away = {"convex": 1, "concave": -1}[form]
    bend = Bend(Bed("drum", form, (3000 - 20 * away) * MM, ends="plumb"), 20 * MM)
    return bend, (round(bend.neutral_radius * Fraction(math.pi / 3)), height * 1000 * MM)


def straight_diagonal():
    """Return the diagonal in space of that panel, 4 m high [m]."""
    bend, flat = sixty_degrees()
    return bend.diagonals(flat)[0] / MM / 1000


def diagonal_over_the_face():
    """Return the diagonal of the same that a tape lying on the face reads [m]."""
    bend, flat = sixty_degrees()
    job = replace(hand_job(), beds=(bend.bed,))
    job = replace(job, liner=replace(job.liner, thickness=bend.thickness))
    placed = replace(hand_schedule().layouts[0].panels[0], width=flat[0], height=flat[1])
    layout = replace(hand_schedule().layouts[0], bed="drum", panels=(placed,))
    return measure_panels(job, layout)[0].over / MM / 1000


def plumb_back(form, thickness):
    """Return the back of that panel [mm] where its ends are plumb and it is so thick [mm]."""
    bend, flat = sixty_degrees(form)
    return bend.ordered_length(flat[0], "x", "back", thickness * MM) / MM


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
        SEGMENTS,
        "foot of a dam cut to radius 12 and rise 2",
        "14.06",
        lambda: dam_on(12, 2).length / UNIT,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SEGMENTS,
        "chord of the same foot",
        "13.27",
        lambda: ring_of(12, 2).chord / UNIT,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        CHORDS,
        "chord of the foot of a dam cut to radius 60 and rise 8",
        "59.86",
        lambda: ring_of(60, 8).chord / UNIT,
        "0.01",
        "the book cuts off after two places",
    ),
    Figure(
        CHORDS,
        "chord of the foot of a dam cut to radius 8 1/3 and rise 6",
        "16",
        lambda: ring_of(Fraction(25, 3), 6).chord / UNIT,
        "0.00001",
        "steps",
    ),
    Figure(
        CHORDS,
        "rise of the same foot",
        "6",
        lambda: ring_of(Fraction(25, 3), 6).rise / UNIT,
        "0.00001",
        "steps",
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
    Figure(
        OWN,
        "diagonal in space of a face of 60 degrees at radius 3 m and 4 m high, in m",
        "5",
        straight_diagonal,
        "0.000001",
        "steps; sides 3, 4 and 5, as the chord of 60 degrees is its radius",
    ),
    Figure(
        OWN,
        "diagonal of the same face along it, the root of pi squared and 16, in m",
        "5.08622",
        diagonal_over_the_face,
        "0.000005",
        LAST_PLACE,
    ),
    *(
        Figure(
            OWN,
            f"back of the same panel on a {form} bed, {thickness} mm thick, its ends plumb, in mm",
            printed,
            lambda form=form, thickness=thickness: plumb_back(form, thickness),
            "0.005",
            LAST_PLACE,
        )
        # 2 r asin(1500 / r) for a back of radius r: 3100 and 2900 mm
        for form, thickness, printed in [("convex", 100, "3131.45"), ("concave", 100, "3153.02")]
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
