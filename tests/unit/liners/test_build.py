"""From pieces to a liner: datum, outline and holes, ornaments at the rim, zones, names, notes."""

from dataclasses import replace
from math import cos, sin, tau

import pytest
from drawnliners import MM, OPTIONS, area_mm2, bounds_mm, from_dxf, from_svg, on

from nesting.errors import InputErrors
from nesting.shapes.mending import sticks_out

ZONE = [(100, 100), (500, 100), (500, 400), (100, 400)]
ISLAND = [(200, 200), (250, 200), (250, 260), (200, 260)]
COMB = " ".join(f"{n / 4} {100 + 50 * (n % 2)}" for n in range(5200))


def disc(layer, x, y, radius):
    """Return the text of a circle of a role."""
    return f'<circle class="{layer}" cx="{x}" cy="{y}" r="{radius}"/>'


def draw_rim(corners, **more):
    """Return what is found in a DXF of nothing but an outline."""
    return from_dxf(lambda doc, space: None, rim=corners, **more)


def test_the_datum_is_the_lower_left_of_the_outline():
    """Whatever the drawing's origin, the outline begins at (0, 0); the note says where that is."""
    corners = [(1000.3, -50.7), (3400.3, -50.7), (3400.3, 1149.3), (1000.3, 1149.3)]
    found = draw_rim(corners)
    assert bounds_mm(found.liner.outline) == (0, 0, 2400, 1200)
    told = (
        "The datum corner is the lower left of the outline's bounds, (1000.3, -50.7) in the drawing"
    )
    assert told in found.notes


def test_the_origin_can_be_kept():
    """Positions are then those of the drawing."""
    corners = [(100, 50), (2500, 50), (2500, 1250), (100, 1250)]
    found = draw_rim(corners, options=replace(OPTIONS, keep_origin=True))
    assert bounds_mm(found.liner.outline) == (100, 50, 2500, 1250)
    assert "Positions are counted from the origin of the drawing" in found.notes


def test_far_from_its_origin_a_drawing_keeps_its_measures():
    """Site coordinates of hundreds of kilometres cost nothing."""
    x, y = 512_345_678.0, 4_987_654_321.0
    corners = [(x, y), (x + 2400, y), (x + 2400, y + 1200), (x, y + 1200)]
    assert bounds_mm(draw_rim(corners).liner.outline) == (0, 0, 2400, 1200)


def test_a_round_outline_lies_within_its_curve_and_its_hole_around_it():
    """Both take ground away from the liner, never add any."""
    found = from_svg(disc("outline", 500, 500, 400) + disc("outline", 500, 500, 50), rim=False)
    outline = found.liner.outline
    assert bounds_mm(outline) == (0, 0, 800, 800)
    drawn = 3.141592653589793 * (400**2 - 50**2)
    assert drawn - 0.05 * 2 * 3.15 * 450 < area_mm2(outline) < drawn
    assert len(outline.holes) == 1


def test_an_ornament_is_cut_at_the_rim_and_that_is_told():
    """What reaches past the rim is gone from the liner; a part beyond is left out."""
    found = from_svg(disc("ornament", 2400, 600, 100) + disc("ornament", 3000, 600, 10))
    (ornament,) = found.liner.ornaments
    assert bounds_mm(ornament.outline) == (2300, 500, 2400, 700)
    assert any("cut off there: circle in line 1 by up to 100 mm" in note for note in found.notes)
    assert found.left_out == (("circle in line 1", "it lies beyond the outline", 1),)


def test_ornament_and_outline_may_share_a_curve():
    """The one is larger, the other smaller than drawn: the difference is cut off without a word."""
    arc = "M100 100h600a300 300 0 0 1 0 600h-600z"
    body = f'<path class="outline" d="{arc}"/><path class="ornament" d="{arc}"/>'
    found = from_svg(body, rim=False)
    (ornament,) = found.liner.ornaments
    assert sticks_out([ornament.outline], found.liner.outline) == (None,)
    assert not any("cut off" in note for note in found.notes)


def test_a_shape_within_an_ornament_is_part_of_it_unless_it_has_a_name():
    """An eye drawn in a heron is no ornament of its own."""
    eye = '<circle class="ornament" id="{}" cx="500" cy="500" r="5"/>'
    outer = disc("ornament", 500, 500, 100)
    assert len(from_svg(outer + eye.format("path12")).liner.ornaments) == 1
    assert [each.name for each in from_svg(outer + eye.format("eye")).liner.ornaments] == [
        "ornament 1",
        "eye",
    ]


def test_an_open_line_within_an_ornament_is_part_of_it():
    """Veins of a leaf need not close."""
    vein = '<path class="ornament" fill="none" d="M450 500h100"/>'
    found = from_svg(disc("ornament", 500, 500, 100) + vein)
    assert found.left_out == (("path in line 1", "it lies inside circle in line 1", 1),)


def test_a_drawing_without_ornament_gets_a_warning():
    """A slip in the layer's name loses them all."""
    found = from_svg('<g id="ornaments"><circle cx="500" cy="500" r="90"/></g>')
    assert found.notes[0] == "Warning: no ornament was found; their layers are named ornament"
    assert not any("no ornament" in note for note in from_svg(disc("ornament", 9, 9, 5)).notes)


def test_an_ornament_that_crosses_itself_is_taken_whole():
    """All it encloses, moved outward; the note gives the place."""
    found = from_svg('<path class="ornament" d="M100 100L300 300V100L100 300z"/>')
    (ornament,) = found.liner.ornaments
    assert bounds_mm(ornament.outline)[0] <= 99.975
    assert any(
        "crosses itself (self-intersection at (200, 1000) mm" in each for each in found.notes
    )


def test_a_zone_is_smaller_than_its_curve_and_loses_its_islands():
    """An island in a zone is taken out of it, a little larger than drawn."""
    found = from_svg(disc("blank", 500, 500, 200) + disc("blank", 500, 500, 50))
    area = sum(area_mm2(zone.outline) for zone in found.liner.zones)
    drawn = 3.141592653589793 * (200**2 - 50**2)
    assert drawn - 0.05 * 2 * 3.15 * 250 - 1 < area < drawn
    assert sorted(zone.name for zone in found.liner.zones) == ["zone 1", "zone 2"]


def test_a_zone_traced_by_a_line_and_a_hatch_is_one():
    """So is the outline, and an island; the hatch may start anywhere and run either way."""

    def fill(doc, space):
        for corners in (ZONE, ISLAND):
            space.add_lwpolyline(corners, close=True, dxfattribs=on("blank"))
        paths = space.add_hatch(dxfattribs=on("blank")).paths
        paths.add_polyline_path([*ZONE[2:], *ZONE[:2]])
        edges = paths.add_edge_path()
        for start, end in zip(ISLAND[::-1], [*ISLAND[2::-1], ISLAND[3]], strict=True):
            edges.add_line(start, end)
        space.add_hatch(dxfattribs=on("outline")).paths.add_polyline_path(
            [(2400, 1200), (0, 1200), (0, 0), (2400, 0)]
        )

    found = from_dxf(fill)
    assert bounds_mm(found.liner.outline) == (0, 0, 2400, 1200)
    assert found.liner.outline.holes == ()
    area = sum(area_mm2(zone.outline) for zone in found.liner.zones)
    assert area == 400 * 300 - 50 * 60
    assert [why for _, why, _ in found.left_out] == ["it is drawn twice"] * 3


def test_an_ornament_of_lines_shorter_than_the_gap_is_not_lost():
    """A circle broken into 1000 lines, each 0.09 mm long."""
    points = [(500 + 15 * cos(n * tau / 1000), 500 + 15 * sin(n * tau / 1000)) for n in range(1000)]

    def fill(doc, space):
        for start, end in zip(points, [*points[1:], points[0]], strict=True):
            space.add_line(start, end, dxfattribs=on("ornament"))

    found = from_dxf(fill)
    (ornament,) = found.liner.ornaments
    drawn = 1000 / 2 * 15**2 * sin(tau / 1000)
    assert drawn < area_mm2(ornament.outline) < drawn + 0.05 * 95
    assert found.left_out == ()


def test_zones_that_cross_stay_two():
    """Strips along and across overlap, as in any liner."""
    body = '<rect class="blank" id="east" x="1490" width="110" height="1200"/>'
    body += '<rect class="blank" id="north" y="250" width="2400" height="60"/>'
    assert [bounds_mm(zone.outline) for zone in from_svg(body).liner.zones] == [
        (1490, 0, 1600, 1200),
        (0, 890, 2400, 950),
    ]


def test_gaps_are_closed_and_told_with_their_place():
    """The place is that of the drawing, where a person must look for it."""

    def fill(doc, space):
        space.add_line((400, 400), (600, 400), dxfattribs=on("ornament"))
        space.add_arc((500, 400.08), 100, 0, 180, dxfattribs=on("ornament"))

    corners = [(100, 50), (2500, 50), (2500, 1250), (100, 1250)]
    found = from_dxf(fill, rim=corners)
    (told,) = [note for note in found.notes if "closed" in note]
    assert told.startswith("ornament: 2 gaps were closed, at most 0.08 mm wide, at: (")
    assert "(600, 400)" in told
    with pytest.raises(InputErrors, match=r"a gap of 0.08 mm at .*give a larger --gap"):
        from_dxf(fill, rim=corners, options=replace(OPTIONS, gap=MM // 100))


def test_a_side_not_quite_along_an_axis_is_a_warning():
    """No panel can have an edge side along it, which a person would look for in vain."""
    found = draw_rim([(0, 0), (2400, 0.01), (2400, 1200), (0, 1200)])
    assert "1 side of the outline is not quite along x or y, off by up to 0.01" in found.notes[0]


def test_thickness_name_and_kind_of_ground_come_from_the_options():
    """A drawing tells none of them, unless it is one of ours."""
    options = replace(OPTIONS, name="Reeds / east", unmarked="blank")
    liner = from_svg("", options=options).liner
    assert (liner.name, liner.thickness, liner.unmarked) == ("Reeds - east", 13 * MM, "blank")
    assert from_svg("").liner.name == "a"


@pytest.mark.parametrize(
    ("body", "options", "told"),
    [
        ("", replace(OPTIONS, thickness=None), "--thickness: a drawing does not tell how thick"),
        (disc("outline", 3000, 0, 5), OPTIONS, r"outline: a liner has one outline, got 2, at \("),
        (
            disc("outline", 500, 500, 50) + disc("outline", 500, 500, 20),
            OPTIONS,
            "nothing of the outline lies inside a hole",
        ),
        (
            disc("outline", 0, 500, 50),
            OPTIONS,
            "outline: a liner has one outline, got 2|holes of the liner must be apart",
        ),
        (
            '<path class="ornament" d="M0 0h9v9z" data-relief="deep"/>',
            OPTIONS,
            "relief: must be a length, got 'deep'",
        ),
        (
            f'<polygon class="ornament" points="{COMB} 2000 9 0 9"/>',
            OPTIONS,
            "an outline has at most 5000 points, got 5202 points; give a larger --chord-error",
        ),
    ],
)
def test_mistakes_of_a_whole_drawing(body, options, told):
    """One line each, with what to do."""
    with pytest.raises(InputErrors, match=told):
        from_svg(body, options=options)


def test_no_outline_and_too_large_an_outline():
    """The layer's name is told, or the unit suspected."""
    with pytest.raises(InputErrors, match="closed loop on a layer named outline, got none"):
        from_svg("", rim=False)
    with pytest.raises(InputErrors, match="at most 33000 mm, got 2400000 mm; check the unit"):
        from_svg("", options=replace(OPTIONS, units="m"))


def test_an_outline_that_crosses_itself_is_refused():
    """Which part is the liner is not known."""
    with pytest.raises(InputErrors, match="must bound one area without crossing itself"):
        from_svg('<path class="outline" d="M0 0L900 900V0L0 900z"/>', rim=False)


def test_all_mistakes_are_told_at_once_but_not_without_end():
    """A hundred lines, then a count."""
    lines = "".join(
        f'<line class="ornament" x1="{9 * n}" x2="{9 * n}" y2="5"/>' for n in range(150)
    )
    with pytest.raises(InputErrors, match="50 more mistakes") as refused:
        from_svg(lines)
    assert len(refused.value.errors) == 101
