"""From a drawing record to SVG text: the one place where y turns over and styles get their look.

One user unit is one millimetre of the sheet. Every style reads in black and white: weight, dash and
hatch carry the meaning and colour only helps.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.etree import ElementTree

import svgwrite
import svgwrite.base
import svgwrite.container
import svgwrite.pattern
import svgwrite.text

from nesting.drawing import Area, Drawing, Layer, Line, Shape, Spot, Text
from nesting.lettering import CAPITAL, clean

_INK, _WATER, _MOSS, _CLAY = "#1a1a1a", "#27506e", "#2f6b4f", "#8a5a2b"
_RUST = "#b03a1e"
_AREAS: dict[str, dict[str, str]] = {
    "paper": {"fill": "#ffffff"},
    "liner": {"fill": "#ffffff"},
    "zone": {"fill": "#f6ead8"},
    "panel": {"fill": "#e6f2ea", "fill-opacity": "0.75"},
    "dam": {"fill": _INK, "stroke": _INK, "stroke-width": "0.2"},
    "ornament": {
        "fill": "none",
        "stroke": _WATER,
        "stroke-width": "0.6",
        "stroke-linejoin": "round",
    },
    "plate": {"fill": "#ffffff", "fill-opacity": "0.9"},
    "tag": {"fill": "#ffffff", "stroke": _INK, "stroke-width": "0.25"},
    "datum": {"fill": _INK},
    "bar": {"fill": _INK, "stroke": _INK, "stroke-width": "0.25"},
    "gap": {"fill": "#ffffff", "stroke": _INK, "stroke-width": "0.25"},
    "skin": {"fill": _INK},
    "place": {"fill": _CLAY, "fill-opacity": "0.35"},
    "sunk": {"fill": "#b9cfe0"},
    "low": {"fill": "#d9d9d9"},
    "middle": {"fill": "#bdbdbd"},
    "high": {"fill": "#9a9a9a"},
    "plain": {"fill": "#f0d9b5", "fill-opacity": "0.35"},
}
_LINES: dict[str, dict[str, str]] = {
    "frame": {"stroke": _INK, "stroke-width": "0.7"},
    "rule": {"stroke": _INK, "stroke-width": "0.25"},
    "rim": {"stroke": _INK, "stroke-width": "0.6"},
    "edge_side": {"stroke": _MOSS, "stroke-width": "1.1", "stroke-dasharray": "3.2 1.6"},
    "joint": {"stroke": "#ffffff", "stroke-width": "0.5"},
    "zone": {
        "stroke": _CLAY,
        "stroke-width": "0.3",
        "stroke-dasharray": "0.3 1.2",
        "stroke-linecap": "round",
    },
    "witness": {"stroke": "#555555", "stroke-width": "0.18", "stroke-dasharray": "1.5 0.8"},
    "leader": {"stroke": _INK, "stroke-width": "0.25"},
    "place": {"stroke": _CLAY, "stroke-width": "0.7", "stroke-linecap": "round"},
    "ignored": {"stroke": _RUST, "stroke-width": "0.4", "stroke-dasharray": "2.4 0.8 0.4 0.8"},
}
_FACES = "Arial, Helvetica, DejaVu Sans, sans-serif"
_HATCH_PITCH, _HATCH_INK, _HATCH_WEIGHT = 2.6, "#555555", 0.3


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
        root.add(_group(drawing, layer))
    tree = root.get_xml()
    ElementTree.indent(tree, " ")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{ElementTree.tostring(tree, "unicode")}\n'


def _hatch_id(drawing: Drawing) -> str:
    return f"{drawing.name}-hatch"


def _hatch(name: str) -> svgwrite.pattern.Pattern:
    """Return lines at 45 degrees; each runs mid-tile, where no tile edge cuts it."""
    tile = _number(_HATCH_PITCH)
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
            x=_number((_HATCH_PITCH - _HATCH_WEIGHT) / 2),
            y="0",
            width=_number(_HATCH_WEIGHT),
            height=tile,
            fill=_HATCH_INK,
        )
    )
    return pattern


def _group(drawing: Drawing, layer: Layer) -> svgwrite.container.Group:
    group = svgwrite.container.Group(id=f"{drawing.name}-{layer.name}", debug=False)
    for shape in layer.shapes:
        group.add(_shape(shape, drawing))
    return group


def _shape(shape: Shape, drawing: Drawing) -> svgwrite.base.BaseElement:
    if isinstance(shape, Text):
        return _text(shape, drawing.height)
    if isinstance(shape, Line):
        look = {"fill": "none", **_LINES[shape.style]}
        return _element("path", d=_path([shape.points], drawing.height, ""), **look)
    look = _area_look(shape, drawing)
    return _element("path", d=_path(shape.rings, drawing.height, "Z"), **look)


def _area_look(area: Area, drawing: Drawing) -> dict[str, str]:
    if area.style == "masked":
        return {"fill": f"url(#{_hatch_id(drawing)})", "fill-rule": "evenodd"}
    return {**_AREAS[area.style], "fill-rule": "evenodd"}


def _text(text: Text, sheet_height: float) -> svgwrite.base.BaseElement:
    x, y = _number(text.x), _number(sheet_height - text.y)
    look = {
        "font-family": _FACES,
        "font-size": _number(text.height / CAPITAL),
        "font-weight": "bold" if text.style == "bold" else "normal",
        "text-anchor": text.anchor,
        "fill": _INK,
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
