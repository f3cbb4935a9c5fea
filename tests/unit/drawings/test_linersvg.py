"""SVG of our own is in mm and reads back equal."""

from dataclasses import replace

import pytest
from drawnliners import OPTIONS
from handjob import hand_job, rect
from oddliner import ODD

from nesting.drawings.linersvg import liner_to_svg
from nesting.liners.build import build_liner
from nesting.liners.svgread import read_svg

NAMED = replace(ODD, name="Reeds & co")
SHIFTED = replace(hand_job().liner, outline=rect(100, 50, 1100, 750))


def read_back(liner, options):
    """Return the liner of its own drawing."""
    sketch = read_svg("a.svg", liner_to_svg(liner).encode("utf-8"), options)
    return build_liner(sketch, options, "a.svg", "a")


@pytest.mark.parametrize("liner", [hand_job().liner, ODD, NAMED], ids=["hand", "odd", "named"])
def test_a_liner_reads_back_equal(liner):
    """Every step of every shape, all names, thickness, relief and kind of ground."""
    found = read_back(liner, replace(OPTIONS, thickness=None))
    assert found.liner == liner
    assert found.left_out == ()


def test_a_liner_away_from_its_datum_keeps_its_place_with_the_origin():
    """The page's lower left corner is the datum corner."""
    assert read_back(SHIFTED, replace(OPTIONS, keep_origin=True)).liner.outline == SHIFTED.outline


def test_the_page_is_in_mm():
    """Its view box has the same measure."""
    text = liner_to_svg(hand_job().liner)
    assert 'width="1200mm" height="800mm" viewBox="0 0 1200 800"' in text
    assert text == liner_to_svg(hand_job().liner)
