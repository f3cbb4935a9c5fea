"""The picture of a liner that was read."""

from dataclasses import replace

from handjob import MM, hand_job

from nesting.drawings.record import Line
from nesting.drawings.svg import to_svg
from nesting.jobs.found import Ignored, LinerFound
from nesting.liners.picture import draw_liner
from nesting.shapes.geometry import Box
from nesting.values.liner import KeepClear

NEAR = Ignored("line", "no role", ((0, 0), (1300 * MM, 100 * MM)))
FAR = Ignored("line", "no role", ((0, 0), (90_000 * MM, 0)))
FOUND = LinerFound(hand_job().liner, "mm", (), (NEAR, FAR, Ignored("text", "why")), "reeds.dxf")


def words(drawing):
    """Return all words of the drawing."""
    return [text.words for text in drawing.texts]


def test_names_sizes_and_source_are_on_it():
    """Ornaments and zones by name, the liner with its size, the file it came from."""
    told = words(draw_liner(FOUND))
    for each in ("heron", "east", "north", "Liner reeds", "1200 x 800 mm"):
        assert each in told
    assert "As read from reeds.dxf" in told


def test_what_was_left_out_nearby_is_marked():
    """A line within sight is drawn; one far away would shrink the liner and is not."""
    drawing = draw_liner(FOUND)
    marked = [each for each in drawing.shapes if isinstance(each, Line) and each.style == "ignored"]
    assert len(marked) == 2  # the line and its row in the key
    assert "Left out" in words(drawing)
    assert "Left out" not in words(draw_liner(replace(FOUND, ignored=(FAR,))))


def test_all_of_it_is_on_the_sheet():
    """What lies beside the liner has room too."""
    drawing = draw_liner(FOUND)
    for shape in drawing.shapes:
        points = shape.points if isinstance(shape, Line) else ()
        assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)


def test_an_inch_liner_has_an_inch_sheet():
    """Its scale is one of whole inches to the foot, its paper by inches."""
    told = " ".join(words(draw_liner(replace(FOUND, units="in"))))
    assert "11 x 17 in" in told
    assert to_svg(draw_liner(FOUND)) == to_svg(draw_liner(FOUND))


def test_places_that_dams_keep_off_are_marked_and_named():
    """With their distance, and a row in the key."""
    loop = KeepClear("loop", Box(MM, MM, MM, MM), 60 * MM)
    drawing = draw_liner(replace(FOUND, liner=replace(FOUND.liner, keep_clear=(loop,))))
    told = words(drawing)
    assert "loop" in told
    assert "Place that dams keep off" in told
    assert "Place that dams keep off" not in words(draw_liner(FOUND))
