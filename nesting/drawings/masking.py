"""From a layout to its drawing: what lies where, measured, named and explained.

Nothing is decided here: positions, names, areas and proofs are those of the schedule.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from nesting.drawings.figures import length_words, size_figure
from nesting.drawings.key import KeyRow, draw_key, key_rows
from nesting.drawings.labels import Taken
from nesting.drawings.measured import keep_clear, measured_sheets, scale_cells
from nesting.drawings.names import PlacedNames
from nesting.drawings.ordinates import measure_faces
from nesting.drawings.record import Drawing, Layer, Shape
from nesting.drawings.sheet import SheetPlan, View
from nesting.drawings.strip import draw_strip
from nesting.drawings.terrain import datum_shapes, frame_of, layout_layers
from nesting.files.columns import times_of
from nesting.schedules.ascast import note_cast_sizes
from nesting.shapes.geometry import bounds, polygon_of
from nesting.values.bed import Bed
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job

_MOST_NAMED_ORNAMENTS = 60
_ACROSS_DAM = 15.0
_ON_PANEL, _ON_DAM = 8.0, 100.0


@dataclass(frozen=True, slots=True)
class _Arrangement:
    """A sheet with everything on it that had to find its place."""

    sheet: SheetPlan
    key: tuple[KeyRow, ...]
    dimensions: tuple[tuple[Shape, ...], ...]
    names: PlacedNames


@dataclass(frozen=True, slots=True)
class Trial:
    """A layout that tries one size and belongs to no schedule.

    ``words`` stand in its title strip; ``draw_places`` gives the layer of all its places.
    """

    words: tuple[str, str]
    draw_places: Callable[[View], Layer]


def draw_layout(
    job: Job, schedule: Schedule, layout: Layout, trial: Trial | None = None
) -> Drawing:
    """Return the masking layout: one sheet that hangs at the bed.

    Layers from below: sheet, ground (liner, panels, masks, zones), relief, dams, the places of a
    trial, dimensions, names, key, strip.
    """
    found = _arrange(job, layout, is_trial=trial is not None)
    sheet = found.sheet
    dimensions = (*chain(*found.dimensions), *datum_shapes(sheet.view))
    times = times_of(layout.repeats)
    words = f"Layout {layout.number} of {len(schedule.layouts)}", f"Cast {times}"
    title = _title(job, trial.words if trial else words, layout, sheet)
    strip = draw_strip(sheet.strip, title, sheet.view, job.units)
    return Drawing(
        f"layout-{layout.number:02d}",
        sheet.width,
        sheet.height,
        f"{job.title}: layout {layout.number}",
        _summary(job, layout),
        (
            Layer("sheet", sheet.shapes),
            *layout_layers(job, layout, sheet.view),
            *([trial.draw_places(sheet.view)] if trial else []),
            Layer("dimensions", dimensions),
            Layer("names", found.names.shapes),
            Layer("key", draw_key(sheet, found.key)),
            Layer("strip", strip),
        ),
    )


def _arrange(job: Job, layout: Layout, *, is_trial: bool) -> _Arrangement:
    """Return the arrangement on the smallest paper where each name has a place, or the largest.

    Where the drawing has no room for the size of some panel, the key lists the sizes of all.
    """
    for list_panels in (False, True):
        key = key_rows(
            job, layout, _notes(job, layout), list_panels=list_panels, list_places=is_trial
        )
        for found in _arrangements(job, layout, key):
            if found.names.unsized and not list_panels:
                break
            if not found.names.unplaced:
                return found
    return found


def _arrangements(job: Job, layout: Layout, key: tuple[KeyRow, ...]) -> Iterator[_Arrangement]:
    """Yield the arrangement on each paper, the smallest first."""
    frame = frame_of(job)
    across, up = measure_faces(job, layout, frame)
    for sheet, dimensions in measured_sheets(job.units, frame, across, up, key):
        names = _name_everything(job, layout, sheet, dimensions)
        yield _Arrangement(sheet, key, dimensions, names)


def _name_everything(
    job: Job, layout: Layout, sheet: SheetPlan, dimensions: Sequence[Sequence[Shape]]
) -> PlacedNames:
    """Return the names of panels, dams and ornaments, in that order of right of way."""
    view = sheet.view
    marks = [panel.mark + "*" * panel.turned for panel in layout.panels]
    taken = _occupied(job, layout, view, dimensions)
    names = PlacedNames(sheet.ground.grown(-1.0), taken, _ON_PANEL, tuple(dict.fromkeys(marks)))
    for panel, mark in zip(layout.panels, marks, strict=True):
        names.name_panel(view.rect(panel.box), mark, size_figure(panel.width, panel.height, job))
    for dam in layout.dams:
        names.name_dam(view.rect(dam.box), dam.name)
    if len(job.liner.ornaments) <= _MOST_NAMED_ORNAMENTS:
        for ornament in job.liner.ornaments:
            names.name_ornament(view.rect(ornament.outline.bounds), ornament.name)
    for each in job.liner.keep_clear:
        names.name_ornament(view.rect(bounds(each.ground)), each.name)
    return names


def _occupied(job: Job, layout: Layout, view: View, dimensions: Sequence[Sequence[Shape]]) -> Taken:
    """Return what names must keep clear of: figures, the datum, dams, ornaments, the rim."""
    ornaments = [ornament.outline for ornament in job.liner.ornaments]
    if len(ornaments) > _MOST_NAMED_ORNAMENTS:
        ornaments = [polygon_of(outline.bounds) for outline in ornaments]
    taken = keep_clear(view, dimensions, job.liner.outline, ornaments)
    for panel in layout.panels:
        taken.avoid(view.rect(panel.box), _ON_PANEL)
    for dam in layout.dams:
        taken.avoid(view.rect(dam.box), _ON_DAM, _ACROSS_DAM)
    return taken


def _title(job: Job, words: tuple[str, str], layout: Layout, sheet: SheetPlan) -> list[list[str]]:
    box = job.liner.outline.bounds
    size = size_figure(box.width, box.height, job)
    return [
        [job.title, *words],
        [
            f"Liner {job.liner.name}, {size} {job.units}",
            _bed_words(job, job.bed(layout.bed)),
            f"Idle {100 * layout.idle_share:.1f} %",
        ],
        scale_cells(job, sheet),
    ]


def _bed_words(job: Job, bed: Bed) -> str:
    if bed.form == "flat":
        return "Bed flat" if bed.name == "flat" else f"Bed {bed.name}, flat"
    return f"Bed {bed.name}, {bed.form}, R {length_words(bed.radius, job)} along {bed.curved_axis}"


def _notes(job: Job, layout: Layout) -> list[str]:
    notes = ["Lay the liner flat. Measure from the datum corner."]
    if any(panel.turned for panel in layout.panels):
        notes.append("* after a mark: turned half round.")
    if job.bed(layout.bed).form != "flat":
        notes.append("Curved bed: all figures are flat liner measures; face lengths differ.")
    if layout.same_dams_as is not None:
        notes.append(f"Dams stay as in layout {layout.same_dams_as}; mask every hatched bay.")
    notes += note_cast_sizes(job.as_cast, job.units)
    for panel in layout.panels:
        if any(panel.off_nominal):
            wide, high = (length_words(change, job) for change in panel.off_nominal)
            notes.append(f"{panel.mark}: size within tolerance, width {wide}, height {high}.")
    return list(dict.fromkeys(notes))


def _summary(job: Job, layout: Layout) -> str:
    panels = ", ".join(
        f"{panel.mark} {size_figure(panel.width, panel.height, job)}" for panel in layout.panels
    )
    return f"Masking layout {layout.number} on bed {layout.bed}, {len(layout.dams)} dams; {panels}."
