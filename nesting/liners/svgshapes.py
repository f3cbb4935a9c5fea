"""The basic shapes of SVG as curves: W3C, SVG 1.1 Second Edition, chapter 9."""

import math
from collections.abc import Sequence
from itertools import pairwise

from nesting.errors import InputError, naming, shown
from nesting.liners.svgpath import MM_PER_LENGTH, NUMBER, Subpath, read_length, read_path
from nesting.liners.svgtree import Element
from nesting.shapes.curves import Arc, Curve, Segment, Spot

SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")
"""The elements that are read."""

_GEOMETRY = frozenset(("d", "cx", "cy", "r", "rx", "ry", "x", "y", "width", "height"))
_SIZES = {
    "path": ("d",),
    "rect": ("width", "height"),
    "circle": ("r",),
    "ellipse": ("rx", "ry"),
    "polyline": ("points",),
    "polygon": ("points",),
}
_MOST_POINTS = 200_000


def read_shape(element: Element) -> tuple[Subpath, ...]:
    """Return the runs of a shape in its own user units; none for a shape the standard hides.

    Raises
    ------
    InputError
        With the attribute as ``where``.
    """
    moved = sorted(_GEOMETRY & element.style.keys())
    if moved:
        raise InputError(moved[0], "must be an attribute, not a style", element.style[moved[0]])
    if element.tag == "path":
        with naming("d"):
            return read_path(element.attributes.get("d", ""))
    if element.tag in ("polyline", "polygon"):
        return _poly(element)
    if element.tag == "line":
        ends = [(_user(element, f"x{n}"), _user(element, f"y{n}")) for n in (1, 2)]
        return (Subpath((Segment(*ends),), False),) if ends[0] != ends[1] else ()
    return _rect(element) if element.tag == "rect" else _ellipse(element)


def _poly(element: Element) -> tuple[Subpath, ...]:
    text = element.attributes.get("points", "")
    if NUMBER.sub("", text).replace(",", "").strip():
        raise InputError("points", "must be numbers", shown(text))
    values = [float(word) for word in NUMBER.findall(text)[: 2 * _MOST_POINTS]]
    if len(values) % 2 or not all(abs(value) < 1e12 for value in values):
        raise InputError("points", "must be pairs of numbers", shown(text))
    spots = list(zip(values[::2], values[1::2], strict=True))
    return _lines(spots, closed=element.tag == "polygon")


def _lines(spots: Sequence[Spot], *, closed: bool) -> tuple[Subpath, ...]:
    ends = [*spots, spots[0]] if closed and spots else list(spots)
    curves = tuple(Segment(a, b) for a, b in pairwise(ends) if a != b)
    return (Subpath(curves, closed),) if curves else ()


def _rect(element: Element) -> tuple[Subpath, ...]:
    x, y, width, height = (_user(element, key) for key in ("x", "y", "width", "height"))
    if width <= 0 or height <= 0:
        return ()
    rx, ry = (_radius(element, *keys) for keys in (("rx", "ry"), ("ry", "rx")))
    rx, ry = min(rx, width / 2), min(ry, height / 2)
    corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
    if rx <= 0 or ry <= 0:
        return _lines(corners, closed=True)
    centres = [(x + rx, y + ry), (x + width - rx, y + ry)]
    centres += [(x + width - rx, y + height - ry), (x + rx, y + height - ry)]
    arcs = [
        Arc(centre, (rx, 0.0), (0.0, ry), math.pi + number * math.pi / 2, math.pi / 2)
        for number, centre in enumerate(centres)
    ]
    curves: list[Curve] = []
    for arc, after in zip(arcs, arcs[1:] + arcs[:1], strict=True):
        curves += [arc, Segment(arc.end, after.start)]
    return (Subpath(tuple(curves), True),)


def _ellipse(element: Element) -> tuple[Subpath, ...]:
    keys = ("r", "r") if element.tag == "circle" else ("rx", "ry")
    rx, ry = (_user(element, key) for key in keys)
    if rx <= 0 or ry <= 0:
        return ()
    centre = (_user(element, "cx"), _user(element, "cy"))
    return (Subpath((Arc(centre, (rx, 0.0), (0.0, ry), 0.0, math.tau),), True),)


def _radius(element: Element, key: str, other: str) -> float:
    text = element.attributes.get(key, "auto")
    return _user(element, other if text == "auto" else key) if text != "none" else 0.0


def _user(element: Element, key: str) -> float:
    """Return a length in user units; one with a unit by the standard: 1 user unit is 1 px."""
    text = element.attributes.get(key, "0")
    if text == "auto":
        return 0.0
    value, unit = read_length(text)
    if unit not in MM_PER_LENGTH:
        raise InputError(key, "must be a length without a relative unit", shown(text))
    return value * float(MM_PER_LENGTH[unit] / MM_PER_LENGTH["px"])


def lacks_size(element: Element) -> bool:
    """Whether a shape does not tell its size, or tells one below 0, which is a mistake (W3C)."""
    texts = [element.attributes.get(key, "-") for key in _SIZES.get(element.tag, ())]
    return any(text.lstrip().startswith("-") for text in texts)


def has_units(element: Element) -> bool:
    """Whether a length of the shape bears a unit, which means px within a drawing in mm."""
    keys = ("x", "y", "width", "height", "rx", "ry", "r", "cx", "cy", "x1", "y1", "x2", "y2")
    texts = (element.attributes.get(key, "0") for key in keys)
    return any(text.strip()[-1:].isalpha() and text not in ("auto", "none") for text in texts)
