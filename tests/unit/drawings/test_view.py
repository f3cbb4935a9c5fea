"""From the liner to a sheet."""

from fractions import Fraction

from nesting.drawings.record import Rect
from nesting.drawings.view import View
from nesting.shapes.geometry import Box, polygon_of

MM = 8000


def test_a_view_scales_about_the_datum():
    """At 1:10 a point 1500 mm from the datum lies 150 mm from it on the sheet."""
    view = View(Fraction(10), 40, 90)
    assert view.at((1500 * MM, 25 * MM)) == (190, 92.5)
    assert view.length(1525 * MM) == 152.5
    assert view.rect(Box(0, 0, 2400 * MM, 1200 * MM)) == Rect(40, 90, 280, 210)
    assert view.rings(polygon_of(Box(0, 0, 10 * MM, 20 * MM))) == (
        ((40, 90), (41, 90), (41, 92), (40, 92)),
    )
