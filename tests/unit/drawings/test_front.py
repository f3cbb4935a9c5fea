"""The front view of a panel."""

from dataclasses import replace

import pytest
from ferry import make_drum_job, make_drum_schedule
from handjob import MM, change_panel, hand_job, hand_schedule

from nesting.drawings.front import draw_front, face_words, finished_rows
from nesting.drawings.record import Area, Line, bounds_of
from nesting.drawings.view import FROM_FRONT
from nesting.fronts.kinds import Kind, list_kinds


@pytest.fixture
def kind():
    """Return the kind of A1, 800 by 650 mm, which shows the heron."""
    return list_kinds(hand_job(), hand_schedule())[0]


@pytest.fixture
def drum():
    """Return the kind of B2, 60 by 30 in on a convex bed."""
    return list_kinds(make_drum_job(), make_drum_schedule())[0]


def words_of(drawing):
    """Return all words of a drawing."""
    return [text.words for text in drawing.texts]


def area_of(drawing, style):
    """Return the first area of a style on the sheet outside the key."""
    shapes = (s for layer in drawing.layers if layer.name != "key" for s in layer.placed)
    return bounds_of([next(s for s in shapes if isinstance(s, Area) and s.style == style)])


def test_it_says_from_where_it_is_seen(kind):
    """In the title strip, in the title and in the summary."""
    drawing = draw_front(hand_job(), kind, "face")
    assert FROM_FRONT in words_of(drawing)
    assert "seen from the front" in drawing.title
    assert "seen from the front" in drawing.summary
    assert "Panel A1" in words_of(drawing)
    assert "1 piece, layout 1" in words_of(drawing)


def test_the_ornament_lies_mirrored_on_the_face(kind):
    """The heron is 280 to 500 mm from the left of the face, 200 to 600 mm up."""
    drawing = draw_front(hand_job(), kind, "face")
    face, heron = area_of(drawing, "panel"), area_of(drawing, "ornament")
    scale = face.width / 800
    assert face.height == pytest.approx(650 * scale, abs=0.002)
    assert (heron.x0 - face.x0) / scale == pytest.approx(280, abs=0.02)
    assert (heron.x1 - face.x0) / scale == pytest.approx(500, abs=0.02)
    assert (heron.y0 - face.y0) / scale == pytest.approx(200, abs=0.02)


def test_an_arrow_points_up_beside_the_face(kind):
    """Its head is its highest part, and the word stands below it."""
    drawing = draw_front(hand_job(), kind, "face")
    face, head = area_of(drawing, "panel"), area_of(drawing, "datum")
    (up,) = [text for text in drawing.texts if text.words == "up"]
    assert head.x0 > face.x1
    (shaft,) = [
        s
        for layer in drawing.layers
        if layer.name == "dimensions"
        for s in layer.shapes
        if isinstance(s, Line) and s.style == "rim"
    ]
    assert up.y < shaft.points[0][1] < shaft.points[1][1] < head.y1


def test_a_flat_face_is_told_by_width_height_and_diagonals(kind):
    """1030.776 mm from corner to corner of 800 by 650 mm."""
    job = hand_job()
    rows = [("Width", "800 mm"), ("Height", "650 mm"), ("Both diagonals", "1031 mm scant")]
    assert finished_rows(job, kind.face.measures) == rows
    assert face_words(job, kind.face.measures) == "Face flat"
    assert "Both diagonals: 1031 mm scant" in words_of(draw_front(job, kind, "face"))


def test_a_bent_face_is_told_by_arc_chord_and_diagonals_too(drum):
    """60 in along a face of 120.5 in: chord 241 sin(60 / 241) in, and no decimal of an inch."""
    job = make_drum_job()
    names, lengths = zip(*finished_rows(job, drum.face.measures), strict=True)
    assert names[:3] == ("Width along the face", "Width, chord", "Width along the back")
    assert names[3:] == ("Height", "Both diagonals, straight")
    assert lengths[0] == "60 in"
    assert lengths[1].startswith("59 3/8 in")
    assert face_words(job, drum.face.measures).startswith(
        "Face concave along its width, R 120 1/2 in"
    )
    drawing = draw_front(job, drum, "face")
    assert any(words.startswith("Drawn unrolled along the face") for words in words_of(drawing))


def test_the_back_is_told_where_it_differs(drum):
    """Along the curve it is longer than this concave face, across it is as high."""
    rows = dict(finished_rows(make_drum_job(), drum.face.measures))
    assert rows["Width along the back"] == "60 3/8 in scant"
    assert "Height along the back" not in rows


def test_a_panel_that_may_be_turned_is_said_to_be_turned_back(kind):
    """The note stands where the order allows the turn, and nowhere else."""
    note = "One that the layout has turned half"
    for job, has_note in ((hand_job(), False), (change_panel(hand_job(), "A1", turn="half"), True)):
        words = words_of(draw_front(job, kind, "face"))
        assert any(line.startswith(note) for line in words) == has_note


def test_diagonals_that_differ_are_both_told(kind):
    """First and second."""
    measures = replace(kind.face.measures, diagonals=(1000 * MM, 1001 * MM))
    assert finished_rows(hand_job(), measures)[-1] == ("Both diagonals", "1000 mm, 1001 mm")


def test_over_a_face_that_bulges_a_tape_runs_longer(kind):
    """300 by 400 mm along the face are 500 mm over it; a hollow face has no such line."""
    size, bent = (300 * MM, 400 * MM), {"radius": 900 * MM, "diagonals": (499 * MM, 499 * MM)}
    for form, told in (("convex", "500 mm"), ("concave", None)):
        measures = replace(kind.face.measures, size=size, form=form, **bent)
        rows = dict(finished_rows(hand_job(), measures))
        assert rows.get("Both diagonals, over the face") == told


def test_a_plain_face_has_no_ornament_in_its_key(kind):
    """Only what is there is explained."""
    plain = Kind(replace(kind.face, ornaments=()), None, 0, (1, 2, 2), 3)
    words = words_of(draw_front(hand_job(), plain, "face"))
    assert "Ornament" not in words
    assert "Finished face" in words
    assert "3 pieces, layouts 1, 2" in words
