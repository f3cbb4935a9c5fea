"""A job small enough to check by hand, with its schedule written out, and an inch job on a drum.

The ferry job: one liner of 2400 x 1200 mm, one heron, two blank zones, seven panels of one size, so
seven casts of one layout. The bath house job: 96 x 48 in on a convex drum, one size, two casts.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from nesting.shapes.geometry import Box, polygon_of
from nesting.values.bed import Bed
from nesting.values.casts import Areas, Dam, Layout, Placement, Proof, Schedule, Sides
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel

MM = 8000
SIXTEENTH = 12_700
INCH = 16 * SIXTEENTH


def scaled(box: tuple[float, float, float, float], unit: int) -> Box:
    """Return (x, y, width, height) in the unit as a box in steps."""
    x, y, width, height = (round(value * unit) for value in box)
    return Box(x, y, x + width, y + height)


def make_ferry_job() -> Job:
    """Return the ferry job."""
    liner = Liner(
        "reeds",
        polygon_of(scaled((0, 0, 2400, 1200), MM)),
        13 * MM,
        ornaments=(Ornament("heron", polygon_of(scaled((300, 200, 220, 650), MM))),),
        zones=(
            BlankZone("east", polygon_of(scaled((1490, 0, 110, 1200), MM))),
            BlankZone("north", polygon_of(scaled((0, 890, 2400, 60), MM))),
        ),
    )
    panel = Panel("A1", 1500 * MM, 900 * MM, 7, "table")
    rules = Rules(25 * MM, 6 * MM, 12 * MM, MM)
    return Job("Ferry terminal, waiting hall", "mm", liner, rules, (Bed("table"),), (panel,))


def make_ferry_schedule() -> Schedule:
    """Return the ferry job's schedule, proved."""
    placed = Placement(
        "A1", 0, 0, 1500 * MM, 900 * MM, Sides("edge", "dam", "edge", "dam"), ("heron",)
    )
    dams = (
        Dam("dam 1", 1500 * MM, 0, 25 * MM, 900 * MM, ("east", "north"), 980 * MM),
        Dam("dam 2", 0, 900 * MM, 1525 * MM, 25 * MM, ("east", "north"), 50 * MM),
    )
    square = MM * MM
    areas = Areas(2_880_000 * square, 1_350_000 * square, 60_625 * square, 1_469_375 * square)
    return Schedule(
        "Ferry terminal, waiting hall",
        7,
        (Layout(1, 7, "table", (placed,), dams, areas),),
        (Proof("table", 7, 7, (("A1", 1),), 7, 1),),
        1,
        True,
        True,
    )


def make_unproved_schedule() -> Schedule:
    """Return the ferry schedule as if only six casts had been proved necessary."""
    schedule = make_ferry_schedule()
    proof = replace(schedule.proofs[0], lower_bound=6, demand=6)
    return replace(
        schedule,
        lower_bound=6,
        proofs=(proof,),
        layouts_proved=False,
        notes=("The time limit of 2 s was reached.",),
    )


def make_drum_job() -> Job:
    """Return the bath house job: inches, one convex bed."""
    liner = Liner("waves", polygon_of(scaled((0, 0, 96, 48), INCH)), INCH // 2, unmarked="blank")
    drum = Bed("drum", "convex", 120 * INCH, "x", Fraction(1, 2))
    panel = Panel("B2", 60 * INCH, 30 * INCH, 2, "drum")
    rules = Rules(INCH, INCH // 4, INCH // 2, SIXTEENTH)
    return Job("Bath house", "in", liner, rules, (drum,), (panel,))


def make_drum_schedule() -> Schedule:
    """Return the bath house job's schedule; the flat width is 60 * 120.25 / 120.5 in."""
    width = round(60 * INCH * Fraction(12025, 12050))
    placed = Placement(
        "B2", 0, 0, width, 30 * INCH, Sides("edge", "dam", "edge", "dam"), off_nominal=(0, 0)
    )
    dams = (
        Dam("dam 1", width, 0, INCH, 31 * INCH),
        Dam("dam 2", 0, 30 * INCH, width, INCH),
    )
    whole, panel = 96 * 48 * INCH**2, width * 30 * INCH
    strips = 31 * INCH * INCH + width * INCH
    areas = Areas(whole, panel, strips, whole - panel - strips)
    layout = Layout(1, 2, "drum", (placed,), dams, areas)
    proof = Proof("drum", 2, 2, (("B2", 1),), 2, 1)
    return Schedule("Bath house", 2, (layout,), (proof,), 1, True, True)
