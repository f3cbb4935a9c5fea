"""The calendar as a value."""

from datetime import date, datetime

import pytest
from calendarjobs import make_calendar

from nesting.values.calendar import Aim, Due


def test_an_aim_is_proved_where_bound_and_value_meet():
    """Three of at least three is proved, three of at least two is not."""
    assert (Aim(3, 3).proved, Aim(3, 2).proved) == (True, False)


def test_days_late_are_never_below_zero():
    """Two days after the due date is two late; before it, none."""
    due = Due("A1", date(2026, 3, 3), date(2026, 3, 5), 1)
    assert due.days_late == 2
    assert Due("A1", date(2026, 3, 5), date(2026, 3, 3), 0).days_late == 0


def test_a_cast_knows_its_day_and_its_parts():
    """The day is that of the face coat; what comes before it is told apart."""
    _, _, calendar = make_calendar([(1, "table", None), (1, "drum", None)])
    first, second = calendar.casts
    assert first.day == date(2026, 3, 2)
    assert first.covered == datetime(2026, 3, 2, 11, 10)
    assert [step.name for step in second.before] == ["bed change", "re-set"]
    with pytest.raises(KeyError):
        second.task("mask")


def test_a_calendar_counts_its_changes():
    """One re-set and one bed change, and the last demoulding ends it."""
    _, _, calendar = make_calendar([(1, "table", None), (1, "drum", None)])
    assert (calendar.resets, calendar.bed_changes) == (1, 1)
    assert calendar.finish == date(2026, 3, 4)
