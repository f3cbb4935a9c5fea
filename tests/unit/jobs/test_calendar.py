"""The calendar table of a job: what it gives, and every mistake with its line."""

from datetime import date, time

import pytest
from jobtext import JOB, change, list_mistakes, write_job

from nesting.jobs.read import read_job
from nesting.values.shopdays import NO_DUE, USUAL_DAYS, ShopDays, Times

FULL = """
[calendar]
start = 2026-03-02
casts_per_day = 2
liners = 3
beds = { table = 2 }
first = "finish"
opens = "06:30"
closes = 15:00:00
weekdays_off = ["Sunday"]
dates_off = [2026-12-25, "2026-01-01"]
[calendar.times]
set_out = "3 h"
reset = 100
bed_change = 40
masking = 10
face_coat = 25
haze = [10, "30 min"]
backing = 50
cover = "20 h"
demould = 15
"""


def test_every_key_is_read(tmp_path):
    """A full table gives a full value, dates and weekdays in order."""
    assert read_job(write_job(tmp_path, JOB + FULL)).shop == ShopDays(
        date(2026, 3, 2),
        casts_per_day=2,
        liners=3,
        beds=(("table", 2),),
        first="finish",
        opens=time(6, 30),
        closes=time(15),
        weekdays_off=(7,),
        dates_off=(date(2026, 1, 1), date(2026, 12, 25)),
        times=Times(180, 100, 40, 10, 25, (10, 30), 50, 1200, 15),
    )


@pytest.mark.parametrize("text", ["", "\n[calendar]\n", "\n[calendar.times]\n"])
def test_every_key_has_a_default(tmp_path, text):
    """A job without the table, or with an empty one, has the usual days and no start."""
    job = read_job(write_job(tmp_path, JOB + text))
    assert job.shop == USUAL_DAYS
    assert {panel.due for panel in job.panels} == {NO_DUE}


def test_a_due_date_is_the_panels(tmp_path):
    """It is read from the panel's own table."""
    text = change(('mark = "B1"', 'mark = "B1"\ndue = 2026-04-01'))
    assert read_job(write_job(tmp_path, text)).panel("B1").due == date(2026, 4, 1)


START = len(JOB.splitlines()) + 2


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('start = "2026-02-30"', "calendar.start: there is no such day, got '2026-02-30'."),
        ("start = 3", "calendar.start: must be a date like 2026-03-02, got 3."),
        ("liners = 0", "calendar.liners: must be a whole number from 1 to 20, got 0."),
        ("casts_per_day = 0", "calendar.casts_per_day: must be a whole number from 1 to 8, got 0."),
        (
            "beds = { table = 0 }",
            "calendar.beds: bed 'table' must be there for panel 'A1', got 0 beds; give 1 or more.",
        ),
        (
            "beds = { tabel = 2 }",
            "calendar.beds: there is no such bed, got 'tabel'; known: 'table'.",
        ),
        (
            'beds = { table = "two" }',
            "calendar.beds.table: must be a whole number from 0 to 20, got 'two'.",
        ),
        (
            "beds = 2",
            "calendar.beds: must be a table of numbers like { table = 2, drum = 1 }, got 2.",
        ),
        ('first = "cheap"', "calendar.first: must be one of changes, finish, got 'cheap'."),
        (
            'opens = "17:00"',
            "calendar.closes: must be later than opens on the same day, got 17:00 and 16:00; "
            "work over midnight is not planned; give hours of one day.",
        ),
        (
            'closes = "7 pm"',
            "calendar.closes: must be a time of the day like \"07:00\", got '7 pm'.",
        ),
        (
            'weekdays_off = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", '
            '"Sunday"]',
            "calendar.weekdays_off: must leave a day to work on, got all seven.",
        ),
        (
            'dates_off = ["2026-01-01", "soon"]',
            "calendar.dates_off[2]: must be a date like 2026-03-02, got 'soon'.",
        ),
        ("times = 3", "calendar.times: must be a table, got 3."),
        (
            "times = { haze = [40, 20] }",
            "calendar.times.haze: must be [least, most] with least <= most, got 40 min to 20 min.",
        ),
        (
            "times = { haze = 20 }",
            "calendar.times.haze: must be [least, most] minutes, got 20.",
        ),
        (
            "times = { covver = 20 }",
            "calendar.times.covver: unknown key; the nearest known key is cover.",
        ),
        ("liner = 2", "calendar.liner: unknown key; the nearest known key is liners."),
    ],
)
def test_each_mistake_is_told_with_its_line(tmp_path, line, told):
    """File, line, key, rule, what was found."""
    path = write_job(tmp_path, f"{JOB}\n[calendar]\n{line}\n")
    (mistake,) = list_mistakes(path)
    number, _, rest = mistake.removeprefix("job.toml:").partition(": ")
    assert rest == told
    assert int(number) in (START, START + 1)


def test_all_mistakes_are_told_at_once(tmp_path):
    """Three mistakes of the table and one of a panel give four lines, in the order of the file."""
    text = change(('mark = "A1"', 'mark = "A1"\ndue = "soon"'))
    path = write_job(
        tmp_path, f"{text}\n[calendar]\nliners = 0\nopens = 7\n[calendar.times]\ncover = -1\n"
    )
    keys = [line.split(": ")[1] for line in list_mistakes(path)]
    assert keys == ["panel[1].due", "calendar.liners", "calendar.opens", "calendar.times.cover"]


def test_a_calendar_that_is_no_table_is_refused(tmp_path):
    """The key holds a table or is not there."""
    path = write_job(tmp_path, f"calendar = 3\n{JOB}")
    assert list_mistakes(path) == ["job.toml:1: calendar: must be a table, got 3."]


def test_an_impossible_date_in_the_file_is_told_by_its_line(tmp_path):
    """A date that TOML itself refuses ends with one line."""
    path = write_job(tmp_path, f"{JOB}\n[calendar]\nstart = 2026-02-30\n")
    (mistake,) = list_mistakes(path)
    assert mistake.startswith(f"job.toml:{START + 1}:")


def test_a_liner_file_holds_no_calendar(tmp_path):
    """The shop's days belong to the job."""
    head, order = JOB.split("[rules]")
    write_job(tmp_path, f"{head}\n[calendar]\nliners = 2\n", "liner.toml")
    path = write_job(
        tmp_path,
        f'title = "Bath house, foyer"\nunits = "mm"\n[liner]\nfile = "liner.toml"\n[rules]{order}',
    )
    (mistake,) = list_mistakes(path)
    assert "calendar: a liner file holds no calendar; move it to a job file." in mistake
