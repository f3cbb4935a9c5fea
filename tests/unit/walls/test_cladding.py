"""The arithmetic of a wall: widths, joints, skins and beds."""

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from handjob import MM
from hypothesis import given
from hypothesis import strategies as st

from nesting.errors import InputError
from nesting.values.bend import Bend
from nesting.walls.cladding import (
    LEAST_JOINT,
    NOMINAL_JOINT,
    Corner,
    Wall,
    WallArc,
    WallRun,
    divide_wall,
    joint_warnings,
    length_differences,
    order_of,
)
from nesting.walls.widths import EXACT, WidthRule


def make_wall(*parts, skins=("inner", "outer"), cavity=150, **changes):
    """Return a wall of the parts: panels 25 mm, liner 25 mm, joint 20 mm, 2000 mm high."""
    wall = Wall(
        "Bath house, apse",
        "mm",
        parts,
        skins,
        cavity * MM if len(skins) == 2 else 0,
        25 * MM,
        2000 * MM,
        20 * MM,
        25 * MM,
    )
    return replace(wall, **changes)


def run(name, length, to="axis", **more):
    """Return a run of that length in mm."""
    return WallRun(name, length * MM, to, **more)


def arc(name, radius, degrees, to="axis", **more):
    """Return an arc of that radius in mm and angle in degrees."""
    return WallArc(name, radius * MM, math.radians(degrees), to, **more)


def widths(wall):
    """Return the width in mm of each stretch by its mark."""
    return {stretch.mark: stretch.width / MM for stretch in divide_wall(wall)}


def test_a_run_is_shared_out_between_joints():
    """Three panels and two joints of 20 mm fill 3000 mm; open ends take no joint."""
    wall = make_wall(run("A", 3040, panels=3), skins=("outer",))
    (stretch,) = divide_wall(wall)
    assert stretch.width == 1000 * MM
    assert stretch.spans == tuple((at * MM, (at + 1000) * MM) for at in (0, 1020, 2040))


def test_half_a_joint_stands_on_either_side_where_parts_meet():
    """Two runs of 1000 mm with one panel each leave 20 mm between the two."""
    wall = make_wall(run("A", 1000, panels=1), run("B", 1000, panels=1), skins=("inner",))
    assert widths(wall) == {"A": 990, "B": 990}
    assert [stretch.spans[0][0] for stretch in divide_wall(wall)] == [0, 10 * MM]


@pytest.mark.parametrize(
    ("widest", "count"), [(1000, 3), (999, 4), (3040, 1), (3039, 2), (1510, 2)]
)
def test_the_fewest_panels_no_wider_than_the_widest_are_taken(widest, count):
    """At exactly the widest three do, a millimetre less takes four."""
    (stretch,) = divide_wall(make_wall(run("A", 3040, widest=widest * MM), skins=("inner",)))
    assert len(stretch.spans) == count


@given(st.integers(100, 30_000), st.integers(100, 4000), st.sampled_from(["inner", "outer"]))
def test_neither_skin_has_a_panel_wider_than_the_widest(length, widest, toward):
    """Both skins of an arc take the same number, and one fewer would be too wide."""
    curve = arc("A", 20_000, 60, toward=toward, widest=widest * MM)
    wall = make_wall(replace(curve, radius=length * MM + 20_000 * MM))
    inner, outer = divide_wall(wall)
    count = len(inner.spans)
    assert count == len(outer.spans)
    assert max(inner.width, outer.width) <= widest * MM
    if count > 1:
        fewer = replace(wall, parts=(replace(wall.parts[0], panels=count - 1),))
        assert max(stretch.width for stretch in divide_wall(fewer)) > widest * MM


@given(
    st.integers(2000, 20_000),
    st.floats(5, 90),
    st.integers(1, 9),
    st.sampled_from(["inner", "outer", "axis"]),
    st.sampled_from(["inner", "outer"]),
)
def test_panels_and_joints_fill_each_face(radius, degrees, count, to, toward):
    """Between arcs on either side widths and joints are the face, to the step, rounded or not."""
    middle = arc("B", radius, degrees, to, toward=toward, panels=count)
    parts = run("A", 900, panels=1), middle, run("C", 900, panels=1)
    for widths in (EXACT, WidthRule(MM, "joints", 99 * MM), WidthRule(MM, "closing panel", 0, 1)):
        wall = make_wall(*parts, joint=2 * MM, widths=widths)
        for skin in wall.skins:
            rows = [each for each in divide_wall(wall) if (each.part, each.skin) == (1, skin)]
            spans = [span for each in rows for span in each.spans]
            gaps = [spans[0][0], *(b[0] - a[1] for a, b in pairwise(spans))]
            gaps.append(rows[0].length - spans[-1][1])
            assert len(spans) == count
            assert sum(gaps) + sum(high - low for low, high in spans) == rows[0].length
            assert all(abs(gap - rows[0].joint) <= 1 for gap in gaps[1:-1])
            assert all(abs(2 * gap - rows[0].joint) <= 3 for gap in (gaps[0], gaps[-1]))


@given(
    st.integers(2000, 20_000),
    st.sampled_from(["inner", "outer", "axis"]),
    st.sampled_from(["inner", "outer"]),
)
def test_the_face_lands_on_the_walls_radius(radius, to, toward):
    """What the bed does to a liner of that thickness is undone by the bed's radius."""
    wall = make_wall(arc("A", radius, 40, to, toward=toward, panels=3))
    for stretch in divide_wall(wall):
        assert Bend(stretch.bed, wall.liner_thickness).face_radius == stretch.radius
        assert stretch.bed.form == {"concave": "convex", "convex": "concave"}[stretch.shape]
    radii = {stretch.skin: stretch.radius for stretch in divide_wall(wall)}
    longer = "outer" if toward == "inner" else "inner"
    shorter = "inner" if longer == "outer" else "outer"
    assert radii[longer] - radii[shorter] == wall.distance
    if to != "axis":
        assert radii[to] == radius * MM


def test_the_side_an_arc_turns_to_sees_a_concave_face():
    """An arc toward the inner side is concave inside and convex outside; the other way round."""
    for toward in ("inner", "outer"):
        inner, outer = divide_wall(make_wall(arc("A", 3000, 90, toward=toward, panels=2)))
        shapes = {"inner": inner.shape, "outer": outer.shape}
        assert shapes[toward] == "concave"
        assert sorted(shapes.values()) == ["concave", "convex"]


def test_skins_differ_by_angle_times_distance():
    """A quarter round of two faces 200 mm apart differs by 200 x pi / 2."""
    ((name, angle, inner, outer),) = length_differences(
        make_wall(arc("A", 3000, 90, "inner", panels=4))
    )
    assert (name, angle) == ("A", math.pi / 2)
    assert (outer - inner) / MM == pytest.approx(200 * math.pi / 2, abs=1e-6)
    assert inner / MM == pytest.approx(3000 * math.pi / 2, abs=1e-6)


def test_a_corner_lengthens_the_face_around_it():
    """At a right angle toward the inner side faces 200 mm apart differ by 200 mm on either run."""
    right = Corner("B", math.pi / 2)
    wall = make_wall(run("A", 1000, "inner", panels=1), right, run("C", 600, "inner", panels=1))
    assert widths(wall) == pytest.approx(
        {"A-inner": 1000, "A-outer": 1200, "C-inner": 600, "C-outer": 800}, abs=0.001
    )
    outward = replace(right, toward="outer")
    found = widths(replace(wall, parts=(wall.parts[0], outward, wall.parts[2])))
    assert (found["A-outer"], found["C-outer"]) == pytest.approx((800, 400), abs=0.001)


def test_a_corner_return_is_two_legs_each_with_a_joint_behind_it():
    """A leg of 250 mm and a joint of 20 mm leave 730 of 1000 mm."""
    corner = Corner("B", math.pi / 2, leg=250 * MM)
    parts = run("A", 1000, panels=1), corner, run("C", 1000, panels=1)
    wall = make_wall(*parts, skins=("outer",))
    assert widths(wall) == {"A": 730, "B": 250, "C": 730}
    _, panels = order_of(wall, divide_wall(wall))
    assert [panel.quantity for panel in panels] == [1, 2, 1]


def test_rows_share_the_height_and_multiply_the_order():
    """Three rows in 2620 mm with two joints are 860 mm high each."""
    wall = make_wall(run("A", 1000, panels=2), skins=("inner",), height=2620 * MM, rows=3)
    _, (panel,) = order_of(wall, divide_wall(wall))
    assert (panel.height, panel.quantity) == (860 * MM, 6)


def test_equal_beds_are_listed_once():
    """Two arcs of one radius share two beds; runs share the flat one."""
    wall = make_wall(
        arc("A", 3000, 30, panels=1), run("B", 500, panels=1), arc("C", 3000, 40, panels=1)
    )
    beds, panels = order_of(wall, divide_wall(wall))
    assert len(beds) == len({bed.name for bed in beds}) == 3
    assert {panel.bed for panel in panels} == {bed.name for bed in beds}


@pytest.mark.parametrize(
    ("part", "rule"),
    [
        (arc("A", 90, 90, panels=1), "the inner face must have a radius > 0 mm, got -10 mm"),
        (arc("A", 120, 90, panels=1), "concave face must have a radius > the liner's 25 mm"),
        (run("A", 100, panels=6), "each panel of the inner skin must be > 0 mm"),
        (run("A", 90_000, panels=1), "<= 33000 mm wide, got 90000 mm"),
        (run("A", 33_000, widest=1), "a part has at most 1000 panels"),
    ],
)
def test_what_cannot_be_built_is_refused(part, rule):
    """The message has the part, the rule and the value got."""
    with pytest.raises(InputError) as refused:
        divide_wall(make_wall(part))
    assert "part 1: " in str(refused.value)
    assert rule in str(refused.value)


def test_a_convex_face_is_wider_bent_than_the_panel_is_thick():
    """A skin whose back would have no radius is refused."""
    wall = make_wall(arc("A", 20, 90, "outer", panels=1), skins=("outer",), joint=MM)
    with pytest.raises(InputError, match="convex face must have a radius > the panel's 25 mm"):
        divide_wall(wall)


@pytest.mark.parametrize(
    ("joint", "told"),
    [
        (LEAST_JOINT - 1, "the least for sealant"),
        (LEAST_JOINT, "nominal 3/4 in"),
        (NOMINAL_JOINT - 1, "nominal 3/4 in"),
        (NOMINAL_JOINT, ""),
    ],
)
def test_narrow_joints_are_warned_of(joint, told):
    """Below the least and below the nominal width, each with its source; touching is allowed."""
    found = " ".join(joint_warnings(make_wall(joint=joint)))
    assert told in found
    assert bool(found) == bool(told)
    assert not found or "PCI frequently asked questions" in found


def test_a_closing_panel_is_a_size_of_its_own():
    """Of 3000 mm three panels take 1000, 1000 and 960: the last one has a mark of its own."""
    wall = make_wall(run("A", 3000, panels=3), skins=("inner",))
    rounded = replace(wall, widths=WidthRule(250 * MM, "closing panel"))
    panel, closing = divide_wall(rounded)
    assert (panel.mark, panel.spans[1]) == ("A", (1020 * MM, 2020 * MM))
    assert (closing.mark, closing.spans) == ("A-closing", ((2040 * MM, 3000 * MM),))
    assert [each.quantity for each in order_of(rounded, (panel, closing))[1]] == [2, 1]
    assert panel.joint == closing.joint == 20 * MM


def test_joints_take_the_rest_on_common_radii():
    """Between neighbours on either side, joints of both skins stand on one ray of an arc."""
    parts = run("A", 990, panels=1), arc("B", 3000, 90, panels=4), run("C", 990, panels=1)
    wall = make_wall(*parts, widths=WidthRule(5 * MM, "joints"))
    inner, outer = (each for each in divide_wall(wall) if each.part == 1)
    assert inner.joint != outer.joint
    for (_, end), (start, _) in pairwise(inner.spans):
        at = (end + start) / 2 / inner.radius
        middles = [(a[1] + b[0]) / 2 / outer.radius for a, b in pairwise(outer.spans)]
        assert min(abs(at - each) for each in middles) * outer.radius <= 2


def test_no_part_gives_no_stretch():
    """A wall without parts has no panel, no bed and no difference."""
    wall = make_wall()
    assert divide_wall(wall) == ()
    assert order_of(wall, ()) == ((), [])
    assert length_differences(wall) == []
    assert wall.offset("outer") == Fraction(100 * MM)
