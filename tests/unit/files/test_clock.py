"""The time of a print: now, or the time it is told."""

from datetime import datetime, timedelta

import pytest

from nesting.errors import InputError
from nesting.files.clock import read_clock

NAME = "SOURCE_DATE_EPOCH"


@pytest.mark.parametrize(
    ("told", "time"),
    [
        ("0", datetime(1970, 1, 1)),
        ("1772438700", datetime(2026, 3, 2, 8, 5)),
        ("253402300799", datetime(9999, 12, 31, 23, 59, 59)),
    ],
)
def test_the_time_told_is_taken_in_utc(monkeypatch, told, time):
    """Seconds since 1970, wherever the machine stands."""
    monkeypatch.setenv(NAME, told)
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    assert read_clock() == time


@pytest.mark.parametrize("told", [None, ""])
def test_else_it_is_now(monkeypatch, told):
    """The clock on the wall, unset and empty alike."""
    monkeypatch.delenv(NAME) if told is None else monkeypatch.setenv(NAME, told)
    assert abs(read_clock() - datetime.now()) < timedelta(minutes=1)


@pytest.mark.parametrize("told", ["now", "-1", "1.5", "1e9", "253402300800", "9" * 30, " 5", "٣"])
def test_what_is_no_time_is_told(monkeypatch, told):
    """One line, with the name of what is wrong."""
    monkeypatch.setenv(NAME, told)
    with pytest.raises(InputError, match="SOURCE_DATE_EPOCH: must be whole seconds since 1970"):
        read_clock()
