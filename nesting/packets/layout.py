"""One page of the packet for each layout: all that is needed at the bed while it is cast."""

from collections.abc import Iterator, Sequence

from nesting.amounts.mixreport import batch_table
from nesting.amounts.quantities import CastMix, Quantities
from nesting.amounts.report import handling_of
from nesting.amounts.weights import PanelWeight, weigh_layout
from nesting.drawings.view import FACE_DOWN
from nesting.files.columns import TextTable
from nesting.fronts.kinds import name_panels
from nesting.masses import mass_text
from nesting.packets.figure import dam_refs, draw_figure, panel_refs
from nesting.packets.parts import (
    Block,
    PacketTable,
    Section,
    SideBySide,
    Ticks,
    TitledPart,
    Words,
    grid_of,
    pick_columns,
    turn_table,
)
from nesting.schedules.cutlist import curve_table, cut_table
from nesting.schedules.onbed import TAPED, bed_measures, list_bed_tasks
from nesting.schedules.report import area_table
from nesting.schedules.setout import dam_table, explain_figures, ordered_size, panel_table
from nesting.strips.plan import StripPlan
from nesting.strips.report import with_strips
from nesting.unitwords import WORDS
from nesting.values.casts import Layout, Placement, Schedule
from nesting.values.job import Job
from nesting.values.names import cast_range
from nesting.values.shopdays import duration_text

_SET_OUT = ("dam", "left", "right", "bottom", "top", "clearance", "exact")
_MOST_COLUMNS = 8


def lay_out_page(
    job: Job,
    schedule: Schedule,
    layout: Layout,
    found: Quantities,
    numbers: Sequence[int],
    strips: StripPlan | None = None,
    *,
    exact: bool = False,
) -> Section:
    """Return the page of one layout: drawing, set-out, cut list, masks, marks, batches, boxes.

    ``numbers`` are those of its casts; where ``strips`` are given, each dam has the number of its
    own; where ``exact`` is asked for, lengths that lie on no mark of
    the tape follow in decimals.
    """
    figure = draw_figure(job, schedule, layout)
    (cast,) = [each for each in found.casts if each.layout == layout.number]
    blocks: tuple[Block, ...] = (
        Words(_summary(job, schedule, layout, numbers), "strong"),
        figure,
        *_dam_blocks(job, layout, strips, exact),
        _list_places(job, layout, exact),
        *_bed_blocks(job, layout),
        Words(say_masks(job, schedule, layout)),
        TitledPart(
            f"Casting layout {layout.number}",
            (
                _list_marks(job, schedule, layout),
                SideBySide(
                    (_list_batches(job, cast, found), *list_ticks(numbers, list_tasks(job, layout)))
                ),
            ),
        ),
    )
    title = f"Layout {layout.number} of {len(schedule.layouts)}"
    return Section(f"l{layout.number}", title, blocks, wide=figure.is_wide)


def write_haze(job: Job) -> str:
    """Return when the face coat is ready for the backing; the window is the job's."""
    least, most = job.shop.times.haze
    return (
        "The face coat is ready for the backing when it hazes: its wet shine goes dull. That takes "
        f"some {least} to {most} minutes; warmth and dry air shorten it. It is judged by eye: the "
        "eye and the shop rule, not the clock (common practice, no source)."
    )


def list_tasks(job: Job, layout: Layout) -> tuple[str, ...]:
    """Return the tasks of a cast of this layout in turn, the first on the liner lying flat."""
    coat = job.tape.stated_words(job.materials.panel.face_coat)
    least, most = job.shop.times.haze
    return (
        *list_bed_tasks(job, layout),
        "Mask all that is hatched. Put on release agent as its maker's data sheet says.",
        f"Weigh, mix and spray the face coat, {coat} thick.",
        f"Wait until it hazes: some {least} to {most} min, judged by eye.",
        "Weigh, mix, spray and roll down the backing; measure the thickness with a pin.",
        f"Cover it for at least {duration_text(job.shop.times.cover)}.",
        "Lift the panels off and write its mark, and kind, on the back of each.",
    )


def list_ticks(numbers: Sequence[int], tasks: tuple[str, ...]) -> Iterator[Ticks]:
    """Yield the boxes to tick: every cast has a column, and a table holds only so many."""
    for start in range(0, len(numbers), _MOST_COLUMNS):
        columns = tuple(map(str, numbers[start : start + _MOST_COLUMNS]))
        yield Ticks("Tasks, a box for each cast by its number", columns, tasks)


def say_masks(job: Job, schedule: Schedule, layout: Layout) -> str:
    """Return what is masked: all but panels and dams, and which bays of a former layout."""
    areas = area_table(job, schedule)
    row = areas.rows[list(schedule.layouts).index(layout)]
    masked = row[list(areas.head).index("masked")]
    unit = WORDS[job.units].area[0]
    text = (
        f"To mask: all of the liner but the panels and the dams, hatched in the drawing: {masked} "
        f"{unit} in each cast."
    )
    bays = [_bay(job, panel) for panel in masked_bays(schedule, layout)]
    if bays:
        text += f" The dams stay; of their bays these are masked: {', '.join(bays)}."
    return text


def masked_bays(schedule: Schedule, layout: Layout) -> list[Placement]:
    """Return the panels of the layout whose dams this one keeps that it does not cast itself."""
    if layout.same_dams_as is None:
        return []
    (base,) = [each for each in schedule.layouts if each.number == layout.same_dams_as]
    cast = {panel.box for panel in layout.panels}
    return [panel for panel in base.panels if panel.box not in cast]


def _bay(job: Job, panel: Placement) -> str:
    corner = ", ".join(job.tape.figure(each) for each in (panel.x, panel.y))
    return f"{panel.mark} at ({corner})"


def _summary(job: Job, schedule: Schedule, layout: Layout, numbers: Sequence[int]) -> str:
    bed = job.bed(layout.bed)
    curve = ""
    if bed.form != "flat":
        curve = f", radius {job.tape.words(bed.radius)} along {bed.curved_axis}"
    unit = WORDS[job.units].figures
    return (
        f"Cast {cast_range(list(numbers))} of {schedule.casts}, "
        f"on bed {bed.name!r} ({bed.form}{curve}). {FACE_DOWN}. "
        + ("All figures in" if bed.form == "flat" else "Set-out in")
        + f" {unit}, on the liner lying flat, from the datum corner. {explain_figures(job, layout)}"
    ).rstrip()


def _dam_blocks(job: Job, layout: Layout, strips: StripPlan | None, exact: bool) -> list[Block]:
    if not layout.dams:
        return [Words("No dam: the rim stops the spray on every side.")]
    refs = dam_refs(layout)
    places = pick_columns(dam_table(job, layout.dams, exact=exact), _SET_OUT)
    set_out = grid_of(places, f"Dams, set-out in {WORDS[job.units].figures}", refs)
    if layout.same_dams_as is not None:
        text = f"The dams stay as in layout {layout.same_dams_as}: nothing is cut or moved."
        return [Words(text, "strong"), set_out]
    table, curve = cut_table(job, layout), curve_table(job, layout)
    cuts = grid_of(with_strips(table, strips, layout) if strips else table, refs=refs)
    if job.bed(layout.bed).form == "flat":
        return [SideBySide((set_out, cuts))]
    return [set_out, cuts, *([grid_of(curve)] if curve.rows else [])]


def _bed_blocks(job: Job, layout: Layout) -> list[Block]:
    """Return what is measured on a curved bed; a flat one needs no more than the set-out."""
    form = job.bed(layout.bed).form
    if form == "flat":
        return []
    measures = grid_of(bed_measures(job, layout), refs=panel_refs(layout))
    return [measures, Words(TAPED[form], "note")]


def _list_places(job: Job, layout: Layout, exact: bool) -> PacketTable:
    title = f"Panels, set-out in {WORDS[job.units].figures}"
    return grid_of(panel_table(job, layout.panels, exact=exact), title, panel_refs(layout))


def _list_marks(job: Job, schedule: Schedule, layout: Layout) -> PacketTable:
    """Return the kinds of one cast, a row for each panel, in the order of the set-out."""
    head = ("panel", "ordered", "pieces", "thickness", "wet", "cured", "moved by")
    panels = zip(layout.panels, weigh_layout(job, layout), strict=True)
    rows = [_mark_row(job, placed.mark, weighed, layout.repeats) for placed, weighed in panels]
    for row, name in zip(rows, name_panels(job, schedule, layout), strict=True):
        row[0] = name
    title = f"Marks to cast, sizes in {WORDS[job.units].figures}"
    return grid_of(TextTable(title, head, rows, ("panel", "moved by")), refs=panel_refs(layout))


def _mark_row(job: Job, mark: str, weighed: PanelWeight, repeats: int) -> list[str]:
    panel = job.panel(mark)
    return [
        mark,
        ordered_size(job, panel),
        str(repeats),
        job.tape.stated(weighed.thickness),
        mass_text(weighed.weight.wet, job.units),
        mass_text(weighed.weight.cured, job.units),
        handling_of(job, weighed),
    ]


def _list_batches(job: Job, cast: CastMix, found: Quantities) -> PacketTable:
    """Return the batches of one cast on their side: a column for each mix, as it is weighed."""
    table = batch_table(job, found)
    number = str(cast.layout)
    rows = [row[1:] for row in table.rows if row[0] == number]
    own = TextTable("", table.head[1:], rows, ())
    unit = WORDS[job.units].mass
    weight = mass_text(cast.weight.wet, job.units)
    title = f"Batches of one cast, in {unit}; its panels weigh {weight} wet"
    return grid_of(turn_table(own, title))
