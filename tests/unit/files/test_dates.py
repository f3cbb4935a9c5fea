"""Readers of dates, times of the day, durations and weekdays."""

from datetime import date, datetime, time

import pytest

from nesting.errors import InputError
from nesting.files.dates import read_date, read_minutes, read_time, read_weekday


def test_dates_are_read_from_the_file_and_from_text():
    """A date of TOML and text of ISO 8601 are the same day; 2028 has a leap day."""
    assert read_date(date(2026, 3, 2)) == read_date("2026-03-02") == date(2026, 3, 2)
    assert read_date("2028-02-29") == date(2028, 2, 29)


@pytest.mark.parametrize(
    ("value", "told"),
    [
        ("2026-02-29", "there is no such day, got '2026-02-29'"),
        ("2026-13-01", "there is no such day"),
        ("2.3.2026", "must be a date like 2026-03-02, got '2.3.2026'"),
        ("20260302", "must be a date"),
        (20260302, "must be a date"),
        (datetime(2026, 3, 2, 7), "must be a date"),
        (date(1926, 3, 2), "must lie between 2000-01-01 and 2199-12-31"),
        (date(2200, 1, 1), "must lie between"),
        (None, "must be a date"),
    ],
)
def test_what_is_no_date_is_refused(value, told):
    """The message names what was found."""
    with pytest.raises(InputError, match=told):
        read_date(value)


def test_times_of_the_day_have_whole_minutes():
    """A time of TOML and text are the same."""
    assert read_time(time(7, 30)) == read_time("07:30") == time(7, 30)


@pytest.mark.parametrize("value", ["7:30", "24:00", "07:60", time(7, 30, 1), 7, True, None])
def test_what_is_no_time_is_refused(value):
    """Hours have two digits and end at 23:59."""
    with pytest.raises(InputError, match='must be a time of the day like "07:00"'):
        read_time(value)


@pytest.mark.parametrize(
    ("value", "minutes"),
    [(0, 0), (45, 45), ("45 min", 45), ("2 h", 120), ("1 h 5 min", 65), ("16h", 960)],
)
def test_durations_are_read_as_minutes(value, minutes):
    """A number is minutes; text has units."""
    assert read_minutes(value) == minutes


@pytest.mark.parametrize("value", ["", "45", "h", "1.5 h", 1.5, True, None, "5 days", "-5 min"])
def test_what_is_no_duration_is_refused(value):
    """A unit is needed in text, and minutes are whole."""
    with pytest.raises(InputError, match="must be a whole number of minutes, or text like"):
        read_minutes(value)


@pytest.mark.parametrize("value", [-1, 10081, "169 h"])
def test_durations_have_limits(value):
    """Nothing takes less than no time or more than a week."""
    with pytest.raises(InputError, match="must be from 0 to 10080 minutes"):
        read_minutes(value)


def test_weekdays_are_named_in_full():
    """The names are those of the calendar, Monday being 1."""
    assert [read_weekday(name) for name in ("Monday", "Saturday", "Sunday")] == [1, 6, 7]
    with pytest.raises(InputError, match=r"must be one of Monday, Tuesday, .*, got 'Mon'"):
        read_weekday("Mon")
