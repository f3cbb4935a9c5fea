"""Jobs and schedules whose dams are given one by one, for tests of strips; lengths in mm."""

from dataclasses import replace

from handjob import MM, dam, hand_job, hand_schedule

from nesting.values.casts import Layout
from nesting.values.job import DamStock


def strip_job(*, stock=(2440,), kerf=3, **values):
    """Return the hand-sized job with that stock of dams."""
    dams = DamStock(stock=tuple(each * MM for each in stock), kerf=kerf * MM, **values)
    return replace(hand_job(), dams=dams)


def lay(number, *boxes, repeats=1, same=None):
    """Return a layout of dams (x, y, width, height), named in turn; its panel is of no matter."""
    one = hand_schedule().layouts[0]
    dams = tuple(dam(f"dam {n}", *box, "", None) for n, box in enumerate(boxes, start=1))
    return replace(one, number=number, repeats=repeats, same_dams_as=same, dams=dams)


def strip_schedule(*layouts: Layout):
    """Return a schedule of those layouts."""
    return replace(hand_schedule(), layouts=layouts)


ONE = lay(1, (0, 650, 800, 25), (800, 0, 25, 700), (900, 0, 25, 300), repeats=2)
TWO = lay(2, (0, 650, 800, 25), (1000, 0, 25, 700), (500, 0, 25, 400))
THREE = lay(3, (0, 600, 300, 25), (600, 0, 25, 700))
"""In turn: one stays, one moves, one goes, one is new; then one comes from the store."""


def three_sets():
    """Return the schedule of those three."""
    return strip_schedule(ONE, TWO, THREE)
