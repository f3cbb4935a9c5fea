"""Sizes: the nominal one wherever it has a place, else the nearest within the tolerance."""

import random
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import product

import pytest
from handjob import MM, hand_job, rect

from nesting.maps.ground import survey
from nesting.maps.positions import Wish, map_positions
from nesting.maps.sizes import choose_size, wish_of
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner, Ornament
from nesting.values.panels import Panel

TABLE = Bend(Bed("table"), 13 * MM)
JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)


def panel(width, height, **changes):
    """Return a panel given in mm, tolerance too."""
    low, high = changes.pop("tolerance", (0, 0))
    tolerance = round(low * MM), round(high * MM)
    size = round(width * MM), round(height * MM)
    return Panel("X", *size, 1, changes.pop("bed", "table"), tolerance=tolerance, **changes)


def chosen(ground, asked, bend=TABLE):
    """Return the flat size [mm] planned and the change from the order [mm], or None."""
    size = choose_size(ground, asked, bend)
    if size is None:
        return None
    return (size.map.width / MM, size.map.height / MM), tuple(v / MM for v in size.off_nominal)


@pytest.mark.parametrize("tolerance", [(0, 0), (-30, 30)])
def test_the_nominal_size_is_used_where_it_has_a_place(tolerance):
    """Whatever the tolerance would allow."""
    found = chosen(GROUND, panel(803, 650, tolerance=tolerance))
    assert found == ((803, 650), (0, 0))


@pytest.mark.parametrize(
    ("width", "height", "tolerance", "found"),
    [
        (803, 668, (-5, 5), ((803, 665), (0, -3))),
        (803, 636, (-5, 5), ((803, 640), (0, 4))),
        (838, 668, (-5, 5), ((835, 665), (-3, -3))),
        (788.5, 668, (-3, 3), ((790, 665), (1.5, -3))),
        (803, 668, (-3, 0), ((803, 665), (0, -3))),
        (803, 668, (-2.999875, 9), None),
        (803, 668, (0, 0), None),
        (803, 636, (-5, 3.999), None),
    ],
)
def test_else_the_nearest_size_within_the_tolerance(width, height, tolerance, found):
    """A1's dams lie on zones that begin at 790 and 640 and end at 860 and 690: 25 before that."""
    assert chosen(GROUND, panel(width, height, tolerance=tolerance)) == found


@pytest.mark.parametrize("seed", range(8))
def test_no_size_within_the_tolerance_is_nearer(seed):
    """Against every size: first the greater of the two changes counts, then their sum."""
    pick = random.Random(seed)
    rules = Rules(dam_width=3, dam_clearance=1, edge_margin=1, set_out=1)
    zones = tuple(
        BlankZone(f"zone {k}", polygon_of(Box(x, y, x + w, y + h)))
        for k, (x, y, w, h) in enumerate(
            [(pick.randint(18, 27), 0, pick.randint(3, 5), 30) for _ in range(2)]
            + [(0, pick.randint(14, 22), 40, pick.randint(3, 5)) for _ in range(2)]
        )
    )
    leaf = Ornament("leaf", polygon_of(Box(4, 5, pick.randint(9, 22), pick.randint(9, 16))))
    liner = Liner("reeds", polygon_of(Box(0, 0, 40, 30)), 13, "detail", (leaf,), zones)
    ground = survey(liner, rules)
    nominal = pick.randint(16, 26), pick.randint(12, 22)
    size = choose_size(ground, Panel("X", *nominal, 1, "table", tolerance=(-4, 4)), TABLE)
    changes = [
        (max(abs(a), abs(b)), abs(a) + abs(b))
        for a, b in product(range(-4, 5), repeat=2)
        if map_positions(ground, nominal[0] + a, nominal[1] + b).first_place() is not None
    ]
    if size is None:
        assert changes == []
    else:
        across, up = (abs(change) for change in size.off_nominal)
        assert (max(across, up), across + up) == min(changes)
        assert (size.map.width - nominal[0], size.map.height - nominal[1]) == size.off_nominal


def test_a_wish_decides_which_sizes_have_a_place():
    """B1 lies beyond the heron, so no change lets it show the heron."""
    asked = panel(387, 800, tolerance=(-4, 0), must_hide=("heron",))
    assert chosen(GROUND, asked) == ((385, 800), (-2, 0))
    assert chosen(GROUND, replace(asked, tolerance=(-MM, 0))) is None
    assert chosen(GROUND, replace(asked, must_hide=(), must_show=("heron",))) is None


def test_the_tolerance_is_of_the_ordered_size_on_a_curved_bed():
    """On a drum the flat height is less than the face, and the change is told of the face."""
    drum = Bend(Bed("drum", "convex", 3000 * MM, "y"), 13 * MM)
    face = drum.ordered_length(665 * MM, "y") / MM
    asked = panel(803, face + 2, bed="drum", tolerance=(-3, 3))
    (width, height), off = chosen(GROUND, asked, drum)
    assert (width, off[0]) == (803, 0)
    assert 664.999 <= height <= 665
    assert off[1] == pytest.approx(-2, abs=0.001)
    assert chosen(GROUND, replace(asked, tolerance=(-MM, MM)), drum) is None


def test_a_panel_that_shrinks_is_planned_at_the_size_it_is_cast():
    """Ordered 792 by 643.5 mm and 1 % smaller than cast, it takes the place of 800 by 650 mm."""
    size = choose_size(GROUND, panel(792, 643.5), replace(TABLE, shrink=Fraction(1, 100)))
    assert (size.map.width, size.map.height) == (800 * MM, 650 * MM)
    assert size.off_nominal == (0, 0)


def test_the_change_of_a_panel_that_shrinks_is_told_of_the_order():
    """Cast 668 mm high it has no place; cast 665 mm it is 3 mm less a hundredth off the order."""
    asked = panel(794.97, 661.32, tolerance=(-3, 3))
    size = choose_size(GROUND, asked, replace(TABLE, shrink=Fraction(1, 100)))
    assert (size.map.width, size.map.height) == (803 * MM, 665 * MM)
    assert size.off_nominal == (0, round(-2.97 * MM))


def test_the_map_is_that_of_the_size_planned():
    """With the panel's wishes."""
    asked = panel(838, 668, tolerance=(-5, 5), must_show=("heron",))
    size = choose_size(GROUND, asked, TABLE)
    assert size.panel == asked
    assert size.wish == Wish(show=frozenset([0]))
    assert (size.map.width, size.map.height) == (835 * MM, 665 * MM)
    assert size.map.sheet_at(0, 0) is not None
    assert size.map.sheet_at(0, 135 * MM) is None


def test_wishes_become_numbers_in_the_liners_order():
    """Names are the user's, numbers the ground's."""
    leaves = tuple(Ornament(name, rect(50 * k, 50, 10, 10)) for k, name in enumerate("cab"))
    ground = survey(Liner("reeds", rect(0, 0, 400, 300), 13 * MM, "blank", leaves), JOB.rules)
    asked = replace(panel(100, 100), must_show=("b", "c"), must_hide=("a",))
    assert wish_of(ground, asked) == Wish(frozenset([2, 0]), frozenset([1]))


def test_a_size_measured_on_the_back_needs_the_panels_thickness():
    """The bed's own rule, raised through."""
    drum = Bend(Bed("drum", "convex", 3000 * MM, "y"), 13 * MM)
    asked = replace(panel(803, 650, bed="drum"), measured_on="back")
    with pytest.raises(ValueError, match="needs the panel's thickness, > 0 mm"):
        choose_size(GROUND, asked, drum)
    thick = replace(asked, thickness=12 * MM)
    assert choose_size(GROUND, thick, drum).map.height == drum.flat_size(thick)[1]


def test_a_size_that_fits_between_slopes_is_found():
    """A panel 20 x 146 fits the opening of a wreath, a square set on its corner 400 across."""
    opening = tuple((x * MM, y * MM) for x, y in [(300, 100), (500, 300), (300, 500), (100, 300)])
    wreath = Ornament("wreath", Polygon(rect(50, 50, 500, 500).shell, (opening,)))
    ground = survey(Liner("plain", rect(0, 0, 600, 600), 13 * MM, "blank", (wreath,)), JOB.rules)
    assert map_positions(ground, 20 * MM, 146 * MM).sheet_at(290 * MM, 227 * MM) is not None
    assert choose_size(ground, panel(20, 146), TABLE) is not None


@cache
def sail():
    """Return 400 x 300 mm of blank ground with its upper right corner cut off at 45 degrees."""
    corner = Polygon(tuple((x * MM, y * MM) for x, y in ((400, 300), (200, 300), (400, 100))))
    liner = Liner("corner", rect(0, 0, 400, 300), 13 * MM, "blank", (Ornament("sail", corner),))
    return survey(liner, JOB.rules)


def test_between_slopes_the_nominal_size_is_used_where_it_has_a_place():
    """Flush with the datum corner, dam corner 31 mm out on x + y = 500: w + h is 438 at most."""
    assert chosen(sail(), panel(268, 170)) == ((268, 170), (0, 0))
    size = choose_size(sail(), panel(268, 170), TABLE)
    assert size.map.sheet_at(*size.place) is not None


def test_between_slopes_the_nearest_size_within_tolerance_is_used_else():
    """270 x 171 are 3 mm too much, so both give up 1.5 mm, which touches nothing but the slope."""
    size = choose_size(sail(), panel(270, 171, tolerance=(-2, 2)), TABLE)
    off = [change / MM for change in size.off_nominal]
    assert off == [pytest.approx(-1.5, abs=0.01)] * 2
    assert size.map.sheet_at(*size.place) is not None


def test_between_slopes_a_size_beyond_its_tolerance_has_none():
    """1.4 mm of each side are not enough, nor is more of what is too much."""
    assert choose_size(sail(), panel(270, 171, tolerance=(-1.4, 3)), TABLE) is None
    assert choose_size(sail(), panel(270, 171), TABLE) is None
