"""The nearest sizes that have a place, on the hand-sized liner."""

from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_liner, rect

from nesting.bed import Bed
from nesting.beds import flat_size
from nesting.ground import survey
from nesting.liner import Ornament
from nesting.nearest import SizeAtlas, find_nearest
from nesting.panels import Panel
from nesting.positions import has_place

JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)
NAMES = ("narrower", "wider", "lower", "higher", "smaller", "larger")


def nearest_to(width, height, ground=GROUND, bed=JOB.beds[0]):
    """Return the nearest sizes [mm] by name."""
    panel = Panel("P", round(width * MM), round(height * MM), 1, bed.name)
    found = find_nearest(ground, panel, bed)
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


def test_nearest_among_axis_parallel_obstacles_is_proved_and_on_slopes_is_not():
    """A slanted ornament takes the claim away."""
    panel = Panel("P", 850 * MM, 650 * MM, 1, "table")
    assert find_nearest(GROUND, panel, JOB.beds[0]).proved
    leaf = replace(rect(0, 0, 1, 1), shell=((2400000, 80000), (2480000, 160000), (2400000, 240000)))
    liner = replace(hand_liner(), ornaments=(Ornament("leaf", leaf),))
    assert not find_nearest(survey(liner, JOB.rules), panel, JOB.beds[0]).proved


def test_sizes_on_a_curved_bed_are_told_as_ordered_and_fit():
    """The flat limit of 835 mm is 838.6 mm of face on a 3 m drum, less than a micrometre off."""
    drum = Bed("drum", "convex", 3000 * MM)
    narrower = nearest_to(850, 650, bed=drum)["narrower"]
    assert narrower == (pytest.approx(835 * 3013 / 3006.5, abs=0.001), 650)
    written = Panel("P", round(narrower[0] * MM), 650 * MM, 1, "drum")
    assert has_place(GROUND, *flat_size(written, drum, JOB.liner.thickness))


def test_an_atlas_gives_the_same_answers():
    """All sizes mapped once, or the window around each."""
    atlas = SizeAtlas(GROUND)
    for width in range(30, 1260, 110):
        for height in range(30, 860, 130):
            panel = Panel("P", width * MM, height * MM, 1, "table")
            alone = find_nearest(GROUND, panel, JOB.beds[0])
            assert find_nearest(GROUND, panel, JOB.beds[0], atlas=atlas) == alone


def test_an_atlas_of_slopes_is_refused():
    """Sizes are mapped on stepped ground only."""
    leaf = replace(rect(0, 0, 1, 1), shell=((2400000, 80000), (2480000, 160000), (2400000, 240000)))
    liner = replace(hand_liner(), ornaments=(Ornament("leaf", leaf),))
    with pytest.raises(ValueError, match="stepped ground"):
        SizeAtlas(survey(liner, JOB.rules))
