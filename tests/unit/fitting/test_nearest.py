"""The nearest sizes that have a place, on the hand-sized liner."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_liner, liner_of, rect

from nesting.fitting.nearest import Hunter, SizeAtlas, find_nearest, make_finder
from nesting.maps.ground import survey
from nesting.maps.positions import has_place
from nesting.values.bed import Bed
from nesting.values.bend import Bend, bend_of
from nesting.values.liner import Ornament
from nesting.values.panels import Panel

JOB = hand_job()
TABLE = bend_of(JOB, "table")
GROUND = survey(JOB.liner, JOB.rules)
NAMES = ("narrower", "wider", "lower", "higher", "smaller", "larger")


def nearest_to(width, height, ground=GROUND, bend=TABLE):
    """Return the nearest sizes [mm] by name."""
    panel = Panel("P", round(width * MM), round(height * MM), 1, bend.bed.name)
    found = find_nearest(ground, panel, bend)
    sizes = {name: getattr(found, name) for name in NAMES}
    return {name: size and tuple(side / MM for side in size) for name, size in sizes.items()}


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        # The east zone lets a right dam begin at 790 to 835; with no right dam the panel is 1200.
        ((850, 650), [(835, 650), (1200, 650), None, None, (835, 650), (1200, 650)]),
        # It lets a left dam end at 815 to 860, for widths of 340 to 385.
        ((600, 650), [(385, 650), (790, 650), None, None, (385, 650), (790, 650)]),
        # The north zone lets a top dam begin at 640 to 665.
        ((800, 670), [(20, 670), None, (800, 665), (800, 800), (800, 665), (800, 800)]),
        ((1300, 650), [(1200, 650), None, None, None, (1200, 650), None]),
    ],
)
def test_the_nearest_sizes_are_those_the_zones_allow(size, expected):
    """Both sides may change where that is less than the greater change of one alone."""
    assert nearest_to(*size) == dict(zip(NAMES, expected, strict=True))


def test_two_small_changes_beat_one_large_one():
    """840 x 667 is 5 mm too wide and 2 mm too high; the nearest smaller size changes both."""
    assert nearest_to(840, 667)["smaller"] == (835, 665)


def test_the_nearer_of_two_sizes_is_that_of_the_smaller_greatest_change():
    """5 mm off both sides go before 7 mm off one, though they are 10 mm together.

    Free ground is a stair: 300 x 300 mm, and 305 mm wide below 298. A dam of 25 mm and a clearance
    of 6 mm lie between panel and ornament.
    """
    posts = [rect(0, 300, 400, 100), rect(305, 0, 95, 400), rect(300, 298, 100, 102)]
    liner = liner_of(rect(0, 0, 400, 400), ornaments=posts)
    for finder in (Hunter, SizeAtlas):
        ground = survey(liner, JOB.rules)
        panel = Panel("P", 274 * MM, 274 * MM, 1, "table")
        found = find_nearest(ground, panel, TABLE, finder=finder(ground))
        assert found.lower == (274 * MM, 267 * MM)
        assert found.smaller == (269 * MM, 269 * MM)


def leaf_ground():
    """Return the hand-sized liner's ground with a triangle for its ornament."""
    leaf = replace(rect(0, 0, 1, 1), shell=((2400000, 80000), (2480000, 160000), (2400000, 240000)))
    return survey(replace(hand_liner(), ornaments=(Ornament("leaf", leaf),)), JOB.rules)


def test_nearest_is_proved_to_the_step_or_between_slopes_to_a_hundredth_of_a_millimetre():
    """A slanted ornament makes the difference."""
    panel = Panel("P", 850 * MM, 650 * MM, 1, "table")
    assert find_nearest(GROUND, panel, TABLE).within == 0
    assert find_nearest(leaf_ground(), panel, TABLE).within == MM // 100


def test_sizes_on_a_curved_bed_are_told_as_ordered_and_fit():
    """The flat limit of 835 mm is 838.6 mm of face on a 3 m drum, less than a micrometre off."""
    drum = Bend(Bed("drum", "convex", 3000 * MM), 13 * MM)
    narrower = nearest_to(850, 650, bend=drum)["narrower"]
    assert narrower == (pytest.approx(835 * 3013 / 3006.5, abs=0.001), 650)
    written = Panel("P", round(narrower[0] * MM), 650 * MM, 1, "drum")
    assert has_place(GROUND, *drum.flat_size(written))


def test_the_whole_length_on_a_drum_is_told_to_the_step():
    """1200 mm from rim to rim are 1202.594... mm of face, which no whole micrometre gives."""
    drum = Bend(Bed("drum", "convex", 3000 * MM), 13 * MM)
    panel = Panel("P", 1190 * MM, 800 * MM, 1, "drum")
    wider = find_nearest(GROUND, panel, drum).wider
    assert wider[0] % 8
    size = replace(panel, width=wider[0])
    assert drum.flat_size(size) == (1200 * MM, 800 * MM)


@pytest.mark.long
def test_an_atlas_gives_the_same_answers():
    """All sizes mapped once, or each hunted for."""
    atlas, hunter = SizeAtlas(GROUND), Hunter(GROUND)
    compared = 0
    for width in range(30, 1260, 190):
        for height in range(30, 860, 150):
            panel = Panel("P", width * MM, height * MM, 1, "table")
            if not has_place(GROUND, panel.width, panel.height):
                alone = find_nearest(GROUND, panel, TABLE, finder=hunter)
                assert find_nearest(GROUND, panel, TABLE, finder=atlas) == alone
                compared += 1
    assert compared > 20


def test_all_sizes_are_mapped_where_many_are_asked_of_few_obstacles():
    """Not on slopes, nor for one size."""
    assert isinstance(make_finder(GROUND, 4), SizeAtlas)
    assert isinstance(make_finder(GROUND), Hunter)
    assert isinstance(make_finder(leaf_ground(), 4), Hunter)


def test_an_atlas_of_slopes_is_refused():
    """Sizes are mapped on stepped ground only."""
    with pytest.raises(ValueError, match="stepped ground"):
        SizeAtlas(leaf_ground())
