"""Small walls as people write them, and changed copies of them."""

from nesting.errors import InputErrors
from nesting.walls.read import read_wall

WALL = """\
title = "Bath house, apse"
units = "mm"

[liner]
thickness = 25

[wall]
skins = "both"
cavity = 150
panel_thickness = 25
height = 2000
joint = 20

[[part]]
name = "wing"
form = "run"
length = 1980
panels = 2
[[part]]
name = "apse"
form = "arc"
radius = 3000
angle = 90
panels = 4
to = "inner face"
"""
"""A wing and a quarter round; both skins, 200 mm from face to face."""

SQUARE = """\
title = "Ferry terminal, kiosk"
units = "mm"
[liner]
thickness = 13
[wall]
skins = "outer"
panel_thickness = 20
height = 2420
rows = 2
joint = 20
widest = 1000
closed = true
"""
SIDE = (
    '[[part]]\nform = "run"\nlength = 3000\n[[part]]\nform = "corner"\nangle = 90\nreturn = 250\n'
)
KIOSK = SQUARE + SIDE * 4
"""A closed square of 3 m with a corner return at each corner."""


def change_wall(*changes, text=WALL):
    """Return the wall text with each (old, new) exchanged once; old must be there."""
    for old, new in changes:
        assert old in text, f"{old!r} is not in the wall"
        text = text.replace(old, new, 1)
    return text


def load_wall(folder, text=WALL):
    """Write a wall file and return what it describes."""
    path = folder / "wall.toml"
    path.write_text(text, encoding="utf-8")
    return read_wall(path)


def list_wall_mistakes(folder, text):
    """Return the lines of the mistakes that reading the file tells; an empty list for none."""
    try:
        load_wall(folder, text)
    except InputErrors as errors:
        return str(errors).splitlines() or ["refused without a reason"]
    return []
