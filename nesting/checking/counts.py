"""Findings 4xx: the order is filled exactly, layouts and bounds hang together."""

from collections import Counter
from collections.abc import Iterator

from nesting.checking.areas import liner_area, write_mm2
from nesting.checking.findings import Finding, at_layout
from nesting.values.casts import Layout, Proof, Schedule
from nesting.values.job import Job

SCHEDULE = "schedule"


def find_stranger(job: Job, schedule: Schedule) -> Finding | None:
    """Return the fault that tells alone where a schedule was made for another job, None else.

    It was where the titles differ, where no mark of it is in the order, and where no layout has the
    liner's area: every other rule would then only tell the same in many ways.
    """
    marks, order = [*schedule.panels], {panel.mark for panel in job.panels}
    liner, areas = liner_area(job), {layout.areas.liner for layout in schedule.layouts}
    text = ""
    if schedule.job != job.title:
        text = f"it must belong to job {job.title!r}, belongs to {schedule.job!r}"
    elif marks and order.isdisjoint(marks):
        text = f"its panels must be of job {job.title!r}, none is in the order, as {marks[0]!r}"
    elif areas and liner not in areas:
        want, got = map(write_mm2, (liner, min(areas)))
        text = f"it must be made for the job's liner of {want} as it lies now, is for {got}"
    return Finding(408, SCHEDULE, text) if text else None


def check_counts(job: Job, schedule: Schedule) -> Iterator[Finding]:
    """Yield what is wrong with quantities, numbers of casts, kept dams and bounds.

    What a proof says is checked as arithmetic, and against every cast of the schedule; that no
    cast at all can be heavier than ``heaviest`` is not, as that takes a search.
    """
    yield from _check_quantities(job, schedule)
    yield from _check_layouts(schedule)
    yield from _check_bounds(job, schedule)


def _check_quantities(job: Job, schedule: Schedule) -> Iterator[Finding]:
    yielded = schedule.panels
    for panel in job.panels:
        got = yielded.get(panel.mark, 0)
        if got != panel.quantity:
            code = 401 if got < panel.quantity else 402
            text = f"{panel.quantity} must be cast, got {got}"
            yield Finding(code, f"panel {panel.mark!r}", text)


def _check_layouts(schedule: Schedule) -> Iterator[Finding]:
    for layout in schedule.layouts:
        if layout.repeats < 1:
            text = f"it must be cast at least once, got {layout.repeats}"
            yield Finding(403, at_layout(layout), text)
        if layout.same_dams_as is not None:
            yield from _check_kept_dams(layout, schedule)
    for number, count in Counter(layout.number for layout in schedule.layouts).items():
        if count > 1:
            text = f"layout numbers must differ, {number} stands {count} x"
            yield Finding(407, SCHEDULE, text)


def _check_kept_dams(layout: Layout, schedule: Schedule) -> Iterator[Finding]:
    number = layout.same_dams_as
    named = [other for other in schedule.layouts if other.number == number]
    fault = ""
    if not named or named[0].same_dams_as is not None:
        fault = "which does not lay dams of its own"
    elif named[0].bed != layout.bed:
        fault = f"which is cast on bed {named[0].bed!r}, not on {layout.bed!r}"
    elif set(named[0].dams) != set(layout.dams):
        fault = "whose dams are others"
    elif not set(layout.panels) <= set(named[0].panels):
        fault = "which does not have all its panels"
    if fault:
        yield Finding(
            404, at_layout(layout), f"it is said to keep the dams of layout {number}, {fault}"
        )


def _check_bounds(job: Job, schedule: Schedule) -> Iterator[Finding]:
    if schedule.lower_bound > schedule.casts:
        text = f"the lower bound must be <= {schedule.casts} casts, got {schedule.lower_bound}"
        yield Finding(405, SCHEDULE, text)
    if schedule.layouts_bound > schedule.different_layouts:
        text = f"different layouts needed must be <= {schedule.different_layouts} used"
        yield Finding(406, SCHEDULE, f"{text}, got {schedule.layouts_bound}")
    yield from _check_sum(job, schedule)
    for proof in schedule.proofs:
        for text in _proof_faults(job, schedule, proof):
            yield Finding(405, f"proof for bed {proof.bed!r}", text)


def _check_sum(job: Job, schedule: Schedule) -> Iterator[Finding]:
    """Hold the bound against the sum of the proofs; a bed of the order without proof adds one."""
    names = Counter(proof.bed for proof in schedule.proofs)
    needed = {panel.bed for panel in job.panels}
    if max(names.values(), default=1) > 1 or not names.keys() <= needed:
        text = f"there must be at most one proof for each bed of the order, got {sorted(names)}"
        yield Finding(405, SCHEDULE, text)
        return
    shown = sum(proof.lower_bound for proof in schedule.proofs) + len(needed - names.keys())
    complete = names.keys() == needed
    if schedule.lower_bound > shown or (complete and schedule.lower_bound != shown):
        text = f"the lower bound must be the {shown} its proofs add up to"
        yield Finding(405, SCHEDULE, f"{text}, got {schedule.lower_bound}")


def _proof_faults(job: Job, schedule: Schedule, proof: Proof) -> Iterator[str]:
    layouts = [layout for layout in schedule.layouts if layout.bed == proof.bed]
    points = dict(proof.prices)
    order = {panel.mark: panel.quantity for panel in job.panels if panel.bed == proof.bed}
    casts = sum(layout.repeats for layout in layouts)
    if proof.casts != casts:
        yield f"its casts must be the {casts} of the schedule, got {proof.casts}"
    if len(points) != len(proof.prices) or not points.keys() <= order.keys():
        yield f"its points must be one number per mark of {sorted(order)}, got {proof.prices}"
        return
    if proof.heaviest < 1 or min(points.values(), default=0) < 0:
        yield f"points must be >= 0 and heaviest >= 1, got {proof.prices} and {proof.heaviest}"
        return
    demand = sum(each * order[mark] for mark, each in points.items())
    if proof.demand != demand:
        yield f"demand must be {demand}, points times quantity summed, got {proof.demand}"
    least = -(-proof.demand // proof.heaviest)
    is_raised = proof.enumerated > 0 and proof.lower_bound > least
    if proof.lower_bound != least and not is_raised:
        yield f"its lower bound must be ceil(demand / heaviest) = {least}, got {proof.lower_bound}"
    if proof.points and sum(weight for _, _, weight in proof.points) != proof.heaviest:
        yield f"the weights of its spots must total heaviest, {proof.heaviest}"
    for layout in layouts:
        weight = sum(points.get(panel.mark, 0) for panel in layout.panels)
        if weight > proof.heaviest:
            limit = f"no cast may be heavier than {proof.heaviest}"
            yield f"{limit}, layout {layout.number} is {weight}"
