"""The masking layout as a figure of the packet: the liner with its figures, without the paper.

The sheet's frame, key and title strip are left out, for the page around the figure says the same;
what is left fills the page. It is drawn on smaller paper, so that on the page, which is narrower
than any sheet, its figures are still 2 mm high. Where the panels and dams of the layout lie is read
off the drawing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from nesting.drawings.masking import draw_layout
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Text, bounds_of
from nesting.packets.parts import Figure, LitSpot
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job
from nesting.values.names import call_dam

_PAPER_LAYERS = ("sheet", "key", "strip")
_RIM = 2.0
PAGE_WIDTH = 186.0
"""What an upright page has for its blocks [mm], letter a little more."""
_PAPER = ("the packet's page", 290.0, 290.0)


def draw_figure(job: Job, schedule: Schedule, layout: Layout) -> Figure:
    """Return the layout's drawing cut to what lies on and around the liner, with its spots."""
    drawing = crop(draw_layout(job, schedule, layout, before=(_PAPER,)))
    panels = _rects(drawing, "ground", "panel")
    dams = _rects(drawing, "dams", "dam")
    return Figure(
        drawing,
        (
            *_spots(panel_refs(layout), panels, [f"panel {each.mark}" for each in layout.panels]),
            *_spots(dam_refs(layout), dams, [call_dam(each.name) for each in layout.dams]),
        ),
    )


def panel_refs(layout: Layout) -> list[str]:
    """Return the refs of a layout's panels in turn: marks may repeat, refs do not."""
    return [f"l{layout.number}-p{count}" for count, _ in enumerate(layout.panels, 1)]


def dam_refs(layout: Layout) -> list[str]:
    """Return the refs of a layout's dams in turn."""
    return [f"l{layout.number}-d{count}" for count, _ in enumerate(layout.dams, 1)]


def crop(drawing: Drawing, without: Sequence[str] = _PAPER_LAYERS) -> Drawing:
    """Return the drawing without some layers, cut to what the others show."""
    kept = [layer for layer in drawing.layers if layer.name not in without]
    room = bounds_of(shape for layer in kept for shape in layer.shapes).grown(_RIM)
    layers = tuple(
        Layer(layer.name, tuple(_shift(shape, -room.x0, -room.y0) for shape in layer.shapes))
        for layer in kept
    )
    return replace(drawing, width=room.width, height=room.height, layers=layers)


def _shift(shape: Shape, x: float, y: float) -> Shape:
    if isinstance(shape, Text):
        return replace(shape, x=shape.x + x, y=shape.y + y)
    if isinstance(shape, Line):
        return replace(shape, points=tuple((a + x, b + y) for a, b in shape.points))
    rings = tuple(tuple((a + x, b + y) for a, b in ring) for ring in shape.rings)
    return replace(shape, rings=rings)


def _rects(drawing: Drawing, layer: str, style: str) -> list[Rect]:
    """Return the rectangles of all areas of the style in that layer, in the drawing's order."""
    return [
        bounds_of([shape])
        for each in drawing.layers
        if each.name == layer
        for shape in each.shapes
        if isinstance(shape, Area) and shape.style == style
    ]


def _spots(refs: Sequence[str], rects: Sequence[Rect], words: Iterable[str]) -> list[LitSpot]:
    return [LitSpot(*each) for each in zip(refs, rects, words, strict=True)]
