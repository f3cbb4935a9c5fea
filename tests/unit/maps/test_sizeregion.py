"""The region of sizes: polygons, lines and points per number of dams, and per bed."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_job, rect

from nesting.maps import sizeregion
from nesting.maps.ground import survey
from nesting.maps.sizerange import SizeBox, make_stepped
from nesting.maps.sizeregion import RegionPart, list_ordered, map_region, part_sizes, scale_region
from nesting.shapes.geometry import Box, polygon_of
from nesting.values.bed import Bed
from nesting.values.bend import Bend, bend_of
from nesting.values.job import Rules
from nesting.values.liner import Liner, Ornament

DRUM = Bed("drum", "convex", radius=987 * MM)
"""Under 13 mm of plain rubber its face is 1000 / 993.5 as long as the liner."""


def hand_region():
    """Return the region of the hand-sized job."""
    job = hand_job()
    return map_region(survey(job.liner, job.rules))


def in_mm(part):
    """Return the bounds of polygons, the lines and the points of a part in mm."""
    return (
        sorted(tuple(end // MM for end in polygon.bounds) for polygon in part.polygons),
        sorted(tuple(end // MM for end in line) for line in part.lines),
        [(width // MM, height // MM) for width, height in part.points],
    )


def test_the_hand_job_as_areas_lines_and_a_point():
    """The whole liner is a point, rim to rim sizes are lines, and the rest are areas."""
    none, one, two, three = map(in_mm, hand_region().certain)
    assert none == ([], [], [(1200, 800)])
    assert one == (
        [],
        [
            (340, 800, 385, 800),
            (790, 800, 835, 800),
            (1200, 110, 1200, 135),
            (1200, 640, 1200, 665),
        ],
        [],
    )
    assert two[0] == [
        (340, 110, 385, 135),
        (340, 640, 385, 665),
        (790, 110, 835, 135),
        (790, 640, 835, 665),
    ]
    assert two[1] == [(12, 800, 20, 800)]
    assert three == ([(12, 12, 20, 775)], [], [])


def test_stepped_ground_gives_an_exact_region():
    """Nothing is left to be tried, and dams are the fewest."""
    region = hand_region()
    assert region.is_exact
    assert region.is_fewest
    assert region.limits == (1200 * MM, 800 * MM)


@pytest.mark.parametrize(("count", "stairs"), [(1, (4, 8)), (16, (0, 0))])
def test_more_slanted_ornaments_get_fewer_stairs(count, stairs, monkeypatch):
    """A lone hexagon gets up to four stairs around it; sixteen get a box each."""
    blunt = ((10, 0), (30, 0), (40, 20), (30, 40), (10, 40), (0, 20))
    ornaments = tuple(
        Ornament(
            f"leaf {k}",
            replace(
                rect(0, 0, 1, 1),
                shell=tuple(((x + 80 * k + 60) * MM, (y + 50) * MM) for x, y in blunt),
            ),
        )
        for k in range(count)
    )
    liner = Liner("plain", rect(0, 0, 1400, 150), 13 * MM, "blank", ornaments)
    tried = []

    def note(ground, slices, *, around):
        tried.append(slices)
        return make_stepped(ground, slices, around=around)

    monkeypatch.setattr(sizeregion, "make_stepped", note)
    region = map_region(survey(liner, Rules(25 * MM, 6 * MM, 12 * MM, MM)))
    assert tuple(tried[-2:]) == stairs
    assert not region.is_exact


def test_what_needs_fewer_dams_is_taken_away():
    """Of a square of sizes the quarter known with fewer dams is left out."""
    part = part_sizes(2, [SizeBox((0, 4), (0, 4), 2)], [SizeBox((2, 4), (2, 4), 1)])
    (polygon,) = part.polygons
    assert polygon.area == 12
    assert not part.is_empty


def test_lines_and_points_inside_areas_add_nothing():
    """A line through an area shows outside it only; a point on a line is not told again."""
    boxes = [SizeBox((0, 4), (0, 4), 2), SizeBox((3, 3), (2, 9), 2), SizeBox((3, 3), (7, 7), 2)]
    part = part_sizes(2, boxes, [])
    assert part.lines == (Box(3, 4, 3, 9),)
    assert part.points == ()


def test_a_point_known_with_fewer_dams_is_not_told_again():
    """The same single size stands under its fewest dams only."""
    point = SizeBox((7, 7), (9, 9), 3)
    assert part_sizes(3, [point], []).points == ((7, 9),)
    assert part_sizes(3, [point], [point]).is_empty


def test_a_line_with_fewer_dams_inside_an_area_with_more_is_kept():
    """An area that needs three dams does not swallow a line that needs one."""
    assert part_sizes(1, [SizeBox((3, 3), (2, 9), 1)], []).lines == (Box(3, 2, 3, 9),)


def test_a_flat_bed_leaves_the_region_as_it_is():
    """Face sizes are flat sizes."""
    region = hand_region()
    assert scale_region(region, Bend(Bed("table"), 13 * MM)) is region


def test_a_drum_scales_widths_alone():
    """993.5 mm of liner give 1000 mm of face; heights stay."""
    region = scale_region(hand_region(), Bend(DRUM, 13 * MM))
    assert region.limits == (round(1200 * MM * 1000 / 993.5), 800 * MM)
    slim = region.certain[3].polygons[0].bounds
    assert slim == (round(12 * MM * 1000 / 993.5), 12 * MM, round(20 * MM * 1000 / 993.5), 775 * MM)
    assert region.ledges[0].at == slim.x0


def test_a_drum_across_scales_heights_alone():
    """With the curve along y it is the other axis."""
    region = scale_region(hand_region(), Bend(replace(DRUM, curved_axis="y"), 13 * MM))
    assert region.limits == (1200 * MM, round(800 * MM * 1000 / 993.5))


def test_a_panel_that_shrinks_is_ordered_smaller_than_its_liner():
    """At one part in a thousand 1200 x 800 of liner give 1198.8 x 799.2 of panel."""
    region = scale_region(hand_region(), Bend(Bed("table"), 13 * MM, Fraction(1, 1000)))
    assert region.certain[0].points == ((round(1198.8 * MM), round(799.2 * MM)),)


def test_nothing_goes_more_than_once_round_a_bed():
    """A drum with a face of 100 mm radius is 628 mm around: nothing is 790 or 1200 wide."""
    region = scale_region(hand_region(), Bend(replace(DRUM, radius=87 * MM), 13 * MM))
    (one, two, three) = region.certain[1:]
    assert in_mm(region.certain[0]) == ([], [], [])
    assert {line.y0 // MM for line in one.lines} == {800}
    assert max(polygon.bounds.x1 for polygon in two.polygons) < 628.4 * MM
    assert three.polygons
    assert max(ledge.at for ledge in region.ledges if ledge.axis == "width") < 628.4 * MM


def test_sizes_of_the_order_are_marked_by_what_they_may():
    """All panels of the hand-sized job have a place; one 700 high has none."""
    job = hand_job()
    bend = bend_of(job, "table")
    assert [size.has_place for size in list_ordered(job, bend)] == [True, True, True]
    changed = change_panel(job, "C1", height=700 * MM)
    assert [size.has_place for size in list_ordered(changed, bend)] == [True, True, False]
    assert list_ordered(job, Bend(Bed("no such bed"), 13 * MM)) == ()


def test_an_ordered_chord_stands_at_its_arc():
    """A chord of 1000 mm on a face of 1000 mm radius spans 60 degrees: an arc of 1047.198 mm."""
    job = change_panel(
        replace(hand_job(), beds=(DRUM,)), "A1", bed="drum", measured_on="chord", width=1000 * MM
    )
    (size,) = list_ordered(job, bend_of(job, DRUM.name))
    assert size.width / MM == pytest.approx(1047.1975512, abs=0.0002)
    assert not size.has_place


def test_an_empty_part_is_empty():
    """Neither area, nor line, nor point."""
    assert RegionPart(1, (), (), ()).is_empty
    assert not RegionPart(1, (polygon_of(Box(0, 0, 1, 1)),), (), ()).is_empty
