"""Settings in the order of the days."""

from calendarjobs import make_calendar
from stripjobs import lay, strip_schedule

from nesting.strips.settings import list_settings


def test_without_a_calendar_layouts_follow_the_schedule():
    """On one liner, casts counted through; a layout that keeps dams belongs to their setting."""
    schedule = strip_schedule(
        lay(1, (0, 0, 9, 9), repeats=2), lay(2, same=1), lay(3, (0, 0, 8, 8), repeats=3)
    )
    found = list_settings(schedule, None)
    told = [(each.liner, each.layout.number, each.casts) for each in found]
    assert told == [(1, 1, (1, 2, 3)), (1, 3, (4, 5, 6))]


def test_a_liner_that_comes_back_to_dams_sets_them_again():
    """What lies between parts the casts."""
    schedule = strip_schedule(lay(1, (0, 0, 9, 9)), lay(2, (0, 0, 8, 8)), lay(3, same=1))
    assert [each.layout.number for each in list_settings(schedule, None)] == [1, 2, 1]


def test_with_a_calendar_each_liner_has_its_own():
    """Every cast is in one setting, whose dams are laid before it and for no cast between."""
    _, schedule, calendar = make_calendar(liners=2)
    settings = list_settings(schedule, calendar)
    casts = [number for each in settings for number in each.casts]
    assert sorted(casts) == [cast.number for cast in calendar.casts]
    assert [each.begins for each in settings] == sorted(each.begins for each in settings)
    setting_work = {cast.number for cast in calendar.casts if cast.sets_dams}
    assert {each.casts[0] for each in settings} == setting_work
    assert all(each.begins < each.laid for each in settings)
