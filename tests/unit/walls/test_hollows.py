"""Which ground of panels is too thin for an insert, by what their job says and where they lie."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_schedule
from tiedwalls import HERON, flat_wall

from nesting.errors import InputErrors
from nesting.values.liner import Ornament
from nesting.walls.cladding import divide_wall
from nesting.walls.hollows import thin_ground

WALL = flat_wall(panel_thickness=19 * MM)
"""A hollow of more than 9 mm leaves less than the 10 that the job asks for."""


def named(part, **changes):
    """Return the wall's stretches under the marks A1 and C1 of the hand-sized job."""
    inner, outer = divide_wall(part)
    return [replace(inner, mark="A1", **changes), replace(outer, mark="C1")]


def job_with(**changes):
    """Return the hand-sized job with its heron changed."""
    job = hand_job()
    (heron,) = job.liner.ornaments
    return replace(job, liner=replace(job.liner, ornaments=(replace(heron, **changes),)))


@pytest.mark.parametrize(
    ("relief", "on_panel", "is_thin"),
    [
        (10 * MM, "hollow", True),
        (10 * MM, "", True),
        (10 * MM, "boss", False),
        (9 * MM, "hollow", False),
        (0, "hollow", False),
    ],
)
def test_hollows_that_leave_too_little_are_ground_to_keep_clear_of(relief, on_panel, is_thin):
    """Exactly the least thickness is enough; what is not stated counts as a hollow."""
    ground = thin_ground(
        WALL, named(WALL), job_with(relief=relief, on_panel=on_panel), hand_schedule()
    )
    assert ("A1" in ground) == is_thin


def test_a_hollow_lies_where_the_panel_lies_on_the_liner():
    """A1 and C1 begin at the datum and show the heron; B1 hides it and is no panel of the wall."""
    ground = thin_ground(WALL, named(WALL), job_with(relief=12 * MM), hand_schedule())
    assert ground["A1"] == (HERON,)
    assert {each.name for each in ground["C1"]} == {"heron"}


def test_a_panel_turned_half_round_has_its_hollow_turned():
    """300 from the left and 200 from the foot become 300 from the right and 50 from the head."""
    schedule = hand_schedule()
    layouts = tuple(
        replace(each, panels=tuple(replace(panel, turned=True) for panel in each.panels))
        for each in schedule.layouts
    )
    job = job_with(relief=12 * MM)
    (heron,) = thin_ground(WALL, named(WALL), job, replace(schedule, layouts=layouts))["A1"]
    xs, ys = zip(*heron.rings[0], strict=True)
    assert (min(xs) / MM, max(xs) / MM) == (280, 500)
    assert (min(ys) / MM, max(ys) / MM) == (50, 450)


def test_a_wall_whose_panels_the_job_does_not_order_is_refused():
    """Each mark in a line of its own."""
    with pytest.raises(InputErrors) as refused:
        thin_ground(WALL, divide_wall(WALL), hand_job(), hand_schedule())
    assert str(refused.value).splitlines() == [
        f"Panel 'A-{skin}': the job must order every panel of the wall, got none."
        for skin in ("inner", "outer")
    ]


def test_an_ornament_with_holes_keeps_them():
    """The hole of a ring is no hollow."""
    assert Ornament("ring", HERON_WITH_HOLE).outline.holes
    job = job_with(relief=12 * MM, outline=HERON_WITH_HOLE)
    (heron,) = thin_ground(WALL, named(WALL), job, hand_schedule())["A1"]
    assert len(heron.rings) == 2


def _ringed():
    (heron,) = hand_job().liner.ornaments
    hole = tuple((x * MM, y * MM) for x, y in ((350, 300), (450, 300), (450, 500), (350, 500)))
    return type(heron.outline)(heron.outline.shell, (hole,))


HERON_WITH_HOLE = _ringed()
