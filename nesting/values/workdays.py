"""Working days and their shifts. Times are those of the clock on the wall, without a zone."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from itertools import islice
from typing import NamedTuple

from nesting.values.shopdays import ShopDays


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
