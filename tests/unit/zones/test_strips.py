"""The product: least area, fewest strips, whole divisions where they have an answer."""

from dataclasses import replace
from fractions import Fraction

import pytest
from makemotifs import MM
from motiffiles import WIDTH, change_motif, load_motif

from nesting.errors import NoScheduleError
from nesting.zones.strips import plan_zones, prepare


def answer(folder, *changes):
    """Return the zoning of the small motif, changed."""
    return plan_zones(prepare(load_motif(folder, change_motif(*changes))))


def test_the_least_liner_is_the_one_worked_out_by_hand(tmp_path):
    """A strip of 52 mm, one in use, and the liner is as much longer."""
    found = answer(tmp_path)
    assert found.widths == (WIDTH,)
    assert found.strips_used == 1
    assert found.size == (652 * MM, 400 * MM)
    assert found.frontier == (found.size,)
    assert found.added == WIDTH * 400 * MM
    assert found.area == 652 * 400 * MM * MM


def test_without_tolerance_the_strip_is_four_mm_narrower(tmp_path):
    """Each dam then takes its own width only: 330 to 350."""
    assert answer(tmp_path, ("lay_tolerance = 2\n", "")).widths == (50 * MM,)


def test_a_strip_is_a_whole_division_where_that_has_an_answer(tmp_path):
    """On a rule marked every 10 mm it is 60."""
    found = answer(tmp_path, ("set_out = 1", "set_out = 10"))
    assert (found.grid, found.widths) == (10 * MM, (60 * MM,))


def test_a_size_from_rim_to_rim_takes_a_finer_grid(tmp_path):
    """A liner of 673 mm exactly is on no division of 10 mm: the grid is 1 mm then."""
    change = ("[330, 400]", "[673, 400]")
    found = answer(tmp_path, ("set_out = 1", "set_out = 10"), change)
    assert found.widths == (73 * MM,)
    assert found.grid == 1 * MM


def test_panels_that_shrink_are_cast_larger(tmp_path):
    """A1 is cast at 330 / 0.99, 3.33 mm longer, so the strip is 4 mm wider; 396 / 0.99 is 400."""
    shrunk = ("set_out = 1", "set_out = 1\npanel_shrink = 0.01")
    sizes = (("[330, 400]", "[330, 396]"), ("[310, 400]", "[310, 396]"))
    found = answer(tmp_path, shrunk, *sizes)
    assert found.widths[0] == WIDTH + 4 * MM
    assert found.job.as_cast.panel_shrink == Fraction(1, 100)


def test_an_order_no_liner_serves_is_refused(tmp_path):
    """With the reason, as told by the module for reasons."""
    motif = load_motif(tmp_path)
    small = replace(motif, greatest=(640 * MM, 400 * MM))
    with pytest.raises(NoScheduleError, match="only a liner larger than the greatest one"):
        prepare(small)
