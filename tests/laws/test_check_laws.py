"""What holds for the verdict on any schedule: moves are found, mirrors change nothing."""

from dataclasses import replace

import pytest
from handjob import MM, change_layout, hand_job, hand_schedule
from hypothesis import given
from hypothesis import strategies as st
from mutations import MUTATIONS, Broken

from nesting.checking.schedule import check_schedule
from nesting.shapes.geometry import Box, Polygon
from nesting.values.casts import Placement, Schedule, Sides
from nesting.values.job import Job

SHIFT = st.one_of(st.integers(-3, 3), st.integers(-1200 * MM, 1200 * MM))


@given(SHIFT, SHIFT, st.sampled_from(["A1", "B1", "C1"]))
def test_a_panel_moved_from_its_only_place_is_found(dx, dy, mark):
    """Every panel of the hand-sized job has one place, so any other is a fault."""
    job, schedule = hand_job(), hand_schedule()
    for layout in schedule.layouts:
        moved = tuple(
            replace(panel, x=panel.x + dx, y=panel.y + dy) if panel.mark == mark else panel
            for panel in layout.panels
        )
        schedule = change_layout(job, schedule, layout.number, panels=moved)
    assert bool(check_schedule(job, schedule)) == ((dx, dy) != (0, 0))


@given(SHIFT, SHIFT, st.sampled_from([(1, 0), (1, 1), (2, 0)]))
def test_a_dam_moved_from_its_panel_is_found(dx, dy, which):
    """A dam belongs where the panel's edge is, to the step."""
    job, schedule = hand_job(), hand_schedule()
    number, index = which
    dams = list(schedule.layouts[number - 1].dams)
    dams[index] = replace(dams[index], x=dams[index].x + dx, y=dams[index].y + dy)
    schedule = change_layout(job, schedule, number, dams=tuple(dams))
    assert bool(check_schedule(job, schedule)) == ((dx, dy) != (0, 0))


@pytest.mark.parametrize("across", [True, False])
def test_the_mirrored_job_is_as_sound(job, schedule, across):
    """Left and right, bottom and top are judged alike."""
    assert check_schedule(*mirrored(job, schedule, across)) == ()


@pytest.mark.parametrize("across", [True, False])
def test_a_mirrored_fault_keeps_its_code(across):
    """A fault is the same fault in the mirror."""
    for codes, _, break_it in MUTATIONS:
        found = check_schedule(*mirrored(*break_it(), across))
        assert {finding.code for finding in found} == codes


def mirrored(job: Job, schedule: Schedule, across: bool) -> Broken:
    """Turn job and schedule over, left for right or bottom for top."""
    box = job.liner.outline.bounds

    def flip_outline(polygon: Polygon) -> Polygon:
        def flip(ring):
            return tuple((box.x1 - x, y) if across else (x, box.y1 - y) for x, y in ring)

        return Polygon(flip(polygon.shell), tuple(map(flip, polygon.holes)))

    def flip_rect(item):
        x, y = box.x1 - item.x - item.width, box.y1 - item.y - item.height
        return replace(item, x=x) if across else replace(item, y=y)

    def flip_panel(panel: Placement) -> Placement:
        left, right, bottom, top = panel.sides
        turned = Sides(right, left, bottom, top) if across else Sides(left, right, top, bottom)
        return replace(flip_rect(panel), sides=turned)

    def flip_marks(items):
        return tuple(replace(item, outline=flip_outline(item.outline)) for item in items)

    def flip_place(each):
        x0, y0, x1, y1 = each.place
        turned = (box.x1 - x1, y0, box.x1 - x0, y1), (x0, box.y1 - y1, x1, box.y1 - y0)
        return replace(each, place=Box(*turned[0 if across else 1]))

    liner = replace(
        job.liner,
        outline=flip_outline(job.liner.outline),
        ornaments=flip_marks(job.liner.ornaments),
        zones=flip_marks(job.liner.zones),
        keep_clear=tuple(map(flip_place, job.liner.keep_clear)),
    )
    layouts = tuple(
        replace(
            layout,
            panels=tuple(map(flip_panel, layout.panels)),
            dams=tuple(map(flip_rect, layout.dams)),
        )
        for layout in schedule.layouts
    )
    return replace(job, liner=liner), replace(schedule, layouts=layouts)
