"""Full-size templates against published measures, read back by readers that are not ours.

Pages are measured in the PDF by one reader, its pixels by another; SVG sheets in their text and in
the pixels of a third. A length that runs over several sheets is summed from register cross to
register cross, as a person lays them.
"""

import itertools
import math
import re
from fractions import Fraction
from functools import cache

import pytest
from handjob import MM, hand_job
from longcases import leave_long
from pdfink import page_sizes, read_paths, render, render_svg
from printed import LAST_PLACE, Figure
from templates import draw, hand_template, long_dam_template

from nesting.drawings.pdf import to_pdf
from nesting.drawings.svg import to_svg
from nesting.shapes.geometry import Box
from nesting.templates.ribs import rib_template, shape_rib
from nesting.values.bed import Bed
from nesting.values.bend import Bend

ISO = "ISO 216, trimmed sizes"
ASME = "ASME Y14.1; 1 in = 2.54 cm"
PDF = "ISO 32000, default user space: 1 unit = 1/72 in"
CSS = "W3C, CSS Values and Units 3: 1 in = 96 px"
BOOK = "Machinery's Handbook, 31st ed. 2020, p. 79"
SEGMENT = "Machinery's Handbook, 31st ed. 2020, p. 50, examples 3 and 4"
SURVEY = "solved surveying problem, simple curves"
OWN = "drawn 1000 mm long over four sheets of A4"
WRITTEN = ("1e-3", "figures of a page are written to a micrometre or so")
READ = ("2e-3", "points are drawn to a micrometre")
LAID = ("0.1", "what a person can lay")
INKED = ("0.05", "shown to 0.1 mm, as pixels may differ a little between versions of the readers")


@cache
def page(paper):
    """Return short and long side [mm] of a page on the paper, as its reader has them."""
    _tiling, drawings = draw(hand_template(), paper, way="portrait")
    return page_sizes(to_pdf(drawings[:1]))[0]


@cache
def long_dam():
    """Return the tiling, the sheets and the PDF of a dam 1000 mm long."""
    tiling, drawings = draw(long_dam_template())
    return tiling, drawings, to_pdf(drawings)


def bar_of(points, length):
    """Return the extent along x of the small black boxes of a check bar that long [mm]."""
    boxes = [ring for ring in points if max(y for _, y in ring) - min(y for _, y in ring) < 1.5]
    rows = {}
    for ring in boxes:
        rows.setdefault(round(max(x for x, _ in ring) - min(x for x, _ in ring), 2), []).append(
            ring
        )
    xs = [x for ring in rows[round(length, 2)] for x, _ in ring]
    return max(xs) - min(xs)


def pdf_bar_pt():
    """Return the bar of 4 in [pt] of the first sheet."""
    rings = [path.rings[0] for path in read_paths(long_dam()[2]) if not path.stroked]
    return bar_of(rings, 12.7) * 72 / 25.4


def svg_bar_px():
    """Return the ink of the bar of 4 in [px] on the first sheet, rendered at 96 px to the inch."""
    tiling, drawings, _ = long_dam()
    picture = render_svg(to_svg(drawings[0]), tiling.width, tiling.height, dpi=96)
    y = round((tiling.height - tiling.setting.margin - 2.2 - 1.3 / 2) * picture.up)
    middle = tiling.setting.margin + 27
    row = picture.rows[y][round(middle * picture.across) :][: round(105 * picture.across)]
    upper = picture.rows[round(y - 1.3 * picture.up)][round(middle * picture.across) :]
    inked = [x for x in range(len(row)) if row[x] < 128 or upper[x] < 128]
    return len(range(inked[0], inked[-1] + 1))


def dam_length(place):
    """Return the dam's length [mm] laid sheet on sheet; ``place(sheet, spot)`` finds a spot's x.

    Spots are given where they should lie on the ground: the dam's two ends, and the cross at the
    foot of each join.
    """
    grid, count = long_dam()[0].grid, len(long_dam()[0].cells)
    assert count == 4
    joins = [(grid.core((0, column)).x1, grid.core((0, 0)).y0 + 12) for column in range(count - 1)]
    spots = [(100, 662), *joins, (1100, 662)]
    parts = [place(sheet, spots[sheet + 1]) - place(sheet, spots[sheet]) for sheet in range(count)]
    return sum(parts)


def on_sheet(sheet, spot):
    """Return where a spot of the ground should lie on a sheet [mm]."""
    tiling = long_dam()[0]
    window, place = tiling.grid.window(tiling.cells[sheet]), tiling.window_place
    return spot[0] - window.x0 + place.x0, spot[1] - window.y0 + place.y0


def nearest_upright(rings, spot):
    """Return the x of the upright line through a spot, of all drawn nearest to it."""
    uprights = [
        (abs(a[0] - spot[0]), a[0])
        for ring in rings
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        if abs(a[0] - b[0]) < 0.01 and min(a[1], b[1]) < spot[1] < max(a[1], b[1])
    ]
    distance, x = min(uprights)
    assert distance < 1
    return x


def in_pdf(sheet, spot):
    """Find a spot in the content of the PDF, among the thin lines of crosses and dams."""
    rings = [
        ring for path in read_paths(long_dam()[2], sheet) if path.stroked for ring in path.rings
    ]
    return nearest_upright(rings, on_sheet(sheet, spot))


def in_svg(sheet, spot):
    """Find a spot in the text of the SVG sheet, where y grows downward."""
    tiling, drawings, _ = long_dam()
    rings = [
        [(float(x), tiling.height - float(y)) for x, y in re.findall(r"([\d.]+) ([\d.]+)", d)]
        for d in re.findall(r' d="([^"]*)"', to_svg(drawings[sheet]))
    ]
    return nearest_upright(rings, on_sheet(sheet, spot))


@cache
def picture_of(sheet, kind):
    """Return a sheet rendered at 300 dpi."""
    tiling, drawings, pdf = long_dam()
    if kind == "pdf":
        return render(pdf, sheet)
    return render_svg(to_svg(drawings[sheet]), tiling.width, tiling.height)


def in_ink(kind):
    """Return a finder that takes the middle of the ink of an upright line just below a spot."""

    def place(sheet, spot):
        x, y = on_sheet(sheet, spot)
        return picture_of(sheet, kind).ink_centre((x - 2, y - 4.5, x + 2, y - 1))[0]

    return place


@cache
def rib_outline(radius, arc):
    """Return the points [mm] of a rib with that edge, as read from its PDF, on one sheet."""
    bed = Bed("drum", "convex", round(radius * MM))
    box = Box(0, 0, round(arc * MM), 100 * MM)
    rib = shape_rib(Bend(bed, 0), box, spacing=300, deck=0, depth=100)
    _tiling, drawings = draw(rib_template(hand_job(), bed, rib), "a0")
    assert len(drawings) == 1
    paths = [path for path in read_paths(to_pdf(drawings)) if path.stroked]
    return max((path.rings[0] for path in paths), key=len)


def rib(radius, arc):
    """Return chord, rise and length of the edge [mm] of a rib as read from its PDF."""
    points = rib_outline(radius, arc)
    base = min(y for _, y in points)
    edge = [(x, y) for x, y in points if y > base + 1]
    chord = max(x for x, _ in edge) - min(x for x, _ in edge)
    length = sum(math.dist(a, b) for a, b in itertools.pairwise(edge))
    return chord, max(y for _, y in edge) - min(y for _, y in edge), length


def arc_over(radius, height):
    """Return the arc of that radius whose middle stands that high above its chord."""
    return 2 * radius * math.acos(1 - height / radius)


A_SIZES = {"A4": "210 297", "A3": "297 420", "A2": "420 594", "A1": "594 841", "A0": "841 1189"}
INCH_SIZES = {
    "letter": "8.5 11",
    "tabloid": "11 17",
    "ANSI-C": "17 22",
    "ANSI-D": "22 34",
    "ANSI-E": "34 44",
}


def side_figures(sizes, source, per_unit, unit):
    """Return the figures of both sides of every paper."""
    return tuple(
        Figure(
            source,
            f"{which} side of a page on {name}, in {unit}",
            printed,
            lambda name=name, side=side: page(name)[side] / per_unit,
            *WRITTEN,
        )
        for name, both in sizes.items()
        for side, (which, printed) in enumerate(zip(("short", "long"), both.split(), strict=True))
    )


FIGURES = (
    *side_figures(A_SIZES, ISO, 1, "mm"),
    *side_figures(INCH_SIZES, ASME, 25.4, "in"),
    Figure(PDF, "check bar of 4 in, in units of a PDF", "288", pdf_bar_pt, *READ),
    Figure(CSS, "check bar of 4 in on an SVG sheet, in px", "384", svg_bar_px, "1", "a pixel"),
    Figure(OWN, "from the PDF's content", "1000", lambda: dam_length(in_pdf), *LAID),
    Figure(
        OWN,
        "from the PDF's ink at 300 dpi",
        "1000",
        lambda: round(dam_length(in_ink("pdf")), 1),
        *INKED,
    ),
    Figure(OWN, "from the SVG's text", "1000", lambda: dam_length(in_svg), *LAID),
    Figure(
        OWN,
        "from the SVG's ink at 300 dpi",
        "1000",
        lambda: round(dam_length(in_ink("svg")), 1),
        *INKED,
    ),
    Figure(
        BOOK,
        "chord of a rib of radius 8 1/3 and height 6, in its PDF",
        "16",
        lambda: rib(1250 / 3, arc_over(1250 / 3, 300))[0] / 50,
        *READ,
    ),
    Figure(
        BOOK,
        "chord of a rib of radius 60 and height 8, in its PDF",
        "59.86",
        lambda: rib(600, arc_over(600, 80))[0] / 10,
        "0.01",
        "the book cuts off after two places",
    ),
    Figure(
        SEGMENT,
        "chord of a rib of radius 12 and height 2, in its PDF",
        "13.27",
        lambda: rib(600, arc_over(600, 100))[0] / 50,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SEGMENT,
        "edge of the same rib, in its PDF",
        "14.06",
        lambda: rib(600, arc_over(600, 100))[2] / 50,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SURVEY,
        "chord of a rib of radius 311 over 26 degrees, in its PDF",
        "139.92",
        lambda: rib(1555, 1555 * math.radians(26))[0] / 5,
        "0.005",
        LAST_PLACE,
    ),
)


@pytest.mark.parametrize(
    "figure",
    leave_long(FIGURES, lambda figure: "300 dpi" in figure.case),
    ids=lambda figure: figure.case,
)
def test_a_template_is_true_to_size(figure):
    """What independent readers measure is what the sources print."""
    assert figure.off() <= Fraction(figure.within), figure.source


def test_a_wrong_scale_would_be_seen():
    """A PDF printed 1 % small fails: the measure of the dam is a measure, not a constant."""
    shrunk = dam_length(lambda sheet, spot: 0.99 * in_pdf(sheet, spot))
    assert abs(shrunk - 1000) > 9
