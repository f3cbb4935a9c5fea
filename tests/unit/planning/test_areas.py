"""The area account and its totals."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_schedule, masked_bay, place
from hypothesis import given
from hypothesis import strategies as st

from nesting.planning.areas import account
from nesting.shapes.geometry import Polygon
from nesting.values.casts import Areas, Dam, totals

MM2 = MM * MM


def test_the_account_of_each_hand_made_cast_is_as_on_paper(job, schedule):
    """960,000 mm2 of liner: 820,000 of panels and 40,000 of dams, then 780,000 and 30,000."""
    for layout in schedule.layouts:
        assert account(job.liner, layout.panels, layout.dams) == layout.areas
    assert schedule.layouts[0].areas.idle == 140_000 * MM2


def test_a_bare_liner_is_masked_whole(job):
    """No panels, no dams: all of it is masked."""
    assert account(job.liner, (), ()) == Areas(960_000 * MM2, 0, 0, 960_000 * MM2)


def test_a_hole_is_no_liner(job):
    """A lifting recess of 100 x 50 mm is not counted."""
    hole = tuple((x * MM, y * MM) for x, y in ((900, 100), (1000, 100), (1000, 150), (900, 150)))
    outline = replace(job.liner.outline, holes=(hole,))
    assert account(replace(job.liner, outline=outline), (), ()).liner == 955_000 * MM2


def test_half_a_square_step_goes_below():
    """A triangle of 2.5 square steps counts 2, and the sum still holds."""
    liner = replace(hand_job().liner, outline=Polygon(((0, 0), (5, 0), (0, 1))))
    assert account(liner, (), ()) == Areas(2, 0, 0, 2)


def test_more_than_the_liner_is_refused(job):
    """Panels and dams that overlap until they exceed the liner are no account."""
    twice = (place("C1", 0, 0, 1200, 650, "t"),) * 2
    with pytest.raises(ValueError, match="cover more than the liner"):
        account(job.liner, twice, ())


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), max_size=8))
def test_nothing_is_lost(sizes):
    """Liner = panels + dams + masked, and idle = liner - panels, whatever lies there."""
    dams = [Dam(f"D{i}", 0, 0, width, height) for i, (width, height) in enumerate(sizes)]
    areas = account(hand_job().liner, hand_schedule().layouts[0].panels, dams)
    assert areas.liner == areas.panels + areas.dams + areas.masked
    assert areas.idle == areas.liner - areas.panels


def test_totals_count_every_repeat(schedule):
    """Two casts of layout 1 count twice, in panels and in areas."""
    one, two = schedule.layouts
    found = totals(replace(schedule, layouts=(replace(one, repeats=2), two)))
    assert found.casts == 3
    assert found.panels == (("A1", 2), ("B1", 2), ("C1", 1))
    assert found.liner_area == 3 * 960_000 * MM2
    assert found.panel_area == (2 * 820_000 + 780_000) * MM2
    assert found.idle_area == (2 * 140_000 + 180_000) * MM2
    assert found.idle_share == pytest.approx(460 / 2880)


def test_a_masked_bay_is_idle():
    """The cast that masks B1's bay idles its 300,000 mm2."""
    _, schedule = masked_bay()
    assert schedule.layouts[2].areas.idle - schedule.layouts[0].areas.idle == 300_000 * MM2


def test_totals_of_nothing_are_zero(schedule):
    """No cast, no area, no share."""
    found = totals(replace(schedule, layouts=()))
    assert (found.casts, found.panels, found.liner_area, found.idle_share) == (0, (), 0, 0.0)
