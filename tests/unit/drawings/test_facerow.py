"""Finished faces side by side."""

from dataclasses import replace
from itertools import pairwise

import pytest
from handjob import hand_job, hand_schedule

from nesting.drawings.facerow import FACES_IN_ROW, draw_faces
from nesting.drawings.record import Area, Rect, bounds_of
from nesting.fronts.kinds import list_kinds


@pytest.fixture
def row():
    """Return the drawing of A1, B1 and C1."""
    return draw_faces(hand_job(), list_kinds(hand_job(), hand_schedule()), "faces-1")


def areas(layer, style):
    """Return the bounds of the areas of a style in a layer."""
    return [bounds_of([s]) for s in layer.shapes if isinstance(s, Area) and s.style == style]


def test_each_face_has_a_cell_of_its_own(row):
    """Cells stand side by side, and all of them lie on the sheet."""
    cells = [bounds_of(layer.shapes) for layer in row.layers]
    assert len(cells) == FACES_IN_ROW
    assert all(left.x1 <= right.x0 for left, right in pairwise(cells))
    assert all(Rect(0, 0, row.width, row.height).holds(cell) for cell in cells)


def test_a_face_keeps_its_shape_and_its_mirrored_ornament(row):
    """A1 is 800 by 650 mm, its heron 280 to 500 mm from the left and 200 to 600 mm up."""
    (face,), (heron,) = (areas(row.layers[0], style) for style in ("panel", "ornament"))
    scale = face.width / 800
    assert face.height == pytest.approx(650 * scale, abs=0.01)
    assert heron.x0 - face.x0 == pytest.approx(280 * scale, abs=0.01)
    assert heron.y1 - face.y0 == pytest.approx(600 * scale, abs=0.01)


def test_a_crowded_face_is_drawn_without_names():
    """Five ornaments have no names where four have; all of them are drawn."""
    (kind, *_) = list_kinds(hand_job(), hand_schedule())
    (heron,) = kind.face.ornaments
    for count in (4, 5):
        herons = tuple(replace(heron, name=f"heron {n}") for n in range(count))
        crowd = replace(kind, face=replace(kind.face, ornaments=herons))
        drawing = draw_faces(hand_job(), [crowd], "faces-1")
        assert len(areas(drawing.layers[0], "ornament")) == count
        assert any("heron" in text.words for text in drawing.texts) == (count == 4)


def test_name_and_size_stand_above_each_face(row):
    """The size has its unit; every face has its arrow."""
    words = [text.words for text in row.texts]
    assert [each for each in words if "×" in each] == [  # noqa: RUF001 - the sign
        "800 × 650 mm",  # noqa: RUF001
        "375 × 800 mm",  # noqa: RUF001
        "1200 × 650 mm",  # noqa: RUF001
    ]
    assert words.count("up") == 3
    assert row.summary == "Finished faces of A1, B1, C1, seen from the front."
