"""Writes a liner as an SVG drawing that reads back equal: layers by role, names as titles."""

from collections.abc import Sequence
from fractions import Fraction
from xml.etree import ElementTree

from nesting.files.marks import LINER_MARK
from nesting.shapes.geometry import Box, Polygon, Ring
from nesting.units import STEPS_PER_INCH, decimal_text, to_mm
from nesting.values.liner import Liner, Ornament

_LOOKS = {
    "outline": {"fill": "none", "stroke": "#1a1a1a"},
    "blank": {"fill": "#f6ead8", "stroke": "#8a5a2b"},
    "ornament": {"fill": "none", "stroke": "#27506e"},
}
_LINE_WIDTH = "0.6"


def liner_to_svg(liner: Liner, units: str = "mm") -> str:
    """Return the drawing; the page holds the liner and its datum corner, 1 unit is 1 mm.

    The datum corner is its lower left corner unless the liner reaches below it. The page's size is
    told in ``units``, by which they are known when the drawing is read.
    """
    page = _page(liner)
    size = {"width": page.width, "height": page.height}
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            **{key: f"{_page_side(side, units)}{units}" for key, side in size.items()},
            "viewBox": f"{_mm(page.x0)} 0 {' '.join(map(_mm, size.values()))}",
        },
    )
    _text(root, "title", liner.name)
    facts = {"thickness": f"{_mm(liner.thickness)} mm", "unmarked": liner.unmarked}
    _add(_layer(root, "outline"), liner.outline, liner.name, facts, page)
    zones = _layer(root, "blank")
    for zone in liner.zones:
        _add(zones, zone.outline, zone.name, {}, page)
    ornaments = _layer(root, "ornament")
    for ornament in liner.ornaments:
        _add(ornaments, ornament.outline, ornament.name, ornament_facts(ornament), page)
    ElementTree.indent(root, " ")
    head = f'<?xml version="1.0" encoding="UTF-8"?><!-- Liner written {LINER_MARK} -->'
    return f"{head}\n{ElementTree.tostring(root, 'unicode')}\n"


def ornament_facts(ornament: Ornament) -> dict[str, str]:
    """Return what a drawing keeps of an ornament besides its name and outline."""
    facts = {"relief": f"{_mm(ornament.relief)} mm"} if ornament.relief else {}
    facts |= {"on_panel": ornament.on_panel} if ornament.on_panel else {}
    return facts | ({"fill": str(ornament.fill)} if ornament.fill != Fraction(1, 2) else {})


def _page(liner: Liner) -> Box:
    box = liner.outline.bounds
    return Box(min(box.x0, 0), min(box.y0, 0), max(box.x1, 0), max(box.y1, 0))


def _page_side(steps: int, units: str) -> str:
    """Return a side of the page in its units, so fine that one unit of the drawing is 1 mm."""
    return _mm(steps) if units == "mm" else decimal_text(Fraction(steps, STEPS_PER_INCH), 15)


def _layer(root: ElementTree.Element, role: str) -> ElementTree.Element:
    look = {"id": role, **_LOOKS[role], "stroke-width": _LINE_WIDTH, "fill-rule": "evenodd"}
    return ElementTree.SubElement(root, "g", look)


def _add(
    layer: ElementTree.Element, outline: Polygon, name: str, facts: dict[str, str], page: Box
) -> None:
    data = " ".join(_path(ring, page) for ring in outline.rings)
    told = {f"data-{key}": value for key, value in facts.items()}
    _text(ElementTree.SubElement(layer, "path", {"d": data, **told}), "title", name)


def _text(parent: ElementTree.Element, tag: str, words: str) -> None:
    ElementTree.SubElement(parent, tag).text = words


def _path(ring: Ring, page: Box) -> str:
    points: Sequence[str] = [f"{_mm(x)} {_mm(page.y1 - y)}" for x, y in ring]
    return f"M{' L'.join(points)}Z"


def _mm(steps: int) -> str:
    return decimal_text(to_mm(steps), 6)  # exact: a step is 1/8000 mm
