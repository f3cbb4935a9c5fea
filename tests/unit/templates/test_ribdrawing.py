"""The template of ribs: outline, heights, figures."""

from fractions import Fraction

import pytest
from handjob import MM, hand_job

from nesting.drawings.record import bounds_of
from nesting.templates.ribdrawing import rib_template
from nesting.templates.ribs import shape_rib
from nesting.values.bed import Bed
from nesting.values.bend import Bend


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
    assert f"300 from middle: height {rib.height_at(300):.1f}" in words


def test_radius_chord_rise_and_number_are_told():
    """Deck and liner are named, so that the face's radius can be followed down to the rib."""
    _, template = make()
    assert template.facts[0] == (
        "Bed drum is convex along x: panel face R 3013 mm, liner 13 mm, deck 6 mm."
    )
    assert template.facts[1] == "Rib edge R 2994 mm, chord 1189.6 mm."
    assert template.facts[2].startswith("Rise 59.7 mm, edge 1197.6 mm,")  # R (1 - cos 0.2), 0.4 R
    assert template.facts[3] == (
        "Cut 4 ribs alike; set them 266.7 mm apart along y, middle to middle."
    )
    assert template.notes == template.facts[1:3]


def test_without_a_deck_none_is_named():
    """The liner lies on the ribs."""
    assert make(deck=0)[1].facts[0].endswith("liner 13 mm.")
