"""The liner's rubber, and what one more liner would take against setting dams on this one."""

import math
from dataclasses import dataclass
from fractions import Fraction

from nesting.amounts.weights import relief_volume
from nesting.masses import STEPS_PER_M
from nesting.schedules.cuts import dam_cuts
from nesting.units import STEPS_PER_MM
from nesting.values.calendar import CastCalendar
from nesting.values.casts import Schedule
from nesting.values.job import Job
from nesting.values.liner import Ornament

HOURS_PER_DAY = 24


@dataclass(frozen=True, slots=True)
class Rubber:
    """What one liner takes: ``volume`` [m3], ``mass`` [kg] and whole ``days`` until it is usable.

    ``cost`` is that of its rubber, None where rubber has no price.
    """

    volume: Fraction
    mass: Fraction
    days: int
    cost: Fraction | None


@dataclass(frozen=True, slots=True)
class DamWork:
    """What dams take: how often they are set, their strips [m], the hours of work, the cost.

    ``length`` sums the strips of all settings; a strip may serve again in another.
    """

    settings: int
    length: Fraction
    hours: Fraction
    cost: Fraction | None


def liner_rubber(job: Job) -> Rubber:
    """Return the rubber of the job's liner: area x thickness, and what relief adds or spares."""
    liner = job.liner
    return _rubber(job, liner.outline.area, liner.thickness, liner.ornaments)


def second_rubber(job: Job) -> Rubber | None:
    """Return the rubber of the second liner the job asks about; None where it asks about none."""
    second = job.materials.rubber.second
    if second is None:
        return None
    carried = tuple(each for each in job.liner.ornaments if each.name in second.ornaments)
    return _rubber(job, second.width * second.height, second.thickness, carried)


def dam_work(job: Job, schedule: Schedule, calendar: CastCalendar | None = None) -> DamWork:
    """Return what setting dams takes: set out for the first cast of a liner, re-set later.

    A layout that keeps dams sets none. Settings are those of the calendar; without one, those of
    the schedule's own order on one liner.
    """
    times, prices = job.shop.times, job.materials.prices
    if calendar is None:
        settings = [each.number for each in schedule.layouts if each.same_dams_as is None]
        minutes = times.set_out + times.reset * (len(settings) - 1)
    else:
        setting = [cast for cast in calendar.casts if cast.sets_dams]
        settings = [cast.layout for cast in setting]
        minutes = sum(times.reset if cast.is_reset else times.set_out for cast in setting)
    steps = sum(_dam_length(job, schedule, number) for number in settings)
    length = Fraction(steps, 1000 * STEPS_PER_MM)
    price = prices.dam if prices else None
    cost = None if price is None else length * price
    return DamWork(len(settings), length, Fraction(minutes, 60), cost)


def _dam_length(job: Job, schedule: Schedule, number: int) -> int:
    """Return how long the dams are cut [steps] that lie for the layout of that number."""
    layouts = {layout.number: layout for layout in schedule.layouts}
    layout = layouts[layouts[number].same_dams_as or number]
    return sum(cut.length for cut in dam_cuts(job, layout))


def rubber_volume(area: int, thickness: int, ornaments: tuple[Ornament, ...]) -> Fraction:
    """Return the volume of a liner [m3] from its area [square steps] and thickness [steps].

    A hollow in the panel stands out of the liner and takes rubber; a boss spares it. Where it is
    not stated which, it counts as standing out: more rubber is the safe side.
    """
    relief = sum(
        (relief_volume(each) * (-1 if each.on_panel == "boss" else 1) for each in ornaments),
        Fraction(0),
    )
    return Fraction(area * thickness) / STEPS_PER_M**3 + relief


def _rubber(job: Job, area: int, thickness: int, ornaments: tuple[Ornament, ...]) -> Rubber:
    data, prices = job.materials.rubber, job.materials.prices
    volume = rubber_volume(area, thickness, ornaments)
    mass = volume * data.density
    hours = data.making_hours + data.demould_hours
    days = data.model_days + math.ceil(hours / HOURS_PER_DAY)
    price = prices.rubber if prices else None
    return Rubber(volume, mass, days, None if price is None else mass * price)
