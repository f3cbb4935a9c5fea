"""From a drawing record to SVG text: the one place where y turns over.

One user unit is one millimetre of the sheet.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree

import svgwrite
import svgwrite.base
import svgwrite.container
import svgwrite.pattern
import svgwrite.text

from nesting.drawings.lettering import CAPITAL, clean
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot, Text, bounds_of
from nesting.drawings.styles import AREAS, HATCHED, INK, LINES, MASKED, Look
from nesting.files.marks import MARK

_FACES = "Arial, Helvetica, DejaVu Sans, sans-serif"


def to_svg(drawing: Drawing) -> str:
    """Return the drawing as SVG text; the same record gives the same bytes.

    The root has the sheet's size in mm and a view box in the same measure. Ids begin with the
    drawing's name, so that several drawings can stand on one page.
    """
    width, height = _number(drawing.width), _number(drawing.height)
    root = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"),
        viewBox=f"0 0 {width} {height}",
        profile="full",
        debug=False,
        id=drawing.name,
    )
    root.set_desc(clean(drawing.title), clean(drawing.summary))
    root.defs.add(_hatch(_hatch_id(drawing)))
    for layer in drawing.layers:
        if layer.window is not None:
            root.defs.add(_clip(drawing, layer, layer.window))
        root.add(_group(drawing, layer))
    tree = root.get_xml()
    ElementTree.indent(tree, " ")
    head = f'<?xml version="1.0" encoding="UTF-8"?><!-- Drawn {MARK}. -->'
    return f"{head}\n{ElementTree.tostring(tree, 'unicode')}\n"


def _hatch_id(drawing: Drawing) -> str:
    return f"{drawing.name}-hatch"


def _hatch(name: str) -> svgwrite.pattern.Pattern:
    """Return lines at 45 degrees; each runs mid-tile, where no tile edge cuts it."""
    tile = _number(MASKED.pitch)
    pattern = svgwrite.pattern.Pattern(
        size=(tile, tile),
        patternUnits="userSpaceOnUse",
        patternTransform="rotate(45)",
        id=name,
        debug=False,
    )
    pattern.add(
        _element(
            "rect",
            x=_number((MASKED.pitch - MASKED.width) / 2),
            y="0",
            width=_number(MASKED.width),
            height=tile,
            fill=MASKED.ink,
        )
    )
    return pattern


def _clip_id(drawing: Drawing, layer: Layer) -> str:
    return f"{drawing.name}-{layer.name}-window"


def _clip(drawing: Drawing, layer: Layer, window: Rect) -> svgwrite.base.BaseElement:
    """Return the window a layer is seen through."""
    clip = _element("clipPath", id=_clip_id(drawing, layer))
    clip.add(_element("path", d=_path([window.ring], drawing.height, "Z")))
    return clip


def _group(drawing: Drawing, layer: Layer) -> svgwrite.container.Group:
    group = svgwrite.container.Group(id=f"{drawing.name}-{layer.name}", debug=False)
    if layer.window is not None:
        group.attribs["clip-path"] = f"url(#{_clip_id(drawing, layer)})"
    for shape in _seen(layer):
        group.add(_shape(shape, drawing))
    return group


def _seen(layer: Layer) -> Iterable[Shape]:
    """Return the shapes of a layer but those that lie wholly outside its window."""
    if layer.window is None:
        return layer.shapes
    room = layer.window.grown(1.0)
    return [shape for shape in layer.placed if room.overlaps(bounds_of([shape]).grown(0.001))]


def _shape(shape: Shape, drawing: Drawing) -> svgwrite.base.BaseElement:
    if isinstance(shape, Text):
        return _text(shape, drawing.height)
    if isinstance(shape, Line):
        look = _attributes(LINES[shape.style])
        return _element("path", d=_path([shape.points], drawing.height, ""), **look)
    look = _area_look(shape, drawing)
    return _element("path", d=_path(shape.rings, drawing.height, "Z"), **look)


def _area_look(area: Area, drawing: Drawing) -> dict[str, str]:
    if area.style in HATCHED:
        return {"fill": f"url(#{_hatch_id(drawing)})", "fill-rule": "evenodd"}
    return {**_attributes(AREAS[area.style]), "fill-rule": "evenodd"}


def _attributes(look: Look) -> dict[str, str]:
    """Return the attributes of a look, without those that are the standard's defaults."""
    found = {"fill": look.fill or "none"}
    if look.fill and look.opacity < 1:
        found["fill-opacity"] = _number(look.opacity)
    if look.stroke:
        found |= {"stroke": look.stroke, "stroke-width": _number(look.width)}
        found |= {"stroke-dasharray": " ".join(map(_number, look.dash))} if look.dash else {}
        found |= {"stroke-linecap": look.cap} if look.cap != "butt" else {}
        found |= {"stroke-linejoin": look.join} if look.join != "miter" else {}
    return found


def _text(text: Text, sheet_height: float) -> svgwrite.base.BaseElement:
    x, y = _number(text.x), _number(sheet_height - text.y)
    look = {
        "font-family": _FACES,
        "font-size": _number(text.height / CAPITAL),
        "font-weight": "bold" if text.style == "bold" else "normal",
        "text-anchor": text.anchor,
        "fill": INK,
    }
    if text.upright:
        look["transform"] = f"rotate(-90 {x} {y})"
    element = svgwrite.text.Text("", debug=False)
    element.attribs.update(x=x, y=y, **look)
    element.text = text.words
    return element


def _path(rings: Iterable[tuple[Spot, ...]], sheet_height: float, end: str) -> str:
    return " ".join(
        "M" + " L".join(f"{_number(x)} {_number(sheet_height - y)}" for x, y in ring) + end
        for ring in rings
    )


def _element(tag: str, **attributes: str) -> svgwrite.base.BaseElement:
    """Return a bare element; attributes are text, written as they are."""
    element = svgwrite.base.BaseElement(debug=False)
    element.elementname = tag
    element.attribs.update(attributes)
    return element


def _number(value: float) -> str:
    """Return a number to whole micrometres, without idle zeros and without ``-0``."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
