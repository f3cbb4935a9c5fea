"""From a job to its schedule: the product, in one pure function."""

from dataclasses import replace

from nesting.errors import NoScheduleError
from nesting.maps.ground import Ground, survey
from nesting.maps.sizehunt import Hunts
from nesting.maps.sizes import SizedPanel, choose_size
from nesting.planning.bedplan import BedPlan, plan_bed
from nesting.planning.reasons import explain
from nesting.planning.strips import strip_rule
from nesting.search.solver import Deadline, Report, silent
from nesting.values.bend import bend_of
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job


def schedule_casts(
    job: Job, *, time_limit: float | None = None, progress: Report | None = None
) -> Schedule:
    """Return the schedule of fewest casts, then fewest layouts, then roomiest dams.

    Each bed is scheduled apart, in the order of the job. ``time_limit`` [s] bounds the search, not
    the little work before and after it; the best schedule found is never lost.

    Raises
    ------
    NoScheduleError
        With a reason per panel, where panels have no place on the liner.
    """
    deadline = Deadline(time_limit)
    ground = survey(job.liner, job.rules)
    sizes, rule = _choose_sizes(job, ground), strip_rule(job.rules, job.dam_widths)
    plans = []
    for bed in job.beds:
        mine = [size for size in sizes if size.panel.bed == bed.name]
        if mine:
            plans.append(plan_bed(ground, bed.name, mine, rule, deadline, progress or silent))
    return Schedule(
        job.title,
        sum(plan.proof.lower_bound for plan in plans),
        _number(plans),
        tuple(plan.proof for plan in plans),
        sum(plan.layouts_bound for plan in plans),
        all(plan.layouts_proved for plan in plans),
        all(plan.shortest for plan in plans),
        notes=(
            *_size_notes(job, sizes),
            *_width_notes(plans),
            *_time_notes(plans, time_limit),
        ),
    )


def _choose_sizes(job: Job, ground: Ground) -> list[SizedPanel]:
    hunts = Hunts(ground)
    bends = {bed.name: bend_of(job, bed.name) for bed in job.beds}
    chosen = [choose_size(ground, panel, bends[panel.bed], hunts) for panel in job.panels]
    lost = [panel for panel, size in zip(job.panels, chosen, strict=True) if size is None]
    if lost:
        raise NoScheduleError(explain(hunts, panel, bends[panel.bed], job.units) for panel in lost)
    return [size for size in chosen if size is not None]


def _number(plans: list[BedPlan]) -> tuple[Layout, ...]:
    layouts: list[Layout] = []
    for plan in plans:
        before = len(layouts)
        for layout in plan.layouts:
            same = None if layout.same_dams_as is None else layout.same_dams_as + before
            number = layout.number + before
            layouts.append(replace(layout, number=number, same_dams_as=same))
    return tuple(layouts)


def _size_notes(job: Job, sizes: list[SizedPanel]) -> list[str]:
    """Say which sizes were taken within their tolerance."""
    return [
        f"Panel {size.panel.mark!r} has no place at its nominal size; planned within its tolerance:"
        f" width {job.tape.signed(size.off_nominal[0], words=True)}, "
        f"height {job.tape.signed(size.off_nominal[1], words=True)}."
        for size in sizes
        if size.off_nominal != (0, 0)
    ]


def _width_notes(plans: list[BedPlan]) -> list[str]:
    """Say how many casts strips of other widths would save."""
    known, most = (sum(plan.saving[end] for plan in plans) for end in (0, 1))
    if not most or any(plan.stopped_early for plan in plans):
        return []
    least = f"would save {known}" if known else "may save some"
    more = "" if known == most else f", {most} at most"
    casts = "cast" if (known or most) == 1 else "casts"
    return [f"With other_widths = true strips of other widths {least} {casts}{more}."]


def _time_notes(plans: list[BedPlan], time_limit: float | None) -> list[str]:
    if not any(plan.stopped_early for plan in plans):
        return []
    return [f"The time limit of {time_limit:g} s was reached; this is the best schedule found."]
