"""The good schedule broken in one way at a time, with the code each fault must be found by.

Each mutation starts from the good hand-sized job, breaks one thing and restates truthfully what
follows from it, so that a single code is left. Where one fault cannot come alone the reason
stands beside it.
"""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from handjob import (
    MM,
    change_layout,
    change_panel,
    dam,
    hand_job,
    hand_schedule,
    masked_bay,
    place,
    rect,
    sides,
)

from nesting.shapes.geometry import Box
from nesting.values.bed import Bed
from nesting.values.casts import Schedule
from nesting.values.castsizes import AsCast
from nesting.values.job import DamStock, Job
from nesting.values.liner import KeepClear, Ornament

Broken = tuple[Job, Schedule]
STEP = 1 / MM

A1 = place("A1", 0, 0, 800, 650, "rt", "heron")
B1 = place("B1", 825, 0, 375, 800, "l")
C1 = place("C1", 0, 0, 1200, 650, "t", "heron")
UPRIGHT = dam("dam 1", 800, 0, 25, 800, "east north", 280)
ABOVE_A1 = dam("dam 2", 0, 650, 800, 25, "east north", 50)
ABOVE_C1 = dam("dam 1", 0, 650, 1200, 25, "east north", 50)


def with_leaf(y: float, height: float, clearance: float, *, shown: bool) -> Broken:
    """Add an ornament "leaf", 30 mm wide at x = 100, and state it in dams and panels."""
    job = hand_job()
    leaf = Ornament("leaf", rect(100, y, 30, height))
    job = replace(job, liner=replace(job.liner, ornaments=(*job.liner.ornaments, leaf)))
    shows = ("heron", "leaf") if shown else ("heron",)
    gap = round(clearance * MM)
    broken = change_layout(
        job,
        hand_schedule(),
        1,
        panels=(replace(A1, shows=shows), B1),
        dams=(UPRIGHT, replace(ABOVE_A1, clearance=gap)),
    )
    above = replace(ABOVE_C1, clearance=gap)
    return job, change_layout(job, broken, 2, panels=(replace(C1, shows=shows),), dams=(above,))


def with_loop(x: float, y: float, distance: float, width: float = 0) -> Broken:
    """Add a place that dams keep off: a point in mm, or as wide and as high as given."""
    corners = (x, y, x + width, y + width)
    loop = KeepClear("loop", Box(*(round(at * MM) for at in corners)), round(distance * MM))
    job = hand_job()
    return replace(job, liner=replace(job.liner, keep_clear=(loop,))), hand_schedule()


def with_dam_over_c1(*dams) -> Broken:
    """Lay these dams in layout 2."""
    return hand_job(), change_layout(hand_job(), hand_schedule(), 2, dams=dams)


def with_one(*panels, dams=(UPRIGHT, ABOVE_A1), job: Job | None = None) -> Broken:
    """Put these panels and dams in layout 1."""
    job = job or hand_job()
    return job, change_layout(job, hand_schedule(), 1, panels=panels, dams=dams)


def with_strip(more: int, *widths: int) -> Broken:
    """Lay the dam of layout 2 wider by so many steps, with a list of the shop's widths."""
    job, broken = with_dam_over_c1(replace(ABOVE_C1, height=25 * MM + more))
    return replace(job, dams=DamStock(widths)), broken


def with_gap(more: int) -> Broken:
    """Lay the panels of layout 1 farther apart by so many steps, with one dam between them."""
    narrow = replace(B1, x=B1.x + more, width=B1.width - more)
    job = change_panel(hand_job(), "B1", width=narrow.width)
    return with_one(A1, narrow, dams=(replace(UPRIGHT, width=25 * MM + more), ABOVE_A1), job=job)


def with_proof(**changes) -> Broken:
    """Change the proof."""
    schedule = hand_schedule()
    return hand_job(), replace(schedule, proofs=(replace(schedule.proofs[0], **changes),))


def with_schedule(**changes) -> Broken:
    """Change the schedule itself."""
    return hand_job(), replace(hand_schedule(), **changes)


def unpriced(job: Job, schedule: Schedule) -> Broken:
    """Leave B1 out of the proof."""
    proof = replace(schedule.proofs[0], prices=(("A1", 1), ("C1", 1)))
    return job, replace(schedule, proofs=(proof,))


def dam_too_long_near_a_leaf() -> Broken:
    """Widen the dam over C1 upward, beyond its ring, to within 5 mm of a leaf."""
    job, schedule = with_leaf(695, 30, 20, shown=False)
    thick = dam("dam 1", 0, 650, 1200, 40, "east north", 5)
    return job, change_layout(job, schedule, 2, dams=(thick,))


def b1_left_out_of_the_order() -> Broken:
    """Cast a panel that nobody ordered."""
    job = hand_job()
    return unpriced(replace(job, panels=(job.panels[0], job.panels[2])), hand_schedule())


def b1_ordered_on_another_bed() -> Broken:
    """Order B1 on a second bed and cast it on the first."""
    job = replace(hand_job(), beds=(Bed("table"), Bed("bench")))
    return unpriced(change_panel(job, "B1", bed="bench"), hand_schedule())


def layout_on_no_bed() -> Broken:
    """Cast layout 2 on a bed that is not in the job; no proof speaks of it."""
    schedule = replace(hand_schedule(), proofs=(), lower_bound=1)
    return hand_job(), change_layout(hand_job(), schedule, 2, bed="bench")


def one_cast_too_many() -> Broken:
    """Cast layout 1 twice."""
    job, schedule = with_proof(casts=3)
    return job, change_layout(job, schedule, 1, repeats=2)


def layout_never_cast() -> Broken:
    """Add a copy of layout 2 that is never cast."""
    schedule = hand_schedule()
    return hand_job(), replace(
        schedule, layouts=(*schedule.layouts, replace(schedule.layouts[1], number=3, repeats=0))
    )


def kept_dams(number: int = 3, **changes) -> Broken:
    """Change one layout of the schedule that masks a bay."""
    job, schedule = masked_bay()
    schedule = replace(schedule, layouts_bound=0)
    return job, change_layout(job, schedule, number, **changes)


def kept_dams_on_another_bed() -> Broken:
    """Mask a bay on a second bed, where its dams cannot lie."""
    job, schedule = kept_dams(bed="bench")
    job = replace(job, beds=(Bed("table"), Bed("bench")))
    return job, replace(schedule, proofs=(replace(schedule.proofs[0], casts=2),))


def area_off_by_one(part: str) -> Broken:
    """State one part of an area account a square step too large."""
    areas = hand_schedule().layouts[0].areas
    wrong = replace(areas, **{part: getattr(areas, part) + 1})
    return hand_job(), change_layout(hand_job(), hand_schedule(), 1, areas=wrong)


def cast_as_ordered() -> Broken:
    """Plan without the correction for panels that shrink by half a thousandth."""
    as_cast = AsCast(panel_shrink=Fraction(1, 2000))
    return replace(hand_job(), as_cast=as_cast), hand_schedule()


MUTATIONS: list[tuple[set[int], str, Callable[[], Broken]]] = [
    ({101}, "leaf across a panel's top", lambda: with_leaf(640, 20, 0, shown=False)),
    (
        {102},
        "leaf one step too near the dam",
        lambda: with_leaf(681 - STEP, 30, 6 - STEP, shown=False),
    ),
    ({102}, "leaf in the dam", lambda: with_leaf(655, 10, 0, shown=False)),
    ({102, 211}, "dam wider than its ring, near a leaf", dam_too_long_near_a_leaf),
    (
        {103},
        "leaf one step too near the top",
        lambda: with_leaf(600, 38 + STEP, 12 - STEP, shown=True),
    ),
    (
        {104},
        "heron not shown",
        lambda: (
            change_panel(hand_job(), "B1", must_show=("heron",), must_hide=()),
            hand_schedule(),
        ),
    ),
    (
        {105},
        "heron shown",
        lambda: (change_panel(hand_job(), "C1", must_hide=("heron",)), hand_schedule()),
    ),
    ({106}, "heron shown, not stated", lambda: with_one(replace(A1, shows=()), B1)),
    ({106}, "heron stated, not shown", lambda: with_one(A1, replace(B1, shows=("heron",)))),
    (
        {201},
        "dam one step off the liner",
        lambda: with_one(A1, B1, dams=(replace(UPRIGHT, height=800 * MM + 1), ABOVE_A1)),
    ),
    (
        {202, 211},
        "dam one step off its zone",
        lambda: with_dam_over_c1(replace(ABOVE_C1, height=40 * MM + 1)),
    ),
    ({203}, "dam one step short", lambda: with_dam_over_c1(replace(ABOVE_C1, width=1200 * MM - 1))),
    ({203}, "dam one step narrow", lambda: with_dam_over_c1(replace(ABOVE_C1, height=25 * MM - 1))),
    ({203}, "no dam", lambda: with_dam_over_c1()),
    (
        {204},
        "dams overlap by one step",
        lambda: with_one(A1, B1, dams=(UPRIGHT, replace(ABOVE_A1, width=800 * MM + 1))),
    ),
    (
        {205, 211},
        "dam over a panel",
        lambda: with_dam_over_c1(dam("dam 1", 0, 649, 1200, 26, "east north", 49)),
    ),
    (
        {206},
        "dam along nothing",
        lambda: with_dam_over_c1(ABOVE_C1, dam("dam 2", 800, 680, 25, 50, "east north", 280)),
    ),
    ({207}, "zone not stated", lambda: with_dam_over_c1(replace(ABOVE_C1, zones=("north",)))),
    (
        {207},
        "zones in another order",
        lambda: with_dam_over_c1(replace(ABOVE_C1, zones=("north", "east"))),
    ),
    (
        {207},
        "clearance off by one step",
        lambda: with_dam_over_c1(replace(ABOVE_C1, clearance=50 * MM + 1)),
    ),
    ({207}, "clearance not stated", lambda: with_dam_over_c1(replace(ABOVE_C1, clearance=None))),
    (
        {208},
        "two dams 1",
        lambda: with_one(A1, B1, dams=(UPRIGHT, replace(ABOVE_A1, name="dam 1"))),
    ),
    (
        {209},
        "dam without width",
        lambda: with_dam_over_c1(ABOVE_C1, dam("dam 2", 0, 650, 0, 25, "", 50)),
    ),
    ({210}, "loop a step too near a dam's side", lambda: with_loop(400, 685, 10 + STEP)),
    ({210}, "loop a step too near a dam's corner", lambda: with_loop(828, 804, 5 + STEP)),
    ({210}, "loop under a dam", lambda: with_loop(400, 660, 1)),
    ({210}, "splice under a dam, at no distance", lambda: with_loop(400, 660, 0, 9)),
    ({211}, "dam of no width there is", lambda: with_strip(401)),
    ({211}, "dam of a width that is not listed", lambda: with_strip(15 * MM, 25 * MM, 60 * MM)),
    ({211, 309}, "panels by no strip's width apart", lambda: with_gap(401)),
    ({211, 309}, "panels nearly two dams apart", lambda: with_gap(24 * MM)),
    (
        {301},
        "panel one step off the liner",
        lambda: with_one(
            A1,
            replace(B1, width=375 * MM + 1),
            job=change_panel(hand_job(), "B1", width=375 * MM + 1),
        ),
    ),
    # Panels too near each other leave no room for both rings.
    (
        {203, 205, 302},
        "panels one step too near",
        lambda: with_one(
            A1,
            replace(B1, x=825 * MM - 1, width=375 * MM + 1),
            job=change_panel(hand_job(), "B1", width=375 * MM + 1),
        ),
    ),
    ({303}, "panels cast as ordered that will shrink", cast_as_ordered),
    (
        {303},
        "panel one step narrow",
        lambda: with_one(
            A1,
            replace(B1, x=825 * MM + 1, width=375 * MM - 1),
            dams=(replace(UPRIGHT, width=25 * MM + 1), ABOVE_A1),
        ),
    ),
    (
        {303},
        "size within a tolerance not given",
        lambda: with_one(
            A1,
            replace(B1, x=825 * MM + 1, width=375 * MM - 1, off_nominal=(-1, 0)),
            dams=(replace(UPRIGHT, width=25 * MM + 1), ABOVE_A1),
        ),
    ),
    ({304}, "edge side off the rim", lambda: with_one(A1, replace(B1, sides=sides("")))),
    ({305}, "mark not ordered", b1_left_out_of_the_order),
    ({306}, "wrong bed", b1_ordered_on_another_bed),
    ({307}, "turned", lambda: with_one(A1, replace(B1, turned=True))),
    ({308}, "no such bed", layout_on_no_bed),
    (
        {401},
        "one piece short",
        lambda: (change_panel(hand_job(), "B1", quantity=2), hand_schedule()),
    ),
    ({402}, "one cast too many", one_cast_too_many),
    ({403}, "layout cast 0 times", layout_never_cast),
    ({404}, "keeps dams of a layout with others", lambda: kept_dams(same_dams_as=2)),
    ({404}, "keeps dams of no layout", lambda: kept_dams(same_dams_as=9)),
    ({404}, "keeps its own dams", lambda: kept_dams(same_dams_as=3)),
    (
        {404},
        "a kept dam renamed",
        lambda: kept_dams(dams=(UPRIGHT, replace(ABOVE_A1, name="dam 9"))),
    ),
    # A1 is ordered on the bed that its dams lie on.
    ({306, 404}, "keeps dams on another bed", kept_dams_on_another_bed),
    # No other change to a panel leaves it in its only place.
    (
        {106, 404},
        "a panel the layout does not have",
        lambda: kept_dams(panels=(replace(A1, shows=()),)),
    ),
    ({405}, "bound above the casts", lambda: with_schedule(lower_bound=3)),
    ({405}, "bound below its proofs", lambda: with_schedule(lower_bound=1)),
    ({405}, "bound of 2 without proof", lambda: with_schedule(proofs=())),
    ({405}, "two proofs for a bed", lambda: with_schedule(proofs=hand_schedule().proofs * 2)),
    ({405}, "proof for another bed", lambda: with_proof(bed="bench")),
    (
        {405},
        "demand off by one",
        lambda: with_proof(prices=(("A1", 2), ("C1", 2)), demand=3, heaviest=2, points=()),
    ),
    ({405}, "bound not the quotient", lambda: with_proof(heaviest=2, points=())),
    (
        {405},
        "heaviest lighter than a cast",
        lambda: with_proof(prices=(("A1", 1), ("B1", 1)), demand=2, heaviest=1),
    ),
    ({405}, "heaviest 0", lambda: with_proof(heaviest=0, points=())),
    ({405}, "negative price", lambda: with_proof(prices=(("A1", 3), ("B1", 0), ("C1", -1)))),
    ({405}, "price of no mark", lambda: with_proof(prices=(("A1", 1), ("C1", 1), ("Z9", 0)))),
    ({405}, "price twice", lambda: with_proof(prices=(("A1", 1), ("A1", 1), ("C1", 1)))),
    ({405}, "points too heavy", lambda: with_proof(points=((0, 0, 2),))),
    ({405}, "points too light", lambda: with_proof(points=((400 * MM, 400 * MM, 0),))),
    ({405}, "casts of the bed", lambda: with_proof(casts=3)),
    ({406}, "more layouts needed than used", lambda: with_schedule(layouts_bound=3)),
    (
        {407},
        "number twice",
        lambda: (hand_job(), change_layout(hand_job(), hand_schedule(), 2, number=1)),
    ),
    ({408}, "another job", lambda: with_schedule(job="Bath house, hall")),
    ({501}, "masked area one square step off", lambda: area_off_by_one("masked")),
    ({501}, "liner area one square step off", lambda: area_off_by_one("liner")),
    ({501}, "panel area one square step off", lambda: area_off_by_one("panels")),
    ({501}, "dam area one square step off", lambda: area_off_by_one("dams")),
]
