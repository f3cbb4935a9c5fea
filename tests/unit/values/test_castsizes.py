"""What liner and panels measure now: `nesting.values.castsizes`."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_liner, rect

from nesting.shapes.geometry import Polygon, subtract
from nesting.values.castsizes import AsCast, cast_length, draw_ground, lay_liner
from nesting.values.liner import BlankZone, Ornament

HALF = AsCast(liner_shrink=Fraction(1, 2))
WARM = AsCast(Fraction(0), Fraction(30), Fraction(20), Fraction(1, 10_000))


def test_by_default_nothing_is_corrected():
    """Neither liner nor panels, and there is nothing to say."""
    assert AsCast().factor == 1
    assert AsCast().is_plain
    liner = hand_liner()
    assert lay_liner(liner, AsCast()) is liner


def test_shrinkage_and_warmth_multiply():
    """Rubber that lost a tenth and then grew by a thousandth is 0.9 times 1.001 of its drawing."""
    assert WARM.factor == Fraction(1001, 1000)
    assert replace(WARM, liner_shrink=Fraction(1, 10)).factor == Fraction(9009, 10_000)


def test_a_liner_colder_than_measured_is_shorter():
    """The difference of temperature has a sign."""
    cold = replace(WARM, liner_temperature=Fraction(-5))
    assert (cold.warmer, cold.growth) == (-25, Fraction(-25, 10_000))
    assert cold.factor == Fraction(9975, 10_000)


@pytest.mark.parametrize(
    "as_cast",
    [WARM, HALF, AsCast(panel_shrink=Fraction(1, 1000))],
)
def test_whatever_corrects_is_no_longer_plain(as_cast):
    """Each of the three calls for words in the report."""
    assert not as_cast.is_plain


def test_warmth_that_makes_up_for_shrinkage_is_still_told():
    """A factor of 1 may hide a difference of temperature that matters."""
    made_up = replace(WARM, liner_shrink=1 - 1 / WARM.factor)
    assert made_up.factor == 1
    assert not made_up.is_plain


def test_equal_temperatures_correct_nothing():
    """However much the rubber would grow."""
    assert replace(WARM, liner_temperature=Fraction(20)).is_plain


def test_outline_ornaments_and_zones_shrink_about_the_datum_corner():
    """Each coordinate is scaled; thickness, relief and names stay."""
    liner = replace(
        hand_liner(),
        outline=Polygon(rect(0, 0, 1200, 800).shell, (rect(1000, 100, 80, 60).shell,)),
        ornaments=(Ornament("heron", rect(300, 200, 220, 400), 9 * MM),),
    )
    assert lay_liner(liner, HALF) == replace(
        liner,
        outline=Polygon(rect(0, 0, 600, 400).shell, (rect(500, 50, 40, 30).shell,)),
        ornaments=(Ornament("heron", rect(150, 100, 110, 200), 9 * MM),),
        zones=(
            BlankZone("east", rect(395, 0, 35, 400)),
            BlankZone("north", rect(0, 320, 600, 25)),
        ),
    )


def test_a_coordinate_is_rounded_to_the_nearest_step_halves_away_from_zero():
    """On both sides of the datum corner alike."""
    zone = BlankZone("slip", Polygon(((-3, -1), (5, -1), (5, 7), (-3, 7))))
    laid = lay_liner(replace(hand_liner(), zones=(zone,)), HALF)
    assert laid.zones[0].outline.bounds == (-2, -1, 3, 4)


def test_a_part_that_shrinks_to_nothing_is_told_by_its_name():
    """Its points fall together."""
    dot = Ornament("dot", Polygon(((0, 0), (1, 0), (1, 1), (0, 1))))
    tiny = AsCast(liner_shrink=Fraction(3, 4))
    with pytest.raises(ValueError, match="ornament 'dot': an outline needs at least 3 different"):
        lay_liner(replace(hand_liner(), ornaments=(dot,)), tiny)


def test_a_liner_that_grows_beyond_all_reckoning_is_refused():
    """Coordinates end at 2**28 steps."""
    long = replace(hand_liner(), outline=rect(0, 0, 33_000, 800))
    with pytest.raises(ValueError, match="its outline: coordinates reach at most 33554 mm"):
        lay_liner(long, replace(WARM, expansion=Fraction(1, 100)))


def test_a_panel_is_cast_so_much_larger_that_shrinking_leaves_what_was_ordered():
    """Exactly, before any rounding."""
    shrink = Fraction(7, 10_000)
    assert cast_length(1234, shrink) * (1 - shrink) == 1234


@pytest.mark.parametrize("factor", ["1", "0.9970003", "1.002", "1.0000001", "1.5"])
def test_ground_that_is_drawn_lies_as_it_did(factor):
    """All of it, with no side beyond it by more than the step that no drawn one comes to."""
    times = Fraction(factor)
    as_cast = AsCast(Fraction(0), times - 1, Fraction(0), Fraction(1))
    for low in range(7000, 7400, 7):
        ell = [(1, -1), (9, -1), (9, 3), (2, 3), (2, 7), (1, 7)]
        ground = Polygon(tuple((x * low, y * low) for x, y in ell))
        drawn = draw_ground(ground, times)
        (zone,) = lay_liner(
            replace(hand_liner(), ornaments=(), zones=(BlankZone("ell", drawn),)), as_cast
        ).zones
        assert not subtract([ground], [zone.outline])
        off = [
            abs(a - b)
            for ours, theirs in zip(ground.shell, zone.outline.shell, strict=True)
            for a, b in zip(ours, theirs, strict=True)
        ]
        assert max(off) <= max(1, times - 1)
        assert times > 1 or zone.outline == ground
