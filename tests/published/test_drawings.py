"""Liners read from drawings against printed figures, exact areas, and readers of other hands.

The DXF files are written, and their entities evaluated, by ezdxf; the SVG files are read a second
time by svgelements. "mm" stands for whichever unit a source uses where its relation has no unit.
"""

import io
import math
from dataclasses import replace
from fractions import Fraction

import ezdxf
import pytest
import shapely
import svgelements
from drawnliners import MM, OPTIONS, area_mm2, bounds_mm, from_dxf, from_svg, on, svg_bytes
from printed import LAST_PLACE, Figure

from nesting.shapes.curves import bulge_arc
from nesting.shapes.geometry import to_shapely

RADII = "Machinery's Handbook, 31st ed. 2020, p. 79"
SEGMENTS = "Machinery's Handbook, 31st ed. 2020, p. 50, examples 3 and 4"
ABSOLUTE = "W3C, CSS Values and Units 3, Absolute Lengths"
INCH = "16 CFR 500.19: 1 in = 2.54 cm"
EXACT = "arithmetic, no outside source"
FINE = replace(OPTIONS, chord_error=MM // 100)
SCALE = 10  # a unit of the book is drawn 10 mm long


def draw_segment(layer):
    """Return what draws the segment of radius 12 and depth 2 as one polyline with a bulge."""
    half = math.sqrt(12**2 - 10**2)
    ends = [(100 - half * SCALE, 100), (100 + half * SCALE, 100)]
    points = [(*ends[1], 2 / half), (*ends[0], 0)]  # bulge: depth over half the chord
    return lambda doc, space: space.add_lwpolyline(
        points, format="xyb", close=True, dxfattribs=on(layer)
    )


def segment():
    """Return the segment as an ornament."""
    return from_dxf(draw_segment("ornament"), options=FINE).liner.ornaments[0].outline


def disc(layer, radius):
    """Return the area of a circle read in a role [mm2]."""
    found = from_svg(f'<circle class="{layer}" cx="900" cy="600" r="{radius}"/>')
    shapes = found.liner.ornaments if layer == "ornament" else found.liner.zones
    return area_mm2(shapes[0].outline)


def wide(text, head):
    """Return the width of an SVG page's outline [mm]."""
    return Fraction(from_svg(text, head=head, rim=False).liner.outline.bounds.width, MM)


def inch_rim():
    """Return the height of an outline drawn 1/64 in high in a DXF in inches [mm]."""
    corners = [(0, 0), (9, 0), (9, 1 / 64), (0, 1 / 64)]
    found = from_dxf(lambda doc, space: None, units=1, rim=corners)
    return Fraction(found.liner.outline.bounds.height, MM)


FIGURES = (
    Figure(
        SEGMENTS,
        "area of the segment of radius 12 and depth 2, read from a DXF polyline with a bulge",
        "18.01",
        lambda: area_mm2(segment()) / SCALE**2,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        SEGMENTS,
        "chord of the same segment",
        "13.27",
        lambda: segment().bounds.width / MM / SCALE,
        "0.005",
        LAST_PLACE,
    ),
    Figure(
        RADII,
        "radius of the arc of chord 16 and height 6, from its bulge 6/8",
        "8.333",
        lambda: math.hypot(*bulge_arc((0.0, 0.0), (16.0, 0.0), 6 / 8).across),
        "0.0005",
        LAST_PLACE,
    ),
    Figure(
        ABSOLUTE,
        "a box of 96 px, in mm",
        "25.4",
        lambda: wide('<rect class="outline" width="96" height="9"/>', 'width="96" height="9"'),
    ),
    Figure(
        ABSOLUTE,
        "a box of 1 in on a page in mm with a view box in px, in mm",
        "25.4",
        lambda: wide(
            '<rect class="outline" width="1in" height="9"/>',
            'width="254mm" height="254mm" viewBox="0 0 960 960"',
        ),
    ),
    Figure(INCH, "1/64 in of a DXF in inches, in mm", "0.396875", inch_rim),
    Figure(
        EXACT,
        "disc of radius 400 mm as an ornament, in mm2: never less",
        "502654.825",
        lambda: disc("ornament", 400),
        "125.7",
        "0.05 mm along its rim",
    ),
    Figure(
        EXACT,
        "the same disc as a blank zone, in mm2: never more",
        "502654.825",
        lambda: disc("blank", 400),
        "125.7",
        "0.05 mm along its rim",
    ),
)


@pytest.mark.parametrize("figure", FIGURES, ids=lambda figure: figure.case)
def test_a_drawing_has_the_printed_figure(figure):
    """Ours and the printed figure are no farther apart than is said, for the reason given."""
    assert figure.off() <= Fraction(figure.within)


@pytest.mark.parametrize("radius", [0.7, 5, 33.3, 100, 599.9])
@pytest.mark.parametrize("error", [0.01, 0.05, 1])
def test_a_disc_is_never_smaller_as_ornament_nor_larger_as_zone_outline(radius, error):
    """The sign of the error is known, and its size: at most the chord error along the rim."""
    options = replace(OPTIONS, chord_error=round(error * MM))
    circle = f'cx="900.01" cy="600.02" r="{radius}"'
    body = f'<circle class="ornament" {circle}/><circle class="blank" {circle}/>'
    found = from_svg(body, options=options)
    exact, most = math.pi * radius**2, error * 2 * math.pi * (radius + error)
    assert exact < area_mm2(found.liner.ornaments[0].outline) < exact + most
    assert exact - most < area_mm2(found.liner.zones[0].outline) < exact
    rim = from_svg(f'<circle class="outline" {circle}/>', options=options, rim=False)
    assert exact - most < area_mm2(rim.liner.outline) < exact


@pytest.mark.parametrize(("role", "sign"), [("ornament", 1), ("blank", -1)])
def test_a_bite_is_never_larger_in_an_ornament_nor_smaller_in_a_zone(role, sign):
    """Where a rim bulges inward chords and tangents change places: a box less a half disc."""
    body = f'<path class="{role}" d="M100 100h400v300h-100a100 100 0 0 0-200 0h-100z"/>'
    found = from_svg(body).liner
    (shape,) = found.ornaments or found.zones
    exact = 400 * 300 - math.pi * 100**2 / 2
    assert 0 < sign * (area_mm2(shape.outline) - exact) < 0.05 * math.pi * 100


def draw_everything(doc, space):
    """Draw closed entities of many kinds, some in blocks under odd maps."""
    leaf = doc.blocks.new("leaf", base_point=(3, 4))
    leaf.add_ellipse((10, 20), (40, 15), 0.4)
    leaf.add_circle((-60, 0), 25)
    leaf.add_lwpolyline([(60, 0, 0.4), (90, 0, -0.3), (75, 60, 0.2)], format="xyb", close=True)
    branch = doc.blocks.new("branch")
    branch.add_blockref("leaf", (0, 0), dxfattribs={"rotation": 20})
    branch.add_blockref("leaf", (0, 200), dxfattribs={"xscale": -1.3, "yscale": 0.7})
    space.add_blockref("branch", (400, 300), dxfattribs=on("ornament", rotation=33))
    space.add_blockref(
        "branch", (1500, 700), dxfattribs=on("ornament", xscale=1.1, yscale=-1.1, rotation=110)
    )
    space.add_circle((-900, 900), 60, dxfattribs=on("ornament", extrusion=(0, 0, -1)))


def theirs(entity):
    """Yield points on a closed entity as the DXF library evaluates it, blocks taken apart."""
    if entity.dxftype() == "INSERT":
        for part in entity.virtual_entities():
            yield from theirs(part)
    elif entity.dxftype() == "LWPOLYLINE":
        spots = []
        for part in entity.virtual_entities():
            is_line = part.dxftype() == "LINE"
            ends = [part.dxf.start, part.dxf.end] if is_line else part.flattening(0.01)
            spots += [(point[0], point[1]) for point in ends]
        yield spots
    else:
        yield [(point[0], point[1]) for point in entity.flattening(0.01)]


def test_entities_lie_where_the_dxf_library_evaluates_them():
    """Ours hold every point of theirs, none farther from a rim than the chord error.

    They take a polyline apart under an unequal scale, so shapes are not compared one by one.
    """
    doc = ezdxf.new(units=4)
    draw_everything(doc, doc.modelspace())
    expected = [spots for each in doc.modelspace() for spots in theirs(each)]
    found = from_dxf(draw_everything).liner.ornaments
    assert len(found) == 13
    ground = shapely.MultiPolygon([to_shapely(ornament.outline) for ornament in found])
    points = shapely.points([(x * MM, y * MM) for spots in expected for x, y in spots])
    assert len(points) > 1000
    assert shapely.distance(ground, points).max() < 0.01  # 1.25 nm: their own rounding
    assert shapely.distance(ground.boundary, points).max() < 0.05 * MM + 2


TAME = """<g class="ornament" transform="translate(300 200) rotate(15) scale(1.2 0.9)">
<path d="M0 0c60-90 140-90 200 0s-20 160-100 160S-60 90 0 0z"/>
<path d="M300 0q50 80 120 20t60 90l-160 30z"/>
<g transform="skewX(12) translate(520 40)"><path d="M0 0a60 40 30 1 1 80 30l-60 50z"/></g>
<ellipse cx="60" cy="300" rx="50" ry="20"/><rect x="200" y="250" width="90" height="60" rx="12"/>
<polygon points="400,260 480 300 430,350"/></g>"""


def test_shapes_lie_where_another_reader_of_svg_has_them():
    """Points of theirs on every curve lie in our ornament and by its rim, transforms and all.

    Theirs are moved by their own maps point by point: their arcs cannot be skewed.
    """
    drawing = svgelements.SVG.parse(io.BytesIO(svg_bytes(TAME)), ppi=96, reify=False)
    shapes = [
        (svgelements.Path(each), each.transform)
        for each in drawing.elements()
        if isinstance(each, svgelements.Shape) and each.id != "outline"
    ]
    found = from_svg(TAME).liner.ornaments
    assert len(found) == len(shapes) == 6
    for ornament, (path, matrix) in zip(found, shapes, strict=True):
        path.transform = svgelements.Matrix()
        curves = [each for each in path if not isinstance(each, svgelements.Move)]
        spots = [
            matrix.point_in_matrix_space(each.point(part / 20))
            for each in curves
            for part in range(21)
        ]
        points = shapely.points([(x * MM, (1200 - y) * MM) for x, y in spots_mm(spots)])
        outline = to_shapely(ornament.outline)
        assert shapely.distance(outline, points).max() < 0.001 * MM  # their px have 12 digits
        assert shapely.distance(outline.exterior, points).max() < 0.051 * MM


def spots_mm(spots):
    """Return points in px as mm."""
    return [(spot.x * 25.4 / 96, spot.y * 25.4 / 96) for spot in spots]


def test_bounds_are_those_of_the_curves():
    """A disc keeps its width to the step: tangents and chords touch where it is widest."""
    body = '<circle class="ornament" cx="500" cy="500" r="40"/>'
    assert bounds_mm(from_svg(body).liner.ornaments[0].outline) == (460, 660, 540, 740)
