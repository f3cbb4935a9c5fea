"""All that is said of strips."""

from dataclasses import replace
from fractions import Fraction

from calendarjobs import make_calendar
from handjob import MM
from stripjobs import lay, strip_job, strip_schedule, three_sets

from nesting.strips.plan import plan_strips
from nesting.values.bed import Bed


def test_a_plan_has_strips_cuts_and_re_sets():
    """Of the three sets: four strips, two re-sets, one liner."""
    plan = plan_strips(strip_job(), three_sets())
    assert (plan.liners, len(plan.strips), len(plan.resets), plan.sawn) == (1, 4, 2, ())


def test_what_is_sawn_from_sheet_is_in_no_cut_plan():
    """It is listed apart."""
    bed = Bed("table", "convex", 3000 * MM, "x", Fraction(1, 2))
    job = replace(strip_job(on_curve="cut"), beds=(bed,))
    plan = plan_strips(job, strip_schedule(lay(1, (0, 0, 800, 25), (100, 100, 25, 700))))
    assert ([each.number for each in plan.sawn], [each.number for each in plan.strips]) == (
        [1],
        [2],
    )
    assert [cut.strips for section in plan.cuts for cut in section.cuts] == [(2,)]


def test_with_a_calendar_liners_are_told_apart():
    """Two liners hold dams at once, so strips of both exist."""
    job, schedule, calendar = make_calendar(liners=2)
    plan = plan_strips(job, schedule, calendar)
    assert plan.liners == 2
    assert len(plan.strips) == sum(len(layout.dams) for layout in schedule.layouts[:2])
