"""What the key of a masking layout lists: the marks used on it, the dams to cut, notes."""

from collections.abc import Iterable, Mapping, Sequence

from nesting.drawings.figures import TIMES, size_figure
from nesting.drawings.key import (
    HEIGHT,
    MOST_WIDTH,
    KeyRow,
    Swatch,
    explain,
    heading,
    list_notes,
    rows_width,
    table,
)
from nesting.drawings.lettering import shorten, words_width
from nesting.drawings.terrain import has_meetings
from nesting.schedules.cuts import OTHER, DamCut, dam_cuts
from nesting.schedules.onbed import measure_panels, taped_words
from nesting.schedules.setout import placed_size
from nesting.values.casts import Layout
from nesting.values.job import Job
from nesting.values.liner import Liner

KEEP_CLEAR = "Place that dams keep off"
"""What the mark of a keep-clear place means."""

_MEANINGS: dict[Swatch, str] = {
    "panel": "Panel: mark, flat size",
    "dam": "Dam, name in a frame",
    "masked": "Masked, not sprayed",
    "ornament": "Ornament",
    "zone": "Blank zone",
    "keep_clear": KEEP_CLEAR,
    "meeting": "Where two dams meet",
    "edge_side": "Edge side: rim, no dam",
    "rim": "Rim of the liner",
    "datum": "Datum corner 0,0",
    "bold": "Panel edge",
    "regular": "Other dam face, rim",
    "place": "Places of its lower left corner",
}


def key_rows(
    job: Job,
    layout: Layout,
    notes: Iterable[str],
    *,
    list_panels: bool = False,
    list_places: bool = False,
) -> tuple[KeyRow, ...]:
    """Return the rows of a layout's key: marks used on this drawing, the dams, notes.

    ``list_panels`` adds the size of every panel, where the drawing has no room for some;
    ``list_places`` the mark of a panel's places.
    """
    meanings = {mark: words for mark, words in _MEANINGS.items() if mark != "place" or list_places}
    legend = legend_rows(job, [layout], meanings)
    dam_sizes = [(cut.name, _cut_words(job, cut)) for cut in dam_cuts(job, layout)]
    panel_sizes = [(panel.mark, placed_size(job, panel, TIMES)) for panel in layout.panels]
    width = _named_width([*dam_sizes, *panel_sizes], rows_width(legend))
    dams = [_entry(name, size, width) for name, size in dam_sizes]
    panels = dict.fromkeys(_entry(mark, size, width) for mark, size in panel_sizes)
    if not all(job.lists_width(each.width) for each in dam_cuts(job, layout)):
        notes = (*notes, f"{OTHER}: a strip of a width that the job does not list.")
    cut = "Dams to cut" if layout.same_dams_as is None else "Dams in place"
    bed = job.bed(layout.bed)
    found = measure_panels(job, layout) if bed.form != "flat" else ()
    measures = dict.fromkeys(f"{each.mark}: {taped_words(job, each, bed)}" for each in found)
    told = [heading(f"To measure on the bed, {job.units}")] if found else []
    told += [row for words in measures for row in explain(words, width)]
    return (
        *legend,
        *(table(f"Panels, flat size, {job.units}", panels, width) if list_panels else ()),
        *table(f"{cut}, {job.units}", dams, width),
        *told,
        *list_notes(notes, width),
    )


def legend_rows(
    job: Job, layouts: Sequence[Layout], meanings: Mapping[Swatch, str]
) -> tuple[KeyRow, ...]:
    """Return one row per mark that drawings of these layouts use, in the order of the meanings."""
    has_panels = any(each.panels for each in layouts)
    has_dams = any(each.dams for each in layouts)
    used: dict[Swatch, bool] = {
        "panel": has_panels,
        "dam": has_dams,
        "meeting": any(has_meetings(each) for each in layouts),
        "masked": any(each.areas.masked for each in layouts),
        "edge_side": any("edge" in panel.sides for each in layouts for panel in each.panels),
        "bold": has_panels and has_dams,
    }
    shown = {mark: words for mark, words in meanings.items() if used.get(mark, True)}
    return liner_rows(job.liner, shown)


def liner_rows(liner: Liner, meanings: Mapping[Swatch, str]) -> tuple[KeyRow, ...]:
    """Return one row per mark, but for marks of what the liner has not, in their order."""
    used: dict[Swatch, bool] = {
        "ornament": bool(liner.ornaments),
        "zone": bool(liner.zones),
        "keep_clear": bool(liner.keep_clear),
    }
    return tuple(KeyRow((words,), mark) for mark, words in meanings.items() if used.get(mark, True))


def _cut_words(job: Job, cut: DamCut) -> str:
    """Return the size of the strip of a dam, and what it is where it follows a curve."""
    size = size_figure(cut.length, cut.width, job)
    size = size if job.lists_width(cut.width) else f"{size} {OTHER}"
    return f"{cut.kind} {size}" if cut.profile else size


def _named_width(sizes: Iterable[tuple[str, str]], width: float) -> float:
    """Return the width, or the greatest where some size would leave its name no room at all."""
    has_room = all(_entry(name, size, width)[0] != ":" for name, size in sizes)
    return width if has_room else MOST_WIDTH


def _entry(name: str, size: str, width: float) -> str:
    """Return a name and its size, the name shortened where both do not fit the width."""
    room = width - words_width(": " + size, HEIGHT)
    return f"{shorten(name, room, HEIGHT)}: {size}"
