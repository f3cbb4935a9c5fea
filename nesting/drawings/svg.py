"""From a drawing record to SVG text: the one place where y turns over.

One user unit is one millimetre of the sheet.
"""

from collections.abc import Iterable
from xml.etree import ElementTree

import svgwrite
from svgwrite.base import BaseElement

from nesting.drawings.lettering import CAPITAL, clean
from nesting.drawings.record import Area, Drawing, Layer, Line, Shape, Spot, Text, bounds_of
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
    root.defs.add(_hatch(root, _hatch_id(drawing)))
    for layer in drawing.layers:
        group = root.g(id=f"{drawing.name}-{layer.name}")
        if layer.window is not None:
            name = f"{drawing.name}-{layer.name}-window"
            window = root.path(_path([layer.window.ring], drawing.height, "Z"))
            root.defs.add(root.clipPath(id=name)).add(window)
            group["clip-path"] = f"url(#{name})"
        for shape in _seen(layer):
            group.add(_shape(root, shape, drawing))
        root.add(group)
    tree = root.get_xml()
    ElementTree.indent(tree, " ")
    head = f'<?xml version="1.0" encoding="UTF-8"?><!-- Drawn {MARK}. -->'
    return f"{head}\n{ElementTree.tostring(tree, 'unicode')}\n"


def _hatch_id(drawing: Drawing) -> str:
    return f"{drawing.name}-hatch"


def _hatch(root: svgwrite.Drawing, name: str) -> BaseElement:
    """Return lines at 45 degrees; each runs mid-tile, where no tile edge cuts it."""
    tile = _number(MASKED.pitch)
    pattern = root.pattern(
        size=(tile, tile), patternUnits="userSpaceOnUse", patternTransform="rotate(45)", id=name
    )
    inset, width = _number((MASKED.pitch - MASKED.width) / 2), _number(MASKED.width)
    pattern.add(root.rect((inset, "0"), (width, tile), fill=MASKED.ink))
    return pattern


def _seen(layer: Layer) -> Iterable[Shape]:
    """Return the shapes of a layer but those that lie wholly outside its window."""
    if layer.window is None:
        return layer.shapes
    room = layer.window.grown(1.0)
    return [shape for shape in layer.placed if room.overlaps(bounds_of([shape]).grown(0.001))]


def _shape(root: svgwrite.Drawing, shape: Shape, drawing: Drawing) -> BaseElement:
    if isinstance(shape, Text):
        return _text(root, shape, drawing.height)
    if isinstance(shape, Line):
        look = _attributes(LINES[shape.style])
        return root.path(_path([shape.points], drawing.height, ""), **look)
    return root.path(_path(shape.rings, drawing.height, "Z"), **_area_look(shape, drawing))


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


def _text(root: svgwrite.Drawing, text: Text, sheet_height: float) -> BaseElement:
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
    return root.text(text.words, insert=(x, y), **look)


def _path(rings: Iterable[tuple[Spot, ...]], sheet_height: float, end: str) -> str:
    return " ".join(
        "M" + " L".join(f"{_number(x)} {_number(sheet_height - y)}" for x, y in ring) + end
        for ring in rings
    )


def _number(value: float) -> str:
    """Return a number to whole micrometres, without idle zeros and without ``-0``."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
