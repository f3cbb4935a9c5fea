"""The least to be taken off or filled up on a liner that exists, so that it gives one more size.

A change takes an ornament away, trims it from one side, or widens a blank zone to one side; the
ground it changes is plain afterwards. More of a change never loses a place, so the least amount is
found by halving on exact steps. Beside single changes stands the least ground of all that can be
made plain for the size, whatever is changed.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from nesting.maps.ground import survey
from nesting.maps.positions import has_place
from nesting.maps.sizes import wish_of
from nesting.repair.patch import Patch, find_patch, lay_patch
from nesting.schedules.findings import plan_sound_casts
from nesting.search.solver import Deadline, TimeUpError
from nesting.shapes.geometry import Box, Polygon, polygon_of, subtract
from nesting.values.bend import bend_of
from nesting.values.casts import Schedule
from nesting.values.castsizes import draw_ground, lay_liner
from nesting.values.job import Job
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.material import Materials
from nesting.values.panels import Panel

ChangeKind = Literal["remove", "trim", "widen"]
_SIDES = ("left", "bottom", "right", "top")
_PLAN_SECONDS = 20.0


@dataclass(frozen=True, slots=True)
class LinerChange:
    """One way to change a liner: what is done, to which ornament or zone, from which side."""

    kind: ChangeKind
    name: str
    side: str = ""


@dataclass(frozen=True, slots=True)
class Remedy:
    """The least of one change that gives a size: ``amount`` [steps] over ``area`` [square steps].

    The amount is how far in from the side, or how much wider.
    """

    change: LinerChange
    amount: int
    area: int


@dataclass(frozen=True, slots=True)
class Repair:
    """What one size takes: nothing where it ``has_place`` already, else remedies, least area first.

    ``patch`` is the least ground that must be made plain for it. ``least`` is the least amount of
    any trim or widening [steps]; ``proved`` where all of them together, each by one step less,
    still give no place. ``stopped`` where the time limit was reached before all changes were tried.
    """

    panel: Panel
    has_place: bool
    remedies: tuple[Remedy, ...] = ()
    least: int | None = None
    proved: bool = False
    patch: Patch | None = None
    stopped: bool = False

    @property
    def can_have_place(self) -> bool:
        """Whether the size has a place as it is or after some change."""
        return self.has_place or bool(self.remedies) or self.patch is not None


@dataclass(frozen=True, slots=True)
class Mended:
    """A liner mended for every size: the job on it with its plan, and each patch in turn."""

    job: Job
    schedule: Schedule
    patches: tuple[Patch, ...]


def mend_liner(job: Job, panels: Sequence[Panel], deadline: Deadline) -> Mended | None:
    """Return the liner with the least patch for each panel in turn, planned and checked.

    Its plan is that of the job's own order, too. Each patch is the least for what was mended
    before; None where a panel cannot get a place. Raises TimeUpError where the deadline comes
    before the last patch is found.
    """
    marks = {panel.mark for panel in panels}
    order = (*(panel for panel in job.panels if panel.mark not in marks), *panels)
    kept = {name for panel in order for name in panel.must_show}
    drawn, liner, patches = job.drawn, job.liner, []
    for panel in sorted(panels, key=lambda each: -each.width * each.height):
        if _gives(job, liner, panel):
            continue
        patch = find_patch(replace(job, liner=liner), _known_wishes(panel, liner), kept, deadline)
        if patch is None:
            return None
        ground = tuple(draw_ground(part, job.as_cast.factor) for part in patch.ground)
        drawn = lay_patch(drawn, replace(patch, ground=ground))
        liner = lay_liner(drawn, job.as_cast)
        patches.append(patch)
    as_cast = replace(job.as_cast, drawn=drawn if job.as_cast.drawn else None)
    mended = replace(
        job,
        liner=liner,
        panels=tuple(_known_wishes(p, liner) for p in order),
        as_cast=as_cast,
        materials=_known_materials(job.materials, liner),
    )
    schedule = plan_sound_casts(mended, min(_PLAN_SECONDS, deadline.left))
    return Mended(mended, schedule, tuple(patches))


def plan_repair(job: Job, panel: Panel, deadline: Deadline) -> Repair:
    """Return what must be changed on the job's liner for a panel to have a place on it.

    At the deadline, what was found by then.

    Raises
    ------
    RefusedError
        Where a plan on the liner so changed fails the independent checker.
    """
    if deadline.passed:
        return Repair(panel, False, stopped=True)
    if _gives(job, job.liner, panel):
        return Repair(panel, True)
    found: list[Remedy] = []
    patch: Patch | None = None
    kept = {name for each in job.panels for name in each.must_show}
    try:
        for change in _changes(job, panel):
            remedy = _least(job, panel, change, deadline)
            found += [remedy] if remedy else []
        patch = find_patch(job, panel, kept, deadline)
    except TimeUpError:
        stopped = True
    else:
        stopped = False
    found.sort(key=lambda each: (each.area, each.amount, each.change.name, each.change.side))
    amounts = [each.amount for each in found if each.change.kind != "remove"]
    least = min(amounts, default=None)
    if found:
        _prove_plan(job, panel, found[0], deadline)
    together = least is not None and not _gives(job, _change_all(job, panel, least - 1), panel)
    return Repair(panel, False, tuple(found), least, together, patch, stopped)


def change_liner(liner: Liner, change: LinerChange, amount: int) -> Liner:
    """Return the liner after a change of that amount [steps]; the ground changed is plain."""
    if change.kind == "widen":
        zone = next(zone for zone in liner.zones if zone.name == change.name)
        box = _beyond(zone.outline.bounds, change.side, amount)
        return _with_plain(liner, [polygon_of(box)])
    ornament = next(each for each in liner.ornaments if each.name == change.name)
    taken = _taken(ornament, change, amount)
    rest = subtract([ornament.outline], [polygon_of(taken)])
    parts = [
        replace(ornament, name=ornament.name if not n else f"{ornament.name} {n + 1}", outline=part)
        for n, part in enumerate(rest)
    ]
    ground = subtract([ornament.outline], list(rest)) if rest else (ornament.outline,)
    ornaments = [
        part for each in liner.ornaments for part in (parts if each is ornament else [each])
    ]
    return _with_plain(replace(liner, ornaments=tuple(ornaments)), ground)


def _changes(job: Job, panel: Panel) -> Iterator[LinerChange]:
    for zone in job.liner.zones:
        yield from (LinerChange("widen", zone.name, side) for side in _SIDES)
    for ornament in job.liner.ornaments:
        if ornament.name not in panel.must_show:
            yield LinerChange("remove", ornament.name)
            yield from (LinerChange("trim", ornament.name, side) for side in _SIDES)


def _least(job: Job, panel: Panel, change: LinerChange, deadline: Deadline) -> Remedy | None:
    """Return the least of one change that gives the size, None where all of it does not."""
    deadline.check()
    most = _most(job.liner, change)
    if most < 1 or not _gives(job, change_liner(job.liner, change, most), panel):
        return None
    low, high = 0, most  # not enough, enough
    while change.kind != "remove" and high - low > 1:
        deadline.check()
        middle = (low + high) // 2
        if _gives(job, change_liner(job.liner, change, middle), panel):
            high = middle
        else:
            low = middle
    return Remedy(change, high, _changed_area(job.liner, change, high))


def _most(liner: Liner, change: LinerChange) -> int:
    """Return the most of a change there can be [steps]: up to the rim, or nearly all of it."""
    along = _SIDES.index(change.side) if change.side else 0
    if change.kind == "widen":
        zone = next(zone for zone in liner.zones if zone.name == change.name)
        gap = liner.outline.bounds[along] - zone.outline.bounds[along]
        return gap if along > 1 else -gap
    box = next(each for each in liner.ornaments if each.name == change.name).outline.bounds
    size = box.width if along % 2 == 0 else box.height
    return size if change.kind == "remove" else size - 1


def _taken(ornament: Ornament, change: LinerChange, amount: int) -> Box:
    """Return the box around the ground a change takes of an ornament."""
    box = ornament.outline.bounds
    return box if change.kind == "remove" else box.strip(change.side, amount)


def _beyond(box: Box, side: str, amount: int) -> Box:
    """Return the ground beside a box, over the whole of its side."""
    sides = list(box)
    along = _SIDES.index(side)
    sides[(along + 2) % 4] = box[along]
    sides[along] = box[along] + (-amount if along < 2 else amount)
    return Box(*sides)


def _with_plain(liner: Liner, ground: Sequence[Polygon]) -> Liner:
    names = {zone.name for zone in liner.zones}
    fresh = (f"repair {n}" for n in range(1, len(names) + len(ground) + 2))
    free = (name for name in fresh if name not in names)
    zones = tuple(BlankZone(next(free), outline) for outline in ground)
    return replace(liner, zones=(*liner.zones, *zones))


def _changed_area(liner: Liner, change: LinerChange, amount: int) -> int:
    """Return the area taken off or filled up, what is plain already left out."""
    changed = change_liner(liner, change, amount)
    ground = [zone.outline for zone in changed.zones[len(liner.zones) :]]
    if change.kind == "widen":
        off = [liner.outline]
        known = [zone.outline for zone in liner.zones]
        whole = sum(part.area for part in subtract(ground, known))
        return whole - sum(part.area for part in subtract(ground, [*known, *off]))
    return sum(part.area for part in ground)


def _change_all(job: Job, panel: Panel, amount: int) -> Liner:
    """Return the liner after every trim and widening at once, each by that amount [steps]."""
    liner = job.liner
    if amount < 1:
        return liner
    grown: list[Polygon] = []
    for change in _changes(job, panel):
        if change.kind == "widen":
            by = min(amount, _most(job.liner, change))
            if by > 0:
                grown.append(change_liner(job.liner, change, by).zones[-1].outline)
    for ornament in job.liner.ornaments:
        if ornament.name not in panel.must_show:
            liner = _shrink(liner, ornament, amount)
    return _with_plain(liner, grown)


def _shrink(liner: Liner, ornament: Ornament, amount: int) -> Liner:
    """Return the liner with an ornament trimmed from all sides at once."""
    box = ornament.outline.bounds
    inner = box.grown(*4 * (-amount,))
    rest: tuple[Polygon, ...] = ()
    if inner.x0 < inner.x1 and inner.y0 < inner.y1:
        frame = subtract([polygon_of(box)], [polygon_of(inner)])
        rest = subtract([ornament.outline], list(frame))
    parts = [replace(ornament, name=f"{ornament.name} {n}", outline=p) for n, p in enumerate(rest)]
    ground = subtract([ornament.outline], list(rest)) if rest else (ornament.outline,)
    others = [each for each in liner.ornaments if each.name != ornament.name]
    return _with_plain(replace(liner, ornaments=(*others, *parts)), ground)


def _gives(job: Job, liner: Liner, panel: Panel) -> bool:
    ground = survey(liner, job.rules)
    kept = _known_wishes(panel, liner)
    size = bend_of(job, panel.bed).flat_size(panel)
    return has_place(ground, *size, wish_of(ground, kept))


def _known_wishes(panel: Panel, liner: Liner) -> Panel:
    """Return the panel without wishes to hide what the liner has no longer."""
    names = {ornament.name for ornament in liner.ornaments}
    return replace(panel, must_hide=tuple(name for name in panel.must_hide if name in names))


def _prove_plan(job: Job, panel: Panel, remedy: Remedy, deadline: Deadline) -> None:
    """Plan one panel on the liner so changed and have the independent checker look at it."""
    liner = change_liner(job.liner, remedy.change, remedy.amount)
    one = replace(_known_wishes(panel, liner), quantity=1)
    changed = replace(job, liner=liner, panels=(one,))
    plan_sound_casts(changed, min(_PLAN_SECONDS, deadline.left))


def _known_materials(materials: Materials, liner: Liner) -> Materials:
    """Return what the job is made of, a second liner without ornaments taken away."""
    second = materials.rubber.second
    if second is None:
        return materials
    names = {ornament.name for ornament in liner.ornaments}
    kept = replace(second, ornaments=tuple(name for name in second.ornaments if name in names))
    return replace(materials, rubber=replace(materials.rubber, second=kept))
