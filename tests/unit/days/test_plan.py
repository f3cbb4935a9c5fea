"""The days of a schedule's casts: which day, which liner and bed, and the times through it."""

from dataclasses import replace
from datetime import date, datetime, time

import pytest
from calendarjobs import MONDAY, make_calendar, make_job, make_schedule

from nesting.checking.calendar import check_calendar
from nesting.days.plan import MOST_CASTS, plan_days
from nesting.errors import InputError, NoScheduleError
from nesting.values.shopdays import Times


def times_of(cast):
    """Return (name, begin, end) of each step as a person reads them."""
    return [(s.name, f"{s.begins:%d %H:%M}", f"{s.ends:%H:%M}") for s in cast.tasks]


def test_a_cast_goes_through_its_day_as_worked_out_by_hand():
    """Set-out 2 h, face coat 30 min, haze 20 to 40 min, backing 1 h, and demoulding next day."""
    _, _, calendar = make_calendar([(2, "table", None)])
    first, second = calendar.casts
    assert times_of(first) == [
        ("set out", "02 07:00", "09:00"),
        ("face coat", "02 09:00", "09:30"),
        ("haze", "02 09:50", "10:10"),
        ("backing", "02 10:10", "11:10"),
    ]
    assert first.demould.begins == datetime(2026, 3, 3, 7)
    assert times_of(second)[0] == ("face coat", "03 07:30", "08:00")


def test_layouts_with_the_same_dams_are_masked_and_not_re_set():
    """One liner, two layouts of one family: no re-set, 20 min of masking between them."""
    _, _, calendar = make_calendar([(1, "table", None), (1, "table", 1)])
    assert (calendar.resets, calendar.bed_changes) == (0, 0)
    assert times_of(calendar.casts[1])[0] == ("mask", "03 07:30", "07:50")


def test_another_bed_takes_a_bed_change_and_other_dams_a_re_set():
    """After demoulding, 1 h for the bed and 90 min for the dams."""
    _, _, calendar = make_calendar([(1, "table", None), (1, "drum", None)])
    assert times_of(calendar.casts[1])[:2] == [
        ("bed change", "03 07:30", "08:30"),
        ("re-set", "03 08:30", "10:00"),
    ]
    assert (calendar.changes.value, calendar.changes.proved) == (2, True)


def test_a_liner_back_on_its_bed_is_masked_where_the_layout_is_another():
    """A1, C1 and B1 are due in turn on one bed, too soon for the ten hours of a re-set.

    So the liner with the dams of A1 and B1 makes way for another, and is laid on the bed again.
    """
    dues = {mark: date(2026, 3, day) for mark, day in (("A1", 3), ("C1", 4), ("B1", 5))}
    job = make_job(dues, liners=2, times=Times(reset=600))
    schedule = make_schedule((1, "table", None), (1, "table", None), (1, "table", 1))
    first, second, third = schedule.layouts
    a1, b1 = first.panels
    layouts = replace(first, panels=(a1,)), second, replace(third, panels=(b1,))
    schedule = replace(schedule, layouts=layouts)
    calendar = plan_days(job, schedule)
    assert [(cast.marks, cast.liner) for cast in calendar.casts] == [
        (("A1",), 1),
        (("C1",), 2),
        (("B1",), 1),
    ]
    assert times_of(calendar.casts[2])[:3] == [
        ("bed change", "04 07:30", "08:30"),
        ("mask", "04 08:30", "08:50"),
        ("face coat", "04 08:50", "09:20"),
    ]
    assert check_calendar(job, schedule, calendar) == ()


def test_days_off_are_left_out():
    """From Friday on with Monday closed: demoulded and cast again on Tuesday."""
    _, _, calendar = make_calendar(
        [(2, "table", None)], start=date(2026, 3, 6), dates_off=(date(2026, 3, 9),)
    )
    assert [cast.day for cast in calendar.casts] == [date(2026, 3, 6), date(2026, 3, 10)]
    assert calendar.casts[0].demould.begins == datetime(2026, 3, 10, 7)
    assert calendar.finish == date(2026, 3, 11)
    assert calendar.days.value == 3


def test_a_start_on_a_day_off_rolls_on_and_says_so():
    """Saturday becomes Monday."""
    _, _, calendar = make_calendar([(1, "table", None)], start=date(2026, 3, 7))
    assert calendar.start == date(2026, 3, 9)
    assert calendar.notes == (
        "The shop does not work on Saturday 2026-03-07; the calendar starts on Monday 2026-03-09.",
    )


def test_the_start_given_goes_before_the_jobs():
    """The command line's start is used, whatever the job says."""
    job, schedule = make_job(), make_schedule((1, "table", None))
    assert plan_days(job, schedule, start=date(2026, 4, 1)).start == date(2026, 4, 1)


def test_without_a_start_it_is_refused():
    """No day to start on is the user's to give; no clock is looked at."""
    with pytest.raises(InputError, match=r"a day to start on; give start .* or --start DATE"):
        plan_days(make_job(start=None), make_schedule((1, "table", None)))


def test_more_casts_than_a_calendar_holds_are_refused():
    """The limit and the count are told."""
    rows = ((MOST_CASTS + 1, "table", None),)
    with pytest.raises(InputError, match=f"at most {MOST_CASTS} casts, got {MOST_CASTS + 1}"):
        plan_days(make_job(), make_schedule(*rows))


def test_hours_too_short_for_a_cast_are_refused_with_the_reason():
    """Two hours hold no cast of 2 h 40 min; the parts are listed."""
    job = make_job(opens=time(7), closes=time(9))
    with pytest.raises(NoScheduleError) as refused:
        plan_days(job, make_schedule((1, "table", None)))
    assert str(refused.value) == (
        "One cast takes 2 h 40 min of work (demoulding 30 min, face coat 30 min, haze wait 40 min, "
        "backing 1 h), and a shift has 2 h: working hours 07:00 to 09:00, casts_per_day 1. "
        "Lengthen hours, or lower casts_per_day."
    )


def test_a_long_set_out_takes_shifts_of_its_own():
    """Ten hours of set-out fill a day and part of the next; the cast is on the day after."""
    job, schedule, calendar = make_calendar([(1, "table", None)], times=Times(set_out=600))
    assert times_of(calendar.casts[0])[:3] == [
        ("set out", "02 07:00", "16:00"),
        ("set out", "03 07:00", "08:00"),
        ("face coat", "04 07:00", "07:30"),
    ]
    assert check_calendar(job, schedule, calendar) == ()


def test_cover_beyond_a_day_costs_the_next_one_and_says_so():
    """24 h under cover: Monday, Wednesday, Friday, and over the weekend Monday again."""
    _, _, calendar = make_calendar([(4, "table", None)], times=Times(cover=24 * 60))
    assert [cast.day.day for cast in calendar.casts] == [2, 4, 6, 9]
    assert "its liner waits for the next shift; up to 19 h 20 min it would be." in calendar.notes[0]


def test_short_cover_lets_a_liner_be_cast_twice_a_day():
    """Two shifts of seven hours, three hours under cover: four casts in two days."""
    job, schedule, calendar = make_calendar(
        [(4, "table", None)], casts_per_day=2, opens=time(6), closes=time(20),
        times=Times(cover=120),
    )  # fmt: skip
    assert [cast.day.day for cast in calendar.casts] == [2, 2, 3, 3]
    assert calendar.notes == ()
    assert check_calendar(job, schedule, calendar) == ()


def test_shifts_in_which_no_second_cast_fits_are_told():
    """16 h of cover leave one cast a day, however many shifts it is cut into."""
    _, _, calendar = make_calendar([(2, "table", None)], casts_per_day=2)
    assert [cast.day.day for cast in calendar.casts] == [2, 3]
    assert calendar.notes == (
        "Covered for 16 h, no liner takes a second cast in a day: casts_per_day 2 only makes its "
        "shifts shorter. Leave it at 1.",
    )


def test_liners_side_by_side_take_people_of_their_own_and_it_is_said():
    """On two liners at once it is told; on one there is nothing to tell."""
    rows = [(1, "table", None), (1, "drum", None)]
    assert "each by people of its own" in make_calendar(rows, liners=2)[2].notes[0]
    assert make_calendar(rows)[2].notes == ()


def test_two_liners_share_two_beds():
    """Each liner keeps its bed: no change, and the casts of both beds side by side."""
    job, schedule, calendar = make_calendar([(2, "table", None), (2, "drum", None)], liners=2)
    assert {(cast.liner, cast.bed) for cast in calendar.casts} in (
        {(1, "table"), (2, "drum")},
        {(2, "table"), (1, "drum")},
    )
    assert (calendar.changes.value, calendar.days.value) == (0, 3)
    assert check_calendar(job, schedule, calendar) == ()


def test_a_due_date_decides_which_layout_comes_first():
    """C1 is due on Tuesday, so its layout is cast on Monday."""
    _, _, calendar = make_calendar(
        [(2, "table", None), (1, "table", None)], dues={"C1": date(2026, 3, 3)}
    )
    assert calendar.casts[0].marks == ("C1",)
    (due,) = calendar.dues
    assert (due.mark, due.done, due.panels_late, due.days_late) == ("C1", date(2026, 3, 3), 0, 0)
    assert (calendar.late.value, calendar.late.proved) == (0, True)


def test_due_dates_that_cannot_hold_are_late_by_as_little_as_can_be():
    """Two marks due on Tuesday and one liner: one of them comes a day late, proved."""
    _, _, calendar = make_calendar(
        [(1, "table", None), (1, "table", None)],
        dues={"A1": date(2026, 3, 3), "C1": date(2026, 3, 3)},
    )
    assert (calendar.late.value, calendar.late.proved) == (1, True)
    assert sorted((due.days_late, due.panels_late) for due in calendar.dues) == [(0, 0), (1, 1)]


def test_a_due_date_before_the_start_is_late_from_the_first():
    """Due on the Friday before, demoulded on Tuesday: four days late."""
    _, _, calendar = make_calendar([(1, "table", None)], dues={"A1": date(2026, 2, 27)})
    assert calendar.dues[0].days_late == 4


def test_no_time_is_told():
    """What could not be proved in time is said, and bounds stay below the figures."""
    job = make_job({"C1": MONDAY, "A1": MONDAY}, liners=2)
    rows = [(5, "table", None), (4, "drum", None), (3, "table", None), (4, "drum", None)]
    calendar = plan_days(job, make_schedule(*rows), time_limit=1e-9)
    assert len(calendar.casts) == 16
    assert calendar.notes[-1].startswith("The order is the best found within 1e-09 s")
    assert not calendar.late.proved
    assert check_calendar(job, make_schedule(*rows), calendar) == ()
