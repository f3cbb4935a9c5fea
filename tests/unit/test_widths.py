"""Widths at one height, worked out on paper for the hand-sized job."""

import pytest
from handjob import MM, hand_job, rect

from nesting.ground import survey
from nesting.job import Rules
from nesting.liner import Liner, Ornament
from nesting.positions import Wish
from nesting.widths import heights_at, turn_ground_over, widths_at

WIDTHS = [(12, 20), (340, 385), (790, 835), (1200, 1200)]
HEIGHTS = [(110, 135), (640, 665), (800, 800)]


def hand_ground():
    """Return the ground of the hand-sized job."""
    job = hand_job()
    return survey(job.liner, job.rules)


def in_mm(runs):
    """Return the runs in mm."""
    return [(low / MM, high / MM) for low, high in runs]


@pytest.mark.parametrize(("height", "widths"), [(800, WIDTHS), (650, WIDTHS), (120, WIDTHS)])
def test_widths_of_the_hand_job(height, widths):
    """At each height that has a place the same four runs of widths do."""
    assert in_mm(widths_at(hand_ground(), height * MM)) == widths


@pytest.mark.parametrize("height", [136, 639, 666, 799, 801])
def test_heights_between_have_no_width(height):
    """Other heights are left only to a slim panel with all its dams in the east zone."""
    slim = [(12, 20)] if height <= 775 else []
    assert in_mm(widths_at(hand_ground(), height * MM)) == slim


@pytest.mark.parametrize("width", [360, 800, 1200])
def test_heights_of_the_hand_job(width):
    """At each width that has a place the same three runs of heights do."""
    assert in_mm(heights_at(hand_ground(), width * MM)) == HEIGHTS


def test_a_slim_panel_has_any_height():
    """Between two dams in the east zone, 70 wide, a top dam may lie anywhere up to the rim."""
    assert in_mm(heights_at(hand_ground(), 15 * MM)) == [(12, 775), (800, 800)]


def test_a_wish_is_heeded():
    """With the heron shown the widths east of it are gone."""
    wish = Wish(show=frozenset({0}))
    assert in_mm(widths_at(hand_ground(), 650 * MM, wish)) == [(790, 835), (1200, 1200)]


def test_a_band_one_dam_wide_leaves_one_width():
    """A lone ornament with 87 mm beyond it, less 25 and 6: clear of it a panel is 56 wide."""
    liner = Liner(
        "plain", rect(0, 0, 300, 100), 13 * MM, "blank",
        (Ornament("reed", rect(0, 0, 213, 100)),),
    )  # fmt: skip
    ground = survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    assert in_mm(widths_at(ground, 100 * MM)) == [(12, 56), (225, 275), (300, 300)]


def test_turning_the_ground_over_twice_gives_it_back():
    """X and y exchanged twice are as they were."""
    ground = hand_ground()
    twice = turn_ground_over(turn_ground_over(ground))
    assert twice.frame == ground.frame
    assert (twice.left_rims, twice.top_rims) == (ground.left_rims, ground.top_rims)
    assert twice.no_dam.boxes.tolist() == ground.no_dam.boxes.tolist()
