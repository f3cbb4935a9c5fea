"""DXF drawings: every entity that bounds ground, blocks under any map, units, and what is lost."""

import io
import math
import sys
from dataclasses import replace

import ezdxf
import pytest
from drawnliners import MM, OPTIONS, area_mm2, bounds_mm, dxf_bytes, from_dxf, on

from nesting.errors import InputError, InputErrors
from nesting.liners.build import build_liner
from nesting.liners.dxfopen import find_unit, open_dxf
from nesting.liners.dxfread import read_dxf

VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]


def only(found):
    """Return the outline of the one ornament."""
    (ornament,) = found.liner.ornaments
    return ornament.outline


def line(start, end):
    """Return what draws a line of the role ornament."""
    return lambda doc, space: space.add_line(start, end, dxfattribs=on("ornament"))


@pytest.mark.parametrize("version", VERSIONS)
def test_every_version_reads_alike(version):
    """From R12, which tells no unit, to R2018; layer names in any capitals."""

    def fill(doc, space):
        space.add_circle((500, 400), 100, dxfattribs=on("ORNAMENT"))
        space.add_polyline2d(
            [(2000, 0), (2100, 0), (2100, 1200), (2000, 1200)], close=True, dxfattribs=on("Blank")
        )

    found = from_dxf(fill, version=version, options=replace(OPTIONS, units="mm"))
    assert bounds_mm(only(found)) == (400, 300, 600, 500)
    assert bounds_mm(found.liner.zones[0].outline) == (2000, 0, 2100, 1200)


def test_a_binary_file_reads_as_its_text():
    """The same liner comes of both."""
    doc = ezdxf.new("R2010", units=4)
    doc.modelspace().add_circle((500, 400), 100, dxfattribs=on("outline"))
    text, binary = io.StringIO(), io.BytesIO()
    doc.write(text)
    doc.write(binary, fmt="bin")
    of_text, of_binary = (
        build_liner(read_dxf("a.dxf", content, OPTIONS), OPTIONS, "a.dxf", "a")
        for content in (text.getvalue().encode(), binary.getvalue())
    )
    assert of_text.liner == of_binary.liner


def draw_arc(doc, space):
    """Draw a half disc of a line and an arc."""
    space.add_line((400, 400), (600, 400), dxfattribs=on("ornament"))
    space.add_arc((500, 400), 100, 0, 180, dxfattribs=on("ornament"))


def draw_mirrored_arc(doc, space):
    """Draw the same, the arc seen from below: its x runs the other way."""
    space.add_line((400, 400), (600, 400), dxfattribs=on("ornament"))
    space.add_arc((-500, 400), 100, 0, 180, dxfattribs=on("ornament", extrusion=(0, 0, -1)))


def draw_bulges(doc, space):
    """Draw one polyline with a bulge of 1."""
    space.add_lwpolyline(
        [(600, 400, 1), (400, 400, 0)], format="xyb", close=True, dxfattribs=on("ornament")
    )


def draw_heavy_bulges(doc, space):
    """Draw the older kind of polyline."""
    space.add_polyline2d(
        [(600, 400, 1), (400, 400, 0)], format="xyb", close=True, dxfattribs=on("ornament")
    )


def draw_ellipse(doc, space):
    """Draw half of an ellipse as wide as high."""
    space.add_line((400, 400), (600, 400), dxfattribs=on("ornament"))
    space.add_ellipse((500, 400), (100, 0), 1.0, 0, math.pi, dxfattribs=on("ornament"))


def draw_spline(doc, space):
    """Draw a rational spline of degree 2 that is a half circle, and its chord."""
    root = math.sqrt(0.5)
    space.add_line((400, 400), (600, 400), dxfattribs=on("ornament"))
    spline = space.add_spline(degree=2, dxfattribs=on("ornament"))
    spline.control_points = [(600, 400), (600, 500), (500, 500), (400, 500), (400, 400)]
    spline.knots = [0, 0, 0, 1, 1, 2, 2, 2]
    spline.weights = [1, root, 1, root, 1]


def draw_hatch(doc, space):
    """Draw a hatch of one line and one arc, the arc clockwise."""
    path = space.add_hatch(dxfattribs=on("ornament")).paths.add_edge_path()
    path.add_line((600, 400), (400, 400))
    path.add_arc((500, 400), 100, 0, 180, ccw=False)


def draw_block(doc, space):
    """Insert a block of half the size twice as large, on the layer of the insert."""
    block = doc.blocks.new("heron", base_point=(5, 5))
    block.add_lwpolyline([(55, 5, 1), (-45, 5, 0)], format="xyb", close=True)
    space.add_blockref("heron", (500, 400), dxfattribs=on("ornament", xscale=2, yscale=2))


def draw_mirrored_block(doc, space):
    """Insert a block turned upside down by its scales and turned back by its rotation."""
    block = doc.blocks.new("heron")
    block.add_lwpolyline([(50, 0, 1), (-50, 0, 0)], format="xyb", close=True)
    inner = doc.blocks.new("inner")
    inner.add_blockref("heron", (0, 0), dxfattribs={"xscale": -1, "rotation": 180})
    space.add_blockref("inner", (500, 400), dxfattribs=on("ornament", xscale=2, yscale=-2))


DRAWN = [
    draw_arc, draw_mirrored_arc, draw_bulges, draw_heavy_bulges, draw_ellipse, draw_spline,
    draw_hatch, draw_block, draw_mirrored_block,
]  # fmt: skip


@pytest.mark.parametrize("draw", DRAWN, ids=lambda draw: draw.__name__)
def test_a_half_disc_drawn_in_many_ways(draw):
    """All give one ornament with the half disc's bounds, a little larger than it."""
    outline = only(from_dxf(draw))
    assert bounds_mm(outline) == pytest.approx((400, 400, 600, 500), abs=0.0003)
    half = math.pi * 100**2 / 2
    assert half < area_mm2(outline) < half + 0.05 * math.pi * 100


@pytest.mark.parametrize("kind", ["SOLID", "TRACE"])
def test_a_filled_quadrangle_has_its_last_two_corners_the_other_way_round(kind):
    """Its corners are stored row by row: lower left, lower right, upper left, upper right."""

    def fill(doc, space):
        corners = dict(zip(("vtx0", "vtx1", "vtx2", "vtx3"), rows, strict=True))
        space.new_entity(kind, on("ornament", **corners))

    rows = [(400, 300), (600, 300), (450, 500), (550, 500)]
    outline = only(from_dxf(fill))
    assert area_mm2(outline) == (200 + 100) / 2 * 200
    assert bounds_mm(outline) == (400, 300, 600, 500)


def test_an_unequal_scale_makes_an_ellipse():
    """The circle of a block becomes an ellipse under the map, still from outside."""

    def fill(doc, space):
        doc.blocks.new("disc").add_circle((0, 0), 50)
        space.add_blockref(
            "disc", (500, 400), dxfattribs=on("ornament", xscale=4, yscale=1, rotation=90)
        )

    outline = only(from_dxf(fill))
    assert bounds_mm(outline) == (450, 200, 550, 600)
    assert math.pi * 50 * 200 < area_mm2(outline) < math.pi * 50 * 200 + 0.05 * 900


def test_a_block_turned_within_a_stretched_one_is_sheared():
    """A square on its corner, in a block stretched twice along x, is a diamond twice as wide."""

    def fill(doc, space):
        square = doc.blocks.new("square")
        square.add_lwpolyline([(-50, -50), (50, -50), (50, 50), (-50, 50)], close=True)
        doc.blocks.new("outer").add_blockref("square", (0, 0), dxfattribs={"rotation": 45})
        space.add_blockref("outer", (600, 400), dxfattribs=on("ornament", xscale=2))

    outline = only(from_dxf(fill))
    reach = 50 * math.sqrt(2)
    expected = (600 - 2 * reach, 400 - reach, 600 + 2 * reach, 400 + reach)
    assert bounds_mm(outline) == pytest.approx(expected, abs=0.0003)
    assert area_mm2(outline) == pytest.approx(2 * 100**2, abs=0.1)


def test_copies_of_a_block_are_named_after_it():
    """Rows and columns of one insert too, numbered from left to right and upward."""

    def fill(doc, space):
        doc.blocks.new("reed").add_circle((0, 0), 5)
        space.add_blockref(
            "reed",
            (100, 100),
            dxfattribs=on(
                "ornament", column_count=3, row_count=2, column_spacing=50, row_spacing=40
            ),
        )

    names = [ornament.name for ornament in from_dxf(fill).liner.ornaments]
    assert names == ["reed", "reed 3", "reed 5", "reed 2", "reed 4", "reed 6"]


def test_text_names_the_smallest_shape_around_it():
    """On the same layer; a text that stands in none is told.

    Among the ornaments that may be lettering, so it is a mistake.
    """

    def fill(layer):
        def draw(doc, space):
            space.add_circle((500, 400), 100, dxfattribs=on("ornament"))
            space.add_text("grey heron", dxfattribs=on("ornament", insert=(480, 400)))
            space.add_mtext("lost\\Pwords", dxfattribs=on(layer, insert=(5, 5)))

        return draw

    found = from_dxf(fill("blank"))
    assert found.liner.ornaments[0].name == "grey heron"
    assert found.left_out == (("text 'lost words'", "it names no shape", 1),)
    with pytest.raises(
        InputErrors, match=r"text 'lost words': it lies in no ornament, at \(5, 5\)"
    ):
        from_dxf(fill("ornament"))


def test_a_hatch_within_a_hatch_is_a_hole_of_a_blank_zone():
    """The zone is parted around it; of an ornament the hole counts as ornament."""

    def fill(layer):
        def draw(doc, space):
            paths = space.add_hatch(dxfattribs=on(layer)).paths
            paths.add_polyline_path([(100, 100), (500, 100), (500, 500), (100, 500)])
            paths.add_polyline_path([(200, 200), (300, 200), (300, 300), (200, 300)], flags=16)

        return draw

    found = from_dxf(fill("blank"))
    assert sum(area_mm2(zone.outline) for zone in found.liner.zones) == 400**2 - 100**2
    assert any("taken as ground that is not blank" in note for note in found.notes)
    found = from_dxf(fill("ornament"))
    assert area_mm2(only(found)) == 400**2
    assert any("and so part of it" in note for note in found.notes)


@pytest.mark.parametrize(
    ("code", "width", "units"),
    [(1, 60960, "in"), (4, 2400, "mm"), (5, 24000, "mm"), (14, 240_000, "mm"), (13, 2.4, "mm")],
)
def test_units_come_from_the_header(code, width, units):
    """Inches are 25.4 mm exactly; the note says which."""
    doc = ezdxf.new(units=code)
    place, found, note = find_unit("a.dxf", doc, OPTIONS)
    assert 2400 * place[0] == width
    assert found == units
    assert note.endswith("as its header says")


@pytest.mark.parametrize(("code", "got"), [(0, "none in its header"), (3, "unit code 3")])
def test_no_unit_is_asked_for(code, got):
    """Nothing is guessed; with --units it is read, and said."""
    with pytest.raises(InputError, match=f"does not tell its unit, got {got}.*--units mm"):
        from_dxf(lambda doc, space: None, units=code)
    found = from_dxf(lambda doc, space: None, units=code, options=replace(OPTIONS, units="cm"))
    assert bounds_mm(found.liner.outline)[2] == 24000
    assert found.notes[1] == "One unit of the drawing is 1 cm, as --units says"


def test_layers_off_and_frozen_are_left_out_and_told():
    """So are entities that are invisible themselves."""

    def fill(doc, space):
        doc.layers.add("ornament").off()
        doc.layers.add("blank").freeze()
        space.add_circle((500, 400), 100, dxfattribs=on("ornament"))
        space.add_circle((900, 400), 100, dxfattribs=on("blank"))

    found = from_dxf(fill)
    assert [why for _, why, _ in found.left_out] == [
        "layer 'ornament' is off or frozen",
        "layer 'blank' is off or frozen",
    ]


def test_layers_without_a_role_and_paper_layouts_are_told():
    """By kind and layer, with a count."""

    def fill(doc, space):
        space.add_line((0, 0), (5, 5), dxfattribs=on("frame"))
        space.add_line((0, 0), (9, 5), dxfattribs=on("frame"))
        doc.layout("Layout1").add_line((0, 0), (1, 1))

    found = from_dxf(fill)
    told = ("LINE on layer 'frame'", "the layer has no role; give it one with --layer", 2)
    assert found.left_out == (told,)
    assert any("on paper layouts are not looked at" in note for note in found.notes)


def insert_gone(doc, space):
    """Insert a block whose file is elsewhere."""
    doc.add_xref_def("gone.dxf", "gone")
    space.add_blockref("gone", (0, 0), dxfattribs=on("ornament"))


def draw_mline(doc, space):
    """Draw parallel lines as one entity, which nothing here reads."""
    space.add_mline([(0, 0), (9, 9)], dxfattribs=on("ornament"))


def insert_too_often(doc, space):
    """Insert a block in more rows and columns than anyone can read."""
    doc.blocks.new("dot").add_circle((0, 0), 1)
    rows = {"row_count": 30_000, "row_spacing": 1, "column_count": 30_000, "column_spacing": 1}
    space.add_blockref("dot", (0, 0), dxfattribs=on("ornament", **rows))


@pytest.mark.parametrize(
    ("fill", "told"),
    [
        (line((5, 5), (50, 5)), "it does not close: a gap of 45 mm at"),
        (
            lambda doc, space: space.add_mline([(0, 0), (9, 9)], dxfattribs=on("ornament")),
            "such an entity is not",
        ),
        (lambda doc, space: space.add_polymesh(dxfattribs=on("ornament")), "a mesh is no outline"),
        (insert_gone, "block 'gone' lies in another file, which is not fetched"),
    ],
)
def test_what_cannot_be_read_of_a_role_is_a_mistake(fill, told):
    """It names kind, layer and handle; with --lenient it is left out and told."""
    with pytest.raises(InputErrors, match=told) as refused:
        from_dxf(fill)
    assert "on layer 'ornament'" in str(refused.value)
    found = from_dxf(fill, options=replace(OPTIONS, lenient=True))
    assert any(told in why for _, why, _ in found.left_out)


def test_too_many_copies_are_refused_at_once():
    """900 million circles are not counted out."""
    with pytest.raises(InputError, match=r"at most 100000 entities.*got 900000000 copies of block"):
        from_dxf(insert_too_often)


@pytest.mark.parametrize("kind", ["POINT", "DIMENSION"])
def test_what_bounds_no_ground_is_left_out_without_asking(kind):
    """Points and dimensions on a layer with a role are no mistake, and are told."""

    def fill(doc, space):
        if kind == "POINT":
            space.add_point((5, 5), dxfattribs=on("ornament"))
        else:
            space.add_linear_dim((0, 5), (0, 0), (9, 0), dxfattribs=on("ornament")).render()

    assert from_dxf(fill).left_out[0][0].startswith(kind)


def test_a_broken_file_is_recovered_and_what_was_lost_is_told():
    """Warnings stand first among the notes."""
    text = dxf_bytes(lambda doc, space: space.add_circle((500, 400), 9, dxfattribs=on("ornament")))
    cut = text[: text.rindex(b"  0\nEOF")]
    found = build_liner(read_dxf("a.dxf", cut, OPTIONS), OPTIONS, "a.dxf", "a")
    assert found.notes[0].startswith("Warning: the file is broken and was recovered")
    assert any("no end mark" in note for note in found.notes)


@pytest.mark.parametrize("layer", ["ornament", "0", "notes"])
def test_an_insert_of_no_block_is_a_mistake_on_any_layer(layer):
    """The block may have held an ornament; with --lenient the loss is told."""

    def fill(doc, space):
        space.add_blockref("nowhere", (5, 5), dxfattribs=on(layer))

    with pytest.raises(InputErrors, match=r"a.dxf: 1 INSERT: lost in reading.*--lenient"):
        from_dxf(fill)
    found = from_dxf(fill, options=replace(OPTIONS, lenient=True))
    assert found.left_out == (("1 INSERT", "lost in reading, since the file is broken", 1),)
    assert any("INSERT" in note and "Warning" in note for note in found.notes)


def test_a_file_that_breaks_off_is_a_mistake():
    """What followed may have been ornaments; what came before the last entity can be had."""

    def fill(doc, space):
        for x in (300, 600, 900):
            space.add_circle((x, 400), 9, dxfattribs=on("ornament"))

    text = dxf_bytes(fill)
    cut = text[: text.rindex(b"AcDbCircle") + 20]
    with pytest.raises(InputErrors, match="the file: it breaks off among its entities"):
        build_liner(read_dxf("a.dxf", cut, OPTIONS), OPTIONS, "a.dxf", "a")
    lenient = replace(OPTIONS, lenient=True)
    found = build_liner(read_dxf("a.dxf", cut, lenient), lenient, "a.dxf", "a")
    assert len(found.liner.ornaments) == 2
    told = "it breaks off among its entities, and what followed them is lost"
    assert ("the file", told, 1) in found.left_out
    assert ("1 CIRCLE", "lost in reading, since the file is broken", 1) in found.left_out


@pytest.mark.parametrize(
    ("version", "old", "new", "told"),
    [
        ("R2010", b"  0\nCIRCLE\n", b"  9\nCIRCLE\n", "it holds entities whose start is lost"),
        ("R12", b"  0\nCIRCLE\n", b"  9\nCIRCLE\n", "it holds entities whose start is lost"),
        ("R2010", b"  0\nENDBLK\n", b"  9\nENDBLK\n", "it breaks off among its entities"),
    ],
)
def test_an_entity_that_runs_into_another_is_a_mistake(version, old, new, told):
    """The library takes the two for one, and says nothing."""

    def fill(doc, space):
        doc.blocks.new("leaf").add_circle((0, 0), 9, dxfattribs=on("ornament"))
        space.add_circle((500, 400), 9, dxfattribs=on("ornament"))

    text = dxf_bytes(fill, version=version)
    content = text.replace(old, new)
    assert content != text
    options = replace(OPTIONS, units="mm")
    with pytest.raises(InputErrors, match=told):
        build_liner(read_dxf("a.dxf", content, options), options, "a.dxf", "a")


def test_a_file_the_library_chokes_on_is_refused():
    """Its audit trips over a layout without a name, in reading and in recovery."""
    text = dxf_bytes(lambda doc, space: space.add_circle((500, 400), 9, dxfattribs=on("ornament")))
    content = text.replace(b"AcDbLayout\n  1\n", b"AcDbLayout\n  9\n")
    assert content != text
    with pytest.raises(InputError, match="the file is not DXF, or is past recovery"):
        open_dxf("a.dxf", content)


def test_a_number_that_is_none_is_a_mistake():
    """Of 450,5 the library makes 450; half a millimetre may cut an ornament."""
    text = dxf_bytes(lambda doc, space: space.add_circle((450.5, 9), 5, dxfattribs=on("ornament")))
    content = text.replace(b"450.5", b"450,5")
    with pytest.raises(InputErrors, match="the file: some of its numbers are none in DXF"):
        build_liner(read_dxf("a.dxf", content, OPTIONS), OPTIONS, "a.dxf", "a")


def test_an_entity_of_nothing_is_told():
    """A hatch without a boundary is a mistake, a polyline of one point is not."""

    def fill(doc, space):
        space.add_lwpolyline([(5, 5), (5, 5)], dxfattribs=on("ornament"))

    assert from_dxf(fill).left_out[0][1] == "it encloses nothing and leads nowhere"
    with pytest.raises(InputErrors, match=r"HATCH .*: it encloses nothing and leads nowhere"):
        from_dxf(lambda doc, space: space.add_hatch(dxfattribs=on("ornament")))


def test_a_layer_that_is_off_hides_its_own_entities_only():
    """Of an insert on it the block's other layers are still seen; frozen, none is."""

    def fill(freeze):
        def draw(doc, space):
            block = doc.blocks.new("leaf")
            block.add_circle((0, 0), 9, dxfattribs=on("ornament"))
            block.add_circle((50, 0), 9)
            layer = doc.layers.add("parts")
            (layer.freeze if freeze else layer.off)()
            space.add_blockref("leaf", (500, 400), dxfattribs=on("parts"))

        return draw

    assert bounds_mm(only(from_dxf(fill(False)))) == (491, 391, 509, 409)
    assert from_dxf(fill(True)).liner.ornaments == ()


def test_a_spline_told_by_its_points_is_a_warning():
    """The file does not say how it runs between them."""

    def fill(doc, space):
        points = [(300, 300), (500, 320), (450, 500), (310, 480), (300, 300)]
        space.add_spline(points, dxfattribs=on("ornament"))

    found = from_dxf(fill)
    assert found.notes[0].startswith("Warning: a spline that is told by the points it meets")
    assert len(found.liner.ornaments) == 1


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"no drawing at all\n" * 9, "the file is not DXF, or is past recovery"),
        (b"  0\nEOF\n", "the drawing holds nothing in model space"),
    ],
)
def test_what_is_no_drawing(content, told):
    """One line each."""
    with pytest.raises(InputError, match=told):
        open_dxf("a.dxf", content)


def test_without_the_package_it_says_how_to_get_it(monkeypatch):
    """DXF is an extra; nothing else needs it."""
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(
        InputError, match=r"needs the package ezdxf, got none; .*pip install '\.\[cad\]'"
    ):
        open_dxf("a.dxf", b"0\nEOF\n")


def test_names_and_measures_kept_with_an_entity_are_read():
    """So a drawing of our own comes back whole; an unreadable measure is a mistake."""

    def fill(relief):
        def draw(doc, space):
            doc.appids.add("NESTING")
            disc = space.add_circle((500, 400), 100, dxfattribs=on("ornament"))
            disc.set_xdata("NESTING", [(1000, "name=heron"), (1000, f"relief={relief}")])

        return draw

    (ornament,) = from_dxf(fill("9 mm")).liner.ornaments
    assert (ornament.name, ornament.relief) == ("heron", 9 * MM)
    with pytest.raises(InputErrors, match="relief: must be a length, got 'deep'"):
        from_dxf(fill("deep"))
