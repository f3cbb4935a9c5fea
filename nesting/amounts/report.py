"""The quantities of a schedule as text: weights, handling, and what the other sections say."""

from fractions import Fraction

from nesting.amounts.mixreport import batch_table, day_table, list_ratios
from nesting.amounts.quantities import Quantities
from nesting.amounts.rubberreport import list_costs, list_rubber
from nesting.amounts.weights import PanelRow, PanelWeight, Weight
from nesting.files.columns import INDENT, TextTable, count_of, wrap_text
from nesting.masses import M2_PER_FT2, in_unit, mass_text
from nesting.schedules.cautions import COMPETENT, LIFTING_FACTORS, short_cautions
from nesting.tape import explain_beside
from nesting.units import decimal_text
from nesting.unitwords import WORDS
from nesting.values.job import Job

_OTHER = {"mm": "in", "in": "mm"}
COARSE = Fraction(1, 10)
"""By what part rounding to the scale may put an ingredient out unsaid: our own figure."""


def report_quantities(job: Job, found: Quantities) -> str:
    """Return the whole report, without a final newline; the cautions stand at its end."""
    sections = [
        [_result(job, found)],
        [line for note in found.notes for line in wrap_text(f"Note: {note}")],
        [line for text in list_warnings(job, found) for line in wrap_text(f"Warning: {text}")],
        weight_table(job, found).told,
        [*handling_table(job, found).told, *wrap_text(handling_text(job), INDENT)],
        cast_table(job, found).told,
        list_ratios(job),
        batch_table(job, found).told,
        day_table(job, found).told,
        list_rubber(job, found),
        list_costs(job, found),
    ]
    told = explain_beside("\n".join(line for lines in sections for line in lines))
    sections += [[told] * bool(told), short_cautions()]
    return "\n\n".join("\n".join(lines) for lines in sections if lines)


def list_warnings(job: Job, found: Quantities) -> list[str]:
    """Return, a sentence each: panels too thin, ornaments with no side stated, a coarse scale."""
    least = job.materials.panel.least_thickness
    thin = [row for row in found.panels if row.panel.least < least]
    texts = [_thin_text(job, panel) for panel in dict.fromkeys(_strip(row) for row in thin)]
    reliefs = (each for each in job.liner.ornaments if each.relief and not each.on_panel)
    names = ", ".join(each.name for each in reliefs)
    if names:
        texts.append(
            f"on_panel is not stated for: {names}. Each counts as a boss for the weight and as a "
            "hollow for the least thickness, which is the safe side of both."
        )
    return texts + _coarse_scale(job, found)


def _coarse_scale(job: Job, found: Quantities) -> list[str]:
    """Return a sentence on the ingredient that the scale's division puts out most, if it is far."""
    worst, text = COARSE, ""
    for cast in found.casts:
        for coat, batches in (("face coat", cast.face), ("backing", cast.backing)):
            for name, weighed in batches.ingredients:
                wanted = batches.wanted[name]
                if wanted and abs(weighed / wanted - 1) > worst:
                    worst = abs(weighed / wanted - 1)
                    kg = [in_unit(each, job.units) for each in (weighed, wanted)]
                    unit = WORDS[job.units].mass
                    text = (
                        f"the scale's division is coarse for {name}: for the {coat} of layout "
                        f"{cast.layout} it weighs {decimal_text(kg[0], 4)} {unit} where the mix "
                        f"asks for {decimal_text(kg[1], 4)} {unit}. Weigh it on a finer scale."
                    )
    return [text] if text else []


def handling_of(job: Job, panel: PanelWeight) -> str:
    """Return how a panel may be moved: by hand, in ideal conditions only, or not."""
    people = panel.weight.heaviest / job.materials.lifting.hand_limit
    if people <= 1:
        return "one person, in ideal conditions only"
    return "two people or a lift" if people <= 2 else "a lift"


def list_layouts(row: PanelRow) -> str:
    """Return the numbers of a row's layouts, ``1, 3``."""
    return ", ".join(map(str, row.layouts))


def _strip(row: PanelRow) -> tuple[str, int, int, str]:
    panel = row.panel
    return panel.mark, panel.thickness, panel.least, panel.deepest


def _thin_text(job: Job, panel: tuple[str, int, int, str]) -> str:
    mark, thickness, left, deepest = panel
    lengths = [
        job.tape.stated_words(length)
        for length in (left, thickness, job.materials.panel.least_thickness)
    ]
    over = f" over {deepest!r}" if deepest else ""
    return (
        f"panel {mark!r} is {lengths[0]} thick{over}, of {lengths[1]} in all; "
        f"at least {lengths[2]} is asked for."
    )


def _result(job: Job, found: Quantities) -> str:
    panels = count_of(sum(row.pieces for row in found.panels), "panel")
    casts = count_of(sum(cast.repeats for cast in found.casts), "cast")
    wet, cured = (mass_text(kg, job.units) for kg in (found.weight.wet, found.weight.cured))
    return f"{job.title}: {panels} in {casts}; {wet} wet, {cured} cured."


def weight_table(job: Job, found: Quantities) -> TextTable:
    """Return what one panel of each row weighs, coat by coat, wet and cured."""
    unit, other = WORDS[job.units].mass, WORDS[_OTHER[job.units]].mass
    area = WORDS[job.units].area[0]
    head = ["panel", "pieces", "layouts", "face area", "thickness", "least"]
    head += [*_weight_head(other), "shows"]
    rows = [
        [
            row.panel.mark,
            str(row.pieces),
            list_layouts(row),
            f"{float(row.panel.face_area / (1 if area == 'm2' else M2_PER_FT2)):.4f}",
            job.tape.stated(row.panel.thickness),
            job.tape.stated(row.panel.least),
            *_weight_row(job, row.panel.weight),
            ", ".join(row.panel.shows) or "-",
        ]
        for row in found.panels
    ]
    title = (
        f"One panel, in {unit} where no unit stands (area of the face on its bed in {area}, "
        f"thickness in {WORDS[job.units].lengths}; least is what the deepest hollow leaves):"
    )
    return TextTable(title, head, rows, ("panel", "layouts", "shows"))


def handling_table(job: Job, found: Quantities) -> TextTable:
    """Return how each panel may be moved, by the greater of its wet and cured weight."""
    lifting = job.materials.lifting
    head = [
        "panel",
        "shows",
        "layouts",
        "weighs up to",
        f"at each of {lifting.points} points",
        "moved by",
    ]
    rows = [
        [
            row.panel.mark,
            ", ".join(row.panel.shows) or "-",
            list_layouts(row),
            mass_text(row.panel.weight.heaviest, job.units),
            mass_text(row.panel.weight.heaviest / lifting.points, job.units),
            handling_of(job, row.panel),
        ]
        for row in found.panels
    ]
    title = "Handling, by the greater of wet and cured:"
    return TextTable(title, head, rows, ("panel", "shows", "layouts", "moved by"))


def handling_text(job: Job) -> str:
    """Return what must be known to read the handling table."""
    limit = mass_text(job.materials.lifting.hand_limit, job.units, 0)
    return (
        f"One person is reckoned to lift {limit} at most; 23 kg (51 lb) is the load constant of "
        "the revised NIOSH lifting equation (NIOSH 94-110), for ideal conditions only. Shares at "
        f"lifting points are plain shares of the mass. {LIFTING_FACTORS} {COMPETENT}"
    )


def cast_table(job: Job, found: Quantities) -> TextTable:
    """Return what the panels of a cast weigh together; the last row is all casts."""
    unit, other = WORDS[job.units].mass, WORDS[_OTHER[job.units]].mass
    head = ["layout", "casts", *_weight_head(other)]
    rows = [
        [f"{cast.layout}, each cast", str(cast.repeats), *_weight_row(job, cast.weight)]
        for cast in found.casts
    ]
    casts = sum(cast.repeats for cast in found.casts)
    rows.append(["all casts", str(casts), *_weight_row(job, found.weight)])
    title = f"Panels of a cast together, in {unit} where no unit stands:"
    return TextTable(title, head, rows, ("layout",))


def _weight_head(other: str) -> list[str]:
    return ["face coat wet", "backing wet", "wet", f"wet {other}", "cured", f"cured {other}"]


def _weight_row(job: Job, weight: Weight) -> list[str]:
    cells = (weight.face_wet, weight.backing_wet, weight.wet, weight.cured)
    texts = [f"{float(in_unit(kg, job.units)):.1f}" for kg in cells]
    others = [f"{float(in_unit(kg, _OTHER[job.units])):.1f}" for kg in (weight.wet, weight.cured)]
    return [*texts[:3], others[0], texts[3], others[1]]
