"""Broken and hostile drawings, made anew for each run: name, bytes."""

import io
import struct
from functools import cache
from itertools import pairwise

from nesting.liners.dxfcensus import BINARY_MARK

SVG_HEAD = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    'width="100mm" height="50mm" viewBox="0 0 100 50">'
)
RIM = '<rect id="outline" width="100" height="50"/>'


def svg(body, head=SVG_HEAD, before=""):
    """Return an SVG file around a body."""
    return f"{before}{head}{body}</svg>".encode()


def ornament(body):
    """Return an SVG file with an outline and something of the role ornament."""
    return svg(f'{RIM}<g id="ornament">{body}</g>')


def nested_uses():
    """Return seven levels of ten copies each."""
    groups = [f'<g id="u0">{RIM}</g>']
    for level in range(1, 8):
        copies = f'<use href="#u{level - 1}"/>' * 10
        groups.append(f'<g id="u{level}">{copies}</g>')
    return svg(f"<defs>{''.join(groups)}</defs><use href='#u7'/>")


def bomb():
    """Return entities that come to a thousand million letters."""
    lines = ['<!ENTITY a0 "aaaaaaaaaa">']
    lines += [f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10)]
    return svg("<title>&a9;</title>", before=f"<!DOCTYPE svg [{''.join(lines)}]>")


@cache
def list_svgs():
    """Return (name, bytes) of each hostile SVG."""
    outside = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>'
    parameter = '<!DOCTYPE svg [<!ENTITY % x SYSTEM "http://127.0.0.1:9/x.dtd"> %x;]>'
    return [
        ("empty", b""),
        ("blanks", b" \n\t "),
        ("no_xml", b"this is no drawing"),
        ("zeros", bytes(5000)),
        ("cut_short", svg(RIM)[:120]),
        ("not_svg", b"<html><body/></html>"),
        ("latin", b'<?xml version="1.0" encoding="klingon"?><svg/>'),
        ("bad_utf8", SVG_HEAD.encode() + b"<title>\xff\xfe\xfa</title></svg>"),
        ("compressed", b"\x1f\x8b\x08\x00" + bytes(200)),
        ("entity_bomb", bomb()),
        ("entity_outside", svg("<title>&x;</title>", before=outside)),
        ("entity_parameter", svg(RIM, before=parameter)),
        ("entity_long", svg(RIM, before=f'<!DOCTYPE svg [<!ENTITY x "{"y" * 9000}">]>')),
        ("deep", svg("<g>" * 20_000 + "</g>" * 20_000)),
        ("wide", svg("<g/>" * 200_010)),
        ("use_bomb", nested_uses()),
        ("use_itself", svg(f'{RIM}<g id="ornament"><use id="a" href="#a"/></g>')),
        ("use_cycle", ornament('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>')),
        ("use_outside", ornament('<use xlink:href="http://127.0.0.1:9/x.svg#a"/>')),
        ("use_nothing", ornament('<use href="#none"/>')),
        (
            "image_outside",
            ornament('<image href="http://127.0.0.1:9/x.png" width="9" height="9"/>'),
        ),
        ("path_bad", ornament('<path d="M0 0 L10 x 10"/>')),
        ("path_no_move", ornament('<path d="L10 10 20 20z"/>')),
        ("path_nan", ornament('<path d="M0 0 L NaN 5 L 1 inf z"/>')),
        ("path_overflow", ornament('<path d="M0 0 L1e999 5 L 1e300 1e300z"/>')),
        ("path_huge", ornament(f'<path d="M0 0{" 1 1" * 205_000}z"/>')),
        ("path_curves", ornament(f'<path d="M0 0{"c1 1 2 0 .1 .1" * 21_000}z"/>')),
        ("arc_flat", ornament('<path d="M0 0A0 0 0 0 1 5 5A1e-300 1e-300 0 1 1 9 9z"/>')),
        ("arc_tiny", ornament('<path d="M1 1a1e-9 1e-9 0 1 1 1e-9 0z"/>')),
        ("transform_bad", ornament('<g transform="rotate(x)"><path d="M0 0h9v9z"/></g>')),
        ("transform_far", ornament('<path transform="scale(1e11)scale(1e300)" d="M1 1h9v9z"/>')),
        ("transform_flat", ornament('<path transform="scale(0)" d="M1 1h9v9z"/>')),
        ("viewbox_flat", svg(RIM, '<svg width="9mm" height="9mm" viewBox="0 0 0 9">')),
        ("viewbox_nan", svg(RIM, '<svg width="9mm" height="9mm" viewBox="0 nan 9 9">')),
        ("no_unit", svg(RIM, '<svg width="100%" viewBox="0 0 9 9">')),
        ("no_outline", svg('<rect width="5" height="5"/>')),
        ("two_outlines", svg(f'{RIM}<rect id="b" class="outline" x="200" width="9" height="9"/>')),
        ("too_large", svg('<rect id="outline" width="1e7" height="50"/>')),
        ("text", ornament("<text>heron</text>")),
        ("loops_crossed", svg('<path id="outline" d="M0 0L50 50L50 0L0 50z"/>')),
        ("curve_points", ornament('<path d="M5 5C5 5 5 5 5 5z"/>')),
        ("curve_cusp", ornament('<path d="M1 1C40 40 1 40 40 1z"/>')),
        ("zeros_radius", ornament('<circle cx="5" cy="5" r="0"/><ellipse rx="-1" ry="3"/>')),
        ("many_points", ornament(f'<polygon points="{"1,1 9,9 9,1 " * 30_000}"/>')),
        ("zigzag", ornament(f'<path d="M0 0{"l9 1-9 1" * 4000}z"/>')),
    ]


def dxf(body, units="4", version="AC1015"):
    """Return a small ASCII DXF file around tags given as lines of pairs."""
    head = (
        f"0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\n{version}\n9\n$INSUNITS\n70\n{units}\n0\nENDSEC\n"
    )
    return f"{head}0\nSECTION\n2\nENTITIES\n{body}0\nENDSEC\n0\nEOF\n".encode()


def tags(kind, layer, *pairs):
    """Return the tags of one entity."""
    lines = [f"0\n{kind}\n100\nAcDbEntity\n8\n{layer}\n"]
    return "".join(lines + [f"{code}\n{value}\n" for code, value in pairs])


def line(layer, x0, y0, x1, y1):
    """Return a line."""
    pairs = ((100, "AcDbLine"), (10, x0), (20, y0), (30, 0), (11, x1), (21, y1), (31, 0))
    return tags("LINE", layer, *pairs)


def frame(layer="outline", width=100, height=50):
    """Return four lines around a rectangle."""
    corners = [(0, 0), (width, 0), (width, height), (0, height), (0, 0)]
    return "".join(line(layer, *start, *end) for start, end in pairwise(corners))


def circle(layer, x, y, radius):
    """Return a circle."""
    return tags("CIRCLE", layer, (100, "AcDbCircle"), (10, x), (20, y), (30, 0), (40, radius))


def library_files():
    """Return files that the library itself writes: deep and endless blocks, odd splines."""
    import ezdxf

    def written(fill):
        doc = ezdxf.new("R2010")
        doc.units = 4
        space = doc.modelspace()
        space.add_lwpolyline(
            [(0, 0), (100, 0), (100, 50), (0, 50)], close=True, dxfattribs={"layer": "outline"}
        )
        fill(doc, space)
        stream = io.StringIO()
        doc.write(stream)
        return stream.getvalue().encode("utf-8")

    def bombs(doc, space):
        for level in range(8):
            block = doc.blocks.new(f"B{level}")
            if not level:
                block.add_circle((5, 5), 1)
            for _ in range(10 if level else 0):
                block.add_blockref(f"B{level - 1}", (0, 0))
        space.add_blockref("B7", (0, 0), dxfattribs={"layer": "ornament"})

    def many(doc, space):
        doc.blocks.new("B").add_circle((5, 5), 1)
        space.add_blockref(
            "B",
            (0, 0),
            dxfattribs={
                "layer": "ornament", "row_count": 30_000, "column_count": 30_000,
                "row_spacing": 1, "column_spacing": 1,
            },
        )  # fmt: skip

    def cycle(doc, space):
        one, two = doc.blocks.new("ONE"), doc.blocks.new("TWO")
        one.add_blockref("TWO", (0, 0))
        two.add_blockref("ONE", (0, 0))
        space.add_blockref("ONE", (0, 0), dxfattribs={"layer": "ornament"})

    def flat(doc, space):
        doc.blocks.new("B").add_circle((5, 5), 1)
        space.add_blockref("B", (0, 0), dxfattribs={"layer": "ornament", "xscale": 1e-12})

    def outside(doc, space):
        doc.add_xref_def("nowhere.dxf", "X")
        space.add_blockref("X", (0, 0), dxfattribs={"layer": "ornament"})

    def points(doc, space):
        space.add_lwpolyline(
            [(n % 7, n % 11) for n in range(12_000)], close=True, dxfattribs={"layer": "ornament"}
        )

    def spline(doc, space):
        spots = [(n % 50, (n * 7) % 40, 0) for n in range(1200)]
        space.add_open_spline(spots, dxfattribs={"layer": "ornament"})

    def hatch(doc, space):
        found = space.add_hatch(dxfattribs={"layer": "ornament"})
        path = found.paths.add_edge_path()
        path.add_arc((5, 5), 3, 0, 200)
        path.add_ellipse((5, 5), (3, 0), 0.5, 200, 360)

    def mesh(doc, space):
        space.add_polymesh((4, 4), dxfattribs={"layer": "ornament"})

    fills = (bombs, many, cycle, flat, outside, points, spline, hatch, mesh)
    return [(f"written_{fill.__name__}", written(fill)) for fill in fills]


def binary(count):
    """Return a binary DXF that ends within its header."""
    tag = struct.pack("<H", 0) + b"SECTION\x00" + struct.pack("<H", 2) + b"HEADER\x00"
    return BINARY_MARK + b"\r\n\x1a\x00" + tag * count


@cache
def list_dxfs():
    """Return (name, bytes) of each hostile DXF."""
    good, many = dxf(frame()), range(1500)
    shape = frame() + circle("ornament", 20, 20, 5)
    crossed = tags(
        "LWPOLYLINE", "outline", (100, "AcDbPolyline"), (90, 4), (70, 1),
        (10, 0), (20, 0), (10, 50), (20, 50), (10, 50), (20, 0), (10, 0), (20, 50),
    )  # fmt: skip
    bulge = tags(
        "LWPOLYLINE", "ornament", (100, "AcDbPolyline"), (90, 2), (70, 1),
        (10, 5), (20, 5), (42, "1e300"), (10, 9), (20, 9), (42, "-1e-300"),
    )  # fmt: skip
    knots = tags(
        "SPLINE", "ornament", (100, "AcDbSpline"), (70, 8), (71, 3), (72, 8), (73, 4),
        *((40, value) for value in (0, 0, 0, 0, 0, 0, 0, 0)),
        *(pair for n in range(4) for pair in ((10, n), (20, n * n), (30, 0))),
    )  # fmt: skip
    return [
        ("empty", b""),
        ("blanks", b" \r\n \r\n"),
        ("words", b"this is no drawing\n" * 40),
        ("zeros", bytes(4000)),
        ("noise", bytes(range(256)) * 40),
        ("drawing_database", b"AC1032" + bytes(2000)),
        ("cut_header", good[:60]),
        ("cut_entities", good[: len(good) - 180]),
        ("no_end", good.replace(b"0\nEOF\n", b"")),
        ("no_sections", b"0\nEOF\n"),
        ("odd_lines", good.replace(b"LINE\n", b"LINE\n\n", 1)),
        ("bad_code", good.replace(b"\n10\n", b"\nten\n", 1)),
        ("decimal_comma", good.replace(b"\n50\n", b"\n50,5\n")),
        ("nan", dxf(frame() + circle("ornament", "nan", 5, 2))),
        ("inf", dxf(frame() + circle("ornament", 5, "inf", 2))),
        ("overflow", dxf(frame() + circle("ornament", "1e308", "1e308", "1e308"))),
        ("no_radius", dxf(frame() + circle("ornament", 5, 5, 0))),
        ("less_radius", dxf(frame() + circle("ornament", 5, 5, -4))),
        ("words_for_numbers", dxf(frame() + circle("ornament", "five", 5, 4))),
        ("no_unit", dxf(frame(), units="0")),
        ("odd_unit", dxf(frame(), units="77")),
        ("bad_unit", dxf(frame(), units="mm")),
        ("old_version", dxf(frame(), version="AC1006")),
        ("odd_version", dxf(frame(), version="ZZ9999")),
        ("no_outline", dxf(circle("ornament", 5, 5, 4))),
        ("open_outline", dxf(frame().replace("11\n0\n", "11\n3\n"))),
        ("two_outlines", dxf(frame() + circle("outline", 500, 500, 4))),
        ("too_large", dxf(frame(width=10**7))),
        ("crossed", dxf(crossed)),
        ("bulge", dxf(frame() + bulge)),
        ("knots", dxf(frame() + knots)),
        ("no_block", dxf(frame() + tags("INSERT", "ornament", (2, "GONE"), (10, 0), (20, 0)))),
        ("unknown", dxf(frame() + tags("ZORK", "ornament", (1, "what")))),
        ("byte_order_mark", b"\xef\xbb\xbf" + dxf(shape)),
        ("carriage_returns", dxf(shape).replace(b"\n", b"\r\n")),
        ("many_lines", dxf(frame() + "".join(line("ornament", n, n, n, n + 1) for n in many))),
        ("long_name", dxf(frame() + circle("x" * 100_000, 5, 5, 4))),
        ("binary_cut", binary(1)),
        ("binary_sections", binary(2000)),
        *library_files(),
    ]  # fmt: skip
