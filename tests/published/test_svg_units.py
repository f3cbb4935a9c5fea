"""Sheet and units of a drawing against published figures."""

from fractions import Fraction
from functools import cache

import pytest
import resvg_py
from ferry import make_drum_job, make_drum_schedule, make_ferry_job, make_ferry_schedule
from pngimage import read_png
from printed import Figure

from nesting.drawings.masking import draw_layout
from nesting.drawings.record import Area, Drawing, Layer
from nesting.drawings.svg import to_svg

CSS = "W3C, CSS Values and Units 3, Absolute Lengths"
SVG = "W3C, SVG, Coordinate Systems, with 1 mm = 96/25.4 px"
ISO = "ISO 216, A3"
ASME = "ASME Y14.1, size B; 1 in = 2.54 cm"
PIXEL = ("0.265", "a pixel")
MM_PER_PIXEL = Fraction("25.4") / 96


def bare_sheet():
    """Return width and height [px] of a sheet of 50.8 x 25.4 mm, rendered at 96 px to the inch."""
    svg = to_svg(Drawing("units", 50.8, 25.4, "", "", ()))
    return read_png(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96)))[:2]


@cache
def bar():
    """Return left end, length, lower edge and height [mm] of a bar as its pixels have them.

    It is recorded 50 x 5 mm large, its lower left corner 20 mm from the left and 10 mm from the
    lower edge of the sheet.
    """
    ring = ((20, 10), (70, 10), (70, 15), (20, 15))
    svg = to_svg(Drawing("bar", 76.2, 50.8, "", "", (Layer("bar", (Area((ring,), "datum"),)),)))
    picture = resvg_py.svg_to_bytes(svg_string=svg, dpi=96, background="white")
    _, height, rows = read_png(bytes(picture))
    inked = [(x, y) for y, row in enumerate(rows) for x, grey in enumerate(row) if grey < 128]
    columns, lines = {x for x, _ in inked}, {y for _, y in inked}
    pixels = (min(columns), len(columns), height - max(lines) - 1, len(lines))
    return tuple(float(count * MM_PER_PIXEL) for count in pixels)


@cache
def sheet(units):
    """Return height and width [mm] of the sheet of a job in the units, as its pixels have them."""
    job, schedule = (
        (make_ferry_job(), make_ferry_schedule())
        if units == "mm"
        else (make_drum_job(), make_drum_schedule())
    )
    svg = to_svg(draw_layout(job, schedule, schedule.layouts[0]))
    width, height, _ = read_png(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96)))
    return float(height * MM_PER_PIXEL), float(width * MM_PER_PIXEL)


FIGURES = (
    Figure(CSS, "1 in across the sheet, in px", "96", lambda: Fraction(bare_sheet()[0], 2)),
    Figure(CSS, "1 in up the sheet, in px", "96", lambda: Fraction(bare_sheet()[1], 1)),
    Figure(SVG, "left end of a bar drawn at x 20 mm", "20", lambda: bar()[0], *PIXEL),
    Figure(SVG, "length of a bar drawn 50 mm long", "50", lambda: bar()[1], *PIXEL),
    Figure(SVG, "y of a bar drawn 10 mm up the sheet", "10", lambda: bar()[2], *PIXEL),
    Figure(SVG, "height of a bar drawn 5 mm high", "5", lambda: bar()[3], *PIXEL),
    Figure(ISO, "short side of a mm job's sheet", "297", lambda: sheet("mm")[0], *PIXEL),
    Figure(ISO, "long side of a mm job's sheet", "420", lambda: sheet("mm")[1], *PIXEL),
    Figure(
        ASME,
        "short side of an inch job's sheet, in in",
        "11",
        lambda: sheet("in")[0] / 25.4,
        "0.0105",
        "a pixel",
    ),
    Figure(
        ASME,
        "long side of an inch job's sheet, in in",
        "17",
        lambda: sheet("in")[1] / 25.4,
        "0.0105",
        "a pixel",
    ),
)

CASES = [
    pytest.param(figure, marks=pytest.mark.long) if "job's sheet" in figure.case else figure
    for figure in FIGURES
]
"""A sheet is measured on its pixels, which takes long."""


@pytest.mark.parametrize("figure", CASES, ids=lambda figure: figure.case)
def test_a_drawing_has_the_published_measures(figure):
    """One user unit is one millimetre, y grows upward in records, and sheets are standard ones."""
    assert figure.off() <= Fraction(figure.within), figure.source
