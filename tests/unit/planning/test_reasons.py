"""Reasons: why a panel has no place, and the nearest sizes that have one."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, rect

from nesting.maps.ground import survey
from nesting.maps.sizehunt import Hunts
from nesting.maps.sizes import choose_size
from nesting.planning.reasons import explain
from nesting.shapes.geometry import Box
from nesting.values.bed import Bed
from nesting.values.bend import Bend
from nesting.values.castsizes import AsCast, lay_liner
from nesting.values.liner import BlankZone, KeepClear, Liner, Ornament
from nesting.values.panels import Panel

TABLE = Bend(Bed("table"), 13 * MM)
JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)
CHANGE_BOTH = (
    "No size with a place was found by changing one side alone by up to a quarter; widen or add "
    "blank zones along its sides."
)


def panel(width, height, **changes):
    """Return a panel given in mm."""
    return Panel("P3", round(width * MM), round(height * MM), 1, "table", **changes)


def told(width, height, ground=GROUND, bend=TABLE, units="mm", **changes):
    """Return what is said of a panel given in mm that has no place."""
    asked = panel(width, height, **changes)
    assert choose_size(ground, asked, bend) is None
    return explain(Hunts(ground), asked, bend, units)


def plain(*posts):
    """Return plain ground 400 x 300 with upright posts (x, width), named from 'a'."""
    ornaments = tuple(
        Ornament(name, rect(x, 0, w, 300)) for name, (x, w) in zip("abcdef", posts, strict=False)
    )
    return survey(Liner("plain", rect(0, 0, 400, 300), 13 * MM, "blank", ornaments), JOB.rules)


def test_a_panel_larger_than_the_liner_is_told_so():
    """The side, its flat length, the liner's, and the nearest size that fits."""
    assert told(1200, 900) == (
        "Panel 'P3' (1200 x 900 mm, bed 'table') has no place on the liner: its flat height of "
        "900 mm is more than the liner's 800 mm. Nearest that fit, the other side as ordered: "
        "height 800 mm."
    )
    assert "its flat width of 1300 mm is more than the liner's 1200 mm" in told(1300, 650)


def test_the_nearest_sizes_below_and_above_are_offered():
    """For each side alone, the smaller one first."""
    text = told(803, 668)
    assert "no blank zones lie so far apart that its dams find plain ground on every side" in text
    assert text.endswith(
        "Nearest that fit, the other side as ordered: height 665 mm, height 800 mm."
    )


def test_where_one_side_cannot_mend_it_zones_are_asked_for():
    """Both sides are off."""
    assert told(838, 668).endswith(CHANGE_BOTH)
    assert told(100, 100).endswith(CHANGE_BOTH)


def test_exchanged_sides_are_told():
    """The size has no place, the same with its sides exchanged has one."""
    assert told(650, 1200).endswith(
        "With width and height exchanged it would have a place: the width is the side along x."
    )


def test_a_panel_far_larger_than_the_liner_is_not_sent_for_zones():
    """No zone would help a side longer than the liner."""
    text = told(5000, 3000)
    assert text.endswith(
        "No size with a place is within a quarter of a side; order it smaller, or in parts."
    )


def test_ornaments_that_each_bar_the_only_places_are_named():
    """Without any one of them there is a place."""
    text = told(110, 300, plain((80, 90), (230, 90)))
    assert "every place cuts or crowds an ornament; without 'a' or 'b' there is one" in text
    assert "Nearest that fit, the other side as ordered: width " in text


def test_three_ornaments_that_each_bar_the_only_places_are_all_named():
    """The last two are parted by or."""
    text = told(110, 300, plain((60, 80), (160, 80), (260, 80)))
    assert "without 'a', 'b' or 'c' there is one" in text


@pytest.mark.parametrize(("height", "is_offered"), [(512, True), (511, False)])
def test_a_size_is_offered_up_to_a_quarter_away(height, is_offered):
    """The next height with a place is 640 mm, a quarter more than 512."""
    assert ("height 640 mm" in told(800, height)) == is_offered


def test_ornaments_that_bar_places_only_together_are_not_named():
    """Leaving out one of four does not help, leaving out all does."""
    text = told(90, 300, plain((20, 85), (115, 85), (205, 85), (300, 100)))
    assert "every place cuts or crowds some ornament" in text


def test_a_wish_that_leaves_no_place_is_spelt_out():
    """What must show and what must be left out, by name."""
    assert "places exist, but none that leaves out 'heron'" in told(800, 650, must_hide=("heron",))
    ground = plain((100, 20), (160, 20))
    text = told(180, 300, ground, must_show=("a",), must_hide=("b",))
    assert "places exist, but none that shows 'a' and leaves out 'b'" in text


def test_offers_are_in_the_jobs_units():
    """Inches in fractions, full or scant of them."""
    text = told(803, 668, units="in")
    assert "(31 39/64 full x 26 19/64 full in, bed 'table')" in text
    assert "height 26 3/16 in scant" in text


def test_offers_on_a_curved_bed_are_as_ordered():
    """On a drum the face is longer: 665 flat are 666.438 on it, the least height 640 is 641.384."""
    drum = Bend(Bed("drum", "convex", 3000 * MM, "y"), 13 * MM)
    assert "height 666.437 mm" in told(803, 668, bend=drum)
    assert "height 641.384 mm" in told(800, 600, bend=drum)
    sideways = replace(drum, bed=replace(drum.bed, curved_axis="x"))
    assert "height 665 mm" in told(803, 668, bend=sideways)


def test_what_a_panel_that_shrinks_is_offered_is_as_ordered():
    """1 % smaller than cast: height 665 mm on the liner is 658.35 mm of the order."""
    bend = replace(TABLE, shrink=Fraction(1, 100))
    asked = panel(794.97, 661.32)
    assert choose_size(GROUND, asked, bend) is None
    text = explain(Hunts(GROUND), asked, bend, "mm")
    assert text.startswith("Panel 'P3' (794.97 x 661.32 mm, bed 'table') has no place")
    assert text.endswith("height 658.35 mm, height 792 mm.")


def test_zones_that_became_too_narrow_for_a_dam_are_named():
    """A zone exactly a dam wide takes none once the liner has shrunk."""
    exact = replace(JOB.liner, zones=(BlankZone("east", rect(790, 0, 25, 800)), JOB.liner.zones[1]))
    shrunk = lay_liner(exact, AsCast(liner_shrink=Fraction(1, 1000)))
    text = told(790, 650, survey(shrunk, JOB.rules))
    assert (
        "on every side; too narrow for a dam of 25 mm, as the liner lies now: 'east' (24.975 mm). "
    ) in text
    assert "too narrow" not in told(803, 668)


def test_of_many_narrow_zones_a_few_are_named():
    """The rest is counted."""
    slits = tuple(BlankZone(f"slit {n}", rect(100 * n, 0, 24, 800)) for n in range(8))
    text = told(790, 650, survey(replace(JOB.liner, zones=slits), JOB.rules))
    assert "'slit 5' (24 mm) and 2 more. " in text


@pytest.mark.parametrize("size", [(803, 668), (1200, 900), (803, 700), (1100, 650), (838, 650)])
def test_what_is_offered_fits(size):
    """Each offer, ordered as printed, has a place."""
    offers = re.findall(r"(width|height) ([0-9.]+) mm[,.]", told(*size).split("as ordered")[1])
    assert offers
    for side, length in offers:
        asked = replace(panel(*size), **{side: round(float(length) * MM)})
        assert choose_size(GROUND, asked, TABLE) is not None


def test_what_is_offered_on_a_curved_bed_fits():
    """Each offer, ordered as printed, has a place there too."""
    bend = Bend(Bed("drum", "concave", 3000 * MM, "y"), 13 * MM)
    offers = re.findall(r"height ([0-9.]+) mm", told(803, 668, bend=bend).split("as ordered")[1])
    for height in offers:
        assert choose_size(GROUND, panel(803, float(height)), bend) is not None


def test_on_plain_ground_nothing_is_said_of_zones():
    """A panel 390 long on 400 leaves too little for a dam and too much to lie on both rims."""
    assert "zone" not in told(390, 300, plain())


def kept(*points, distance=60):
    """Return the hand-sized ground with loops at points in mm that dams keep off."""
    loops = tuple(
        KeepClear(f"loop {n}", Box(x * MM, y * MM, x * MM, y * MM), distance * MM)
        for n, (x, y) in enumerate(points, 1)
    )
    return survey(replace(JOB.liner, keep_clear=loops), JOB.rules)


def test_a_place_that_dams_keep_off_is_named_as_the_reason():
    """One alone, or several where no one of them suffices."""
    assert "brings a dam too near to 'loop 1', which dams keep off" in told(
        800, 650, kept((400, 700), (100, 100))
    )
    assert "too near to some place that dams keep off" in told(
        800, 650, kept((400, 700), (840, 300))
    )
