"""Gaps between panels that strips of the shop's widths fill."""

import pytest
from handjob import MM, place

from nesting.planning.strips import StripRule, strip_rule
from nesting.values.job import Rules

RULE = StripRule(25 * MM, (25 * MM, 40 * MM, 60 * MM))


def test_a_rule_has_the_dam_width_where_no_widths_are_given():
    """And what the job says of others."""
    rules = Rules(25, 6, 12, 1, other_widths=True)
    assert strip_rule(rules) == StripRule(25, (25,), others=True)
    assert strip_rule(rules, (25, 40)).widths == (25, 40)


@pytest.mark.parametrize(
    ("gap", "kept"),
    [(24, 0), (25, 1), (30, 0), (40, 1), (49, 0), (50, 1), (51, 1)],
)
def test_a_gap_is_a_listed_width_or_two_dams(gap, kept):
    """Along one axis; with other widths anything from one dam on."""
    pair = [place("A", 0, 0, 100, 100, "lrbt"), place("B", 100 + gap, 50, 80, 90, "lrbt")]
    assert RULE.keeps(pair) == bool(kept)
    free = StripRule(RULE.dam, RULE.widths, others=True)
    assert free.keeps(pair) == (gap >= 25)


def test_panels_corner_to_corner_need_one_gap_that_may_be():
    """Along x or along y, whatever the other."""

    def kept(x, y):
        return RULE.keeps([place("A", 0, 0, 90, 90, "lrbt"), place("B", x, y, 90, 90, "lrbt")])

    assert kept(90 + 30, 90 + 40)
    assert kept(90 + 25, 90 + 3)
    assert not kept(90 + 30, 90 + 30)
    assert RULE.keeps([])


def test_what_keeps_two_panels_apart_is_the_widest_gap_that_may_be():
    """Though one that may not be is wider."""
    a, b = place("A", 0, 0, 100, 100, "lrbt"), place("B", 140, 145, 50, 50, "lrbt")
    assert RULE.between(a, b) == (0, 0, 40 * MM)
    assert RULE.between(b, a) == (0, 1, 40 * MM)
    far = place("C", 140, 160, 50, 50, "lrbt")
    assert RULE.between(a, far) == (1, 0, 60 * MM)


def test_panels_are_held_at_listed_widths_below_two_dams_and_at_two():
    """A wider one is a gap among others."""
    assert RULE.held == (25 * MM, 40 * MM, 50 * MM)
