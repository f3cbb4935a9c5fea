"""Small drawings for the tests of the readers, built by the DXF library's own writer or as text."""

import io

import ezdxf

from nesting.liners.build import build_liner
from nesting.liners.dxfread import read_dxf
from nesting.liners.options import DrawingOptions
from nesting.liners.svgread import read_svg

MM = 8000
OPTIONS = DrawingOptions(thickness=13 * MM)
RIM = [(0, 0), (2400, 0), (2400, 1200), (0, 1200)]


def on(layer, **more):
    """Return the attributes of an entity on a layer."""
    return {"layer": layer, **more}


def dxf_bytes(fill, version="R2010", units=4, rim=RIM):
    """Return a DXF file with an outline and what ``fill(doc, space)`` draws."""
    doc = ezdxf.new(version, units=units)
    space = doc.modelspace()
    if rim:
        space.add_polyline2d(rim, close=True, dxfattribs=on("outline"))
    fill(doc, space)
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode(doc.output_encoding, "dxfreplace")


def from_dxf(fill, options=OPTIONS, **more):
    """Return what is found in a DXF drawing filled so."""
    return build_liner(read_dxf("a.dxf", dxf_bytes(fill, **more), options), options, "a.dxf", "a")


def svg_bytes(body, head='width="2400mm" height="1200mm" viewBox="0 0 2400 1200"', rim=True):
    """Return an SVG file with an outline and a body."""
    outline = '<rect id="outline" width="2400" height="1200"/>' if rim else ""
    space = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {space} {head}>{outline}{body}</svg>".encode()


def from_svg(body, options=OPTIONS, **more):
    """Return what is found in an SVG drawing with this body."""
    return build_liner(read_svg("a.svg", svg_bytes(body, **more), options), options, "a.svg", "a")


def bounds_mm(outline):
    """Return left, bottom, right and top of a polygon [mm]."""
    return tuple(value / MM for value in outline.bounds)


def area_mm2(outline):
    """Return the area of a polygon [mm2]."""
    return outline.area / MM**2
