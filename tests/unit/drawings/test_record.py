"""The drawing record: plain shapes that cannot be wrong."""

import math

import pytest

from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Text, bounds_of, moved


def test_points_are_rounded_to_micrometres_without_minus_zero():
    """A record holds whole micrometres of the sheet, and 0.0 instead of -0.0."""
    line = Line(((1 / 3, -1e-9), (0.1 + 0.2, 2.0)), "rule")
    assert line.points == ((0.333, 0.0), (0.3, 2.0))
    assert math.copysign(1, line.points[0][1]) == 1


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_points_must_be_finite(bad):
    """No record holds a point that is nowhere."""
    with pytest.raises(ValueError, match="a point on a drawing must be finite, got"):
        Area((((0, 0), (bad, 1), (1, 1)),), "dam")


def test_text_drops_what_no_drawing_can_hold():
    """The words of a text are clean from the start."""
    assert Text(0, 0, "A\x001\x0b", 3.5).words == "A1"


def test_a_text_covers_its_words_on_the_side_its_anchor_says():
    """Anchored at its start a text reaches right, at its end left, in the middle both ways."""
    start, middle, end = (Text(10, 20, "1500", 3.5, "plain", anchor).rect
                          for anchor in ("start", "middle", "end"))  # fmt: skip
    assert start.x0 == 10
    assert end.x1 == pytest.approx(10)
    assert middle.centre[0] == pytest.approx(10)
    assert start.width == pytest.approx(middle.width) == pytest.approx(end.width)
    assert start.y0 <= 20 < 23.5 <= start.y1


def test_an_upright_text_is_the_level_one_turned_left():
    """Upright words reach up from their start, their capitals to the left of the base line."""
    level, upright = Text(0, 0, "1500", 3.5).rect, Text(0, 0, "1500", 3.5, upright=True).rect
    assert upright == pytest.approx(Rect(-level.y1, level.x0, -level.y0, level.x1))


def test_bold_words_are_wider():
    """A bold text takes more room than a plain one."""
    assert Text(0, 0, "D1", 3.5, "bold").rect.width > Text(0, 0, "D1", 3.5).rect.width


def test_rectangles_that_touch_do_not_overlap():
    """Rectangles overlap where their insides meet; one holds another up to its own boundary."""
    left, right = Rect(0, 0, 10, 10), Rect(10, 0, 20, 10)
    assert not left.overlaps(right)
    assert left.overlaps(right.grown(0.1))
    assert Rect(0, 0, 20, 10).holds(right)
    assert not left.holds(right)


def test_bounds_hold_every_kind_of_shape():
    """The bounds of areas, lines and texts together are the smallest rectangle around them."""
    shapes = [
        Area((((0, 0), (4, 0), (4, 3)),), "dam"),
        Line(((-1, 1), (2, 9)), "rule"),
        Text(6, 0, "1", 7.2),
    ]
    assert bounds_of(shapes) == pytest.approx((-1, -0.3, 12.6, 9))


def test_a_drawing_lists_its_shapes_from_below():
    """Shapes come in the order of the layers, and texts are picked from among them."""
    line, text = Line(((0, 0), (1, 1)), "rule"), Text(0, 0, "D1", 3.5)
    drawing = Drawing("one", 100, 80, "", "", (Layer("a", (line,)), Layer("b", (text,))))
    assert drawing.shapes == (line, text)
    assert drawing.texts == (text,)


def test_a_moved_shape_keeps_its_look():
    """Every kind of shape shifts by the same amounts and is otherwise the same."""
    shapes = (
        Line(((0, 0), (1, 2)), "rule"),
        Area((((0, 0), (1, 0), (1, 1)),), "dam"),
        Text(3, 4, "D1", 3.5, "bold", "end", upright=True),
    )
    line, area, text = (moved(shape, (10, -5)) for shape in shapes)
    assert line == Line(((10, -5), (11, -3)), "rule")
    assert area.rings == (((10, -5), (11, -5), (11, -4)),)
    assert text == Text(13, -1, "D1", 3.5, "bold", "end", upright=True)


def test_shapes_behind_a_window_count_where_they_lie_on_the_sheet():
    """A layer with an origin of its own is told in the sheet's coordinates."""
    line = Line(((0, 0), (1, 2)), "rule")
    layer = Layer("art", (line,), Rect(0, 0, 50, 50), (10, 20))
    assert layer.placed == (Line(((10, 20), (11, 22)), "rule"),)
    assert Drawing("a", 100, 100, "", "", (layer,)).shapes == layer.placed
    assert Layer("plain", (line,)).placed == (line,)
