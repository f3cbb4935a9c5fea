"""The packet: all a crew needs from order to last cast, as values; how it looks is decided later.

Every figure is that of the plan, the quantities or the checker: nothing is reckoned anew here.
"""

from collections.abc import Mapping, Sequence
from itertools import count, islice

from nesting.amounts.mixreport import day_table, ratio_texts
from nesting.amounts.quantities import Quantities
from nesting.amounts.report import (
    cast_table,
    handling_table,
    handling_text,
    list_warnings,
    weight_table,
)
from nesting.checking.findings import Finding
from nesting.days.report import write_cover
from nesting.drawings.key import Swatch
from nesting.drawings.legend import legend_rows
from nesting.files.columns import TextTable
from nesting.packets.days import list_calendar
from nesting.packets.faces import list_faces
from nesting.packets.layout import lay_out_page, write_haze
from nesting.packets.overview import list_overview
from nesting.packets.parts import Block, Packet, Section, Words, grid_of
from nesting.packets.proof import list_beds, tell_proof
from nesting.packets.strips import list_resets, list_strips
from nesting.schedules.cautions import CAUTIONS, NOT_CERTIFIED, RULE
from nesting.schedules.report import layout_table, write_result
from nesting.schedules.setout import ordered_size
from nesting.strips.plan import StripPlan
from nesting.unitwords import WORDS
from nesting.values.calendar import CastCalendar
from nesting.values.casts import Schedule
from nesting.values.job import Job
from nesting.values.names import cast_range
from nesting.values.stamp import Stamp

_CALENDAR_RULES = "Days and numbers of the casts are those of the calendar page."
_SEEN: dict[Swatch, tuple[str, str]] = {
    "panel": ("pale ground, a large mark", "a panel, with its mark and its flat size"),
    "dam": ("solid black strip, name in a frame", "a dam"),
    "masked": ("hatched ground", "masked, not sprayed"),
    "edge_side": ("heavy dashed line in a panel", "edge side: the rim stops the spray, no dam"),
    "ornament": ("outline", "an ornament"),
    "zone": ("tinted ground in a dotted line", "a blank zone"),
    "keep_clear": ("cross in a thin outline", "a place that dams keep off"),
    "datum": ("quarter disc, 0,0", "the datum corner"),
    "bold": ("heavy figure", "a panel's edge, as the tape reads from the datum corner"),
    "regular": ("light figure", "the other face of a dam, or the rim"),
}
_STAR = ("star after a mark", "the panel is turned half round")


def make_packet(
    job: Job,
    schedule: Schedule,
    found: Quantities,
    findings: Sequence[Finding] = (),
    calendar: CastCalendar | None = None,
    further: Sequence[Section] = (),
    stamp: Stamp | None = None,
    *,
    strips: StripPlan | None = None,
    exact: bool = False,
) -> Packet:
    """Return the packet of a schedule and its quantities.

    Parameters
    ----------
    job, schedule, found
        What was ordered, how it is cast, and what it weighs and takes.
    findings
        What the checker found in this very schedule; they are told, not hidden.
    calendar
        Its page stands after the mix for each day, and casts bear its numbers; without one they
        are numbered in the order of the schedule.
    further
        Sections that stand before the cautions.
    stamp
        What every page says of when and of what it was printed.
    strips
        Their list stands before the layouts and the re-sets after them, where they are given.
    exact
        Whether lengths that lie on no mark of the tape follow in decimals.
    """
    numbers = number_casts(schedule, calendar)
    return Packet(
        job.title,
        job.units,
        (
            list_overview(job, schedule),
            _tell_order(job, schedule, found),
            _list_sequence(job, schedule, numbers, calendar is not None, exact),
            _tell_work(job, schedule),
            *([] if strips is None else [list_strips(job, strips, exact=exact)]),
            *(
                lay_out_page(
                    job, schedule, layout, found, numbers[layout.number], strips, exact=exact
                )
                for layout in schedule.layouts
            ),
            *([] if strips is None else list_resets(job, strips)),
            list_faces(job, schedule),
            _list_weights(job, found),
            _list_days(job, found),
            *([] if calendar is None else [list_calendar(job, calendar)]),
            list_beds(job, schedule, exact=exact),
            *further,
            _tell_cautions(),
            tell_proof(job, schedule, findings),
        ),
        stamp.words if stamp else "",
    )


def _tell_order(job: Job, schedule: Schedule, found: Quantities) -> Section:
    box = job.liner.outline.bounds
    size = job.tape.size_words(box.width, box.height)
    blocks: tuple[Block, ...] = (
        Words(write_result(schedule), "strong"),
        Words(f"Liner {job.liner.name!r}, {size}."),
        *(Words(f"Note: {note}", "note") for note in schedule.notes),
        *(Words(f"Warning: {text}", "warning") for text in list_warnings(job, found)),
        grid_of(_order_table(job, schedule)),
        Words(f"{RULE} {NOT_CERTIFIED}", "note"),
    )
    return Section("order", "The order", blocks)


def _order_table(job: Job, schedule: Schedule) -> TextTable:
    cast = schedule.panels
    rows = [
        [
            panel.mark,
            ordered_size(job, panel),
            panel.measured_on,
            panel.bed,
            str(panel.quantity),
            str(cast.get(panel.mark, 0)),
            _layouts_of(panel.mark, schedule),
        ]
        for panel in job.panels
    ]
    ordered = sum(panel.quantity for panel in job.panels)
    rows.append(["all", "", "", "", str(ordered), str(sum(cast.values())), ""])
    head = ["panel", "size", "measured on", "bed", "ordered", "cast", "layouts"]
    left = ("panel", "measured on", "bed", "layouts")
    return TextTable(f"Panels ordered, sizes in {WORDS[job.units].figures}", head, rows, left)


def _layouts_of(mark: str, schedule: Schedule) -> str:
    having = (each for each in schedule.layouts if mark in [panel.mark for panel in each.panels])
    return ", ".join(str(layout.number) for layout in having)


def number_casts(schedule: Schedule, calendar: CastCalendar | None) -> dict[int, list[int]]:
    """Return the numbers of each layout's casts: the calendar's, or counted layout by layout."""
    if calendar is not None:
        return {
            layout.number: [cast.number for cast in calendar.casts if cast.layout == layout.number]
            for layout in schedule.layouts
        }
    counter = count(1)
    return {each.number: list(islice(counter, each.repeats)) for each in schedule.layouts}


def _list_sequence(
    job: Job, schedule: Schedule, numbers: Mapping[int, list[int]], has_calendar: bool, exact: bool
) -> Section:
    """Return which casts each layout serves, in the order of the schedule."""
    table = layout_table(job, schedule, exact=exact)
    rows = [
        [cast_range(numbers[layout.number]), row[0], *row[2:]]
        for layout, row in zip(schedule.layouts, table.rows, strict=True)
    ]
    head = ["casts", table.head[0], *table.head[2:]]
    unit = WORDS[job.units].figures
    title = f"Casts in sequence, dam length in {unit}; idle is the liner's share without panel"
    refs = [f"l{layout.number}" for layout in schedule.layouts]
    grid = grid_of(TextTable(title, head, rows, table.left), refs=refs)
    rule = [Words(_CALENDAR_RULES, "note")] * has_calendar
    return Section("sequence", "Casts in sequence", (*rule, grid), short=True)


def _tell_work(job: Job, schedule: Schedule) -> Section:
    used = legend_rows(job, schedule.layouts, dict.fromkeys(_SEEN, ""))
    turned = any(panel.turned for layout in schedule.layouts for panel in layout.panels)
    seen = [*(_SEEN[row.swatch] for row in used), *([_STAR] * turned)]
    marks = TextTable("What the drawings show", ["seen", "meaning"], seen, ("seen", "meaning"))
    blocks: tuple[Block, ...] = (
        grid_of(marks),
        Words("The drawings fit the page and are not to scale: the figures count."),
        Words(write_haze(job), "strong"),
        Words(write_cover(job)),
        *(Words(text) for text in ratio_texts(job)),
    )
    return Section("work", "Reading and casting", blocks, short=True)


def _list_weights(job: Job, found: Quantities) -> Section:
    blocks = (
        grid_of(weight_table(job, found)),
        grid_of(handling_table(job, found)),
        Words(handling_text(job), "note"),
        grid_of(cast_table(job, found)),
    )
    return Section("weights", "Weights and handling", blocks)


def _list_days(job: Job, found: Quantities) -> Section:
    return Section("days", "Mix for each day", (grid_of(day_table(job, found)),), short=True)


def _tell_cautions() -> Section:
    blocks = [Words(RULE, "strong"), Words(NOT_CERTIFIED, "strong")]
    for caution in CAUTIONS:
        blocks += [Words(caution.name, "warning"), *(Words(text) for text in caution.paragraphs)]
    return Section("cautions", "Cautions", tuple(blocks))
