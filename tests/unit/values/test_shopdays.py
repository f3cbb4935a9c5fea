"""The shop's days as values."""

from datetime import date, datetime, time

import pytest

from nesting.values.shopdays import USUAL_DAYS, ShopDays, Times, is_working, list_shifts


def test_beds_not_spoken_of_are_one_each():
    """A number is only needed where there is not one."""
    shop = ShopDays(beds=(("table", 2),))
    assert (shop.count_beds("table"), shop.count_beds("drum")) == (2, 1)


def test_a_shift_has_whole_minutes():
    """Nine hours in two shifts of 270 min; in seven, of 77 min."""
    assert ShopDays(casts_per_day=2).shift_minutes == 270
    assert ShopDays(casts_per_day=7).shift_minutes == 77


def test_the_haze_wait_is_planned_for_the_windows_end():
    """Face coat 30, haze up to 40, backing 60 min."""
    assert Times().cast == 130


def test_the_usual_day_holds_a_cast_with_every_change_and_its_cover():
    """With all defaults a liner can be cast every day, whatever changes come before."""
    times = USUAL_DAYS.times
    longest = times.demould + times.bed_change + times.set_out + times.masking + times.cast
    assert longest <= USUAL_DAYS.shift_minutes
    assert longest + times.cover <= 24 * 60
    assert time(7) == USUAL_DAYS.opens


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
