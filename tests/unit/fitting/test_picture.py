"""The drawing of one size at its best place."""

from handjob import MM, hand_job

from nesting.drawings.record import Area, Line, Text
from nesting.fitting.answer import fit_size
from nesting.fitting.picture import draw_fit
from nesting.maps.ground import survey
from nesting.values.bend import bend_of
from nesting.values.panels import Panel

JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)


def drawing_of(width, height):
    """Return the drawing of a size in mm."""
    answer = fit_size(
        GROUND, Panel("Panel", width * MM, height * MM, 1, "table"), bend_of(JOB, "table")
    )
    return draw_fit(JOB, answer, answer.seated, "fit-01")


def layer(drawing, name):
    """Return the shapes of a layer."""
    return next(each.shapes for each in drawing.layers if each.name == name)


def test_the_only_place_is_a_point_at_the_datum():
    """A1's position map is one point: a line without length where the panel's corner lies."""
    drawing = drawing_of(800, 650)
    (place,) = {shape for shape in layer(drawing, "places") if isinstance(shape, Line)}
    assert place.points[0] == place.points[1]
    panel = next(s for s in layer(drawing, "ground") if isinstance(s, Area) and s.style == "panel")
    assert place.points[0] in panel.rings[0]


def test_the_strip_says_what_is_tried():
    """Size and liner instead of a layout's number."""
    drawing = drawing_of(800, 650)
    words = {shape.words for shape in layer(drawing, "strip") if isinstance(shape, Text)}
    assert {"Size 800 x 650 mm", "Trial of one size"} <= words
    assert (drawing.name, drawing.title) == ("fit-01", "reeds: size 800 x 650 mm")


def test_the_key_explains_the_places():
    """Only on a trial; a masking layout has none."""
    words = {shape.words for shape in layer(drawing_of(800, 650), "key") if isinstance(shape, Text)}
    assert "Places of its lower left corner" in words
