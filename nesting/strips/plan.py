"""From a job, its schedule and its calendar to all that is said of strips."""

from dataclasses import dataclass

from nesting.search.solver import Deadline
from nesting.strips.cuts import SectionCuts, plan_cuts
from nesting.strips.reuse import Reset, Strip, StripList, follow_strips
from nesting.strips.settings import list_settings
from nesting.values.calendar import CastCalendar
from nesting.values.casts import Schedule
from nesting.values.job import Job


@dataclass(frozen=True, slots=True)
class StripPlan:
    """The strips of a whole job, what becomes of each, and the cut plan for each section.

    ``liners`` is how many liners take dams; ``cuts`` is empty where the job names no stock.
    """

    job: str
    listed: StripList
    cuts: tuple[SectionCuts, ...]
    liners: int

    @property
    def strips(self) -> tuple[Strip, ...]:
        """The strips cut from stock."""
        return tuple(strip for strip in self.listed.strips if strip.piece.is_strip)

    @property
    def sawn(self) -> tuple[Strip, ...]:
        """The dams sawn from sheet."""
        return tuple(strip for strip in self.listed.strips if not strip.piece.is_strip)

    @property
    def resets(self) -> tuple[Reset, ...]:
        """The re-sets in the order of the days."""
        return self.listed.resets


def plan_strips(
    job: Job,
    schedule: Schedule,
    calendar: CastCalendar | None = None,
    *,
    time_limit: float | None = None,
) -> StripPlan:
    """Return the strips of a schedule, in the order of the calendar or else of the schedule.

    ``time_limit`` [s] is for the cut plan alone.

    Raises
    ------
    InputError
        Where a strip is longer than every length of stock.
    """
    settings = list_settings(schedule, calendar)
    listed = follow_strips(job, settings)
    cuts = plan_cuts(job, listed, Deadline(time_limit))
    return StripPlan(schedule.job, listed, cuts, len({each.liner for each in settings}))
