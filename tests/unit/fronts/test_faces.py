"""What a finished face shows, seen from the front."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, hand_schedule, rect

from nesting.fronts.faces import mirror, show_face
from nesting.shapes.geometry import Box
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast

WINDOW = Box(100, 50, 400, 250)
A1 = hand_schedule().layouts[0].panels[0]


def box_of(face):
    """Return the bounds [mm] of the only ornament of a face."""
    (shown,) = face.ornaments
    return tuple(value / MM for value in shown.bounds)


def test_left_and_right_change_places():
    """The liner's left is the face's right; what is up stays up."""
    assert mirror(WINDOW, (100, 50)) == (300, 0)
    assert mirror(WINDOW, (400, 250)) == (0, 200)
    assert mirror(WINDOW, (110, 80)) == (290, 30)


def test_a_turned_panel_turns_its_face():
    """Turned half round on the liner and mirrored, only up and down have changed places."""
    assert mirror(WINDOW, (110, 80), turned=True) == (10, 170)


@pytest.mark.parametrize("turned", [False, True])
def test_mirrored_twice_a_window_is_back(turned):
    """The face's own window mirrored the same way once more is the liner's, counted from 0."""
    face = Box(0, 0, WINDOW.width, WINDOW.height)
    for point in ((100, 50), (110, 80), (399, 249)):
        once = mirror(WINDOW, point, turned=turned)
        twice = mirror(face, once, turned=turned)
        assert twice == (point[0] - WINDOW.x0, point[1] - WINDOW.y0)


def test_an_ornament_stands_as_far_from_the_other_side():
    """The heron, 300 to 520 mm from the left of 800 mm, is as far from the right of the face."""
    face = show_face(hand_job(), A1)
    assert [shown.name for shown in face.ornaments] == ["heron"]
    assert box_of(face) == (280, 200, 500, 600)
    assert face.measures.size == (800 * MM, 650 * MM)


def test_a_face_cast_turned_has_its_ornaments_upside_down():
    """The heron's feet, 200 mm above the liner's lower rim, are 200 mm below the face's top."""
    assert box_of(show_face(hand_job(), replace(A1, turned=True))) == (300, 50, 520, 450)


def test_what_the_panel_leaves_out_is_not_on_its_face():
    """B1 shows nothing, whatever lies elsewhere on the liner."""
    assert show_face(hand_job(), hand_schedule().layouts[0].panels[1]).ornaments == ()


def test_holes_of_an_ornament_are_mirrored_too():
    """Each ring is mirrored by itself."""
    job = hand_job()
    hole = rect(320, 300, 50, 50).shell[::-1]
    (heron,) = job.liner.ornaments
    heron = replace(heron, outline=replace(heron.outline, holes=(hole,)))
    (shown,) = show_face(replace(job, liner=replace(job.liner, ornaments=(heron,))), A1).ornaments
    assert {x / MM for x, _ in shown.rings[1]} == {430, 480}


def test_a_bent_face_is_drawn_at_the_length_it_has_once_bent():
    """On a convex bed of 287 mm under 13 mm of rubber, 293.5 mm of liner make 300 mm of face."""
    job = replace(hand_job(), beds=(Bed("table", "convex", 287 * MM),))
    x0, y0, x1, y1 = box_of(show_face(job, A1))
    assert (x0, x1) == pytest.approx((280 * 300 / 293.5, 500 * 300 / 293.5), abs=1e-3)
    assert (y0, y1) == (200, 600)


def test_a_face_that_shrinks_is_drawn_as_it_is_measured():
    """Cast 800 mm wide and shrunk by a hundredth, all of it is."""
    job = replace(hand_job(), as_cast=AsCast(panel_shrink=Fraction(1, 100)))
    assert box_of(show_face(job, A1)) == pytest.approx((277.2, 198, 495, 594))
