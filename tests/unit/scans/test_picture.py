"""The picture of what was found on a scan."""

from itertools import combinations

import numpy as np
import pytest
from makescans import found_on, leafy_scan
from pngimage import read_png

from nesting.drawings.record import Area, Rect, bounds_of
from nesting.drawings.sheet import PAPERS
from nesting.drawings.svg import to_svg
from nesting.scans.picture import draw_scan


@pytest.fixture(scope="module")
def found():
    """Return the liner of a leafy scan with a hole in it."""
    heights, true = leafy_scan(3)
    rows, columns = np.mgrid[0:200:10, 0:380:10].reshape(2, -1)
    free = [
        not true[max(0, y - 30) : y + 50, max(0, x - 30) : x + 60].any()
        for y, x in zip(rows, columns, strict=True)
    ]
    y, x = rows[free.index(True)], columns[free.index(True)]
    heights[max(y, 5) : y + 20, max(x, 5) : x + 30] = np.nan
    return found_on(heights)


def layer(drawing, name):
    """Return the shapes of one layer."""
    return next(each.shapes for each in drawing.layers if each.name == name)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_everything_lies_on_a_standard_sheet(found, units):
    """The sheet is one of the papers, and every shape is inside its margins."""
    drawing = draw_scan(found, "Reeds", units)
    assert (drawing.width, drawing.height) in [size[1:] for size in PAPERS[units]]
    inside = Rect(5, 5, drawing.width - 5, drawing.height - 5)
    for name in ("heights", "found", "names", "key", "strip"):
        assert inside.holds(bounds_of(layer(drawing, name)))


def test_names_do_not_meet(found):
    """No two names on the picture overlap, and every ornament has one."""
    texts = [
        shape
        for shape in layer(draw_scan(found, "Reeds", "mm"), "names")
        if hasattr(shape, "words")
    ]
    assert not any(a.rect.overlaps(b.rect) for a, b in combinations(texts, 2))
    assert {ornament.name for ornament in found.liner.ornaments} <= {text.words for text in texts}


def test_every_ornament_and_zone_is_drawn(found):
    """One outline for each ornament, one tint for each zone, hatch where nothing was read."""
    styles = [
        s.style for s in layer(draw_scan(found, "Reeds", "mm"), "found") if isinstance(s, Area)
    ]
    assert styles.count("ornament") == len(found.liner.ornaments)
    assert styles.count("plain") == len(found.liner.zones)
    assert styles.count("masked") == sum(part.unread == 1 for part in found.parts) == 1


def test_the_key_says_how_the_scan_was_read(found):
    """Legend and notes stand in the key, on lines of their own."""
    texts = [s for s in layer(draw_scan(found, "Reeds", "mm"), "key") if hasattr(s, "words")]
    words = " ".join(text.words for text in texts)
    assert "Ornament, with its doubt" in words
    assert "Without readings" in words
    assert "420 x 240 pixels" in words
    assert not any(a.rect.overlaps(b.rect) for a, b in combinations(texts, 2))


def test_the_picture_can_be_rendered(found):
    """The SVG is small, and has ink where an ornament stands."""
    resvg = pytest.importorskip("resvg_py")
    svg = to_svg(draw_scan(found, "Reeds", "mm"))
    assert len(svg) < 60_000
    width, height, rows = read_png(bytes(resvg.svg_to_bytes(svg_string=svg, dpi=48)))
    assert width > height
    assert sum(grey < 200 for row in rows for grey in row) > 2000
