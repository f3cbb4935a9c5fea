"""The drawing to carve from."""

import pytest
from motiffiles import load_motif

from nesting.zones.carving import draw_carving
from nesting.zones.trade import plan_motif
from nesting.zones.uses import list_uses


@pytest.fixture(scope="module")
def drawing(tmp_path_factory):
    """Return the drawing of the small motif's answer."""
    trade = plan_motif(load_motif(tmp_path_factory.mktemp("motif")))
    return draw_carving(trade.best, list_uses(trade.best.zoning))


def words_of(drawing, name):
    """Return the words of one layer by their style."""
    shapes = next(layer.shapes for layer in drawing.layers if layer.name == name)
    return {shape.words: shape.style for shape in shapes if hasattr(shape, "words")}


def test_every_side_of_a_strip_is_measured_from_the_datum(drawing):
    """Sides of strips are bold, the rim is plain."""
    figures = words_of(drawing, "dimensions")
    assert {figures[at] for at in ("300", "352")} == {"bold"}
    assert {figures[at] for at in ("0", "652", "400")} == {"plain"}


def test_strips_and_ornaments_are_named(drawing):
    """On the liner, and in the key with where they lie."""
    assert {"S1", "wave", "leaf"} <= set(words_of(drawing, "names"))
    key = words_of(drawing, "key")
    assert {"wave: 20, 20", "leaf: 372, 20"} <= set(key)
    assert "S1: x 300 to 352, 52 wide; gives A1, B1" in " ".join(key)


def test_the_strip_under_the_sheet_has_size_and_scale(drawing):
    """What it is, how large, how many casts."""
    words = " ".join(words_of(drawing, "strip"))
    assert "Where it stays plain" in words
    assert "652 × 400 mm" in words  # noqa: RUF001 - the sign
    assert "1 strip, 5 casts" in words
