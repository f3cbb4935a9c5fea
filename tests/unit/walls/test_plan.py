"""The plan of a wall: every panel once, true to scale, marks apart and on the sheet."""

from itertools import combinations

import pytest
import resvg_py
from wallfiles import KIOSK, WALL, change_wall, load_wall

from nesting.drawings.record import Area, Line, Text, bounds_of
from nesting.drawings.svg import to_svg
from nesting.walls.cladding import divide_wall
from nesting.walls.plan import draw_wall

WALLS = {
    "apse": WALL,
    "kiosk": KIOSK,
    "inches": change_wall(('units = "mm"', 'units = "in"'), ("1980", "96"), ("3000", "144"),
                          ("cavity = 150", "cavity = 6"), ("panel_thickness = 25",
                          "panel_thickness = 1"), ("thickness = 25", "thickness = 0.5"),
                          ("height = 2000", "height = 96"), ("joint = 20", "joint = 0.75")),
    "shallow": change_wall(("radius = 3000", 'radius = "4000 m"'), ("angle = 90", "length = 8000")),
}  # fmt: skip


@pytest.fixture(params=WALLS)
def wall(request, tmp_path):
    """Return one of several walls."""
    return load_wall(tmp_path, WALLS[request.param])


def layer(drawing, name):
    """Return the shapes of a layer."""
    return next(each.shapes for each in drawing.layers if each.name == name)


def test_every_panel_of_a_row_is_drawn(wall):
    """As many areas as panels, each with two ticks where joints or ends are."""
    stretches = divide_wall(wall)
    shapes = layer(draw_wall(wall, stretches), "panels")
    count = sum(len(stretch.spans) for stretch in stretches)
    assert len([shape for shape in shapes if isinstance(shape, Area)]) == count
    ticks = [shape for shape in shapes if isinstance(shape, Line) and len(shape.points) == 2]
    assert len(ticks) == 2 * count


def test_every_mark_stands_on_the_sheet_once_and_meets_no_other(wall):
    """No two names overlap, and none lies on a panel."""
    stretches = divide_wall(wall)
    drawing = draw_wall(wall, stretches)
    names = [shape for shape in layer(drawing, "names") if isinstance(shape, Text)]
    assert sorted(name.words.rpartition("× ")[2] for name in names) == sorted(  # noqa: RUF001
        stretch.mark for stretch in stretches
    )
    assert not any(one.rect.overlaps(other.rect) for one, other in combinations(names, 2))
    sheet = bounds_of(layer(drawing, "sheet"))
    assert all(sheet.holds(text.rect) for text in drawing.texts)


def test_the_key_gives_sizes_radii_and_joints(tmp_path):
    """What is ordered stands beside the plan."""
    wall = load_wall(tmp_path)
    words = [text.words for text in draw_wall(wall, divide_wall(wall)).texts]
    assert "apse-inner: 4 of 1160.597 mm × 2000 mm" in words  # noqa: RUF001
    assert "concave face, R 3000 mm" in words
    assert "on convex bed, R 2975 mm" in words
    assert "Joints 20 mm" in words
    assert "Face to face 200 mm" in words


def test_joints_that_take_the_rest_stand_with_their_panels(tmp_path):
    """Each mark has its own, and the joint asked for holds where none is given."""
    text = change_wall(("[wall]", '[widths]\ndivision = 5\nrest = "joints"\n[wall]'))
    wall = load_wall(tmp_path, text)
    words = [text.words for text in draw_wall(wall, divide_wall(wall)).texts]
    assert "joints 20.683 mm" in words
    assert "Joints 20 mm, or as given" in words


def test_the_wing_is_drawn_to_the_stated_scale(tmp_path):
    """Two panels and a joint and a half on the inner face measure their length over the scale."""
    wall = load_wall(tmp_path)
    drawing = draw_wall(wall, divide_wall(wall))
    areas = [shape for shape in layer(drawing, "panels") if isinstance(shape, Area)]
    words = next(text.words for text in drawing.texts if text.words.startswith("Scale 1:"))
    scale = float(words.split("1:")[1].split()[0])
    assert bounds_of(areas[:2]).width == pytest.approx(1970 / scale, abs=0.002)


@pytest.mark.long
def test_a_long_key_is_told_whole(tmp_path):
    """With 240 marks of 51 letters the sheet is as large as their list needs."""
    parts = "".join(
        f'[[part]]\nname = "{number:W>45}"\nform = "run"\nlength = 1500\npanels = 1\n'
        for number in range(120)
    )
    wall = load_wall(tmp_path, WALL[: WALL.index("[[part]]")] + parts)
    drawing = draw_wall(wall, divide_wall(wall))
    listed = [text for text in layer(drawing, "key") if isinstance(text, Text)]
    assert sum("× 2000 mm" in text.words for text in listed) == 240  # noqa: RUF001
    sheet = bounds_of(layer(drawing, "sheet"))
    assert all(sheet.holds(text.rect) for text in drawing.texts)


def test_the_plan_is_a_picture(wall):
    """The SVG renders."""
    svg = to_svg(draw_wall(wall, divide_wall(wall)))
    assert len(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96))) > 10_000
