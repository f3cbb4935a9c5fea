"""Arcs, chords and joints of walls against printed figures; the source stands in each.

"mm" stands for whichever unit the source uses: the relations do not depend on it.
"""

import math
from dataclasses import replace
from fractions import Fraction
from functools import partial

import pytest
from printed import LAST_PLACE, Figure, chord_of_ordinate

from nesting.shapes.arcs import chord_of_arc
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.walls.backs import list_backs
from nesting.walls.cladding import (
    Wall,
    WallArc,
    divide_wall,
    joint_warnings,
    length_differences,
)
from nesting.walls.widths import WidthRule

MM = STEPS_PER_MM
SEGMENTS = "Machinery's Handbook, 31st ed. 2020, p. 50, examples 3 and 4"
SURVEY = "solved surveying problem, simple curves"
FAQ = "PCI frequently asked questions"
OWN = "arithmetic, no outside source"


def make_wall(radius, angle, skins=("outer",), cavity=0, joint=20 * MM, panels=1):
    """Return an open arc of the radius [mm] and angle [rad] with so many panels in each skin."""
    arc = WallArc("A", round(radius * MM), angle, skins[-1], panels=panels)
    return Wall("published", "mm", (arc,), skins, cavity * MM, MM, MM, joint, MM)


def arc_of(radius, angle):
    """Return the width of the panel that spans the whole arc."""
    (stretch,) = divide_wall(make_wall(radius, angle))
    return stretch.width / MM


def chord_of(radius, angle):
    """Return the chord of that panel."""
    return chord_of_arc(arc_of(radius, angle), radius)


def difference(radius):
    """Return by how much the skins of 26 degrees, 200 mm apart from face to face, differ [mm]."""
    wall = make_wall(radius, math.radians(26), ("inner", "outer"), 198)
    ((_, _, inner, outer),) = length_differences(wall)
    return (outer - inner) / MM


def span(chord, radius):
    """Return the angle [rad] of a chord."""
    return 2 * math.asin(chord / (2 * radius))


def radius_of(skin, to):
    """Return the radius [mm] of a face where 3000 mm are measured to ``to``, faces 200 mm apart."""
    arc = WallArc("A", 3000 * MM, 1.0, to, panels=1)
    wall = Wall("published", "mm", (arc,), ("inner", "outer"), 150 * MM, 25 * MM, MM, 20 * MM, MM)
    return {each.skin: each.radius for each in divide_wall(wall)}[skin] / MM


def rounded(rest, what):
    """Return a width or joint [mm] of an open quarter round of 3000, four panels on 5."""
    rule = WidthRule(5 * MM, rest)
    spans = divide_wall(replace(make_wall(3000, math.pi / 2, panels=4), widths=rule))
    found = {
        "width": spans[0].width,
        "joint": spans[0].spans[1][0] - spans[0].spans[0][1],
        "closing": spans[-1].width,
    }
    return found[what] / MM


def place_of_ray(skin):
    """Return how far along its back [mm] a ray 10 degrees in meets a panel that begins an arc."""
    arc = WallArc("A", 3000 * MM, math.pi / 2, "inner", panels=2)
    wall = Wall("published", "mm", (arc,), ("inner", "outer"), 150 * MM, 25 * MM, MM, 20 * MM, MM)
    back = list_backs(wall, divide_wall(wall), 0, skin)[0]
    along = back.along(Fraction(math.pi / 18))
    return float(along if skin == "inner" else back.width - along) / MM


SEGMENT = span(chord_of_ordinate(2, 12), 12)

FIGURES = (
    Figure(
        SURVEY,
        "panel over the whole arc of 26 degrees at radius 311 m, in m",
        "141.13",
        lambda: arc_of(311, math.radians(26)),
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SURVEY,
        "chord of the same panel, in m",
        "139.92",
        lambda: chord_of(311, math.radians(26)),
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SEGMENTS,
        "panel over the segment of radius 12 and depth 2",
        "14.06",
        lambda: arc_of(12, SEGMENT),
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        OWN,
        "two skins over 26 degrees, faces 200 mm apart: difference, in mm",
        "90.757",
        lambda: difference(3000),
        "0.0005",
        LAST_PLACE,
    ),
    *(
        Figure(
            OWN,
            f"{skin} face where 3000 mm go to the {to if to == 'axis' else to + ' face'}, in mm",
            printed,
            partial(radius_of, skin, to),
            "0",
            "exact",
        )
        for skin, to, printed in (
            ("inner", "inner", "3000"),
            ("outer", "inner", "3200"),
            ("inner", "outer", "2800"),
            ("inner", "axis", "2900"),
            ("outer", "axis", "3100"),
        )
    ),
    *(
        Figure(
            OWN,
            f"{skin} back of a tie 10 degrees along, inner face 3000 mm, in mm from the start",
            printed,
            partial(place_of_ray, skin),
            "0.0005",
            LAST_PLACE,
        )
        # panels of 25 mm, cavity 150: backs of 3025 and 3175 mm, each times pi / 18
        for skin, printed in (("inner", "527.962"), ("outer", "554.142"))
    ),
    *(
        Figure(
            OWN,
            f"quarter round of 3000 mm, 4 panels on 5 mm, rest to {rest}: {what}, in mm",
            printed,
            partial(rounded, rest, what),
            "0.0005",
            LAST_PLACE,
        )
        # 3000 pi / 2 = 4712.38898; less 3 joints of 20, shared by 4: 1163.097
        for rest, what, printed in (
            ("joints", "width", "1160.000"),
            ("joints", "joint", "24.130"),  # (4712.38898 - 4 x 1160) / 3
            ("closing panel", "width", "1165.000"),
            ("closing panel", "closing", "1157.389"),  # 4712.38898 - 3 x 1165 - 3 x 20
        )
    ),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_a_wall_has_the_printed_figure(figure):
    """Ours and the printed figure are no farther apart than is said, for the reason given."""
    assert figure.off() <= Fraction(figure.within)


def test_the_difference_of_two_skins_does_not_depend_on_the_radius():
    """Angle x distance, whatever the radius: arithmetic, no outside source."""
    assert difference(3000) == pytest.approx(difference(30_000), abs=1e-6)


@pytest.mark.parametrize(
    ("sixteenths", "told"),
    [(5, "3/8 in (9.525 mm), the least"), (6, "nominal 3/4 in"), (11, "nominal 3/4 in"), (12, "")],
)
def test_joints_are_judged_by_the_printed_figures(sixteenths, told):
    """PCI frequently asked questions: 3/4 in nominal, 3/8 in least for sealant."""
    found = joint_warnings(make_wall(3000, 1.0, joint=sixteenths * STEPS_PER_INCH // 16))
    assert len(found) == bool(told)
    assert all(told in text and FAQ in text for text in found)
