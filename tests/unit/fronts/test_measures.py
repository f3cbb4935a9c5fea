"""What a finished face measures."""

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from handjob import MM, sides

from nesting.fronts.measures import measure_face
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.casts import Placement
from nesting.values.panels import Panel

DRUM = Bend(Bed("drum", "convex", 3000 * MM), 13 * MM)
CRADLE = Bend(Bed("cradle", "concave", 2600 * MM), 13 * MM)
PANEL = Panel("B1", 1540 * MM, 900 * MM, 1, "drum", thickness=19 * MM)


def measure(bend, panel, off=(0, 0)):
    """Return the measures of a panel placed at its flat size, so far off its nominal one."""
    size = replace(panel, width=panel.width + off[0], height=panel.height + off[1])
    placed = Placement(panel.mark, 0, 0, *bend.flat_size(size), sides("lrbt"), off_nominal=off)
    return measure_face(bend, panel, placed, panel.thickness or 19 * MM)


def test_a_flat_face_has_one_size():
    """Along the face and straight are the same; the diagonals are those of a rectangle."""
    found = measure(Bend(Bed("table"), 13 * MM), replace(PANEL, width=1200 * MM))
    assert found.size == found.chords == found.backs == (1200 * MM, 900 * MM)
    assert found.diagonals == (1500 * MM, 1500 * MM)
    assert (found.form, found.radius) == ("flat", 0)


@pytest.mark.parametrize(("bend", "radius"), [(DRUM, 3013), (CRADLE, 2587)])
def test_arc_chord_and_diagonals_are_those_of_points_on_a_cylinder(bend, radius):
    """Four corners put on a cylinder of the face's radius, and measured there."""
    found = measure(bend, PANEL)
    assert found.size == (1540 * MM, 900 * MM)
    angles = -770 / radius, 770 / radius
    left, right = ((radius * math.sin(a), radius * math.cos(a)) for a in angles)
    assert found.chords[0] / MM == pytest.approx(math.dist(left, right), abs=1e-3)
    assert found.chords[1] == 900 * MM
    for diagonal in found.diagonals:
        assert diagonal / MM == pytest.approx(math.dist((*left, 0), (*right, 900)), abs=1e-3)
    assert found.radius == radius * MM


def test_a_tape_over_a_convex_face_takes_the_shortest_way():
    """A helix from corner to corner of 730 by 900 mm, in a thousand short steps through space."""
    found = measure(CRADLE, replace(PANEL, width=730 * MM))
    steps = [(n / 1000 * 730 / 2587, n / 1000 * 900) for n in range(1001)]
    helix = [(2587 * math.sin(a), 2587 * math.cos(a), h) for a, h in steps]
    way = sum(math.dist(a, b) for a, b in pairwise(helix))
    assert found.over_diagonal / MM == pytest.approx(way, abs=1e-3)
    assert found.over_diagonal > found.diagonals[0]


def test_a_face_bends_the_other_way_than_its_bed():
    """The face lies down on the bed: a convex bed makes a concave face."""
    assert measure(DRUM, PANEL).form == "concave"
    assert measure(CRADLE, PANEL).form == "convex"


@pytest.mark.parametrize("measured_on", ["face", "back", "chord"])
@pytest.mark.parametrize("bend", [DRUM, CRADLE])
def test_the_ordered_size_is_told_as_it_was_ordered(bend, measured_on):
    """Not one step is lost on the way to the flat liner and back."""
    found = measure(bend, replace(PANEL, width=1540 * MM + 7, measured_on=measured_on))
    told = {"face": found.size, "chord": found.chords, "back": found.backs}
    assert told[measured_on] == (1540 * MM + 7, 900 * MM)


def test_the_back_follows_from_the_ends_of_the_panel():
    """19 mm beyond 3013 mm: as the radii where ends are square, of one chord where plumb."""
    assert measure(DRUM, PANEL).backs[0] / MM == pytest.approx(1540 * 3032 / 3013, abs=1e-3)
    plumb = measure(replace(DRUM, bed=replace(DRUM.bed, ends="plumb")), PANEL)
    half = plumb.chords[0] / MM / 2 / 3032
    assert plumb.backs[0] / MM == pytest.approx(2 * 3032 * math.asin(half), abs=1e-3)
    assert plumb.backs[1] == 900 * MM


def test_a_size_taken_within_its_tolerance_is_the_one_told():
    """A face made 3 mm narrower measures 3 mm less."""
    assert measure(DRUM, PANEL, (-3 * MM, 0)).size == (1537 * MM, 900 * MM)


def test_a_face_that_shrinks_is_measured_afterwards():
    """Chord, diagonals and radius shrink with it, all by one share."""
    shrunk = replace(DRUM, shrink=Fraction(1, 100))
    found, larger = (
        measure(shrunk, PANEL),
        measure(DRUM, replace(PANEL, width=1540 * MM * 100 // 99)),
    )
    assert found.size == (1540 * MM, 900 * MM)
    assert found.chords[0] == pytest.approx(larger.chords[0] * 0.99, abs=8)
    assert found.radius == pytest.approx(3013 * MM * 0.99, abs=1)


def test_a_bed_bent_the_other_way_bends_the_height():
    """Along y the width is straight."""
    found = measure(replace(DRUM, bed=replace(DRUM.bed, curved_axis="y")), PANEL)
    assert found.chords[0] == found.size[0]
    assert found.chords[1] < found.size[1]
    assert found.curved_axis == "y"
