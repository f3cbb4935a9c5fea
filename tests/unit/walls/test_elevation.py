"""Which panel stands where before whoever looks at a wall."""

from dataclasses import replace
from itertools import pairwise

import pytest
from handjob import MM
from wallfiles import KIOSK, SIDE, SQUARE, WALL, load_wall
from wallorders import order_wall

from nesting.errors import InputError
from nesting.fronts.faces import show_face
from nesting.walls.cladding import divide_wall
from nesting.walls.elevation import elevate_skins


def elevate(wall, *changes):
    """Return the elevations of a wall, and those of its job once changed."""
    job, schedule = order_wall(wall)
    for change in changes:
        job = change(job)
    return elevate_skins(wall, divide_wall(wall), job, schedule)


@pytest.fixture
def apse(tmp_path):
    """Return a wing of two panels and a quarter round of four, with both skins."""
    return load_wall(tmp_path, WALL)


def marks(elevation):
    """Return the marks of the lowest row from left to right."""
    lowest = [each for each in elevation.panels if each.ground.y0 == 0]
    assert lowest == sorted(lowest, key=lambda each: each.ground.x0)
    return [each.kind.face.mark for each in lowest]


def test_the_order_turns_over_between_inside_and_outside(apse):
    """From outside the wing stands left of the apse; from inside it stands right of it."""
    inner, outer = elevate(apse)
    assert (inner.skin, outer.skin) == ("inner", "outer")
    assert marks(outer) == ["wing-outer"] * 2 + ["apse-outer"] * 4
    assert marks(inner) == ["apse-inner"] * 4 + ["wing-inner"] * 2


def test_panels_stand_where_the_wall_has_them(apse):
    """The wing is 1980 mm long and ends half a joint before the apse, each skin on its own face."""
    inner, outer = elevate(apse)
    width = (1980 - 10 - 20) / 2
    first, second, third = (each.ground for each in outer.panels[:3])
    assert (first.x0, first.x1) == pytest.approx((0, width * MM), abs=1)
    assert (second.x0, second.x1) == pytest.approx(((width + 20) * MM, 1970 * MM), abs=1)
    assert third.x0 == pytest.approx(1990 * MM, abs=1)
    quarter = 3.14159265358979 / 2
    assert outer.length == pytest.approx((1980 + 3200 * quarter) * MM, abs=2)
    assert inner.length == pytest.approx((1980 + 3000 * quarter) * MM, abs=2)
    assert inner.panels[-1].ground.x1 == pytest.approx(inner.length, abs=1)


def test_one_skin_has_one_elevation(tmp_path):
    """Of a kiosk clad outside only the outside is drawn."""
    (outer,) = elevate(load_wall(tmp_path, KIOSK))
    assert outer.skin == "outer"


def test_rows_stand_over_one_another_with_a_joint_between(tmp_path):
    """Two rows of 1200 mm make up 2420 mm; each has the same panels."""
    (outer,) = elevate(load_wall(tmp_path, KIOSK))
    rows = sorted({(each.ground.y0, each.ground.y1) for each in outer.panels})
    assert rows == [(0, 1200 * MM), (1220 * MM, 2420 * MM)]
    assert outer.height == 2420 * MM
    assert len(outer.panels) == 2 * len(marks(outer))


def test_legs_of_a_corner_return_stand_on_either_side_of_their_corner(tmp_path):
    """Four sides of 3 m: corners at 3, 6 and 9 m; the legs of the last one end and begin it."""
    (outer,) = elevate(load_wall(tmp_path, KIOSK))
    assert outer.corners == (3000 * MM, 6000 * MM, 9000 * MM)
    names = marks(outer)
    legs = [each.ground for each in outer.panels if each.ground.width == 250 * MM][:8]
    assert (legs[0].x0, legs[1].x1, legs[2].x0) == (0, 3000 * MM, 3000 * MM)
    assert legs[7].x1 == outer.length == 12_000 * MM
    assert names[0] == names[-1]
    for left, right in pairwise(outer.panels[: len(names)]):
        assert left.ground.x1 <= right.ground.x0


def test_a_closed_wall_that_begins_with_its_corner_is_the_same(tmp_path):
    """The first leg of that corner stands at the far end."""
    corner = SIDE[SIDE.index("[[part]]", 1) :]
    (outer,) = elevate(load_wall(tmp_path, SQUARE + corner + SIDE * 3 + SIDE.removesuffix(corner)))
    lowest = [each.ground for each in outer.panels if each.ground.y0 == 0]
    assert lowest[0].x0 == 0
    assert lowest[-1].x1 == outer.length == 12_000 * MM
    assert all(a.x1 <= b.x0 for a, b in pairwise(lowest))


def test_pieces_of_one_mark_stand_in_the_order_they_are_cast(apse):
    """From the left, kind by kind; each shows the ornament its front view shows."""
    inner, outer = elevate(apse)
    for elevation in (inner, outer):
        numbers = [each.kind.number for each in elevation.panels if "apse" in each.kind.name]
        assert numbers == [1, 2, 1, 2]
    job, schedule = order_wall(apse)
    faces = {show_face(job, placed) for placed in schedule.layouts[0].panels}
    assert {each.kind.face for each in (*inner.panels, *outer.panels)} <= faces


def change_first(**changes):
    """Return what changes the first panel of a job."""
    return lambda job: replace(job, panels=(replace(job.panels[0], **changes), *job.panels[1:]))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            lambda job: replace(job, panels=job.panels[1:]),
            r"--job: must order every panel of the wall, got wing-inner; take the order",
        ),
        (
            change_first(width=900 * MM),
            r"panel 'wing-inner' must measure 975 x 2000 mm, got 900 x 2000 mm",
        ),
        (
            change_first(quantity=1),
            r"must order at least 2 of panel 'wing-inner', got 1; take the order",
        ),
    ],
)
def test_a_job_that_orders_something_else_is_refused(apse, change, told):
    """One line says which panel, what the wall takes and what the job orders."""
    with pytest.raises(InputError, match=told):
        elevate(apse, change)


def test_spare_pieces_stand_nowhere(apse):
    """The schedule casts 200 of each; the wall takes what it takes."""
    _, schedule = order_wall(apse)
    assert sum(schedule.panels.values()) == 800
    assert sum(len(each.panels) for each in elevate(apse)) == 12
