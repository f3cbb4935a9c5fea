"""From a layout to its drawing: what lies where, measured, named and explained.

Nothing is decided here: positions, names, areas and proofs are those of the schedule.
"""

from collections.abc import Callable
from dataclasses import dataclass

from nesting.drawings.compose import (
    Figures,
    Head,
    Painted,
    Picture,
    compose,
    measured,
    start_names,
)
from nesting.drawings.figures import TIMES, length_words, size_figure
from nesting.drawings.legend import key_rows
from nesting.drawings.names import COVERS, PlacedNames
from nesting.drawings.ordinates import measure_faces
from nesting.drawings.record import Drawing, Layer
from nesting.drawings.sheet import PaperSize, SheetPlan
from nesting.drawings.terrain import frame_of, layout_layers
from nesting.drawings.view import FACE_DOWN, View
from nesting.files.columns import times_of
from nesting.schedules.ascast import note_cast_sizes
from nesting.schedules.onbed import note_bed
from nesting.schedules.setout import placed_size
from nesting.shapes.geometry import bounds, polygon_of
from nesting.units import share_text
from nesting.values.bed import Bed
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job

_MOST_NAMED_ORNAMENTS = 60
_ACROSS_DAM = 15.0
_ON_PANEL = 8.0


@dataclass(frozen=True, slots=True)
class Trial:
    """A layout that tries one size and belongs to no schedule.

    ``words`` stand in its title strip; ``draw_places`` gives the layer of all its places.
    """

    words: tuple[str, str]
    draw_places: Callable[[View], Layer]


def draw_layout(
    job: Job,
    schedule: Schedule,
    layout: Layout,
    trial: Trial | None = None,
    before: tuple[PaperSize, ...] = (),
) -> Drawing:
    """Return the masking layout: one sheet that hangs at the bed.

    Papers ``before`` the usual ones are tried first.

    Layers from below: sheet, ground (liner, panels, masks, zones), relief, dams, the places of a
    trial, dimensions, names, key, strip.
    """
    frame = frame_of(job)
    notes = _notes(job, layout)
    keys = (
        key_rows(job, layout, notes, list_panels=listed, list_places=trial is not None)
        for listed in (False, True)
    )
    words = f"Layout {layout.number} of {len(schedule.layouts)}", f"Cast {times_of(layout.repeats)}"
    picture = Picture(
        _head(job, layout, trial.words if trial else words),
        frame,
        tuple(keys),
        *measure_faces(job, layout, frame),
        before=before,
    )

    def paint(sheet: SheetPlan, figures: Figures) -> Painted:
        names = _name_everything(job, layout, sheet, figures)
        layers = (
            *layout_layers(job.liner, layout, sheet.view),
            *([trial.draw_places(sheet.view)] if trial else []),
            measured(sheet, figures),
            Layer("names", names.shapes),
        )
        return Painted(layers, len(names.unplaced), len(names.unsized))

    return compose(picture, paint)


def _name_everything(job: Job, layout: Layout, sheet: SheetPlan, figures: Figures) -> PlacedNames:
    """Return the names of panels, dams and ornaments, in that order of right of way."""
    view = sheet.view
    has_names = len(job.liner.ornaments) <= _MOST_NAMED_ORNAMENTS
    relief = [each.outline for each in job.liner.ornaments]
    relief = relief if has_names else [polygon_of(outline.bounds) for outline in relief]
    marks = [panel.mark + "*" * panel.turned for panel in layout.panels]
    unlike = tuple(dict.fromkeys(marks))
    names = start_names(sheet, figures, job.liner.outline, relief, _ON_PANEL, unlike)
    for panel in layout.panels:
        names.taken.avoid(view.rect(panel.box), _ON_PANEL)
    for dam in layout.dams:
        names.taken.avoid(view.rect(dam.box), COVERS, _ACROSS_DAM)
    for panel, mark in zip(layout.panels, marks, strict=True):
        names.name_panel(view.rect(panel.box), mark, placed_size(job, panel, TIMES))
    for dam in layout.dams:
        names.name_dam(view.rect(dam.box), dam.name)
    for ornament in job.liner.ornaments if has_names else ():
        names.name_ornament(view.rect(ornament.outline.bounds), ornament.name)
    for each in job.liner.keep_clear:
        names.name_ornament(view.rect(bounds(each.ground)), each.name)
    return names


def _head(job: Job, layout: Layout, words: tuple[str, str]) -> Head:
    box = job.liner.outline.bounds
    size = size_figure(box.width, box.height, job)
    return Head(
        f"layout-{layout.number:02d}",
        f"{job.title}: layout {layout.number}",
        _summary(job, layout),
        job.units,
        (
            (job.title, *words),
            (
                f"Liner {job.liner.name}, {size} {job.units}",
                FACE_DOWN,
                _bed_words(job, job.bed(layout.bed)),
                f"Idle {share_text(layout.areas.idle, layout.areas.liner)}",
            ),
        ),
    )


def _bed_words(job: Job, bed: Bed) -> str:
    if bed.form == "flat":
        return "Bed flat" if bed.name == "flat" else f"Bed {bed.name}, flat"
    return f"Bed {bed.name}, {bed.form}, R {length_words(bed.radius, job)} along {bed.curved_axis}"


def _notes(job: Job, layout: Layout) -> list[str]:
    notes = ["Lay the liner flat. Measure from the datum corner."]
    if any(panel.turned for panel in layout.panels):
        notes.append("* after a mark: turned half round.")
    notes += note_bed(job, layout)
    if layout.same_dams_as is not None:
        notes.append(f"Dams stay as in layout {layout.same_dams_as}; mask every hatched bay.")
    notes += note_cast_sizes(job.as_cast, job.units)
    for panel in layout.panels:
        if any(panel.off_nominal):
            wide, high = (length_words(change, job) for change in panel.off_nominal)
            notes.append(f"{panel.mark}: size within tolerance, width {wide}, height {high}.")
    return list(dict.fromkeys(notes))


def _summary(job: Job, layout: Layout) -> str:
    panels = ", ".join(f"{panel.mark} {placed_size(job, panel, TIMES)}" for panel in layout.panels)
    return f"Masking layout {layout.number} on bed {layout.bed}, {len(layout.dams)} dams; {panels}."
