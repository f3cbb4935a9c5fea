"""The mix of a schedule as text: ratios, batches of each cast, and what each day takes."""

from collections.abc import Mapping
from fractions import Fraction

from nesting.amounts.mixes import Batches
from nesting.amounts.quantities import DayMix, Quantities
from nesting.files.columns import INDENT, TextTable, wrap_text
from nesting.masses import LITRES_PER_FT3, in_unit
from nesting.units import decimal_text
from nesting.unitwords import WORDS
from nesting.values.job import Job
from nesting.values.material import INGREDIENTS, Mix

_MOST_DECIMALS = 4


def list_ratios(job: Job) -> list[str]:
    """Return both mixes in words, by weight, as the job has them."""
    lines = [line for text in ratio_texts(job) for line in wrap_text(text, INDENT)]
    return ["Mixes by weight:", *lines]


def ratio_texts(job: Job) -> list[str]:
    """Return a sentence for each mix: its ingredients by weight, cement 1."""
    mixes = (("Face coat", job.materials.face), ("Backing", job.materials.backing))
    return [_ratio_text(name, mix) for name, mix in mixes]


def batch_table(job: Job, found: Quantities) -> TextTable:
    """Return the batches of each cast; the first cell of a row is the layout's number."""
    unit, batch = WORDS[job.units].mass, job.materials.batch
    volume = WORDS[job.units].volume
    head = ["layout", "mix", "batches", *INGREDIENTS, "one batch", volume, "all batches", "w : c"]
    rows = [
        _batch_row(job, cast.layout, name, batches)
        for cast in found.casts
        for name, batches in (("face coat", cast.face), ("backing", cast.backing))
        if batches.count
    ]
    mixer = decimal_text(in_unit(batch.mixer, job.units), 2)
    title = (
        f"Batches for each cast, what goes into one in {unit}, to {_weighed(job, batch.scale)} "
        f"{unit}; {_percent(batch.overspray)} for overspray and {_percent(batch.loss)} for loss "
        f"are added, the mixer takes {mixer} {unit}; w : c is all water to cement, as weighed:"
    )
    return TextTable(title, head, rows, ("mix",))


def day_table(job: Job, found: Quantities) -> TextTable:
    """Return the mix for each day, days that are alike in one row; the last row is all days."""
    dated = any(day.dates for day in found.days)
    head = [*(["dates"] if dated else []), "days", "layouts", "batches", *INGREDIENTS, "mix"]
    rows = [_day_row(job, day) for day in found.days]
    batches = sum(day.count * day.batches for day in found.days)
    days = [str(found.days[-1].last)] if dated and found.days else []
    cells = _ingredient_cells(job, dict(found.ingredients))
    rows.append(["all days", *days, "", str(batches), *cells])
    which = " of the calendar" if dated else ", one cast a day as no start is given"
    title = f"Mix for each day{which}, in {WORDS[job.units].mass}; all days is the order:"
    return TextTable(title, head, rows, ("layouts", "dates" if dated else "days"))


def _ratio_text(name: str, mix: Mix) -> str:
    dispersion = mix.polymer / mix.dispersion_solids
    words = [
        "cement 1",
        f"sand {_ratio(mix.sand)}",
        f"water {_ratio(mix.water)} in all, of it {_ratio(mix.dispersion_water)} in the dispersion",
        f"dispersion {_ratio(dispersion)} ({_percent(mix.dispersion_solids)} solids)",
        f"plasticiser {_ratio(mix.plasticiser)}",
        f"pigment {_ratio(mix.pigment)}",
        f"fibre {_percent(mix.fibre)} of the whole",
    ]
    return f"{name}: {', '.join(words)}."


def _batch_row(job: Job, layout: int, name: str, batches: Batches) -> list[str]:
    litres = batches.litres / (1 if job.units == "mm" else LITRES_PER_FT3)
    cells = _ingredient_cells(job, dict(batches.ingredients))
    return [
        str(layout),
        name,
        str(batches.count),
        *cells,
        f"{float(litres):.{1 if job.units == 'mm' else 3}f}",
        _weighed(job, batches.all),
        f"{float(batches.water_cement):.3f}",
    ]


def _day_row(job: Job, day: DayMix) -> list[str]:
    if day.dates:
        texts = [f"{each:%a} {each}" for each in dict.fromkeys(day.dates)]
        days = [" to ".join(texts), str(day.count)]
    else:
        days = [" to ".join(map(str, dict.fromkeys((day.first, day.last))))]
    layouts = ", ".join(map(str, day.layouts))
    return [*days, layouts, str(day.batches), *_ingredient_cells(job, dict(day.ingredients))]


def _ingredient_cells(job: Job, ingredients: Mapping[str, Fraction]) -> list[str]:
    """Return the weight of every ingredient, then of all together."""
    weights = [ingredients[name] for name in INGREDIENTS]
    return [_weighed(job, weight) for weight in (*weights, sum(weights, Fraction(0)))]


def _weighed(job: Job, mass: Fraction) -> str:
    """Return a weight in the job's unit with as many decimals as the scale's division has."""
    division = in_unit(job.materials.batch.scale, job.units)
    exact = (n for n in range(_MOST_DECIMALS) if (division * 10**n).denominator == 1)
    return f"{float(in_unit(mass, job.units)):.{next(exact, _MOST_DECIMALS)}f}"


def _ratio(value: Fraction) -> str:
    return decimal_text(value, 4)


def _percent(value: Fraction) -> str:
    return f"{decimal_text(100 * value, 2)} %"
