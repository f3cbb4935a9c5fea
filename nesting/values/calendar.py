"""The calendar: every cast with its day, liner, bed and times, and what is proved of the order."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, NamedTuple

TaskName = Literal[
    "set out", "re-set", "bed change", "mask", "face coat", "haze", "backing", "demould"
]


class Task(NamedTuple):
    """One piece of work, or for ``haze`` the window in which it ends."""

    name: TaskName
    begins: datetime
    ends: datetime


@dataclass(frozen=True, slots=True)
class DayCast:
    """One cast on its day.

    ``liner`` and ``bed_number`` count from 1, the latter among the beds of that name. ``tasks`` are
    in order of time, from the first work on the liner for this cast to the backing; ``demould``
    follows on a later shift, the cover time between.
    """

    number: int
    layout: int
    marks: tuple[str, ...]
    liner: int
    bed: str
    bed_number: int
    is_reset: bool
    is_bed_change: bool
    tasks: tuple[Task, ...]
    demould: Task

    @property
    def day(self) -> date:
        """The day it is sprayed."""
        return self.task("face coat").begins.date()

    @property
    def covered(self) -> datetime:
        """When the backing ends and the cover goes on."""
        return self.tasks[-1].ends

    def task(self, name: TaskName) -> Task:
        """Return the task of that name; KeyError where there is none."""
        return {task.name: task for task in self.tasks}[name]

    @property
    def sets_dams(self) -> bool:
        """Whether dams are set out or re-set for it."""
        return any(task.name in ("set out", "re-set") for task in self.tasks)

    @property
    def before(self) -> tuple[Task, ...]:
        """What is done on the liner before the face coat."""
        cast = ("face coat", "haze", "backing")
        return tuple(task for task in self.tasks if task.name not in cast)


@dataclass(frozen=True, slots=True)
class Due:
    """How a mark with a due date comes out: ``done`` is the day its last panel is demoulded."""

    mark: str
    due: date
    done: date
    panels_late: int

    @property
    def days_late(self) -> int:
        """Days from the due date to the day the last panel is demoulded; 0 where in time."""
        return max(0, (self.done - self.due).days)


@dataclass(frozen=True, slots=True)
class Aim:
    """A figure that was made as small as possible, and what it cannot fall below."""

    value: int
    bound: int

    @property
    def proved(self) -> bool:
        """Whether less is proved impossible."""
        return self.value == self.bound


@dataclass(frozen=True, slots=True)
class CastCalendar:
    """Casts in order of time, then of liner.

    The aims, the most important first: ``late`` in days summed over panels, ``changes`` (re-sets
    and bed changes together), ``days`` on which the shop works until everything is demoulded.
    Each bound holds with the aims before it as they are. ``asked`` is the start asked for.
    """

    job: str
    asked: date
    start: date
    casts: tuple[DayCast, ...]
    dues: tuple[Due, ...]
    late: Aim
    changes: Aim
    days: Aim
    notes: tuple[str, ...] = ()

    @property
    def finish(self) -> date:
        """The day the last cast is demoulded."""
        return max(cast.demould.ends.date() for cast in self.casts)

    @property
    def resets(self) -> int:
        """How often dams are re-set."""
        return sum(cast.is_reset for cast in self.casts)

    @property
    def bed_changes(self) -> int:
        """How often a liner is laid on a bed again."""
        return sum(cast.is_bed_change for cast in self.casts)
