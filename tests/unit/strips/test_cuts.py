"""The cut plan of a job's strips."""

import pytest
from handjob import MM
from stripjobs import lay, strip_job, strip_schedule, three_sets

from nesting.errors import InputError
from nesting.strips.plan import plan_strips


def test_strips_are_cut_from_the_fewest_lengths():
    """800, 700, 400 and 300 with a kerf of 3 fill one length of 2209 to the last cut."""
    (section,) = plan_strips(strip_job(stock=(2209,)), three_sets()).cuts
    (cut,) = section.cuts
    assert (cut.stock, cut.left) == (2209 * MM, 0)
    assert sorted(cut.strips) == [1, 2, 3, 4]
    assert section.proved
    (section,) = plan_strips(strip_job(stock=(2208,)), three_sets()).cuts
    assert (section.plan.used, section.proved) == (2, True)


def test_of_as_many_lengths_the_shorter_are_taken():
    """The second length need not be long."""
    (section,) = plan_strips(strip_job(stock=(500, 2000)), three_sets()).cuts
    assert sorted(cut.stock // MM for cut in section.cuts) == [500, 2000]


def test_each_width_has_a_plan_of_its_own():
    """Strips of 25 and of 40 come from stock of that width."""
    schedule = strip_schedule(lay(1, (0, 0, 25, 300), (100, 0, 40, 300)))
    sections = plan_strips(strip_job(widths=(25 * MM, 40 * MM)), schedule).cuts
    assert [(each.width // MM, len(each.cuts)) for each in sections] == [(25, 1), (40, 1)]


def test_without_stock_there_is_no_cut_plan():
    """The list stands alone."""
    plan = plan_strips(strip_job(stock=()), three_sets())
    assert (plan.cuts, len(plan.strips)) == ((), 4)


def test_a_strip_longer_than_all_stock_is_told():
    """By its dam and layout, its length and the longest stock."""
    text = (
        r"^dams\.stock: must hold a length for every strip; the longest is 700 mm, got dam 1 of "
        r"layout 1, 800 mm long; give a longer stock, or order panels that need no dam as long\.$"
    )
    with pytest.raises(InputError, match=text):
        plan_strips(strip_job(stock=(600, 700)), three_sets())
