"""The liner's rubber, a second liner against dams on this one, and costs, as text."""

from fractions import Fraction

from nesting.amounts.mixes import CastCost, list_unpriced
from nesting.amounts.quantities import Quantities
from nesting.amounts.rubber import Rubber
from nesting.files.columns import INDENT, count_of, times_of, wrap_text, write_table
from nesting.masses import LITRES_PER_FT3, in_density_unit, mass_text
from nesting.units import decimal_text, to_steps
from nesting.unitwords import WORDS
from nesting.values.job import Job
from nesting.values.material import RubberData, SecondLiner


def list_rubber(job: Job, found: Quantities) -> list[str]:
    """Return the rubber of the liner, of a second one, and what dams on this one take instead."""
    data = job.materials.rubber
    density = decimal_text(in_density_unit(data.density, job.units), 1)
    lines = [f"Rubber, at {density} {WORDS[job.units].density}:"]
    lines += wrap_text(f"This liner: {_rubber_text(job, found.liner)}.", INDENT)
    if found.second and data.second:
        lines += wrap_text(_second_text(job, data, data.second, found.second), INDENT)
    return [*lines, *wrap_text(_dam_text(job, found), INDENT)]


def list_costs(job: Job, found: Quantities) -> list[str]:
    """Return the cost of panels and casts; nothing where the job gives no prices."""
    prices, total = job.materials.prices, found.cost
    if prices is None or total is None:
        return []
    head = ["panel", "layouts", "pieces", "material of one", "of all"]
    rows = [
        [
            row.panel.mark,
            ", ".join(map(str, row.layouts)),
            str(row.pieces),
            _money(cost),
            _money(cost * row.pieces),
        ]
        for row, cost in zip(found.panels, found.panel_costs, strict=True)
    ]
    cast_head = ["layout", "casts", "material", "liner share", "together"]
    casts = [
        [f"{cast.layout}, each cast", str(cast.repeats), *_cost_cells(cast.cost)]
        for cast in found.casts
        if cast.cost
    ]
    count = sum(cast.repeats for cast in found.casts)
    casts.append(["all casts", str(count), *_cost_cells(total)])
    unit = f" in {prices.currency}" if prices.currency else ""
    return [
        f"Costs{unit}; a panel bears its part of overspray and loss, a cast whole batches:",
        *write_table(head, rows, left=("panel", "layouts")),
        "",
        *write_table(cast_head, casts, left=("layout",)),
        *_notes(job),
    ]


def _notes(job: Job) -> list[str]:
    prices = job.materials.prices
    unpriced = list_unpriced(job, prices) if prices else ()
    lines = [f"Without a price, and so left out: {', '.join(unpriced)}."] if unpriced else []
    if prices and prices.liner is not None and prices.pulls:
        share = f"{_money(prices.liner)} over {prices.pulls} pulls"
        lines.append(f"The liner's share of a cast is {share}.")
    return [line for text in lines for line in wrap_text(text, INDENT)]


def _cost_cells(cost: CastCost) -> list[str]:
    liner = "-" if cost.liner is None else _money(cost.liner)
    return [_money(cost.material), liner, _money(cost.total)]


def _rubber_text(job: Job, rubber: Rubber) -> str:
    litres = rubber.volume * 1000
    volume = f"{decimal_text(litres, 1)} litres"
    if job.units == "in":
        volume = f"{decimal_text(litres / LITRES_PER_FT3, 2)} ft3"
    return f"{volume}, {mass_text(rubber.mass, job.units)}{_priced(job, rubber.cost)}"


def _second_text(job: Job, data: RubberData, second: SecondLiner, rubber: Rubber) -> str:
    size = job.tape.size_words(second.width, second.height)
    thick = job.tape.stated_words(second.thickness)
    days = count_of(rubber.days, "day")
    hours = [decimal_text(part, 1) for part in (data.making_hours, data.demould_hours)]
    return (
        f"A second liner of {size}, {thick} thick: {_rubber_text(job, rubber)}; it can be "
        f"used after {days} (days for the model {data.model_days}, then {hours[0]} h to make and "
        f"{hours[1]} h until it leaves the model)."
    )


def _dam_text(job: Job, found: Quantities) -> str:
    dams = found.dams
    times = times_of(dams.settings)
    length = f"{decimal_text(dams.length, 2)} m"
    if job.units == "in":
        length = job.tape.stated(to_steps(dams.length * 1000), in_feet=True)
    return (
        f"Dams: set {times}, {length} of strip if none serves twice, "
        f"{decimal_text(dams.hours, 1)} h of setting{_priced(job, dams.cost)}."
    )


def _priced(job: Job, cost: Fraction | None) -> str:
    if cost is None or job.materials.prices is None:
        return ""
    return f", costs {_money(cost)} {job.materials.prices.currency}".rstrip()


def _money(value: Fraction) -> str:
    return f"{float(value):.2f}"
