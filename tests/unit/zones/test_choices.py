"""The ways to lie along one axis: worked out by hand on the small motif."""

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.zones.choices import Anchor, TotalLimits, list_choices, meet
from nesting.zones.field import Reach, survey_motif

DAM = 22 * MM


@pytest.fixture
def field(tmp_path):
    """Return the obstacles of the small motif."""
    return survey_motif(load_motif(tmp_path))


def asked(choices):
    """Return what each choice without a met interval asks of the strip, in mm."""
    return {
        (choice.sides, *(tuple(side // MM for side in limits) for _, limits in choice.totals))
        for choice in choices
        if "met" not in choice.states
    }


def test_a_panel_from_either_rim_asks_for_its_dam_in_the_strip(field):
    """330 wide from the left rim: its face at most 28 beyond 302, its dam up to 352: 52 to 150."""
    choices = list_choices(field, 0, 330 * MM, DAM, ())
    assert asked(choices) == {
        (("edge", "dam"), (52, 150)),
        (("dam", "edge"), (52, 150)),
    }


def test_a_panel_as_wide_as_the_liner_fixes_its_width(field):
    """700 wide on both rims: the strip is 100 exactly."""
    choices = list_choices(field, 0, 700 * MM, DAM, ())
    assert (("edge", "edge"), (100, 100)) in asked(choices)


def test_a_held_interval_leaves_the_ways_that_hold_it(field):
    """The wave is in a panel at the left rim only."""
    choices = list_choices(field, 0, 330 * MM, DAM, (1,))
    assert {choice.sides for choice in choices if "met" not in choice.states} == {("edge", "dam")}


def test_centring_bounds_the_lower_side(field):
    """A panel 330 wide on the left rim has the wave, mid 150, not in its middle, 165."""
    middle = (260 - 330) // 2 * MM
    at = 20 * MM + middle
    off = 0, TotalLimits(at - 14 * MM, at + 14 * MM)
    on = 0, TotalLimits(at - 15 * MM, at + 15 * MM)
    assert not any(
        "met" not in c.states for c in list_choices(field, 0, 330 * MM, DAM, (1,), (off,))
    )
    assert any("met" not in c.states for c in list_choices(field, 0, 330 * MM, DAM, (1,), (on,)))


def test_limits_that_no_width_can_meet_are_none():
    """In one segment, and over a strip that is too narrow; what is given anyway is left out."""
    reach = Reach((10,), 20, (0,), (5,), 5)
    low = [Anchor(0, 8)]
    assert meet(reach, low, [Anchor(0, 7)]) is None
    assert meet(reach, low, [Anchor(1, 2)]) is None
    assert meet(reach, low, [Anchor(1, 5)]) == {(0, 1): TotalLimits(3, 5)}
    assert meet(reach, low, [Anchor(1, 9)]) == {}
