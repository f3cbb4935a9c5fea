"""The shop's days: when it works, how many liners and beds it has, how long each step takes.

Times are those of the clock on the wall, without a zone.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import islice
from typing import Literal, NamedTuple

NO_DUE = date.max
"""The due date of what has none."""


@dataclass(frozen=True, slots=True)
class Times:
    """How long each step of a cast takes [minutes].

    ``haze`` is the window (least, most) after the face coat in which the backing is begun, judged
    by eye. ``cover`` is the least time under cover, from the end of the backing to the demoulding.
    Common practice, no source: the haze window, and 16 to 24 h under cover. The others are round
    figures to be replaced by the shop's own.
    """

    set_out: int = 120
    reset: int = 90
    bed_change: int = 60
    masking: int = 20
    face_coat: int = 30
    haze: tuple[int, int] = (20, 40)
    backing: int = 60
    cover: int = 16 * 60
    demould: int = 30

    @property
    def cast(self) -> int:
        """Face coat, the whole haze window and backing [minutes]."""
        return self.face_coat + self.haze[1] + self.backing


@dataclass(frozen=True, slots=True)
class ShopDays:
    """Everything a calendar depends on beside the schedule.

    ``start`` is None where the job names no day. A day is shared out into ``casts_per_day`` equal
    shifts, in each of which a liner takes at most one cast. ``beds`` tells how many there are of
    a bed of the job, where not one. Weekdays are those of ISO 8601: Monday is 1, Sunday 7.
    ``first`` tells what goes first among orders that are late alike: fewest ``changes`` of dams and
    beds, or the earliest ``finish``.
    """

    start: date | None = None
    casts_per_day: int = 1
    liners: int = 1
    beds: tuple[tuple[str, int], ...] = ()
    first: Literal["changes", "finish"] = "changes"
    opens: time = time(7)
    closes: time = time(16)
    weekdays_off: tuple[int, ...] = (6, 7)
    dates_off: tuple[date, ...] = ()
    times: Times = Times()

    def count_beds(self, name: str) -> int:
        """Return how many beds there are of the bed of that name."""
        return dict(self.beds).get(name, 1)

    def name_bed(self, name: str, number: int) -> str:
        """Return the bed's name, with its number where there are several of it.

        >>> ShopDays(beds=(("table", 2),)).name_bed("table", 1), ShopDays().name_bed("table", 1)
        ('table 1', 'table')
        """
        return f"{name} {number}" if self.count_beds(name) > 1 else name

    @property
    def shift_minutes(self) -> int:
        """How long a shift is [whole minutes]."""
        opens, closes = (each.hour * 60 + each.minute for each in (self.opens, self.closes))
        return (closes - opens) // self.casts_per_day


USUAL_DAYS = ShopDays()
"""The days of a shop that says nothing of them."""


def duration_text(minutes: int) -> str:
    """Return a duration as people write it.

    >>> duration_text(45), duration_text(960), duration_text(100)
    ('45 min', '16 h', '1 h 40 min')
    """
    hours, rest = divmod(minutes, 60)
    parts = [f"{hours} h"] if hours else []
    return " ".join([*parts, *([f"{rest} min"] if rest or not hours else [])])


class Shift(NamedTuple):
    """A share of a working day, in which a liner takes at most one cast."""

    begins: datetime
    ends: datetime

    @property
    def day(self) -> date:
        """The day it belongs to."""
        return self.begins.date()


def is_working(shop: ShopDays, day: date) -> bool:
    """Whether the shop works on that day.

    >>> is_working(ShopDays(), date(2026, 3, 6)), is_working(ShopDays(), date(2026, 3, 7))
    (True, False)
    """
    return day.isoweekday() not in shop.weekdays_off and day not in shop.dates_off


def working_days(shop: ShopDays, start: date) -> Iterator[date]:
    """Yield every working day from ``start`` on; one weekday at least must not be off.

    >>> next(working_days(ShopDays(), date(2026, 3, 7)))
    datetime.date(2026, 3, 9)
    """
    off = frozenset(shop.dates_off)
    day = start
    while True:
        if day.isoweekday() not in shop.weekdays_off and day not in off:
            yield day
        day += timedelta(days=1)


def list_shifts(shop: ShopDays, start: date, count: int) -> tuple[Shift, ...]:
    """Return the first shifts from ``start`` on, in order, at least ``count`` of them."""
    length = timedelta(minutes=shop.shift_minutes)
    shifts: list[Shift] = []
    for day in islice(working_days(shop, start), -(-count // shop.casts_per_day)):
        opens = datetime.combine(day, shop.opens)
        for number in range(shop.casts_per_day):
            begins = opens + number * length
            shifts.append(Shift(begins, begins + length))
    return tuple(shifts)
