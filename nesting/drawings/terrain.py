"""The liner and what lies on it, as shapes on a sheet."""

from fractions import Fraction
from itertools import combinations
from math import cos, pi, sin

from nesting.drawings.record import Area, Layer, Line, Shape, Spot, Text
from nesting.drawings.view import View
from nesting.shapes.geometry import Box
from nesting.values.casts import Layout, Placement
from nesting.values.job import Job
from nesting.values.liner import Liner

_DATUM_RADIUS = 5.0
_EDGE_INSET = 1.1
_CROSS_REACH = 1.0


def frame_of(job: Job) -> Box:
    """Return the smallest box around the liner and its datum [steps]."""
    box = job.liner.outline.bounds
    return Box(min(box.x0, 0), min(box.y0, 0), max(box.x1, 0), max(box.y1, 0))


def layout_layers(
    liner: Liner, layout: Layout | None, view: View, *, details: bool = True
) -> tuple[Layer, ...]:
    """Return the ground, the relief and the dams of a layout; of the bare liner for none.

    ``details`` are the edge sides and where dams meet.

    The masked area is the liner's rings with those of all panels and dams, counted even-odd: exact,
    because panels and dams are disjoint and lie on the liner.
    """
    rim = view.rings(liner.outline)
    panels = layout.panels if layout else ()
    sprayed = [view.rect(panel.box).ring for panel in panels]
    dams = [view.rect(dam.box).ring for dam in layout.dams] if layout else []
    masked = [Area((*rim, *sprayed, *dams), "masked")] if layout else []
    zones = [view.rings(zone.outline) for zone in liner.zones]
    ornaments = [view.rings(ornament.outline) for ornament in liner.ornaments]
    return (
        Layer(
            "ground",
            (
                Area(rim, "liner"),
                *(Area(rings, "zone") for rings in zones),
                *(Area((ring,), "panel") for ring in sprayed),
                *masked,
                *(Line((*ring, ring[0]), "zone") for rings in zones for ring in rings),
            ),
        ),
        Layer(
            "relief",
            (*(Area(rings, "ornament") for rings in ornaments), *clear_lines(liner, view)),
        ),
        Layer(
            "dams",
            (
                *(Line((*ring, ring[0]), "rim") for ring in rim),
                *(Area((ring,), "dam") for ring in dams),
                *(Line(ends, "meeting") for ends in _meetings(layout, view) if details),
                *(line for panel in panels for line in _edge_sides(panel, view) if details),
            ),
        ),
    )


def clear_lines(liner: Liner, view: View) -> tuple[Line, ...]:
    """Return each keep-clear place as a cross within the rim of what dams keep off."""
    lines = []
    for each in liner.keep_clear:
        a, b, c, d = view.rect(each.place).grown(_CROSS_REACH).ring
        rim = tuple(map(view.at, each.ground))
        lines += [
            Line((*rim, rim[0]), "keep_clear"),
            Line((a, c), "leader"),
            Line((b, d), "leader"),
        ]
    return tuple(lines)


def has_meetings(layout: Layout) -> bool:
    """Whether two dams of the layout lie against each other."""
    return bool(_meetings(layout, View(Fraction(1), 0, 0)))


def _meetings(layout: Layout | None, view: View) -> list[tuple[Spot, Spot]]:
    """Return where two dams lie against each other, as lines between corners."""
    boxes = [dam.box for dam in layout.dams] if layout else []
    shared = (
        Box(max(a.x0, b.x0), max(a.y0, b.y0), min(a.x1, b.x1), min(a.y1, b.y1))
        for a, b in combinations(boxes, 2)
    )
    return [
        (view.at((box.x0, box.y0)), view.at((box.x1, box.y1)))
        for box in shared
        if (box.width == 0 and box.height > 0) or (box.height == 0 and box.width > 0)
    ]


def _edge_sides(panel: Placement, view: View) -> list[Line]:
    """Return a line along each edge side, a little inside the panel."""
    inner = view.rect(panel.box).grown(-_EDGE_INSET)
    ends: tuple[tuple[Spot, Spot], ...] = (
        ((inner.x0, inner.y0), (inner.x0, inner.y1)),
        ((inner.x1, inner.y0), (inner.x1, inner.y1)),
        ((inner.x0, inner.y0), (inner.x1, inner.y0)),
        ((inner.x0, inner.y1), (inner.x1, inner.y1)),
    )
    return [
        Line(line, "edge_side")
        for line, side in zip(ends, panel.sides, strict=True)
        if side == "edge"
    ]


def quarter_disc(corner: Spot, radius: float) -> Area:
    """Return the datum's mark: a quarter disc below and left of its corner."""
    x, y = corner
    arc = [
        (x + radius * cos(pi + step * pi / 24), y + radius * sin(pi + step * pi / 24))
        for step in range(13)
    ]
    return Area(((corner, *arc),), "datum")


def datum_shapes(view: View) -> tuple[Shape, ...]:
    """Return the datum's mark and its figures, below and left of the corner."""
    x, y = view.at((0, 0))
    words = Text(x - _DATUM_RADIUS - 1, y - _DATUM_RADIUS - 1 - 3.5, "0,0", 3.5, "bold", "end")
    return quarter_disc((x, y), _DATUM_RADIUS), words
