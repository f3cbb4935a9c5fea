"""The strips of a job as text: the list, the cut plan with its proof, and every re-set."""

from nesting.files.columns import TextTable, count_of, sets_of_dams, wrap_text
from nesting.ordering.stock import StockProof
from nesting.schedules.cuts import OTHER, runs_along
from nesting.strips.cuts import SectionCuts
from nesting.strips.plan import StripPlan
from nesting.strips.reuse import WAYS, Change, Reset, Strip, Way
from nesting.tape import explain_beside
from nesting.unitwords import WORDS
from nesting.values.casts import Dam, Layout, Sides
from nesting.values.job import Job
from nesting.values.names import cast_range

NO_STOCK = (
    "No cut plan: the job names no stock. Give the lengths in store as stock, and kerf, in [dams]."
)
_LEFT = ("serves as", "strips with their lengths", "what", "was", "becomes", "exact")


_COUNTED: dict[Way, tuple[str, str]] = {
    "stays": ("stays", "stay"),
    "moves": ("moves", "move"),
    "goes": ("goes to the store", "go to the store"),
    "from store": ("comes from the store", "come from the store"),
    "cut new": ("is new", "are new"),
}


def report_strips(job: Job, plan: StripPlan, *, exact: bool = False) -> str:
    """Return the whole report, without a final newline."""
    measured = [
        strip_table(job, plan, exact=exact).told,
        sawn_table(job, plan).told if plan.sawn else [],
        *(
            [*cut_table(job, section).told, *wrap_text(tell_cuts(job, section))]
            for section in plan.cuts
        ),
        *(
            [*wrap_text(tell_reset(plan, reset)), *reset_table(job, reset).lines]
            for reset in plan.resets
        ),
    ]
    told = explain_beside("\n".join(line for lines in measured for line in lines))
    head = [write_result(plan), "" if plan.cuts else NO_STOCK, told]
    sections = [*(wrap_text(text) for text in head if text), *measured]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def write_result(plan: StripPlan) -> str:
    """Return the result in one line: strips, dams, lengths of stock, what is proved."""
    layings = plan.listed.layings
    dams = sum(len(strip.uses) for strip in plan.listed.strips)
    text = (
        f"{plan.job}: {count_of(dams, 'dam')} in {sets_of_dams(len(layings))} "
        f"from {count_of(len(plan.strips), 'strip')}"
    )
    if plan.sawn:
        text += f" and {count_of(len(plan.sawn), 'dam')} sawn from sheet"
    if plan.cuts:
        used = sum(section.plan.used for section in plan.cuts)
        text += f"; {count_of(used, 'length')} of stock, {_verdict(plan)}"
    return f"{text}."


def _verdict(plan: StripPlan) -> str:
    bound = sum(section.plan.bound for section in plan.cuts)
    if all(section.plan.used == section.plan.bound for section in plan.cuts):
        return "fewest PROVED"
    return f"fewest NOT PROVED (at least {bound})"


def strip_table(job: Job, plan: StripPlan, *, exact: bool = False) -> TextTable:
    """Return a row for each strip: its size, and the dams it serves as, layout by layout."""
    head = ["strip", "length", "width", "height", "serves as", *["exact"] * exact]
    rows = []
    for strip in plan.strips:
        sides = {
            "length": strip.piece.length,
            "width": strip.piece.width,
            "height": strip.piece.height,
        }
        cells = [job.tape.figure(side) for side in sides.values()]
        told = [job.tape.list_exact(sides)] * exact
        rows.append([str(strip.number), *cells, list_uses(plan, strip), *told])
    title = (
        f"Strips to cut, lengths in {WORDS[job.units].figures}; each serves as these dams, layout "
        "by layout:"
    )
    return TextTable(title, head, rows, _LEFT)


def with_strips(table: TextTable, plan: StripPlan, layout: Layout) -> TextTable:
    """Return a table whose rows begin with dams of a layout, with the numbers of their strips.

    A dam has several where the layout is laid more than once.
    """
    numbers: dict[str, list[str]] = {}
    for strip in plan.listed.strips:
        for place, dam in strip.uses:
            its = plan.listed.layings[place].after.layout.number == layout.number
            if its and str(strip.number) not in numbers.get(dam.name, []):
                numbers.setdefault(dam.name, []).append(str(strip.number))
    rows = [[row[0], ", ".join(numbers.get(row[0], ["-"])), *row[1:]] for row in table.rows]
    title = f"{table.title}; each strip is cut once for the whole job and serves again"
    return TextTable(title, [table.head[0], "strip", *table.head[1:]], rows, table.left)


def sawn_table(job: Job, plan: StripPlan) -> TextTable:
    """Return a row for each dam sawn from sheet: its foot, and the pieces it is parted into."""
    head = ["dam", "foot", "thickness", "height", "pieces", "serves as"]
    rows = []
    for strip in plan.sawn:
        piece = strip.piece
        sides = [job.tape.figure(each) for each in (piece.length, piece.width, piece.height)]
        pieces = " + ".join(map(job.tape.figure, piece.parts))
        rows.append([str(strip.number), *sides, pieces, list_uses(plan, strip)])
    title = f"Dams to saw from sheet, lengths along the foot in {WORDS[job.units].figures}:"
    return TextTable(title, head, rows, _LEFT)


def list_uses(plan: StripPlan, strip: Strip) -> str:
    """Return where a strip serves: ``layout 1: dam 2; layout 3: dam 1, moves``."""
    told = []
    for place, dam in strip.uses:
        laying = plan.listed.layings[place]
        on = f" (liner {laying.after.liner})" if plan.liners > 1 else ""
        way = next(each.way for each in laying.changes if each.strip == strip.number)
        how = "" if way == "cut new" else f", {way}"
        told.append(f"layout {laying.after.layout.number}{on}: {dam.name}{how}")
    return "; ".join(told)


def cut_table(job: Job, section: SectionCuts) -> TextTable:
    """Return a row for each length of stock, with the strips cut from it and what is left over."""
    lengths = {strip.number: strip.piece.length for strip in section.strips}
    rows = [
        [
            str(number),
            job.tape.figure(cut.stock),
            ", ".join(f"{strip}: {job.tape.figure(lengths[strip])}" for strip in cut.strips),
            job.tape.figure(cut.left),
        ]
        for number, cut in enumerate(section.cuts, start=1)
    ]
    title = f"Cut from stock {job.tape.size_words(section.width, section.height)}"
    if not job.lists_width(section.width):
        title += f" {OTHER}"
    if job.dams.kerf:
        title += f", each cut takes {job.tape.stated_words(job.dams.kerf)}"
    head = ["stock", "length", "strips with their lengths", "left over"]
    return TextTable(f"{title}:", head, rows, _LEFT)


def tell_cuts(job: Job, section: SectionCuts) -> str:
    """Return what is proved of a section's plan, and why fewer lengths cannot do."""
    plan, words = section.plan, job.tape.words
    lengths = count_of(plan.used, "length")
    if plan.used != plan.bound:
        few = f"fewest NOT PROVED, at least {plan.bound}"
    else:
        few = f"fewest PROVED: {_why(job, section, plan.proof)}"
    text = f"{lengths} of stock, {few}. In total {words(plan.length)}"
    if len(job.dams.stock) > 1:
        least = plan.length == plan.length_bound
        what = "PROVED" if least else f"NOT PROVED, at least {words(plan.length_bound)}"
        text += f", least with {lengths} {what}"
    return f"{text}."


def _why(job: Job, section: SectionCuts, proof: StockProof) -> str:
    longest = job.tape.words(job.dams.stock[-1])
    total = sum(p * n for p, n in zip(proof.points, section.cutting.counts, strict=True))
    if proof.points == section.cutting.strips.sizes:
        whole, room = (job.tape.words(each) for each in (total, proof.heaviest))
        cut = " with a cut each" if job.dams.kerf else ""
        return f"the strips{cut} come to {whole}, and a length of {longest} holds {room} of that"
    listed = ", ".join(
        f"{job.tape.words(size - job.dams.kerf)} {points}"
        for size, points in zip(section.cutting.strips.sizes, proof.points, strict=True)
    )
    text = (
        f"give every strip points by its length ({listed}), {total} in all; no length of {longest} "
        f"holds strips of more than {proof.heaviest}"
    )
    if proof.listed:
        text += f", and the {proof.listed} ways to cut one that one length fewer asks for do not do"
    return text


def tell_reset(plan: StripPlan, reset: Reset) -> str:
    """Return one re-set in words: the layouts, the casts, how many dams stay, move, go, are new."""
    liner = f", liner {reset.after.liner}" if plan.liners > 1 else ""
    return (
        f"Re-set {reset.number}{liner}: {name_layouts(reset)}, for cast "
        f"{cast_range(list(reset.after.casts))}; {count_ways(reset)}."
    )


def name_layouts(reset: Reset) -> str:
    """Return from which layout to which a re-set goes."""
    before = f"layout {reset.before.layout.number} to " if reset.before else ""
    return f"{before}layout {reset.after.layout.number}"


def count_ways(reset: Reset) -> str:
    """Return how many dams stay, move, go and are new."""
    told = []
    for way in WAYS:
        count = len(reset.by_way(way))
        if count:
            told.append(f"{count} {_COUNTED[way][count > 1]}")
    return ", ".join(told)


def say_way(job: Job, was: Dam, becomes: Dam) -> str:
    """Return how far a dam moves, by its lower left corner: ``5 right, 30 up``."""
    ways = ((becomes.x - was.x, "right", "left"), (becomes.y - was.y, "up", "down"))
    told = [
        f"{job.tape.figure(abs(by))} {more if by > 0 else less}" for by, more, less in ways if by
    ]
    turned = runs_along(job, was) != runs_along(job, becomes)
    return ", ".join([*told, *["turned"] * turned])


def reset_table(job: Job, reset: Reset) -> TextTable:
    """Return a row for each strip of a re-set: what becomes of it, and where it lies then."""
    rows = [
        [
            str(change.strip),
            _say_change(job, change),
            change.was.name if change.was else "-",
            change.becomes.name if change.becomes else "-",
            *_faces(job, change),
        ]
        for way in WAYS
        for change in reset.by_way(way)
    ]
    title = f"Faces from the datum corner in {WORDS[job.units].figures}, on the liner lying flat"
    return TextTable(title, ["strip", "what", "was", "becomes", *Sides._fields], rows, _LEFT)


def _say_change(job: Job, change: Change) -> str:
    if change.way == "moves" and change.was and change.becomes:
        return f"moves {say_way(job, change.was, change.becomes)}"
    return change.way


def _faces(job: Job, change: Change) -> list[str]:
    if change.becomes is None:
        return ["-"] * len(Sides._fields)
    box = change.becomes.box
    return [job.tape.figure(each) for each in (box.x0, box.x1, box.y0, box.y1)]
