"""Plans: the fewest casts of a job, as values with plain attributes in mm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from nesting.checking.schedule import check_schedule
from nesting.errors import InputError, RefusedError
from nesting.planning.schedule import schedule_casts
from nesting.units import STEPS_PER_MM
from nesting.values.casts import Layout, Schedule, totals

if TYPE_CHECKING:
    from nesting.api.jobs import Job
    from nesting.checking.findings import Finding
    from nesting.drawings.record import Drawing

MM2 = STEPS_PER_MM**2


@dataclass(frozen=True, slots=True)
class PlacedPanel:
    """A panel on the liner lying flat: lower left corner and flat size [mm], and what it shows."""

    mark: str
    x: float
    y: float
    width: float
    height: float
    shows: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PlacedDam:
    """A dam on the liner lying flat [mm]; ``clearance`` to ornament is None where there is none."""

    name: str
    x: float
    y: float
    width: float
    height: float
    length: float
    clearance: float | None = None


@dataclass(frozen=True)
class PlanLayout:
    """One masking layout of a plan, cast ``repeats`` times; areas in mm2."""

    plan: Plan = field(repr=False)
    number: int
    repeats: int
    bed: str
    panels: tuple[PlacedPanel, ...]
    dams: tuple[PlacedDam, ...]
    idle_area: float
    idle_share: float

    def _repr_svg_(self) -> str:
        """Return the masking layout as SVG, for notebooks."""
        return layout_svg(self.plan, self.number)


@dataclass(frozen=True)
class Plan:
    """A schedule of the fewest casts found, passed by the independent checker.

    ``schedule`` holds it in whole steps, as files and drawings have it.
    """

    job: Job
    schedule: Schedule = field(repr=False)

    @property
    def casts(self) -> int:
        """How many casts it takes."""
        return self.schedule.casts

    @property
    def lower_bound(self) -> int:
        """How many casts are proved to be needed."""
        return self.schedule.lower_bound

    @property
    def proved(self) -> bool:
        """Whether fewer casts are proved impossible."""
        return self.schedule.proved

    @property
    def notes(self) -> tuple[str, ...]:
        """What must be known: a time limit reached, a size taken within its tolerance."""
        return self.schedule.notes

    @property
    def idle_area(self) -> float:
        """Liner area without a panel over all casts [mm2]."""
        return totals(self.schedule).idle_area / MM2

    @property
    def idle_share(self) -> float:
        """The same over the liner area of all casts, 0 to 1."""
        return totals(self.schedule).idle_share

    @cached_property
    def layouts(self) -> tuple[PlanLayout, ...]:
        """The masking layouts, in the order of the schedule."""
        return tuple(_layout(self, layout) for layout in self.schedule.layouts)

    def report(self) -> str:
        """Return the whole report as text."""
        from nesting.schedules.report import report_schedule

        return report_schedule(self.job.exact, self.schedule)

    def to_json(self) -> str:
        """Return the schedule file's text."""
        from nesting.schedules.write import schedule_to_json

        return schedule_to_json(self.schedule, self.job.exact)

    def write(self, folder: str | Path, *, drawn: datetime | None = None) -> None:
        """Write schedule and drawings into the folder, all or none, as ``nesting plan -o`` does.

        Drawings say that they were ``drawn`` then, or now unless given.
        """
        from nesting.drawings.planfiles import write_plan_files
        from nesting.files.clock import read_clock
        from nesting.files.output import write_folder

        files = write_plan_files(self.job.exact, self.schedule, drawn or read_clock())
        write_folder(Path(folder), files)

    def _repr_svg_(self) -> str:
        """Return the overview of all layouts as SVG, for notebooks."""
        from nesting.drawings.overview import draw_overview

        return _sheet(self, draw_overview(self.job.exact, self.schedule), None)


def plan(
    job: Job,
    *,
    time_limit: float | None = None,
    progress: Callable[[str], None] | None = None,
) -> Plan:
    """Return the plan of fewest casts, then of fewest layouts.

    ``time_limit`` [s] ends the search with the best found; ``progress`` is told how it goes.

    Raises
    ------
    NoScheduleError
        With a reason per panel, where panels have no place on the liner.
    RefusedError
        Where the independent checker refuses the schedule; that is a fault of ours.
    """
    schedule = schedule_casts(job.exact, time_limit=time_limit, progress=progress)
    findings = check_schedule(job.exact, schedule)
    if findings:
        raise RefusedError(findings)
    return Plan(job, schedule)


def check(job: Job, schedule: Plan | str | Path) -> tuple[Finding, ...]:
    """Return what is wrong with a plan, or with a schedule file, by the rules of the job.

    Each finding has ``code``, ``where`` and ``text``. InputErrors where a file cannot be read.
    """
    if isinstance(schedule, Plan):
        return tuple(check_schedule(job.exact, schedule.schedule))
    from nesting.checking.areas import check_totals
    from nesting.schedules.write import read_schedule, read_totals

    path = Path(schedule)
    found = read_schedule(path)
    return (*check_schedule(job.exact, found), *check_totals(found, read_totals(path)))


def layout_svg(plan: Plan, number: int, *, drawn: datetime | None = None) -> str:
    """Return the masking layout of that number as SVG text; InputError where there is none.

    It says that it was ``drawn`` then, or now unless given.
    """
    from nesting.drawings.masking import draw_layout

    known = {layout.number: layout for layout in plan.schedule.layouts}
    if number not in known:
        remedy = f"give one of 1 to {len(known)}"
        raise InputError("layout_svg", "there must be a layout of that number", f"{number}", remedy)
    return _sheet(plan, draw_layout(plan.job.exact, plan.schedule, known[number]), drawn)


def _sheet(plan: Plan, drawing: Drawing, drawn: datetime | None) -> str:
    from nesting.drawings.stamps import stamped
    from nesting.drawings.svg import to_svg
    from nesting.files.clock import read_clock
    from nesting.schedules.stamps import stamp_plan

    stamp = stamp_plan(drawn or read_clock(), plan.job.exact, plan.schedule)
    return to_svg(stamped(drawing, stamp))


def _layout(plan: Plan, layout: Layout) -> PlanLayout:
    panels = (
        PlacedPanel(p.mark, mm_of(p.x), mm_of(p.y), mm_of(p.width), mm_of(p.height), p.shows)
        for p in layout.panels
    )
    dams = (
        PlacedDam(
            dam.name,
            mm_of(dam.x),
            mm_of(dam.y),
            mm_of(dam.width),
            mm_of(dam.height),
            mm_of(dam.length),
            None if dam.clearance is None else mm_of(dam.clearance),
        )
        for dam in layout.dams
    )
    return PlanLayout(
        plan,
        layout.number,
        layout.repeats,
        layout.bed,
        tuple(panels),
        tuple(dams),
        layout.areas.idle / MM2,
        layout.idle_share,
    )


def mm_of(steps: int) -> float:
    """Return steps in mm."""
    return steps / STEPS_PER_MM
