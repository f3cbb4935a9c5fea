"""A re-set drawn: old dams light, new ones dark, what moves with an arrow from here to there."""

from collections.abc import Iterator
from dataclasses import replace
from math import hypot

from nesting.drawings.compose import (
    Figures,
    Head,
    Painted,
    Picture,
    compose,
    measured,
    start_names,
)
from nesting.drawings.figures import size_figure
from nesting.drawings.key import KeyRow, Swatch, list_notes, rows_width, table
from nesting.drawings.labels import nearest_on
from nesting.drawings.names import COVERS, PlacedNames
from nesting.drawings.ordinates import measure_faces
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Shape, Spot
from nesting.drawings.sheet import SheetPlan
from nesting.drawings.terrain import frame_of, layout_layers
from nesting.drawings.view import View
from nesting.schedules.onbed import note_bed
from nesting.strips.plan import StripPlan
from nesting.strips.report import count_ways, name_layouts, say_way
from nesting.strips.reuse import Change, Reset, Way
from nesting.values.casts import Dam
from nesting.values.job import Job
from nesting.values.names import cast_range, strip_name

_HEAD_LENGTH, _HEAD_HALF = 4.0, 1.4
_ON_ARROW = 20.0


def _show_arrow(place: Rect) -> tuple[Shape, ...]:
    """Return an arrow as the key shows it."""
    y = place.centre[1]
    return _arrow((place.x0, y), (place.x1, y))


_MEANINGS: tuple[tuple[Swatch, str], ...] = (
    ("staying_dam", "Dam that stays"),
    ("old_dam", "Where a dam lay that moves or goes"),
    ("dam", "Dam laid now"),
    (_show_arrow, "Moves from here to there"),
    ("panel", "Panel cast now, its mark"),
    ("ornament", "Ornament"),
    ("zone", "Blank zone"),
    ("rim", "Rim of the liner"),
    ("datum", "Datum corner 0,0"),
    ("bold", "Panel edge"),
    ("regular", "Other face of a dam laid now, rim"),
)
_LISTS: tuple[tuple[Way, str], ...] = (
    ("stays", "These stay"),
    ("moves", "These move"),
    ("goes", "These go to the store"),
    ("from store", "These come from the store"),
    ("cut new", "These are new"),
)


def draw_reset(job: Job, plan: StripPlan, reset: Reset) -> Drawing:
    """Return the sheet of one re-set, with the faces of the dams that are laid.

    Layers from below: sheet, ground, relief, old dams, dams, moves, dimensions, names, key, strip.
    """
    frame = frame_of(job)
    laid = [change.becomes for change in _laid(reset) if change.becomes]
    faces = measure_faces(job, replace(reset.after.layout, dams=tuple(laid)), frame)
    picture = Picture(_head(job, plan, reset), frame, (_key(job, plan, reset),), *faces)

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        names = _name_everything(job, reset, sheet, figures)
        layers = (*_layers(job, reset, sheet.view), measured(sheet, figures))
        return Painted((*layers, Layer("names", names.shapes)), len(names.unplaced))

    return compose(picture, paint)


def _laid(reset: Reset) -> tuple[Change, ...]:
    return reset.by_way("moves", "from store", "cut new")


def _lifted(reset: Reset) -> list[Dam]:
    """Return the old dams that move or go."""
    return [change.was for change in reset.by_way("moves", "goes") if change.was]


def _layers(job: Job, reset: Reset, view: View) -> tuple[Layer, ...]:
    """Return what lies on the liner: the ground as for the new layout, then dams old and new."""
    layout = replace(reset.after.layout, dams=())
    ground, relief, rim = layout_layers(job.liner, layout, view, details=False)
    bare = tuple(each for each in ground.shapes if each.style != "masked")
    old = [view.rect(dam.box).ring for dam in _lifted(reset)]
    stays = [change.becomes for change in reset.by_way("stays") if change.becomes]
    laid = [change.becomes for change in _laid(reset) if change.becomes]
    return (
        Layer("ground", bare),
        relief,
        Layer("old-dams", tuple(Area((ring,), "old_dam") for ring in old)),
        Layer(
            "dams",
            (
                *rim.shapes,
                *(Area((view.rect(dam.box).ring,), "staying_dam") for dam in stays),
                *(Area((view.rect(dam.box).ring,), "dam") for dam in laid),
                *(Line((*ring, ring[0]), "old_dam") for ring in old),
            ),
        ),
        Layer("moves", tuple(shape for arrow in _arrows(reset, view) for shape in _arrow(*arrow))),
    )


def _arrows(reset: Reset, view: View) -> Iterator[tuple[Spot, Spot]]:
    """Yield for each strip that moves the middle of its old place, and where its new one begins.

    Where the new place covers that middle, the arrow goes on to its own middle.
    """
    for change in reset.by_way("moves"):
        if change.was and change.becomes:
            start, there = view.rect(change.was.box).centre, view.rect(change.becomes.box)
            end = nearest_on(there, start)
            yield start, there.centre if end == start else end


def _arrow(start: Spot, end: Spot) -> tuple[Shape, ...]:
    """Return a line with a head at its end; the head alone where there is no room for a line."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    if not length:
        return ()
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    back = min(_HEAD_LENGTH, length)
    neck = end[0] - back * x, end[1] - back * y
    sides = [(neck[0] - s * _HEAD_HALF * y, neck[1] + s * _HEAD_HALF * x) for s in (1, -1)]
    return Line((start, neck), "move"), Area(((end, *sides),), "arrow")


def _name_everything(job: Job, reset: Reset, sheet: SheetPlan, figures: Figures) -> PlacedNames:
    """Return the strips' names where they lie now, those of what goes where it lay, and marks."""
    view = sheet.view
    relief = [ornament.outline for ornament in job.liner.ornaments]
    names = start_names(sheet, figures, job.liner.outline, relief, 0.0)
    for dam in (*reset.after.layout.dams, *_lifted(reset)):
        names.taken.avoid(view.rect(dam.box), COVERS, _ON_ARROW)
    for arrow in _arrows(reset, view):
        names.taken.draw(arrow, _ON_ARROW, _ON_ARROW)
    for change in (*_laid(reset), *reset.by_way("goes", "stays")):
        place = change.becomes or change.was
        if place:
            names.name_dam(view.rect(place.box), strip_name(change.strip))
    for panel in reset.after.layout.panels:
        names.mark_panel(view.rect(panel.box), panel.mark)
    return names


def _head(job: Job, plan: StripPlan, reset: Reset) -> Head:
    box = job.liner.outline.bounds
    size = f"{size_figure(box.width, box.height, job)} {job.units}"
    liner = f"Liner {job.liner.name}, {size}"
    if plan.liners > 1:
        liner += f", liner {reset.after.liner} of {plan.liners}"
    ways = count_ways(reset)
    return Head(
        f"reset-{reset.number:02d}",
        f"{job.title}: re-set {reset.number}",
        f"Dams re-set, {name_layouts(reset)}; {ways}.",
        job.units,
        (
            (
                job.title,
                f"Re-set {reset.number} of {len(plan.resets)}",
                name_layouts(reset).capitalize(),
            ),
            (liner, f"Bed {reset.after.layout.bed}", f"Cast {cast_range(list(reset.after.casts))}"),
        ),
    )


def _key(job: Job, plan: StripPlan, reset: Reset) -> tuple[KeyRow, ...]:
    used: dict[Swatch, bool] = {
        "staying_dam": bool(reset.by_way("stays")),
        "old_dam": bool(_lifted(reset)),
        "dam": bool(_laid(reset)),
        _show_arrow: bool(reset.by_way("moves")),
        "ornament": bool(job.liner.ornaments),
        "zone": bool(job.liner.zones),
        "bold": bool(_laid(reset)),
    }
    legend = [KeyRow((words,), mark) for mark, words in _MEANINGS if used.get(mark, True)]
    lists = [
        (words, [_entry(job, plan, change) for change in reset.by_way(way)])
        for way, words in _LISTS
    ]
    entries = [KeyRow((entry,)) for _, listed in lists for entry in listed]
    width = max(rows_width(legend), rows_width(entries or legend))
    return (
        *legend,
        *(row for words, listed in lists for row in table(words, listed, width)),
        *list_notes(_notes(job, reset), width),
    )


def _entry(job: Job, plan: StripPlan, change: Change) -> str:
    """Return a strip and its dam: from where to where if it moves, its size if it is fetched."""
    name = strip_name(change.strip)
    if change.was and change.becomes and change.way == "moves":
        way = say_way(job, change.was, change.becomes)
        return f"{name}: {change.was.name} to {change.becomes.name}, {way}"
    piece = plan.listed.strips[change.strip - 1].piece
    fetched = change.way in ("from store", "cut new")
    size = f", {size_figure(piece.length, piece.width, job)}" if fetched else ""
    dam = change.becomes or change.was
    return f"{name}: {dam.name}{size}" if dam else name


def _notes(job: Job, reset: Reset) -> list[str]:
    notes = ["Seen from above. Measure from the datum corner; measure what stays again."]
    if reset.before and reset.before.layout.bed != reset.after.layout.bed:
        notes.append(f"The liner moves from bed {reset.before.layout.bed} first.")
    notes += note_bed(job, reset.after.layout)
    return notes
