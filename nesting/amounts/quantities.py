"""From a job and its schedule to everything that must be weighed, mixed, lifted and paid for."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from itertools import groupby

from nesting.amounts.mixes import (
    Batches,
    CastCost,
    Ingredients,
    batch_mix,
    cost_ingredients,
    cost_panel,
    liner_share,
    sum_ingredients,
)
from nesting.amounts.rubber import DamWork, Rubber, dam_work, liner_rubber, second_rubber
from nesting.amounts.weights import PanelRow, Weight, list_panels, sum_weights, weigh_order
from nesting.values.calendar import CastCalendar
from nesting.values.casts import Layout, Schedule
from nesting.values.job import Job


@dataclass(frozen=True, slots=True)
class CastMix:
    """One cast of a layout: its weight, the batches it takes and, with prices, its cost."""

    layout: int
    repeats: int
    weight: Weight
    face: Batches
    backing: Batches
    cost: CastCost | None = None

    @property
    def ingredients(self) -> Ingredients:
        """What one cast takes of every ingredient [kg]."""
        return sum_ingredients([self.face.total(), self.backing.total()])

    @property
    def batches(self) -> int:
        """How many batches of either mix one cast takes."""
        return self.face.count + self.backing.count


@dataclass(frozen=True, slots=True)
class DayMix:
    """Days ``first`` to ``last``, all alike: the layouts, batches and ingredients [kg] of each.

    Days on which something is cast are counted from 1. ``dates`` are those of the first and the
    last, None without a calendar.
    """

    first: int
    last: int
    dates: tuple[date, date] | None
    layouts: tuple[int, ...]
    batches: int
    ingredients: tuple[tuple[str, Fraction], ...]

    @property
    def count(self) -> int:
        """How many days."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Quantities:
    """All quantities of a schedule; ``panel_costs`` go with ``panels``, none without prices.

    ``notes`` are those of the schedule: a time limit reached, a size taken within its tolerance.
    """

    panels: tuple[PanelRow, ...]
    casts: tuple[CastMix, ...]
    days: tuple[DayMix, ...]
    weight: Weight
    ingredients: tuple[tuple[str, Fraction], ...]
    liner: Rubber
    second: Rubber | None
    dams: DamWork
    panel_costs: tuple[Fraction, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def cost(self) -> CastCost | None:
        """Material and liner shares of all casts together; None without prices."""
        costs = [(cast.repeats, cast.cost) for cast in self.casts if cast.cost]
        if not costs:
            return None
        shares = [times * cost.liner for times, cost in costs if cost.liner is not None]
        material = sum((times * cost.material for times, cost in costs), Fraction(0))
        return CastCost(material, sum(shares, Fraction(0)) if shares else None)


def reckon_quantities(
    job: Job, schedule: Schedule, calendar: CastCalendar | None = None
) -> Quantities:
    """Return the quantities of a sound schedule; raises as `weights.weigh_order`.

    With its calendar, days and the settings of dams are those of the calendar. Without, casts are
    made one a day on one liner, in the order of the schedule.
    """
    weighed = weigh_order(job, schedule)
    panels = list_panels(job, schedule, weighed)
    casts = tuple(
        _mix_cast(job, layout, sum_weights(panel.weight for panel in weighed[layout.number]))
        for layout in schedule.layouts
    )
    prices = job.materials.prices
    costs = [cost_panel(job, prices, row.panel.weight) for row in panels] if prices else []
    days = tuple(_list_days(casts, _list_dates(schedule, calendar)))
    return Quantities(
        panels,
        casts,
        days,
        sum_weights(cast.weight.times(cast.repeats) for cast in casts),
        tuple(sum_ingredients(_repeated(cast) for cast in casts).items()),
        liner_rubber(job),
        second_rubber(job),
        dam_work(job, schedule, calendar),
        tuple(costs),
        schedule.notes,
    )


def _repeated(cast: CastMix) -> Ingredients:
    return {name: mass * cast.repeats for name, mass in cast.ingredients.items()}


def _mix_cast(job: Job, layout: Layout, weight: Weight) -> CastMix:
    materials, prices = job.materials, job.materials.prices
    face = batch_mix(materials.face, weight.face_wet, materials.batch)
    backing = batch_mix(materials.backing, weight.backing_wet, materials.batch)
    cast = CastMix(layout.number, layout.repeats, weight, face, backing)
    if prices is None:
        return cast
    cost = CastCost(cost_ingredients(prices, cast.ingredients), liner_share(prices))
    return replace(cast, cost=cost)


def _list_dates(
    schedule: Schedule, calendar: CastCalendar | None
) -> list[tuple[date | None, list[int]]]:
    """Return the layouts cast on each day, days on which nothing is cast left out."""
    if calendar is None:
        row = [layout for layout in schedule.layouts for _ in range(layout.repeats)]
        return [(None, [layout.number]) for layout in row]
    by_date: dict[date, list[int]] = {}
    for cast in calendar.casts:
        by_date.setdefault(cast.day, []).append(cast.layout)
    return [(day, sorted(layouts)) for day, layouts in sorted(by_date.items())]


def _list_days(
    casts: tuple[CastMix, ...], dates: list[tuple[date | None, list[int]]]
) -> Iterator[DayMix]:
    """Yield the days in turn, those one after another with the same layouts as one entry."""
    by_number = {cast.layout: cast for cast in casts}
    day = 0
    for layouts, group in groupby(dates, key=lambda entry: entry[1]):
        alike = [each for each, _ in group]
        today = [by_number[number] for number in layouts]
        first, last = alike[0], alike[-1]
        yield DayMix(
            day + 1,
            day + len(alike),
            (first, last) if first and last else None,
            tuple(layouts),
            sum(cast.batches for cast in today),
            tuple(sum_ingredients(cast.ingredients for cast in today).items()),
        )
        day += len(alike)
