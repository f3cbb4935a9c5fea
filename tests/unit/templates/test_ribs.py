"""Ribs: their radius under deck and liner, what they span, their heights, their number."""

import itertools
import math
from fractions import Fraction

import pytest
from handjob import MM, hand_job

from nesting.drawings.record import bounds_of
from nesting.shapes.geometry import Box
from nesting.tape import Tape
from nesting.templates.ribs import FLATTEN, rib_template, shape_rib
from nesting.values.bed import Bed
from nesting.values.bend import Bend

LINER = Box(0, 0, 2400 * MM, 1200 * MM)


def shape(form="convex", radius=3000, axis="x", thickness=13, **changes):
    """Return the rib of a bed under the liner."""
    bed = Bed("drum", form, radius * MM, axis, Fraction(0))
    asked = {"spacing": 300, "deck": 0, "depth": 100} | changes
    return shape_rib(Bend(bed, thickness * MM), LINER, **asked)


@pytest.mark.parametrize(
    ("form", "deck", "radius", "face"),
    [
        ("convex", 0, 3000, 3013),
        ("convex", 6, 2994, 3013),
        ("concave", 0, 3000, 2987),
        ("concave", 6, 3006, 2987),
    ],
)
def test_deck_and_liner_lie_between_rib_and_face(form, deck, radius, face):
    """The bed's radius is where the liner lies, so the face lands on its own."""
    rib = shape(form, deck=deck)
    assert (rib.radius, rib.bed_radius, rib.face_radius) == (radius, 3000, face)


def test_the_rib_spans_the_liner():
    """With the back unstretched 2400 mm of liner span 0.8 rad of 3000 mm: an edge of 2400 mm."""
    rib = shape()
    assert rib.angle_rad == pytest.approx(0.8, abs=1e-12)
    assert rib.arc == pytest.approx(2400)
    assert rib.chord == pytest.approx(2 * 3000 * math.sin(0.4))
    assert rib.rise == pytest.approx(3000 * (1 - math.cos(0.4)))


@pytest.mark.parametrize(("form", "middle", "ends"), [("convex", 1, 0), ("concave", 0, 1)])
def test_heights_run_from_the_depth_to_the_depth_and_the_rise(form, middle, ends):
    """A convex rib is highest in its middle, a concave one at its ends."""
    rib = shape(form)
    assert rib.height_at(0) == pytest.approx(100 + middle * rib.rise)
    assert rib.height_at(rib.chord / 2) == pytest.approx(100 + ends * rib.rise)


@pytest.mark.parametrize("form", ["convex", "concave"])
def test_every_point_of_the_edge_lies_on_its_circle(form):
    """Points are on the arc, and between two of them the chord leaves it by less than 0.002 mm."""
    rib = shape(form)
    sign = 1 if form == "convex" else -1
    centre = rib.height_at(0) - sign * rib.radius
    edge = rib.edge()
    assert edge[0][0] == pytest.approx(-rib.chord / 2)
    assert edge[len(edge) // 2][0] == pytest.approx(0, abs=1e-9)
    for (x, y), (u, v) in itertools.pairwise(edge):
        assert math.hypot(x, y - centre) == pytest.approx(rib.radius, abs=1e-9)
        middle = math.hypot((x + u) / 2, (y + v) / 2 - centre)
        assert rib.radius - FLATTEN <= middle <= rib.radius


@pytest.mark.parametrize(
    ("axis", "spacing", "count", "pitch"),
    [("x", 300, 5, 300), ("x", 350, 5, 300), ("x", 5000, 2, 1200), ("y", 300, 9, 300)],
)
def test_ribs_stand_evenly_along_the_straight_axis(axis, spacing, count, pitch):
    """One at each end and no two farther apart than asked."""
    rib = shape(axis=axis, spacing=spacing)
    assert (rib.count, rib.pitch) == (count, pitch)


def test_half_a_circle_is_the_limit():
    """A liner of 2400 mm spans half a circle of radius 764 mm, and more of a smaller one."""
    assert shape(radius=765).angle_rad < math.pi
    match = "at most half a circle; on bed 'drum' the liner spans 183.3 degrees"
    with pytest.raises(ValueError, match=match):
        shape(radius=750)


def test_a_deck_thicker_than_the_radius_is_refused():
    """Nothing would be left of the rib."""
    with pytest.raises(ValueError, match="thinner than the bed's radius, got 3000 mm"):
        shape(deck=3000)


def test_a_flat_bed_has_no_ribs():
    """It has no radius."""
    with pytest.raises(ValueError, match="bed 'table' is flat"):
        shape_rib(Bend(Bed("table"), 13 * MM), LINER, spacing=300, deck=0, depth=100)


def make(form="convex", deck=6):
    """Return a rib and its template under the hand-sized liner."""
    job, bed = hand_job(), Bed("drum", form, 3000 * MM, "x", Fraction(0))
    box = job.liner.outline.bounds
    rib = shape_rib(Bend(bed, job.liner.thickness), box, spacing=300, deck=deck, depth=100)
    return rib, rib_template(job, bed, rib)


@pytest.mark.parametrize("form", ["convex", "concave"])
def test_the_outline_is_chord_wide_and_depth_and_rise_high(form):
    """It stands on y = 0 with its middle at x = 0."""
    rib, template = make(form)
    (outline,) = [line for line in template.lines if line.style == "trace"]
    box = bounds_of([outline])
    assert box.width == pytest.approx(rib.chord, abs=2e-3)
    assert (box.x0 + box.x1, box.y0) == (pytest.approx(0, abs=1e-9), 0)
    assert box.y1 == pytest.approx(100 + rib.rise, abs=1e-3)


def test_heights_are_given_every_100_mm_from_the_middle():
    """Each station's line is as long as the rib is high there, and says so."""
    rib, template = make()
    stations = [line for line in template.lines if line.style == "ghost"]
    xs = sorted(line.points[0][0] for line in stations)
    assert xs == [x for x in range(-500, 501, 100) if x]
    assert all(
        line.points[1][1] == pytest.approx(rib.height_at(line.points[0][0]), abs=1e-3)
        for line in stations
    )
    words = [label.words[0] for label in template.labels]
    assert f"300 from middle: height {Tape('mm').figure(round(rib.height_at(300) * MM))}" in words


def test_radius_chord_rise_and_number_are_told():
    """Deck and liner are named, so that the face's radius can be followed down to the rib."""
    _, template = make()
    assert template.facts[0] == (
        "Bed drum is convex along x: panel face R 3013 mm, liner 13 mm, deck 6 mm."
    )
    assert template.facts[1] == "Rib edge R 2994 mm, chord 1190 mm scant."
    assert template.facts[2].startswith(
        "Rise 60 mm scant, edge 1198 mm scant,"
    )  # R (1 - cos 0.2), 0.4 R
    assert template.facts[3] == (
        "Cut 4 ribs alike; set them 267 mm scant apart along y, middle to middle."
    )
    assert template.notes == template.facts[1:3]


def test_without_a_deck_none_is_named():
    """The liner lies on the ribs."""
    assert make(deck=0)[1].facts[0].endswith("liner 13 mm.")
