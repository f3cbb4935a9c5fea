"""Small jobs, schedules and calendars for tests of the casting calendar."""

from dataclasses import replace
from datetime import date

from handjob import hand_job, hand_schedule

from nesting.days.plan import plan_days
from nesting.values.bed import Bed
from nesting.values.shopdays import ShopDays

MONDAY = date(2026, 3, 2)


def make_job(dues=None, **days):
    """Return the hand-sized job on beds table and drum, with due dates by mark and shop days."""
    job = hand_job()
    dues = dues or {}
    panels = tuple(
        replace(panel, due=dues[panel.mark]) if panel.mark in dues else panel
        for panel in job.panels
    )
    beds = (Bed("table"), Bed("drum"))
    return replace(job, beds=beds, panels=panels, shop=ShopDays(**{"start": MONDAY, **days}))


def make_schedule(*rows):
    """Return a schedule of layouts (repeats, bed, same dams as); panels A1, B1 and C1 in turn."""
    one, two = hand_schedule().layouts
    layouts = tuple(
        replace((one, two)[n % 2], number=n + 1, repeats=repeats, bed=bed, same_dams_as=same)
        for n, (repeats, bed, same) in enumerate(rows)
    )
    return replace(hand_schedule(), layouts=layouts)


SMALL = ((2, "table", None), (2, "drum", None), (1, "table", 1))
"""Two layouts on two beds, and one that shares the dams of the first."""


def make_calendar(rows=SMALL, dues=None, **days):
    """Return (job, schedule, calendar)."""
    job, schedule = make_job(dues, **days), make_schedule(*rows)
    return job, schedule, plan_days(job, schedule)
