"""Full size: steps become mm, on the face longer or shorter along the curved axis, or mirrored."""

from fractions import Fraction

import pytest

from nesting.drawings.record import Rect
from nesting.shapes.geometry import Box, polygon_of
from nesting.templates.fullsize import FullSize, on_face
from nesting.values.bed import Bed
from nesting.values.bend import Bend

MM = 8000
BOX = Box(10 * MM, 20 * MM, 30 * MM, 50 * MM)


def test_flat_and_unmirrored_steps_are_mm():
    """A point 10 mm along and 20 mm across is drawn there."""
    assert FullSize().at((10 * MM, 20 * MM)) == (10, 20)
    assert FullSize().rect(BOX) == Rect(10, 20, 30, 50)
    assert FullSize().is_flat


def test_mirrored_runs_the_other_way_along_x():
    """Boxes stay boxes and y stays."""
    size = FullSize(mirrored=True)
    assert size.rect(BOX) == Rect(-30, 20, -10, 50)
    assert size.is_flat


def test_rings_are_closed():
    """The last point of a drawn ring is its first."""
    (ring,) = FullSize().rings(polygon_of(BOX))
    assert ring[0] == ring[-1]
    assert len(ring) == 5


@pytest.mark.parametrize(
    ("form", "axis", "ratio"),
    [("convex", "x", Fraction(121, 120)), ("concave", "y", Fraction(119, 120))],
)
def test_the_face_stretches_the_curved_axis_only(form, axis, ratio):
    """Radius 3000 mm, liner 25 mm, its back unstretched: (R + t) / R and (R - t) / R."""
    bed = Bed("bed", form, 3000 * MM, axis, Fraction(0))
    size = on_face(Bend(bed, 25 * MM))
    expected = (ratio, 1) if axis == "x" else (1, ratio)
    assert (size.x_ratio, size.y_ratio) == expected
    assert not size.is_flat
    drawn = size.drawn(1200 * MM, 1200 * MM)
    assert drawn == tuple(1200 * MM * each for each in expected)


def test_a_flat_bed_has_no_other_face():
    """There is nothing to develop."""
    with pytest.raises(ValueError, match="bed 'table' is flat"):
        on_face(Bend(Bed("table"), 25 * MM))
