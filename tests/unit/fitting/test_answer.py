"""Whether a size fits the hand-sized liner, and where best."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, hand_liner, rect, sides

from nesting.fitting.answer import SideMove, fit_size
from nesting.maps.ground import survey
from nesting.values.bed import Bed
from nesting.values.bend import Bend, bend_of
from nesting.values.liner import Ornament
from nesting.values.panels import Panel

JOB = hand_job()
TABLE = bend_of(JOB, "table")
GROUND = survey(JOB.liner, JOB.rules)


def fit(width, height, ground=GROUND, **wants):
    """Return the answer for a size in mm."""
    return fit_size(ground, Panel("P", width * MM, height * MM, 1, "table", **wants), TABLE)


def test_a_size_with_one_place_lies_there():
    """A1 of the hand-sized job: flush with the datum corner, 50 mm from the heron's top."""
    seated = fit(800, 650).seated
    spot = seated.placement
    assert (spot.x, spot.y, spot.sides, spot.shows) == (0, 0, sides("rt"), ("heron",))
    assert (seated.shift, seated.clearance) == ((0, 0, 0, 0), 50 * MM)
    assert seated.idle_share == 1 - Fraction(800 * 650, 1200 * 800)
    assert [dam.length for dam in seated.dams] == [650 * MM, 825 * MM]


def blank_with_post():
    """Return 1000 x 400 mm of blank ground with a post from x 480 to 520 all the way up."""
    post = Ornament("post", rect(480, 0, 40, 400))
    liner = replace(
        hand_liner(), outline=rect(0, 0, 1000, 400), unmarked="blank", zones=(), ornaments=(post,)
    )
    return survey(liner, JOB.rules)


def test_the_best_place_is_the_one_farthest_from_ornament():
    """A 100 x 400 mm panel lies flush with an end: its one dam is 355 mm from the post."""
    seated = fit(100, 400, blank_with_post()).seated
    assert seated.placement.x in (0, 900 * MM)
    assert seated.clearance == (480 - 100 - 25) * MM
    assert seated.shift == (0, 0, 0, 0)


def test_the_room_to_shift_is_what_the_map_leaves_with_the_same_sides():
    """Held low by its wish, a panel around a leaf can move until a dam or a rim stops it."""
    leaf = Ornament("leaf", rect(500, 300, 100, 100))
    liner = replace(
        hand_liner(), outline=rect(0, 0, 1200, 800), unmarked="blank", zones=(), ornaments=(leaf,)
    )
    seated = fit(400, 300, survey(liner, JOB.rules), must_show=("leaf",)).seated
    spot = seated.placement
    # Best is the leaf in the middle: 150 mm to left and right, 100 mm below and above.
    assert (spot.x, spot.y) == (350 * MM, 200 * MM)
    assert seated.clearance == 100 * MM
    assert seated.shift == tuple(side * MM for side in (138, 138, 88, 88))


def test_a_size_without_a_place_gets_its_reason_and_remedies():
    """850 mm is 15 mm beyond what the east zone allows."""
    answer = fit(850, 650)
    assert answer.seated is None
    first = answer.blocked[0]
    assert first.moves == (SideMove("right", 15 * MM, "east"),)
    assert first.blockers == ("its right dam would lie on ground that is not blank",)
    assert answer.change.amount == 15 * MM
    assert answer.nearest.narrower == (835 * MM, 650 * MM)


def test_a_size_too_small_is_told_what_it_lacks():
    """750 mm is 40 mm short of the east zone."""
    (first,), (second,) = (blocked.moves for blocked in fit(750, 650).blocked[:2])
    assert (first.amount, second.amount) == (-40 * MM, -40 * MM)
    assert (second.side, second.zone) == ("right", "east")


def test_a_size_that_needs_two_small_changes_is_told_both():
    """840 x 667 mm is 5 mm beyond the east zone and 2 mm beyond the north one."""
    (blocked,) = fit(840, 667).blocked
    assert blocked.moves == (SideMove("right", 5 * MM, "east"), SideMove("top", 2 * MM, "north"))


def test_a_size_within_tolerance_fits_with_it():
    """837 mm with 3 mm of tolerance is planned at 835 mm."""
    answer = fit(837, 650, tolerance=(-3 * MM, 3 * MM))
    assert answer.seated.placement.width == 835 * MM
    assert answer.off_nominal == (-2 * MM, 0)
    assert fit(839, 650, tolerance=(-3 * MM, 3 * MM)).seated is None


def test_the_change_to_the_liner_is_looked_for_only_where_wanted():
    """A screening of many liners does without."""
    panel = Panel("P", 850 * MM, 650 * MM, 1, "table")
    answer = fit_size(GROUND, panel, TABLE, mend=False)
    assert (answer.change, answer.mended) == (None, False)


def test_a_chord_beyond_the_diameter_is_an_error():
    """No panel can have it; see beds."""
    drum = Bend(Bed("table", "convex", 300 * MM), 13 * MM)
    panel = Panel("P", 700 * MM, 650 * MM, 1, "table", measured_on="chord")
    with pytest.raises(ValueError, match="chord"):
        fit_size(GROUND, panel, drum)
