"""Dams: the cut list of a cast, as disjoint strips."""

from dataclasses import replace

import pytest
import shapely
from handjob import MM, dam, hand_job, hand_schedule, masked_bay, place, rect
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.planning.dams import account, place_dams
from nesting.planning.strips import strip_rule
from nesting.shapes.geometry import Polygon
from nesting.values.casts import Areas, Dam, totals
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner, Ornament

RULES = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)
PLAIN = Liner("plain", rect(0, 0, 2000, 1000), 13 * MM, "blank")


def strips(*panels, liner=PLAIN):
    """Return the dams around panels as (x, y, width, height) in mm, in order."""
    dams = place_dams(liner, strip_rule(RULES), panels)
    return [tuple(v / MM for v in (d.x, d.y, d.width, d.height)) for d in dams]


def test_the_hand_sized_schedule_has_these_dams():
    """Names, zones and clearances as worked out on paper."""
    job, schedule = hand_job(), hand_schedule()
    for layout in schedule.layouts:
        assert (
            place_dams(job.liner, strip_rule(job.rules, job.dam_widths), layout.panels)
            == layout.dams
        )


def test_no_panels_and_no_dam_sides_need_no_dams():
    """A panel that fills the liner needs none either."""
    assert strips() == []
    assert strips(place("A", 0, 0, 2000, 1000, "")) == []


def test_a_panel_amid_the_liner_has_four_dams():
    """Two run through, two lie between them, so that the corners belong to the long ones."""
    found = strips(place("A", 500, 300, 400, 200, "lrbt"))
    assert found == [
        (475, 275, 450, 25),
        (475, 300, 25, 200),
        (900, 300, 25, 200),
        (475, 500, 450, 25),
    ]


def test_two_panels_one_dam_apart_share_it():
    """Between them lies one dam 25 wide, and the rows run on over both."""
    found = strips(place("A", 500, 300, 400, 200, "lrbt"), place("B", 925, 300, 300, 200, "lrbt"))
    assert found == [
        (475, 275, 775, 25),
        (475, 300, 25, 200),
        (900, 300, 25, 200),
        (1225, 300, 25, 200),
        (475, 500, 775, 25),
    ]


def test_two_panels_30_apart_have_one_dam_of_30_between_them():
    """Where they face each other; no strip is thinner than a dam."""
    found = strips(place("A", 500, 300, 400, 200, "lrbt"), place("B", 930, 300, 300, 200, "lrbt"))
    assert (900, 300, 30, 200) in found
    assert len(found) == 5
    assert min(min(width, height) for *_, width, height in found) == 25


def test_panels_30_apart_that_are_offset_have_one_dam_where_they_face_each_other():
    """The one dam between two panels of unequal height is 30 wide there, and none is thin."""
    found = strips(place("A", 500, 300, 400, 200, "lrbt"), place("B", 930, 350, 300, 300, "lrbt"))
    boxes = [shapely.box(x, y, x + w, y + h) for x, y, w, h in found]
    between = shapely.box(900, 350, 930, 500)
    covering = [box for box in boxes if box.intersection(between).area > 0]
    assert len(covering) == 1
    assert covering[0].covers(between)
    assert min(min(width, height) for *_, width, height in found) >= 25


def test_panels_two_dams_apart_have_dams_that_fill_the_gap():
    """At 51 there are two dams with masked ground between them."""
    apart = strips(place("A", 500, 300, 400, 200, "lrbt"), place("B", 951, 300, 300, 200, "lrbt"))
    assert (900, 300, 25, 200) in apart
    assert (926, 300, 25, 200) in apart
    filled = strips(place("A", 500, 300, 400, 200, "lrbt"), place("B", 950, 300, 300, 200, "lrbt"))
    between = [(x, w) for x, y, w, h in filled if 900 <= x < 950 and h == 200]
    assert sum(w for _, w in between) == 50


def test_dams_are_numbered_upward_and_then_to_the_right():
    """Dam 1 is the lowest, and of those at one height the leftmost."""
    dams = place_dams(PLAIN, strip_rule(RULES), [place("A", 500, 300, 400, 200, "lrbt")])
    assert [each.name for each in dams] == ["dam 1", "dam 2", "dam 3", "dam 4"]
    assert [(each.y, each.x) for each in dams] == sorted((each.y, each.x) for each in dams)


def test_a_dam_names_the_zones_it_lies_in():
    """In the liner's order; touching a zone is not lying in it, and slanted zones count too."""
    wedge = Polygon(((400 * MM, 0), (700 * MM, 0), (400 * MM, 300 * MM)))
    zones = (
        BlankZone("all", rect(0, 0, 2000, 1000)),
        BlankZone("beyond", rect(525, 0, 100, 1000)),
        BlankZone("wedge", wedge),
        BlankZone(
            "far wedge", Polygon(((700 * MM, 0), (700 * MM, 300 * MM), (525 * MM, 300 * MM)))
        ),
    )
    liner = Liner("zoned", rect(0, 0, 2000, 1000), 13 * MM, "detail", zones=zones)
    (found,) = place_dams(liner, strip_rule(RULES), [place("A", 0, 0, 500, 1000, "r")])
    assert found.zones == ("all", "wedge")


def test_clearance_is_to_the_nearest_ornament_square_to_the_dam():
    """0 where one touches; to a slanted one it is the half-side of the square that fits between."""
    posts = [rect(100, 400, 50, 50), rect(600, 990, 5, 5)]
    liner = Liner("posts", rect(0, 0, 2000, 1000), 13 * MM, "blank",
                  tuple(Ornament(f"post {k}", post) for k, post in enumerate(posts)))  # fmt: skip
    (found,) = place_dams(liner, strip_rule(RULES), [place("A", 0, 0, 500, 1000, "r")])
    assert found == dam("dam 1", 500, 0, 25, 1000, "", 75)
    touching = place_dams(liner, strip_rule(RULES), [place("A", 0, 0, 575, 1000, "r")])
    assert touching[0].clearance == 0
    ring = [(0, 1000), (0, 900), (100, 1000)]
    leaf = Ornament("leaf", Polygon(tuple((x * MM, y * MM) for x, y in ring)))
    slanted = Liner("leaf", rect(0, 0, 2000, 1000), 13 * MM, "blank", (leaf,))
    (above,) = place_dams(slanted, strip_rule(RULES), [place("A", 60, 0, 1940, 875, "t")])
    assert above.clearance == 30 * MM


def test_without_ornaments_there_is_no_clearance():
    """None is not 0."""
    (found,) = place_dams(PLAIN, strip_rule(RULES), [place("A", 0, 0, 500, 1000, "r")])
    assert found.clearance is None


SPOTS = st.tuples(
    st.integers(0, 8), st.integers(0, 6), st.integers(3, 9), st.integers(3, 8), st.booleans()
)


def ring_of(panel):
    """Return the panel grown by the dam width on its dam sides."""
    left, right, bottom, top = panel.sides.widths(25 * MM)
    return panel.box.grown(left, bottom, right, top)


@given(st.lists(SPOTS, min_size=1, max_size=5))
@settings(max_examples=60)
def test_dams_fill_the_rings_of_the_panels_once(spots):
    """For panels one dam apart or more, dams are disjoint and cover what any ring covers."""
    panels = []
    for number, (x, y, width, height, _) in enumerate(spots):
        new = place(f"P{number}", 100 * x + 3 * y, 90 * y + 2 * x, 21 * width, 19 * height, "lrbt")
        if not any(new.box.grown(*4 * (25 * MM,)).overlaps(old.box) for old in panels):
            panels.append(new)
    dams = place_dams(PLAIN, strip_rule(RULES), panels)
    covered = shapely.union_all([shapely.box(*each.box) for each in dams])
    rings = shapely.union_all([shapely.box(*ring_of(panel)) for panel in panels])
    wanted = rings.difference(shapely.union_all([shapely.box(*panel.box) for panel in panels]))
    assert sum(each.width * each.height for each in dams) == covered.area == wanted.area
    assert covered.symmetric_difference(wanted).area == 0


MM2 = MM * MM


def test_the_account_of_each_hand_made_cast_is_as_on_paper(job, schedule):
    """960,000 mm2 of liner: 820,000 of panels and 40,000 of dams, then 780,000 and 30,000."""
    for layout in schedule.layouts:
        assert account(job.liner, layout.panels, layout.dams) == layout.areas
    assert schedule.layouts[0].areas.idle == 140_000 * MM2


def test_a_bare_liner_is_masked_whole(job):
    """No panels, no dams: all of it is masked."""
    assert account(job.liner, (), ()) == Areas(960_000 * MM2, 0, 0, 960_000 * MM2)


def test_a_hole_is_no_liner(job):
    """A lifting recess of 100 x 50 mm is not counted."""
    hole = tuple((x * MM, y * MM) for x, y in ((900, 100), (1000, 100), (1000, 150), (900, 150)))
    outline = replace(job.liner.outline, holes=(hole,))
    assert account(replace(job.liner, outline=outline), (), ()).liner == 955_000 * MM2


def test_half_a_square_step_goes_below():
    """A triangle of 2.5 square steps counts 2, and the sum still holds."""
    liner = replace(hand_job().liner, outline=Polygon(((0, 0), (5, 0), (0, 1))))
    assert account(liner, (), ()) == Areas(2, 0, 0, 2)


def test_more_than_the_liner_is_refused(job):
    """Panels and dams that overlap until they exceed the liner are no account."""
    twice = (place("C1", 0, 0, 1200, 650, "t"),) * 2
    with pytest.raises(ValueError, match="cover more than the liner"):
        account(job.liner, twice, ())


@given(st.lists(st.tuples(st.integers(1, 9), st.integers(1, 9)), max_size=8))
def test_nothing_is_lost(sizes):
    """Liner = panels + dams + masked, and idle = liner - panels, whatever lies there."""
    dams = [Dam(f"dam {i}", 0, 0, width, height) for i, (width, height) in enumerate(sizes)]
    areas = account(hand_job().liner, hand_schedule().layouts[0].panels, dams)
    assert areas.liner == areas.panels + areas.dams + areas.masked
    assert areas.idle == areas.liner - areas.panels


def test_totals_count_every_repeat(schedule):
    """Two casts of layout 1 count twice, in panels and in areas."""
    one, two = schedule.layouts
    found = totals(replace(schedule, layouts=(replace(one, repeats=2), two)))
    assert found.casts == 3
    assert found.panels == (("A1", 2), ("B1", 2), ("C1", 1))
    assert found.liner_area == 3 * 960_000 * MM2
    assert found.panel_area == (2 * 820_000 + 780_000) * MM2
    assert found.idle_area == (2 * 140_000 + 180_000) * MM2
    assert found.idle_share == pytest.approx(460 / 2880)


def test_a_masked_bay_is_idle():
    """The cast that masks B1's bay idles its 300,000 mm2."""
    _, schedule = masked_bay()
    assert schedule.layouts[2].areas.idle - schedule.layouts[0].areas.idle == 300_000 * MM2


def test_totals_of_nothing_are_zero(schedule):
    """No cast, no area, no share."""
    found = totals(replace(schedule, layouts=()))
    assert (found.casts, found.panels, found.liner_area, found.idle_share) == (0, (), 0, 0.0)
