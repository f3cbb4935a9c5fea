"""Readers of dates, times of the day and durations."""

import re
from datetime import date, datetime, time

from nesting.errors import InputError, shown
from nesting.files.spelling import any_of, spelled, text_like
from nesting.files.tomltext import quoted

FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2199, 12, 31)
"""Between these, both included, lie all dates of a job."""
LONGEST_MINUTES = 7 * 24 * 60
"""Longest duration of one step [minutes]: a week."""
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
"""Names of weekdays 1 to 7 of ISO 8601."""

_DURATION = "(?:([0-9]{1,4}) ?h)? ?(?:([0-9]{1,5}) ?min)?"
_TIME = "(?:[01][0-9]|2[0-3]):[0-5][0-9]"


@spelled(
    {"type": "string", "format": "date", "pattern": "^2[01][0-9]{2}-[0-9]{2}-[0-9]{2}$"},
    date.isoformat,
)
def read_date(value: object) -> date:
    """Return a date of the file, or text like 2026-03-02.

    >>> read_date("2026-03-02")
    datetime.date(2026, 3, 2)
    """
    day = value
    if isinstance(value, str):
        try:
            day = date.fromisoformat(value) if re.fullmatch(r"\d{4}-\d\d-\d\d", value) else value
        except ValueError as error:
            raise InputError("", "there is no such day", got=shown(value)) from error
    if not isinstance(day, date) or isinstance(day, datetime):
        raise InputError("", "must be a date like 2026-03-02", got=shown(value))
    if not FIRST_DAY <= day <= LAST_DAY:
        raise InputError("", f"must lie between {FIRST_DAY} and {LAST_DAY}", got=shown(value))
    return day


@spelled(text_like(f"{_TIME}(?::00)?"), lambda time: quoted(f"{time:%H:%M}"))
def read_time(value: object) -> time:
    """Return a time of the day in whole minutes, of the file or text like 07:00."""
    found = value
    if isinstance(value, str) and re.fullmatch(f"{_TIME}(?::00)?", value):
        found = time.fromisoformat(value)
    if not isinstance(found, time) or found.second or found.microsecond:
        raise InputError("", 'must be a time of the day like "07:00"', got=shown(value))
    return found


@spelled(
    any_of(
        "duration",
        {"type": "integer", "minimum": 0, "maximum": LONGEST_MINUTES},
        text_like(f"(?=.*[0-9]){_DURATION}"),
    ),
    str,
)
def read_minutes(value: object) -> int:
    """Return a duration [minutes]: a whole number of minutes, or text with units.

    >>> read_minutes(90), read_minutes("1 h 30 min"), read_minutes("16 h")
    (90, 90, 960)
    """
    minutes = value
    if isinstance(value, str):
        match = re.fullmatch(_DURATION, value)
        if match and any(match.groups()):
            minutes = 60 * int(match[1] or 0) + int(match[2] or 0)
    if isinstance(minutes, bool) or not isinstance(minutes, int):
        rule = 'must be a whole number of minutes, or text like "1 h 30 min"'
        raise InputError("", rule, got=shown(value))
    if not 0 <= minutes <= LONGEST_MINUTES:
        raise InputError("", f"must be from 0 to {LONGEST_MINUTES} minutes", got=shown(value))
    return minutes


@spelled({"enum": list(WEEKDAYS)}, lambda day: quoted(WEEKDAYS[day - 1]))
def read_weekday(value: object) -> int:
    """Return a weekday by its number of ISO 8601.

    >>> read_weekday("Monday"), read_weekday("Sunday")
    (1, 7)
    """
    if not isinstance(value, str) or value not in WEEKDAYS:
        raise InputError("", f"must be one of {', '.join(WEEKDAYS)}", got=shown(value))
    return 1 + WEEKDAYS.index(value)
