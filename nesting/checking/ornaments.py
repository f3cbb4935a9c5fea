"""Findings 1xx: no ornament cut, all kept clear of dams, shown and hidden as ordered."""

from collections.abc import Iterator, Sequence

from nesting.checking.findings import Finding, at_dam, at_panel, mm
from nesting.checking.rects import StepRect, grown, has_area, inner_strips, rect_of, ring_strips
from nesting.checking.shapes import LinerShapes
from nesting.values.casts import Layout, Placement
from nesting.values.job import Job


def check_ornaments(
    job: Job, liner: LinerShapes, layout: Layout, bays: Sequence[Placement]
) -> Iterator[Finding]:
    """Yield what is wrong between the ornaments and the panels and dams of one layout.

    ``bays`` are all the panels its dams were laid for. An ornament that a panel cuts is reported
    once, as cut; clearances and margins speak of the others.
    """
    panels = [panel for panel in layout.panels if has_area(panel)]
    inside, cut = liner.ornaments.split([rect_of(panel) for panel in panels])
    touched = [whole | part for whole, part in zip(inside, cut, strict=True)]
    names = liner.ornaments.names
    for panel, whole, part in zip(panels, inside, cut, strict=True):
        where = at_panel(layout, panel)
        for ornament in sorted(part):
            yield Finding(101, where, f"it must hold {names[ornament]!r} whole or not, cuts it")
        yield from _check_choice(job, where, panel, tuple(names[i] for i in sorted(whole)))
    yield from _check_clearance(job, liner, layout, panels, touched)
    yield from _check_margin(job, liner, layout, panels, inside)
    yield from _check_dams(job, liner, layout, bays)


def _check_choice(
    job: Job, where: str, placement: Placement, shown: tuple[str, ...]
) -> Iterator[Finding]:
    for panel in job.panels:
        if panel.mark != placement.mark:
            continue
        for name in panel.must_show:
            if name not in shown:
                yield Finding(104, where, f"it must show {name!r}, which lies outside it")
        for name in panel.must_hide:
            if name in shown:
                yield Finding(105, where, f"it must hide {name!r}, which lies inside it")
    if placement.shows != shown:
        stated = f"it shows {_listed(shown)}, the schedule says {_listed(placement.shows)}"
        yield Finding(106, where, stated)


def _check_clearance(
    job: Job,
    liner: LinerShapes,
    layout: Layout,
    panels: Sequence[Placement],
    touched: Sequence[set[int]],
) -> Iterator[Finding]:
    """Rule 4: the dam ring, grown square by the clearance, meets no ornament beyond the panel."""
    strips = _strips(ring_strips(panel, job.rules.dam_width) for panel in panels)
    limit = job.rules.dam_clearance
    for strip, ornament in liner.ornaments.met_by([grown(rect, limit) for _, _, rect in strips]):
        panel, side, rect = strips[strip]
        if ornament not in touched[panel]:
            what = f"its {side} dam"
            yield _too_near(
                102, at_panel(layout, panels[panel]), what, liner, ornament, rect, limit
            )


def _check_margin(
    job: Job,
    liner: LinerShapes,
    layout: Layout,
    panels: Sequence[Placement],
    inside: Sequence[set[int]],
) -> Iterator[Finding]:
    """Rule 5: the strip along each dam side, as deep as the margin, meets no ornament inside."""
    limit = job.rules.edge_margin
    if not limit:
        return
    strips = _strips(inner_strips(panel, "dam", limit) for panel in panels)
    lines = _strips(inner_strips(panel, "dam", 0) for panel in panels)
    for strip, ornament in liner.ornaments.met_by([rect for _, _, rect in strips]):
        panel, side, _ = strips[strip]
        if ornament in inside[panel]:
            where, what = at_panel(layout, panels[panel]), f"its {side} side"
            yield _too_near(103, where, what, liner, ornament, lines[strip][2], limit)


def _check_dams(
    job: Job, liner: LinerShapes, layout: Layout, bays: Sequence[Placement]
) -> Iterator[Finding]:
    """Rule 4 again for ground a dam covers beyond the rings: wider or longer than it need be.

    Ornaments in a bay, or within reach of its ring, have been judged with the bay.
    """
    dams = [dam for dam in layout.dams if has_area(dam)]
    limit = job.rules.dam_clearance
    near = list(liner.ornaments.met_by([grown(rect_of(dam), limit) for dam in dams]))
    if not near:
        return
    judged = _judged_with_bays(job, liner, bays)
    for dam, ornament in near:
        if ornament not in judged:
            rect = rect_of(dams[dam])
            yield _too_near(102, at_dam(layout, dams[dam]), "it", liner, ornament, rect, limit)


def _judged_with_bays(job: Job, liner: LinerShapes, bays: Sequence[Placement]) -> set[int]:
    solid = [bay for bay in bays if has_area(bay)]
    inside, cut = liner.ornaments.split([rect_of(bay) for bay in solid])
    rings = _strips(ring_strips(bay, job.rules.dam_width) for bay in solid)
    reach = [grown(rect, job.rules.dam_clearance) for _, _, rect in rings]
    return set().union(*inside, *cut, (ornament for _, ornament in liner.ornaments.met_by(reach)))


def _strips(of_panels: Iterator[dict[str, StepRect]]) -> list[tuple[int, str, StepRect]]:
    return [
        (panel, side, rect)
        for panel, strips in enumerate(of_panels)
        for side, rect in strips.items()
    ]


def _too_near(
    code: int, where: str, what: str, liner: LinerShapes, ornament: int, rect: StepRect, limit: int
) -> Finding:
    name = liner.ornaments.names[ornament]
    gap = liner.ornaments.only(ornament).distance(rect) or 0
    return Finding(code, where, f"{what} must be >= {mm(limit)} from {name!r}, got {mm(gap)}")


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(repr(name) for name in names) or "no ornament"
