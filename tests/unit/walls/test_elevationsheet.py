"""The sheet of an elevation."""

import pytest
from handjob import MM
from wallfiles import KIOSK, WALL, load_wall
from wallorders import order_wall

from nesting.drawings.record import Area, bounds_of
from nesting.drawings.view import FROM_FRONT
from nesting.walls.cladding import divide_wall
from nesting.walls.elevation import elevate_skins
from nesting.walls.elevationsheet import draw_elevation


def draw(path, text):
    """Return the elevations of a wall with their drawings."""
    wall = load_wall(path, text)
    job, schedule = order_wall(wall)
    elevations = elevate_skins(wall, divide_wall(wall), job, schedule)
    return [(each, draw_elevation(wall, job, each)) for each in elevations]


def areas(drawing, layer, style):
    """Return the bounds of the areas of a style in a layer."""
    (found,) = [each for each in drawing.layers if each.name == layer]
    shapes = [s for s in found.placed if isinstance(s, Area) and s.style == style]
    return [bounds_of([shape]) for shape in shapes]


def test_each_panel_shows_its_ornament_where_its_face_has_it(tmp_path):
    """The leaf lies as far from the left of the panel as the front view has it."""
    for elevation, drawing in draw(tmp_path, WALL):
        panels = areas(drawing, "panels", "panel")
        leaves = areas(drawing, "relief", "ornament")
        assert len(panels) == len(leaves) == len(elevation.panels) == 6
        for each, panel, leaf in zip(elevation.panels, panels, leaves, strict=True):
            scale = panel.width / (each.ground.width / MM)
            (shown,) = each.kind.face.ornaments
            assert leaf.x0 - panel.x0 == pytest.approx(shown.bounds.x0 / MM * scale, abs=0.01)
            assert leaf.y1 - panel.y0 == pytest.approx(shown.bounds.y1 / MM * scale, abs=0.01)


def test_inside_and_outside_say_which_they_are(tmp_path):
    """Each in its title, in its strip and in its name."""
    for (_, drawing), side in zip(draw(tmp_path, WALL), ("inside", "outside"), strict=True):
        words = [text.words for text in drawing.texts]
        assert drawing.name == f"elevation-{side}"
        assert f"{side.title()} elevation" in words
        assert FROM_FRONT in words
        assert any(f"skin seen from {side}" in each for each in words)


def test_every_panel_has_the_number_of_its_kind(tmp_path):
    """The key tells which kind a number is and how many of it stand there."""
    ((_, inner), _) = draw(tmp_path, WALL)
    (names,) = [layer for layer in inner.layers if layer.name == "names"]
    assert [text.words for text in names.shapes if not isinstance(text, Area)] == list("121234")
    words = [text.words for text in inner.texts]
    assert {"1: apse-inner (1), 2", "4: wing-inner (2), 1"} <= set(words)


def test_corners_are_marked_where_the_skin_turns(tmp_path):
    """Three corners within the kiosk, each with its figure; a wall without has none."""
    ((_, kiosk),) = draw(tmp_path, KIOSK)
    (corners,) = [layer for layer in kiosk.layers if layer.name == "corners"]
    assert len(corners.shapes) == 3
    assert {"3000", "6000", "9000", "12000"} <= {text.words for text in kiosk.texts}
    ((_, plain), _) = draw(tmp_path, WALL)
    assert "corners" not in [layer.name for layer in plain.layers]
    assert "Corner, laid flat" not in [text.words for text in plain.texts]
