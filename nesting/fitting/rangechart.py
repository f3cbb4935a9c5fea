"""The chart of every size a liner can give: width along x, height along y, a tint per dams needed.

Nothing is decided here: the region is known already.
"""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import cast

from nesting.drawings.compose import Head, Painted, Picture, compose
from nesting.drawings.key import HEIGHT as KEY_HEIGHT
from nesting.drawings.key import MOST_WIDTH, KeyRow, explain, heading, list_notes
from nesting.drawings.lettering import words_width
from nesting.drawings.ordinates import HEIGHT
from nesting.drawings.record import (
    Area,
    AreaStyle,
    Drawing,
    Layer,
    Line,
    LineStyle,
    Rect,
    Shape,
    Spot,
    Text,
    bounds_of,
)
from nesting.drawings.view import View
from nesting.fitting.rangereport import bed_words, ledge_words, number_of_dams
from nesting.maps.sizeledges import EDGE_MARGIN
from nesting.maps.sizeregion import OrderedSize, Region, RegionPart
from nesting.schedules.setout import placed_size
from nesting.shapes.geometry import Box, Polygon, slabs
from nesting.tape import Tape
from nesting.units import STEPS_PER_INCH, STEPS_PER_MM
from nesting.values.job import Job, Units

_DIVISIONS: dict[Units, tuple[int, ...]] = {
    "mm": tuple(n * STEPS_PER_MM for n in (10, 20, 50, 100, 200, 500, 1000, 2000, 5000)),
    "in": tuple(n * STEPS_PER_INCH for n in (1, 2, 3, 6, 12, 24, 48, 96, 192)),
}
_SMALL, _AROUND = 2.6, 16.0
_LEAST_DIVISION, _TICK, _MARK = 12.0, 1.6, 1.4
_OFF, _PLATE, _CLEAR = 1.0, 0.2, 0.6
_NUMBER_HEIGHTS = (5.0, 3.5, 2.6)


def draw_range(job: Job, region: Region, bed: str, ordered: Sequence[OrderedSize]) -> Drawing:
    """Return the chart of the region of one bed, with the order's sizes."""
    units = job.units
    head = Head(
        "range",
        f"{job.title}: every size, {bed_words(job, bed)}",
        _summary(region, ordered),
        units,
        (
            (job.title, "Sizes"),
            (
                f"Liner: {job.liner.name}",
                bed_words(job, bed),
                f"Dams {job.tape.stated_words(job.rules.dam_width)}",
                "Face sizes, as ordered",
            ),
        ),
        "of a panel",
    )
    key = tuple(_key_rows(job, region, ordered))
    picture = Picture(head, Box(0, 0, *region.limits), (key,), arounds=(_AROUND,))
    return compose(
        picture,
        lambda sheet, _: Painted(_draw_chart(sheet.view, region, job.tape, sheet.ground, ordered)),
    )


def _draw_chart(
    view: View, region: Region, tape: Tape, ground: Rect, ordered: Sequence[OrderedSize]
) -> tuple[Layer, ...]:
    """Return the chart itself, names and marks where they cover nothing."""
    marks, mark_texts = _draw_order(view, ordered)
    lines = [
        *_draw_lines(view, region.possible, "untried"),
        *(line for part in region.certain for line in _draw_lines(view, part, "only")),
    ]
    axes = tuple(_draw_axes(view, region, tape))
    numbers = [shape for shape in axes if isinstance(shape, Text)]
    taken = [bounds_of([shape]) for shape in (*marks, *mark_texts, *lines, *numbers)]
    names = _name_all(view, region, tape, ground.grown(_OFF), taken)
    return (
        Layer("sizes", tuple(_draw_areas(view, region))),
        Layer("axes", axes),
        Layer("lines", tuple(lines)),
        Layer("names", tuple(names)),
        Layer("order", (*marks, *mark_texts)),
    )


def _summary(region: Region, ordered: Sequence[OrderedSize]) -> str:
    parts = ", ".join(number_of_dams(part.dams) for part in region.certain)
    sizes = ", ".join(size.mark for size in ordered) or "none"
    return f"Sizes by the fewest dams they need: {parts}. Sizes of the order: {sizes}."


def _draw_areas(view: View, region: Region) -> Iterator[Shape]:
    for polygon in region.possible.polygons:
        yield Area(view.rings(polygon), "untried")
    for part in reversed(region.certain):
        for polygon in part.polygons:
            yield Area(view.rings(polygon), _tint(part.dams))


def _tint(dams: int) -> AreaStyle:
    return cast(AreaStyle, f"dams_{dams}")


def _draw_lines(view: View, part: RegionPart, style: LineStyle) -> Iterator[Shape]:
    for line in part.lines:
        yield Line((view.at((line.x0, line.y0)), view.at((line.x1, line.y1))), style)
    for point in part.points:
        x, y = view.at(point)
        yield Area((_diamond(x, y, _MARK),), "gap" if style == "untried" else "datum")


def _diamond(x: float, y: float, by: float) -> tuple[Spot, ...]:
    return (x - by, y), (x, y - by), (x + by, y), (x, y + by)


def _draw_axes(view: View, region: Region, tape: Tape) -> Iterator[Shape]:
    """Yield two axes with round divisions, and fine lines across at each of them."""
    x1, y1 = view.at(region.limits)
    yield Line(((view.x, y1), (view.x, view.y), (x1, view.y)), "frame")
    division = _division(view, tape.units)
    for at in range(0, region.limits[0] + 1, division):
        x = view.at((at, 0))[0]
        yield Line(((x, view.y), (x, view.y - _TICK)), "rule")
        yield Text(x, view.y - _TICK - 4.2, tape.figure(at), 3.0, anchor="middle")
        if at:
            yield Line(((x, view.y), (x, y1)), "witness")
    for at in range(0, region.limits[1] + 1, division):
        y = view.at((0, at))[1]
        yield Line(((view.x - _TICK, y), (view.x, y)), "rule")
        yield Text(view.x - _TICK - 1, y - 1.5, tape.figure(at), 3.0, anchor="end")
        if at:
            yield Line(((view.x, y), (x1, y)), "witness")
    wide, high = f"width of the face, {tape.units}", f"height of the face, {tape.units}"
    yield Text((view.x + x1) / 2, view.y - 13, wide, HEIGHT, "plain", "middle")
    yield Text(view.x - 15, (view.y + y1) / 2, high, HEIGHT, "plain", "middle", True)


def _axis_grounds(view: View, region: Region) -> list[Rect]:
    """Return what both axes cover, with the edge of a name's plate."""
    x1, y1 = view.at(region.limits)
    upright, level = Rect(view.x, view.y, view.x, y1), Rect(view.x, view.y, x1, view.y)
    return [upright.grown(_CLEAR), level.grown(_CLEAR)]


def _division(view: View, units: Units) -> int:
    fitting = [each for each in _DIVISIONS[units] if view.length(each) >= _LEAST_DIVISION]
    return fitting[0] if fitting else _DIVISIONS[units][-1]


def _draw_order(view: View, ordered: Sequence[OrderedSize]) -> tuple[list[Shape], list[Text]]:
    """Return a mark per size of the order, filled where it has a place, and its words."""
    spots = [view.at((size.width, size.height)) for size in ordered]
    shapes: list[Shape] = [
        Area((_diamond(*spot, _MARK + 0.5),), "bar" if size.has_place else "gap")
        for size, spot in zip(ordered, spots, strict=True)
    ]
    texts: list[Text] = []
    for size, spot in zip(ordered, spots, strict=True):
        taken = [bounds_of([shape]) for shape in (*shapes, *texts)]
        texts.append(_beside(*spot, size.mark, taken))
    plates: list[Shape] = [Area((text.rect.grown(0.3).ring,), "plate") for text in texts]
    return [*plates, *shapes], texts


def _beside(x: float, y: float, words: str, taken: Sequence[Rect]) -> Text:
    """Return the words beside a mark, where they cover none of those before if there is room."""
    off = _MARK + 1.2
    spots = [
        Text(x + dx, y + dy - 1.3, words, 3.0, "bold", "start" if dx > 0 else "end")
        for dy in (0.0, 3.6, -3.6, 7.2, -7.2)
        for dx in (off, -off)
    ]
    free = (spot for spot in spots if not any(spot.rect.overlaps(rect) for rect in taken))
    return next(free, spots[0])


def _name_all(
    view: View, region: Region, tape: Tape, ground: Rect, taken: list[Rect]
) -> list[Shape]:
    """Return the numbers of dams, then as many names of ledges as find room beside the areas."""
    texts: list[Text] = []
    for part in region.certain:
        for polygon in part.polygons:
            texts += _put(_numbers(view, polygon, part.dams), taken)
    for part in region.certain:
        taken += [view.rect(box) for polygon in part.polygons for box in slabs(polygon)]
    for part in region.certain:
        for line in part.lines:
            texts += _put(_beside_line(view, line, part.dams), taken)
    taken += _axis_grounds(view, region)
    told: set[str] = set()
    for ledge in sorted(region.ledges, key=lambda ledge: ledge.span[0] - ledge.span[1]):
        words = ledge_words(ledge, tape)
        if ledge.cause not in ("", EDGE_MARGIN) and words not in told:
            found = _put(
                _along(view, ledge.axis, ledge.at, ledge.span, ledge.is_most, words), taken, ground
            )
            told |= {words for _ in found}
            texts += found
    plates = [
        Area((text.rect.grown(_PLATE).ring,), "plate") for text in texts if text.style == "plain"
    ]
    return [*plates, *texts]


def _put(ways: Iterator[Text], taken: list[Rect], within: Rect | None = None) -> list[Text]:
    """Return the first way that covers nothing taken, and take its ground; or none."""
    for text in ways:
        inside = within is None or within.holds(text.rect)
        if inside and not any(text.rect.overlaps(rect) for rect in taken):
            taken.append(text.rect)
            return [text]
    return []


def _numbers(view: View, polygon: Polygon, dams: int) -> Iterator[Text]:
    """Yield the number of dams in the middle of the area's largest upright stripe, if it fits."""
    for box in sorted(slabs(polygon), key=lambda box: -box.area)[:3]:
        rect = view.rect(box)
        for height in _NUMBER_HEIGHTS:
            x, y = rect.centre
            text = Text(x, y - height / 2, str(dams), height, "bold", "middle")
            if rect.holds(text.rect):
                yield text


def _beside_line(view: View, line: Box, dams: int) -> Iterator[Text]:
    """Yield places for the number of dams beside a segment."""
    (x0, y0, x1, y1) = view.rect(line)
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    number = partial(Text, words=str(dams), height=_SMALL, style="bold")
    if line.width:
        yield number(x, y - _OFF - _SMALL, anchor="middle")
        yield number(x, y + _OFF, anchor="middle")
    else:
        yield number(x - _OFF, y - _SMALL / 2, anchor="end")
        yield number(x + _OFF, y - _SMALL / 2, anchor="start")


def _along(
    view: View, axis: str, at: int, span: tuple[int, int], is_most: bool, words: str
) -> Iterator[Text]:
    """Yield places for words along an edge, off the axes: just outside the region, then inside."""
    width = words_width(words, _SMALL)
    outward = 1 if is_most else -1
    for side in (outward, -outward):
        for share in (0.5, 0.25, 0.75):
            across = span[0] + (span[1] - span[0]) * share
            if axis == "width":
                x, y = view.at((at, round(across)))
                base = x + _OFF + _SMALL if side > 0 else x - _OFF
                y = max(y, view.y + width / 2 + _OFF)
                yield Text(base, y, words, _SMALL, "plain", "middle", True)
            else:
                x, y = view.at((round(across), at))
                base = y + _OFF if side > 0 else y - _OFF - _SMALL
                x = max(x, view.x + width / 2 + _OFF)
                yield Text(x, base, words, _SMALL, "plain", "middle")


def _key_rows(job: Job, region: Region, ordered: Sequence[OrderedSize]) -> Iterator[KeyRow]:
    """Yield what each tint and mark means, what is not certain, and the order."""
    yield heading("Fewest dams needed" if region.is_fewest else "Most dams needed")
    tinted = {part.dams for part in region.certain if part.polygons}
    for dams in sorted({part.dams for part in region.certain}):
        yield KeyRow((number_of_dams(dams),), partial(_numbered, dams, dams in tinted))
    if any(part.lines for part in region.certain):
        yield KeyRow(("one width or height only",), "only")
    if any(part.points for part in region.certain):
        yield KeyRow(("one size only",), partial(_marked, "datum"))
    if not region.is_exact:
        yield KeyRow(("possible: try with fit",), "untried")
    yield from list_notes([_note(region)], MOST_WIDTH)
    if ordered:
        yield heading(f"Sizes of the order, {job.units}")
    for size in ordered:
        words = f"{size.mark}  {placed_size(job, size)}"
        words += "" if size.has_place else ", no place"
        yield from explain(words, MOST_WIDTH, partial(_marked, "bar" if size.has_place else "gap"))


def _numbered(dams: int, is_tinted: bool, place: Rect) -> tuple[Shape, ...]:
    """Return the number as it stands on the tint, or alone where only lines and dots have it."""
    x, y = place.centre
    ground = (Area((place.ring,), _tint(dams)),) if is_tinted else ()
    return *ground, Text(x, y - KEY_HEIGHT / 2, str(dams), KEY_HEIGHT, "bold", "middle")


def _marked(style: AreaStyle, place: Rect) -> tuple[Shape, ...]:
    return (Area((_diamond(*place.centre, _MARK),), style),)


def _note(region: Region) -> str:
    if region.is_exact:
        return (
            "Exact: no size outside has a place. Names tell what stops the two sides of the panel "
            "at a ledge."
        )
    return (
        "Tinted sizes have a place for certain. Hatched and dashed ones lie near slanted ornament "
        "and must be tried with nesting fit. No size outside both has a place."
    )
