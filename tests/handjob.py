"""One hand-sized job and the one schedule that fills it, worked out on paper; lengths in mm.

::

    800 +-------------------------------+--+------------+
        |            masked             |1 |            |    liner 1200 x 800, dams 25 wide
    675 +-------------------------------+  |            |    zone "east"   x 790 to 860
        |             dam 2             |  |            |    zone "north"  y 640 to 690
    650 +-------------------------------+  |    B1      |    ornament "heron"
        |        +-----+                |  |            |      x 300 to 520, y 200 to 600
        |  A1    |heron|                |  |            |
        |        +-----+                |  |            |    cast 2: C1, 1200 x 650, under dam 1,
      0 +-------------------------------+--+------------+            1200 x 25 from (0, 650)
        0                             800 825        1200

Each panel has one place only, so nothing but these two casts can fill the order of one each.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from nesting.planning.dams import account
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.bed import Bed
from nesting.values.casts import Areas, Dam, Layout, Placement, Proof, Schedule, Sides
from nesting.values.job import Job, Rules
from nesting.values.liner import BlankZone, Liner, Ornament, Unmarked
from nesting.values.panels import Panel

MM = 8000


def rect(x: float, y: float, width: float, height: float) -> Polygon:
    """Return a rectangle given in mm."""
    x0, y0, x1, y1 = (round(value * MM) for value in (x, y, x + width, y + height))
    return polygon_of(Box(x0, y0, x1, y1))


def sides(dams: str) -> Sides:
    """Return the sides with dams on those named by their first letters, rim on the others."""
    return Sides(*("dam" if side in dams else "edge" for side in "lrbt"))


def place(
    mark: str, x: float, y: float, width: float, height: float, dams: str, *shows: str
) -> Placement:
    """Return a panel placed in mm, with dams on the sides named by their first letters."""
    x, y, width, height = (round(value * MM) for value in (x, y, width, height))
    return Placement(mark, x, y, width, height, sides(dams), shows)


def dam(
    name: str, x: float, y: float, width: float, height: float, zones: str, clearance: float | None
) -> Dam:
    """Return a dam in mm; zones as one string with blanks between."""
    x, y, width, height = (round(value * MM) for value in (x, y, width, height))
    steps = None if clearance is None else round(clearance * MM)
    return Dam(name, x, y, width, height, tuple(zones.split()), steps)


def hand_liner() -> Liner:
    """Return the liner with its ornament and its two blank zones."""
    return Liner(
        name="reeds",
        outline=rect(0, 0, 1200, 800),
        thickness=13 * MM,
        ornaments=(Ornament("heron", rect(300, 200, 220, 400)),),
        zones=(
            BlankZone("east", rect(790, 0, 70, 800)),
            BlankZone("north", rect(0, 640, 1200, 50)),
        ),
    )


def hand_job() -> Job:
    """Return the order: one each of three panels on a flat bed."""
    return Job(
        title="Bath house, foyer",
        units="mm",
        liner=hand_liner(),
        rules=Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM),
        beds=(Bed("table"),),
        panels=(
            Panel("A1", 800 * MM, 650 * MM, 1, "table", must_show=("heron",)),
            Panel("B1", 375 * MM, 800 * MM, 1, "table", must_hide=("heron",)),
            Panel("C1", 1200 * MM, 650 * MM, 1, "table"),
        ),
    )


def liner_of(
    outline: Polygon,
    *,
    ornaments: Iterable[Polygon] = (),
    zones: Iterable[Polygon] = (),
    unmarked: Unmarked = "blank",
) -> Liner:
    """Return a liner of these outlines [steps], plain where nothing is said."""
    return Liner(
        "reeds",
        outline,
        13 * MM,
        unmarked,
        tuple(Ornament(f"leaf {k}", shape) for k, shape in enumerate(ornaments)),
        tuple(BlankZone(f"zone {k}", shape) for k, shape in enumerate(zones)),
    )


def slanted_job() -> Job:
    """Return the hand-sized job on blank ground with one slanted ornament."""
    job = hand_job()
    leaf = Polygon(tuple((x * MM, y * MM) for x, y in ((400, 200), (700, 300), (500, 600))))
    liner = replace(job.liner, unmarked="blank", zones=(), ornaments=(Ornament("heron", leaf),))
    return replace(job, liner=liner)


def hand_schedule() -> Schedule:
    """Return the schedule of two casts; both A1 and C1 must cover the point (400, 400)."""
    one = Layout(
        number=1,
        repeats=1,
        bed="table",
        panels=(
            place("A1", 0, 0, 800, 650, "rt", "heron"),
            place("B1", 825, 0, 375, 800, "l"),
        ),
        dams=(
            dam("dam 1", 800, 0, 25, 800, "east north", 280),
            dam("dam 2", 0, 650, 800, 25, "east north", 50),
        ),
        areas=_areas(liner=960_000, panels=820_000, dams=40_000, masked=100_000),
    )
    two = Layout(
        number=2,
        repeats=1,
        bed="table",
        panels=(place("C1", 0, 0, 1200, 650, "t", "heron"),),
        dams=(dam("dam 1", 0, 650, 1200, 25, "east north", 50),),
        areas=_areas(liner=960_000, panels=780_000, dams=30_000, masked=150_000),
    )
    proof = Proof(
        bed="table",
        lower_bound=2,
        casts=2,
        prices=(("A1", 1), ("B1", 0), ("C1", 1)),
        demand=2,
        heaviest=1,
        points=((400 * MM, 400 * MM, 1),),
    )
    return Schedule(
        job="Bath house, foyer",
        lower_bound=2,
        layouts=(one, two),
        proofs=(proof,),
        layouts_bound=2,
        layouts_proved=True,
        dam_length_proved=True,
    )


def masked_bay() -> tuple[Job, Schedule]:
    """Return the job with a second A1, cast under the dams of layout 1 with B1's bay masked."""
    job, schedule = hand_job(), hand_schedule()
    again = replace(
        schedule.layouts[0],
        number=3,
        panels=schedule.layouts[0].panels[:1],
        areas=_areas(liner=960_000, panels=520_000, dams=40_000, masked=400_000),
        same_dams_as=1,
    )
    proof = replace(schedule.proofs[0], lower_bound=3, casts=3, demand=3)
    return change_panel(job, "A1", quantity=2), replace(
        schedule, lower_bound=3, layouts=(*schedule.layouts, again), proofs=(proof,)
    )


def change_panel(job: Job, mark: str, **changes: Any) -> Job:
    """Return the job with one panel of the order changed."""
    panels = (replace(panel, **changes) if panel.mark == mark else panel for panel in job.panels)
    return replace(job, panels=tuple(panels))


def change_layout(job: Job, schedule: Schedule, which: int, /, **changes: Any) -> Schedule:
    """Return the schedule with one layout changed and its area account made anew."""

    def changed(layout: Layout) -> Layout:
        if layout.number != which:
            return layout
        fresh = replace(layout, **changes)
        if "areas" in changes:
            return fresh
        return replace(fresh, areas=account(job.liner, fresh.panels, fresh.dams))

    return replace(schedule, layouts=tuple(changed(layout) for layout in schedule.layouts))


def _areas(liner: int, panels: int, dams: int, masked: int) -> Areas:
    return Areas(*(value * MM * MM for value in (liner, panels, dams, masked)))
