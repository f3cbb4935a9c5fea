"""Working days and shifts."""

from datetime import date, datetime, time

import pytest

from nesting.values.shopdays import ShopDays
from nesting.values.workdays import is_working, list_shifts


@pytest.mark.parametrize(
    ("day", "works"),
    [(date(2026, 3, 6), True), (date(2026, 3, 8), False), (date(2026, 3, 9), False)],
)
def test_weekdays_and_dates_off_are_off(day, works):
    """Sunday is off, and so is a Monday that is listed."""
    assert is_working(ShopDays(dates_off=(date(2026, 3, 9),)), day) == works


def test_shifts_share_a_day_out_evenly():
    """Eight hours in two shifts from Friday on: four shifts end on Monday."""
    shop = ShopDays(casts_per_day=2, opens=time(8), closes=time(16))
    shifts = list_shifts(shop, date(2026, 3, 6), 3)
    assert [shift.begins for shift in shifts] == [
        datetime(2026, 3, 6, 8),
        datetime(2026, 3, 6, 12),
        datetime(2026, 3, 9, 8),
        datetime(2026, 3, 9, 12),
    ]
    assert shifts[1].ends == datetime(2026, 3, 6, 16)
    assert shifts[2].day == date(2026, 3, 9)


def test_no_shifts_are_listed_for_none():
    """A count of zero is empty."""
    assert list_shifts(ShopDays(), date(2026, 3, 6), 0) == ()
