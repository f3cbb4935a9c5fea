"""What a full-size template shows: of a layout, of one dam, of one panel.

Nothing is decided here: positions and sizes are those of the schedule or of the order.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from math import hypot

from nesting.drawings.crop import crop_line
from nesting.drawings.figures import length_figure, size_figure
from nesting.drawings.record import Area, Line, Rect, Shape, Spot, Text, TextStyle
from nesting.drawings.terrain import quarter_disc
from nesting.drawings.view import FROM_ABOVE
from nesting.schedules.ascast import note_cast_sizes
from nesting.shapes.geometry import Box
from nesting.templates.fullsize import FullSize
from nesting.values.bed import Bed
from nesting.values.bend import bend_of
from nesting.values.casts import Dam, Layout, Placement
from nesting.values.job import Job
from nesting.values.names import call_dam
from nesting.values.panels import Panel

SURROUND = 25.0
"""How much of what lies around a dam or a panel is drawn with it [mm]."""
_DATUM_RADIUS = 3.5
_OFF, _BESIDE, _TICK = 12.0, 9.0, 2.5


_VIEW = FROM_ABOVE.lower()


@dataclass(frozen=True, slots=True)
class TileLabel:
    """Words for ground that may run over several tiles: said anew on each that shows enough of it.

    The first of ``words`` that has room stands, as high as the first of ``heights`` that fits.
    Where ``needed`` there is a pointer to the ground if it has no room itself.
    """

    rect: Rect
    words: tuple[str, ...]
    heights: tuple[float, ...] = (3.5, 2.5, 1.8)
    style: TextStyle = "plain"
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Template:
    """Lines to lay on the liner, full size [mm], with what is said about them.

    ``marks`` are shapes that need no sheet for their own sake. ``facts`` are told on the terminal,
    ``notes`` on every sheet; ``lengths`` [steps] are those of the facts, by their names.
    """

    name: str
    subject: str
    lines: tuple[Line, ...]
    labels: tuple[TileLabel, ...]
    marks: tuple[Shape, ...] = ()
    notes: tuple[str, ...] = ()
    facts: tuple[str, ...] = ()
    lengths: Mapping[str, int] = field(default_factory=dict)


def layout_template(job: Job, layout: Layout, size: FullSize) -> Template:
    """Return the template of a whole layout: rim, panels, dams, ornaments and blank zones."""
    return Template(
        f"layout-{layout.number}",
        f"Layout {layout.number}, {_VIEW}",
        tuple(_layout_lines(job, layout, size)),
        (
            *(_dam_label(dam, job, size) for dam in layout.dams),
            *(_panel_label(panel, job, size) for panel in layout.panels),
            *_ground_labels(job, size),
        ),
        _datum(size),
        _bed_notes(job.bed(layout.bed), size, job),
    )


def dam_template(job: Job, layout: Layout, dam: Dam, size: FullSize) -> Template:
    """Return the template of one dam, with its length and what lies within a hand of it."""
    rect = size.rect(dam.box)
    region = rect.grown(SURROUND)
    lines = _clipped(region, _layout_lines(job, layout, size))
    name = call_dam(dam.name)
    name = name[0].upper() + name[1:]
    width, height = size.drawn(dam.width, dam.height)
    drawn = size_figure(width, height, job)
    words = f"{dam.name}: {drawn} {job.units}"
    dimension, figure = _dimension(rect, words, rect.height > rect.width)
    return Template(
        f"layout-{layout.number}-dam",
        f"{name} of layout {layout.number}, {_VIEW}",
        (*lines, *dimension),
        (
            figure,
            _dam_label(dam, job, size),
            *(
                _panel_label(panel, job, size, within=region, heights=(5.0, 3.5))
                for panel in layout.panels
            ),
            *_ground_labels(job, size, within=region),
        ),
        _datum(size),
        _bed_notes(job.bed(layout.bed), size, job),
        (f"{name} is {drawn} {job.units} as drawn.",),
        {"width": width, "height": height},
    )


def placed_panel_template(
    job: Job, layout: Layout, placement: Placement, size: FullSize
) -> Template:
    """Return the template of one panel of a layout, with what lies in it and around it."""
    rect = size.rect(placement.box)
    region = rect.grown(SURROUND)
    lines = _clipped(region, _layout_lines(job, layout, size))
    dimensions, labels, facts, lengths = _panel_figures(rect, placement, job, size)
    same = [panel for panel in layout.panels if panel.mark == placement.mark]
    which = f", the first of {len(same)}" if len(same) > 1 else ""
    return Template(
        f"layout-{layout.number}-panel",
        f"Panel {placement.mark} of layout {layout.number}{which}, {_VIEW}",
        (*lines, *dimensions),
        (
            *labels,
            *(_dam_label(dam, job, size, within=region) for dam in layout.dams),
            *_ground_labels(job, size, within=region),
        ),
        _datum(size),
        _bed_notes(job.bed(layout.bed), size, job),
        facts,
        lengths,
    )


def panel_template(job: Job, panel: Panel, size: FullSize) -> Template:
    """Return the template of a panel's bare outline at the size the order comes to on its bed."""
    bed = job.bed(panel.bed)
    width, height = bend_of(job, panel.bed).flat_size(panel)
    box = Box(0, 0, width, height)
    rect = size.rect(box)
    drawn = Placement(panel.mark, 0, 0, width, height, ("edge",) * 4)  # type: ignore[arg-type]
    dimensions, labels, facts, lengths = _panel_figures(rect, drawn, job, size)
    return Template(
        "panel",
        f"Panel {panel.mark}, outline, {_VIEW}",
        (Line(size.closed(box.ring), "trace"), *dimensions),
        labels,
        (),
        _bed_notes(bed, size, job),
        facts,
        lengths,
    )


def _layout_lines(job: Job, layout: Layout, size: FullSize) -> list[Line]:
    """Return every line of a layout, the lightest lowest."""
    liner = job.liner
    lines = [Line(ring, "zone") for zone in liner.zones for ring in size.rings(zone.outline)]
    lines += [Line(ring, "ghost") for each in liner.ornaments for ring in size.rings(each.outline)]
    lines += [Line(size.closed(each.ground), "ghost") for each in liner.keep_clear]
    lines += [Line(ring, "rim") for ring in size.rings(liner.outline)]
    lines += [Line(size.closed(dam.box.ring), "strip") for dam in layout.dams]
    return lines + [Line(size.closed(panel.box.ring), "trace") for panel in layout.panels]


def _clipped(region: Rect, lines: Iterable[Line]) -> list[Line]:
    return [Line(run, line.style) for line in lines for run in crop_line(region, line.points)]


def _dam_label(dam: Dam, job: Job, size: FullSize, within: Rect | None = None) -> TileLabel:
    box = dam.box
    across, up = (
        f"{axis} {length_figure(low, job)} to {length_figure(high, job)}"
        for axis, low, high in (("x", box.x0, box.x1), ("y", box.y0, box.y1))
    )
    flat = (across, up) if box.height < box.width else (up, across)
    words = [f"{dam.name}: {across}, {up}", f"{dam.name}: {flat[1]}"] if size.is_flat else []
    return TileLabel(
        _cut(size.rect(box), within),
        (*words, f"{dam.name}: {_size_words(dam.width, dam.height, job, size)}", dam.name),
        style="bold",
        needed=True,
    )


def _panel_label(
    panel: Placement,
    job: Job,
    size: FullSize,
    within: Rect | None = None,
    heights: tuple[float, ...] = (8.0, 5.0),
) -> TileLabel:
    mark = panel.mark + "*" * panel.turned
    words = (f"{mark}: {_size_words(panel.width, panel.height, job, size)}", mark)
    return TileLabel(_cut(size.rect(panel.box), within), words, heights, "bold")


def _ground_labels(job: Job, size: FullSize, within: Rect | None = None) -> tuple[TileLabel, ...]:
    named = [(each.outline.bounds, each.name) for each in job.liner.ornaments]
    named += [(zone.outline.bounds, f"blank zone {zone.name}") for zone in job.liner.zones]
    return tuple(
        TileLabel(_cut(size.rect(box), within), (words,), (2.5, 1.8)) for box, words in named
    )


def _cut(rect: Rect, within: Rect | None) -> Rect:
    """Return what of a rectangle lies within another; an empty one where nothing does."""
    if within is None:
        return rect
    x0, y0 = max(rect.x0, within.x0), max(rect.y0, within.y0)
    return Rect(x0, y0, max(x0, min(rect.x1, within.x1)), max(y0, min(rect.y1, within.y1)))


def _size_words(width: int, height: int, job: Job, size: FullSize) -> str:
    return size_figure(*size.drawn(width, height), job)


def _panel_figures(
    rect: Rect, panel: Placement, job: Job, size: FullSize
) -> tuple[tuple[Line, ...], tuple[TileLabel, ...], tuple[str, ...], dict[str, int]]:
    """Return the dimension lines inside a panel, its labels, its size and diagonal in words, both.

    The last is every length of these words.
    """
    width, height = size.drawn(panel.width, panel.height)
    inner = rect.grown(-2 * _OFF)
    across, wide = _dimension(inner, length_figure(width, job), upright=False, to=rect)
    up, high = _dimension(inner, length_figure(height, job), upright=True, to=rect)
    lengths = {"width": width, "height": height, "diagonal": round(hypot(width, height))}
    diagonal = job.tape.words(lengths["diagonal"])
    mark = _panel_label(panel, job, size)
    words = (f"{mark.words[0]}, diagonals {diagonal}", *mark.words)
    told = f"{panel.mark} is {size_figure(width, height, job)} {job.units} as drawn"
    facts = (f"{told}; both diagonals measure {diagonal}.",)
    label = TileLabel(mark.rect, words, (5.0, 3.5, 2.5), "bold", needed=True)
    return (*across, *up), (wide, high, label), facts, lengths


def _dimension(
    rect: Rect, words: str, upright: bool, to: Rect | None = None
) -> tuple[tuple[Line, ...], TileLabel]:
    """Return a dimension line below a rectangle or, upright, right of it, and its figure.

    It runs from end to end of the rectangle ``to``, the same unless given.
    """
    ends = to or rect
    if upright:
        x = rect.x1 + _OFF
        spots = ((x, ends.y0), (x, ends.y1))
        ground = Rect(x + 0.5, ends.y0, x + _BESIDE, ends.y1)
    else:
        y = rect.y0 - _OFF
        spots = ((ends.x0, y), (ends.x1, y))
        ground = Rect(ends.x0, y - _BESIDE, ends.x1, y - 0.5)
    ticks = (Line(_tick(spot, upright), "leader") for spot in spots)
    return (Line(spots, "leader"), *ticks), TileLabel(ground, (words,), (3.5, 2.5))


def _tick(spot: Spot, upright: bool) -> tuple[Spot, Spot]:
    x, y = spot
    return ((x - _TICK, y), (x + _TICK, y)) if upright else ((x, y - _TICK), (x, y + _TICK))


def _datum(size: FullSize) -> tuple[Shape, ...]:
    """Return the mark of the datum corner, off the liner on whichever side that is, and 0,0."""
    disc = quarter_disc((0.0, 0.0), _DATUM_RADIUS)
    if not size.mirrored:
        return disc, Text(1.5, 1.5, "0,0", 2.5)
    disc = Area(tuple(tuple((-x, y) for x, y in ring) for ring in disc.rings), "datum")
    return disc, Text(-1.5, 1.5, "0,0", 2.5, anchor="end")


def _bed_notes(bed: Bed, size: FullSize, job: Job) -> tuple[str, ...]:
    """Return how the liner lies, and what warmth and shrinkage do to what is drawn."""
    return _how_it_lies(bed, size), *note_cast_sizes(job.as_cast, job.units)


def _how_it_lies(bed: Bed, size: FullSize) -> str:
    if bed.form == "flat":
        return "Flat liner measures from the datum corner 0,0."
    if size.is_flat:
        return f"Bed {bed.name}, {bed.form}: drawn flat, for a liner marked out lying flat."
    ratio = float(max(size.x_ratio, size.y_ratio, key=lambda ratio: abs(ratio - 1)))
    return f"Bed {bed.name}: the developed FACE, {bed.curved_axis} times {ratio:.6f}; not flat."
