"""A schedule as text: what to cast, where the dams go, the areas, and why it is least."""

import math

from nesting.files.columns import INDENT, TextTable, count_of, sets_of_dams, times_of, wrap_text
from nesting.schedules.ascast import list_cast_sizes
from nesting.schedules.cutlist import curve_table, cut_table
from nesting.schedules.cuts import strip_of
from nesting.schedules.onbed import TAPED, bed_measures, list_bed_tasks
from nesting.schedules.setout import count_marks, list_set_out, ordered_size, placed_size
from nesting.schedules.stamps import code_plan
from nesting.schedules.tolerances import list_tolerances
from nesting.tape import Tape, explain_beside
from nesting.units import share_text
from nesting.unitwords import WORDS
from nesting.values.bed import AXES, Bed
from nesting.values.bend import bend_of
from nesting.values.casts import Areas, Layout, Placement, Proof, Schedule
from nesting.values.job import Job
from nesting.values.names import call_dam

CAUTIONS = (
    "Caution: silica dust harms the lungs and wet cement burns the skin, without pain at first.",
    "Local codes and licensed practice rule: this plan certifies no panel, lift or structure.",
)


def report_schedule(job: Job, schedule: Schedule, *, exact: bool = False) -> str:
    """Return the whole report, without a final newline; every line is plain text.

    Where ``exact`` is asked for, lengths that lie on no mark of the tape follow in decimals.
    """
    measured = [
        _list_layouts(job, schedule, exact=exact),
        *(_list_layout(job, layout, exact=exact) for layout in schedule.layouts),
        area_table(job, schedule).told,
        list_cast_sizes(job),
        _list_sizes(job, schedule, exact=exact),
        list_tolerances(job),
        write_clearance(job, schedule, exact=exact),
    ]
    told = explain_beside("\n".join(line for lines in measured for line in lines))
    sections = [
        [write_result(schedule)],
        [line for note in schedule.notes for line in wrap_text(f"Note: {note}")],
        [told] * bool(told),
        _list_other_widths(job, schedule),
        *measured,
        _list_proofs(schedule),
        [f"Drawings of this plan have the sheet code {code_plan(job, schedule)}."],
        list(CAUTIONS),
    ]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def _list_other_widths(job: Job, schedule: Schedule) -> list[str]:
    """Name every strip of a width that the job does not list."""
    told = [
        f"layout {layout.number} {dam.name}, {job.tape.words(strip_of(job, dam)[1])} wide"
        for layout in schedule.layouts
        if layout.same_dams_as is None
        for dam in layout.dams
        if not job.lists_width(strip_of(job, dam)[1])
    ]
    text = f"Strips of other widths than the job lists: {'; '.join(told)}."
    return wrap_text(text) if told else []


def write_result(schedule: Schedule) -> str:
    """Return the result in one line: casts, layouts, the bound and whether it is reached."""
    verdict = "PROVED" if schedule.proved else "NOT PROVED"
    return (
        f"{schedule.job}: {count_all(schedule)}; "
        f"at least {schedule.lower_bound} needed; "
        f"fewest casts {verdict}."
    )


def count_all(schedule: Schedule) -> str:
    """Return how many casts, sets of dams and layouts there are; some layouts share their dams."""
    casts, layouts = count_of(schedule.casts, "cast"), count_of(len(schedule.layouts), "layout")
    return f"{casts}, {sets_of_dams(schedule.different_layouts)}, {layouts}"


def _list_layouts(job: Job, schedule: Schedule, *, exact: bool) -> list[str]:
    table = layout_table(job, schedule, exact=exact)
    note = "A layout with dams as in another takes masking alone and no set of dams of its own."
    kept = any(layout.same_dams_as is not None for layout in schedule.layouts)
    return [*table.told, *(wrap_text(note, INDENT) if kept else [])]


def layout_table(job: Job, schedule: Schedule, *, exact: bool = False) -> TextTable:
    """Return a row for each layout in the order they are cast."""
    head = ["layout", "casts", "bed", "panels in each cast", "dams", "dam length", "idle"]
    rows = [_layout_row(job, layout, exact) for layout in schedule.layouts]
    unit = WORDS[job.units].lengths
    title = f"Layouts (dam length in {unit}; idle is the share of the liner without a panel):"
    head += ["exact"] * exact
    return TextTable(title, head, rows, ("bed", "panels in each cast", "exact"))


def _layout_row(job: Job, layout: Layout, exact: bool) -> list[str]:
    length = sum(dam.length for dam in layout.dams)
    dams = [str(len(layout.dams)), job.tape.figure(length)]
    lengths = {"dam length": length} if layout.same_dams_as is None else {}
    if layout.same_dams_as is not None:
        dams = [f"as {layout.same_dams_as}", "-"]
    return [
        str(layout.number),
        str(layout.repeats),
        layout.bed,
        count_marks((panel.mark for panel in layout.panels), ", "),
        *dams,
        share_text(layout.areas.idle, layout.areas.liner),
        *[job.tape.list_exact(lengths)] * exact,
    ]


def _list_layout(job: Job, layout: Layout, *, exact: bool) -> list[str]:
    times = times_of(layout.repeats)
    lines = [f"Layout {layout.number}, cast {times} on bed {layout.bed!r}:"]
    if layout.same_dams_as is not None:
        lines += wrap_text(
            f"The dams stay as in layout {layout.same_dams_as}; mask every bay but those of the "
            "panels listed.",
            INDENT,
        )
    unit = WORDS[job.units].lengths
    lines += wrap_text(
        f"Set-out in {unit} from the datum corner (lower left) of the liner lying flat; left and "
        "right run along x, bottom and top along y.",
        INDENT,
    )
    return [*lines, *list_set_out(job, layout, exact=exact), *_list_on_bed(job, layout)]


def _list_on_bed(job: Job, layout: Layout) -> list[str]:
    """Return how a layout is built on a curved bed, what to cut for it and what to measure."""
    bed = job.bed(layout.bed)
    if bed.form == "flat":
        return []
    lines = [
        "",
        *(line for task in list_bed_tasks(job, layout) for line in wrap_text(task, INDENT)),
    ]
    if layout.same_dams_as is None and layout.dams:
        tables = [cut_table(job, layout), curve_table(job, layout)]
        lines += [line for table in tables if table.rows for line in ("", *_indented(table))]
    return [*lines, "", *_indented(bed_measures(job, layout)), *wrap_text(TAPED[bed.form], INDENT)]


def _indented(table: TextTable) -> list[str]:
    return [*wrap_text(f"{table.title}:", INDENT), *table.lines]


def area_table(job: Job, schedule: Schedule) -> TextTable:
    """Return the area account of each layout; the last row is all casts."""
    unit, _ = WORDS[job.units].area
    head = ["layout", "casts", "liner", "panels", "dams", "masked", "idle", "share"]
    rows = [
        _area_row(job, f"{layout.number}, each cast", layout.repeats, layout.areas)
        for layout in schedule.layouts
    ]
    rows.append(_area_row(job, "all casts", schedule.casts, sum_areas(schedule)))
    title = f"Areas in {unit} (liner = panels + dams + masked; idle = dams + masked):"
    return TextTable(title, head, rows, ("layout",))


def sum_areas(schedule: Schedule) -> Areas:
    """Return the area account of all casts together [square steps]."""
    parts = ("liner", "panels", "dams", "masked")
    counted = [(layout.repeats, layout.areas) for layout in schedule.layouts]
    return Areas(*(sum(times * getattr(areas, part) for times, areas in counted) for part in parts))


def _area_row(job: Job, name: str, casts: int, areas: Areas) -> list[str]:
    _, scale = WORDS[job.units].area
    parts = (areas.liner, areas.panels, areas.dams, areas.masked, areas.idle)
    written = [f"{part / scale:.4f}" for part in parts]
    return [name, str(casts), *written, share_text(areas.idle, areas.liner)]


def _list_sizes(job: Job, schedule: Schedule, *, exact: bool) -> list[str]:
    """Return the sizes that are marked out otherwise than ordered, each once, and why."""
    table = size_table(job, schedule, exact=exact)
    if not table.rows:
        return []
    beds = [job.bed(name) for name in dict.fromkeys(row[1] for row in table.rows)]
    curved = [describe_bed(job, bed) for bed in beds if bed.form != "flat"]
    return [*table.told, *(line for words in curved for line in wrap_text(words, INDENT))]


def size_table(job: Job, schedule: Schedule, *, exact: bool = False) -> TextTable:
    """Return the sizes marked out otherwise than ordered, each once; there may be none."""
    rows: dict[tuple[str, int, int], list[str]] = {}
    for layout in schedule.layouts:
        for panel in layout.panels:
            ordered = job.panel(panel.mark)
            if (panel.width, panel.height) == (ordered.width, ordered.height):
                continue
            key = (panel.mark, panel.width, panel.height)
            rows[key] = _size_row(job, panel, layout.bed, exact)
    head = ["panel", "bed", "ordered", "measured on", "within tolerance", "flat size", "change"]
    head += ["back", *["exact"] * exact]
    title = f"Sizes marked out otherwise than ordered, in {WORDS[job.units].lengths}:"
    return TextTable(title, head, list(rows.values()), ("panel", "bed", "measured on", "exact"))


def _size_row(job: Job, placed: Placement, bed: str, exact: bool) -> list[str]:
    ordered, tape = job.panel(placed.mark), job.tape
    taken = "-" if placed.off_nominal == (0, 0) else _write_changes(tape, *placed.off_nominal)
    change = _write_changes(tape, placed.width - ordered.width, placed.height - ordered.height)
    flat = {"width": placed.width, "height": placed.height}
    return [
        placed.mark,
        bed,
        ordered_size(job, ordered),
        ordered.measured_on,
        taken,
        placed_size(job, placed),
        change,
        write_back(job, placed, bed),
        *[tape.list_exact(flat)] * exact,
    ]


def write_back(job: Job, placed: Placement, bed: str) -> str:
    """Return the size of a finished panel along its back, '-' on a flat bed: that of the face."""
    bend, thickness = bend_of(job, bed), job.thickness_of(job.panel(placed.mark))
    if bend.bed.form == "flat":
        return "-"
    width, height = (
        bend.ordered_length(flat, axis, "back", thickness)
        for flat, axis in zip((placed.width, placed.height), AXES, strict=True)
    )
    return job.tape.size(width, height)


def _write_changes(tape: Tape, along_x: int, along_y: int) -> str:
    """Return two signed changes, ``-5 by 0``."""
    return f"{tape.signed(along_x)} by {tape.signed(along_y)}"


def describe_bed(job: Job, bed: Bed) -> str:
    """Return what a curved bed makes of a panel face: rule 10 in docs/method.md."""
    face = bend_of(job, bed.name).face_radius
    shape = "concave" if bed.form == "convex" else "convex"
    return (
        f"Bed {bed.name!r} is {bed.form} along {bed.curved_axis}, "
        f"radius {job.tape.words(bed.radius)}: "
        f"panel faces are {shape}, radius {job.tape.words(face)}."
    ) + (" Ends are plumb: face and back have one chord." if bed.ends == "plumb" else "")


def write_clearance(job: Job, schedule: Schedule, *, exact: bool = False) -> list[str]:
    """Return the least clearance of all dams, and where it is, in one line."""
    found = [
        (dam.clearance, layout.number, dam.name)
        for layout in schedule.layouts
        for dam in layout.dams
        if dam.clearance is not None
    ]
    if not found:
        return ["Least clearance from ornament: no dam lies beside an ornament."]
    clearance, number, name = min(found, key=lambda entry: entry[0])
    told = job.tape.words(clearance) + f" ({job.tape.exact(clearance)})" * exact
    rule = f"{job.tape.stated(job.rules.dam_clearance)} {job.units}"
    return [
        f"Least clearance from ornament: {told}, at {call_dam(name)} of layout {number}; "
        f"the job asks for at least {rule}."
    ]


def _list_proofs(schedule: Schedule) -> list[str]:
    return [
        f"Why at least {count_of(schedule.lower_bound, 'cast')}:",
        *(line for proof in schedule.proofs for line in wrap_text(write_proof(proof), INDENT)),
        *wrap_text(write_verdicts(schedule)),
    ]


def write_verdicts(schedule: Schedule) -> str:
    """Return what else is proved at that number of casts: layouts and, where it is, dam length."""
    verdict = "PROVED" if schedule.layouts_proved else "NOT PROVED"
    shortest = "; shortest dams PROVED" if schedule.dam_length_proved else ""
    return (
        f"At {count_of(schedule.casts, 'cast')}: fewest sets of dams {verdict} "
        f"(at least {schedule.layouts_bound}){shortest}."
    )


def write_proof(proof: Proof) -> str:
    """Return in plain words why one bed's panels cannot be made in fewer casts."""
    bound = count_of(proof.lower_bound, "cast")
    if not proof.heaviest:
        return f"Bed {proof.bed!r}: at least {bound}. {proof.method}".rstrip()
    scale = math.gcd(proof.heaviest, *(points for _, points in proof.prices))
    demand, heaviest = proof.demand // scale, proof.heaviest // scale
    points = ", ".join(f"{mark} {each // scale}" for mark, each in proof.prices if each)
    by_points = -(-demand // heaviest)
    text = (
        f"Bed {proof.bed!r}: give each panel points ({points}). The order has {demand}, no cast "
        f"can hold more than {heaviest}, and {demand} / {heaviest} = {demand / heaviest:.6g}: "
        f"at least {count_of(by_points, 'cast')}."
    )
    if proof.lower_bound > by_points:
        text += (
            f" Every set of {count_of(proof.lower_bound - 1, 'cast')} was then ruled out: {bound}."
        )
    if proof.points:
        spots = count_of(len(proof.points), "spot")
        times = f", there times {scale}" if scale > 1 else ""
        return f"{text} Weights on {spots} of the liner show the limit (schedule.json{times})."
    return f"{text} How the limit is known: {proof.method}." if proof.method else text
