"""Boxes of sizes, worked out on paper for the hand-sized job."""

import pytest
from handjob import MM, hand_job, rect

from nesting.maps.ground import survey
from nesting.maps.positions import Wish
from nesting.maps.sizerange import SizeBox, make_stepped, map_sizes
from nesting.shapes.convex import merged
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament

ALL = (0, 1200 * MM), (0, 800 * MM)
TRIANGLE = Polygon(((400 * MM, 200 * MM), (600 * MM, 200 * MM), (500 * MM, 400 * MM)))


def hand_ground():
    """Return the ground of the hand-sized job."""
    job = hand_job()
    return survey(job.liner, job.rules)


def in_mm(boxes):
    """Return (dams, widths, heights) in mm, sorted."""
    return sorted(
        (box.dams, *(tuple(end / MM for end in run) for run in (box.widths, box.heights)))
        for box in boxes
    )


def slanted_ground():
    """Return blank ground, 1000 x 600 mm, with one triangle and one rectangle."""
    ornaments = Ornament("wave", TRIANGLE), Ornament("leaf", rect(100, 100, 50, 50))
    liner = Liner("plain", rect(0, 0, 1000, 600), 13 * MM, "blank", ornaments)
    return survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))


def test_the_hand_job_gives_the_sizes_of_its_picture():
    """East of the dam 340 to 385 wide, west of it 790 to 835; above 110 to 135, below to 665."""
    east, west, slim, whole = (340, 385), (790, 835), (12, 20), (1200, 1200)
    found = in_mm(map_sizes(hand_ground(), *ALL))
    top, below, full = (110, 135), (640, 665), (800, 800)
    assert [box for box in found if box[0] < 3] == sorted(
        [
            (0, whole, full),
            *((1, across, full) for across in (east, west)),
            *((1, whole, up) for up in (top, below)),
            *((2, across, up) for across in (east, west) for up in (top, below)),
            (2, slim, full),
        ]
    )


def test_slim_panels_of_the_hand_job_have_any_height():
    """Between two dams in the east zone a third may lie at any height: 12 to 775, 12 to 20 wide."""
    slim = [box for box in map_sizes(hand_ground(), *ALL) if box.dams == 3]
    assert {box.widths for box in slim} == {(12 * MM, 20 * MM)}
    assert merged(box.heights for box in slim) == [(12 * MM, 775 * MM)]


def test_only_the_window_asked_for_is_mapped():
    """Boxes are cut to the widths and heights asked for."""
    found = map_sizes(hand_ground(), (800 * MM, 820 * MM), (650 * MM, 700 * MM))
    assert in_mm(found) == [(2, (800, 820), (650, 665))]


def test_a_wished_ornament_bars_the_sizes_without_it():
    """With the heron shown only panels west of the east dam, or the whole width, are left."""
    found = map_sizes(hand_ground(), *ALL, Wish(show=frozenset({0})))
    assert {box.widths[0] // MM for box in found} == {790, 1200}
    assert {box.heights[0] // MM for box in found} == {640, 800}


def test_a_hidden_ornament_bars_the_sizes_with_it():
    """With the heron hidden the whole liner is no panel any more."""
    found = map_sizes(hand_ground(), *ALL, Wish(hide=frozenset({0})))
    assert (0, (1200, 1200), (800, 800)) not in in_mm(found)
    assert (1, (340, 385), (800, 800)) in in_mm(found)


def test_a_box_holds_its_own_corners():
    """Runs are closed."""
    box = SizeBox((3, 5), (7, 7), 1)
    assert box.holds(3, 7)
    assert box.holds(5, 7)
    assert not box.holds(6, 7)
    assert not box.holds(4, 8)


def test_slopes_are_refused():
    """Sizes are mapped on stepped ground only."""
    with pytest.raises(ValueError, match="stepped ground"):
        map_sizes(slanted_ground(), *ALL)


@pytest.mark.parametrize("around", [True, False])
@pytest.mark.parametrize("slices", [0, 1, 3])
def test_stairs_are_made_of_rectangles_and_leave_rectangles_alone(slices, around):
    """After stepping nothing slants; the rectangle stays as it was."""
    stepped = make_stepped(slanted_ground(), slices, around=around)
    assert stepped.is_stepped
    assert stepped.ornaments[1].boxes.tolist() == [[100 * MM, 100 * MM, 150 * MM, 150 * MM]]


def test_two_stairs_around_and_inside_a_triangle():
    """A triangle 200 wide and 200 high: around 200 and 100 wide, inside 100 and nothing."""
    around = make_stepped(slanted_ground(), 2, around=True).ornaments[0]
    inside = make_stepped(slanted_ground(), 2, around=False).ornaments[0]
    assert (around.boxes / MM).tolist() == [[400, 200, 600, 300], [450, 300, 550, 400]]
    assert (inside.boxes / MM).tolist() == [[450, 200, 550, 300]]


def test_no_stairs_are_one_box_around_or_nothing_inside():
    """With no slices an ornament is its bounding box, or left out."""
    around = make_stepped(slanted_ground(), 0, around=True).ornaments[0]
    inside = make_stepped(slanted_ground(), 0, around=False).ornaments[0]
    assert (around.boxes / MM).tolist() == [[400, 200, 600, 400]]
    assert len(inside) == 0


def test_one_box_goes_around_all_pieces_of_an_ornament():
    """An ornament that falls into several convex pieces has one box with no slices."""
    arrow = Polygon(tuple((x * MM, y * MM) for x, y in ((0, 0), (90, 40), (0, 80), (30, 40))))
    liner = Liner("plain", polygon_of(Box(0, 0, 200 * MM, 100 * MM)), 13 * MM, "blank")
    liner = Liner(liner.name, liner.outline, 13 * MM, "blank", (Ornament("gull", arrow),))
    ground = survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM))
    assert len(ground.ornaments[0]) > 1
    (box,) = make_stepped(ground, 0, around=True).ornaments[0].boxes.tolist()
    assert box == [0, 0, 90 * MM, 80 * MM]
