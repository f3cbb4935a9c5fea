"""Where panels come to rest: far from ornament, on the set-out division, never off their maps."""

import random
from dataclasses import replace

import pytest
from handjob import MM, hand_job, hand_schedule, liner_of, rect, sides
from smalljobs import CELL, small_job

from nesting.maps.ground import survey
from nesting.maps.positions import Wish, map_positions
from nesting.maps.sizes import SizedPanel, choose_size
from nesting.planning.dams import place_dams
from nesting.planning.settle import realise, settle
from nesting.planning.slopes import seat_at
from nesting.planning.strips import StripRule, strip_rule
from nesting.search.conflicts import find_points
from nesting.search.instance import Instance, Item
from nesting.search.pricing import Pricer
from nesting.shapes.geometry import Polygon
from nesting.values.bend import bend_of
from nesting.values.job import Rules
from nesting.values.panels import Panel

INCH_16TH = 12_700
RULES = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)


def ring(*points):
    """Return a polygon of points in mm."""
    return Polygon(tuple((round(x * MM), round(y * MM)) for x, y in points))


def seats_on(ground, *spots, wish=None):
    """Return seats for panels (x, y, width, height) in mm, each on its map."""
    seats = []
    for number, spot in enumerate(spots):
        x, y, width, height = (round(value * MM) for value in spot)
        panel_map = map_positions(ground, width, height, wish or Wish())
        sheet = panel_map.sheet_at(x, y)
        assert sheet is not None, spot
        panel = Panel(f"P{number}", width, height, 1, "table")
        size = SizedPanel(panel, panel_map, wish or Wish(), (x, y))
        seats.append(seat_at(size, x, y, sheet.sides))
    return seats


def settled(liner, *spots, rules=RULES, wish=None):
    """Return where panels given in mm come to rest, as (x, y) in mm."""
    ground = survey(liner, rules)
    found = settle(ground, seats_on(ground, *spots, wish=wish), strip_rule(ground.rules))
    return [(spot.x / MM, spot.y / MM) for spot in found]


def test_nothing_settles_to_nothing():
    """No panels, no places."""
    assert settle(survey(liner_of(rect(0, 0, 400, 300)), RULES), [], strip_rule(RULES)) == ()


def test_panels_that_cannot_move_stay():
    """The hand-sized job gives each panel one place."""
    job, schedule = hand_job(), hand_schedule()
    ground = survey(job.liner, job.rules)
    for layout in schedule.layouts:
        seats = []
        for spot in layout.panels:
            size = choose_size(ground, job.panel(spot.mark), bend_of(job, "table"))
            seats.append(seat_at(size, spot.x, spot.y, spot.sides))
        found = settle(ground, seats, strip_rule(ground.rules))
        assert [
            replace(f, shows=s.shows) for f, s in zip(found, layout.panels, strict=True)
        ] == list(layout.panels)


def test_a_panel_between_two_posts_stops_midway():
    """Posts end at 60 and begin at 300: a panel of 100 with its dams leaves 45 on either side."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(50, 0, 10, 300), rect(300, 0, 10, 300)])
    assert settled(liner, (91, 0, 100, 300)) == [(130, 0)]
    assert settled(liner, (169, 0, 100, 300)) == [(130, 0)]


def test_the_next_least_clearance_counts_when_the_least_is_as_large_as_can_be():
    """One panel is shut in with 8 on either side; its neighbour still goes midway."""
    posts = [rect(x, 0, 10, 300) for x in (0, 176, 500)]
    liner = liner_of(rect(0, 0, 900, 300), ornaments=posts)
    found = settled(liner, (41, 0, 100, 300), (220, 0, 100, 300))
    assert found == [(43, 0), (293, 0)]


def test_positions_are_rounded_to_the_division():
    """Midway is at 130.5, so a panel is marked at 130 or 131 and half a mm is given up."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(50, 0, 10, 300), rect(301, 0, 10, 300)])
    ((x, y),) = settled(liner, (91, 0, 100, 300))
    assert (x in (130, 131), y) == (True, 0)


def test_a_side_on_the_rim_stays_off_the_division_where_the_size_is():
    """A panel against the far rim lies where its size says; the other axis is still marked."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(10, 10, 20, 20)])
    ((x, y),) = settled(liner, (299.5, 100.25, 100.5, 50))
    assert x == 299.5
    assert y % 1 == 0


@pytest.mark.parametrize(
    ("low", "high", "x"),
    [(100.4, 101.2, 101), (100.3, 100.7, 100.5), (100, 100.6, 100), (100.4, 101, 101)],
)
def test_a_division_is_used_wherever_there_is_one_in_the_room(low, high, x):
    """Be it at the very end of the room; without one the panel stays midway."""
    posts = [rect(0, 0, low - 31, 300), rect(high + 131, 0, 50, 300)]
    liner = liner_of(rect(0, 0, 400, 300), ornaments=posts)
    assert settled(liner, (low, 0, 100, 300)) == [(x, 0)]
    assert settled(liner, (high, 0, 100, 300)) == [(x, 0)]


def test_inch_jobs_are_marked_in_sixteenths():
    """Every free coordinate is a whole number of 1/16 in, which is 12 700 steps."""
    rules = replace(RULES, set_out=INCH_16TH)
    liner = liner_of(rect(0, 0, 900, 600), ornaments=[rect(50, 40, 83, 71), rect(500, 300, 57, 91)])
    ground = survey(liner, rules)
    seats = seats_on(ground, (200.3, 26.7, 150, 100), (610.125, 200.5, 99.9, 130))
    found = settle(ground, seats, strip_rule(ground.rules))
    assert all(spot.x % INCH_16TH == spot.y % INCH_16TH == 0 for spot in found)


def test_coordinates_left_of_the_datum_are_marked_too():
    """Divisions are counted from the datum, both ways."""
    liner = liner_of(rect(-600.5, -400.5, 500, 300), ornaments=[rect(-590, -390, 20, 20)])
    ((x, y),) = settled(liner, (-400.3, -300.3, 100, 50))
    assert (x % 1, y % 1) == (0, 0)
    assert x < 0
    assert y < 0


def test_a_shared_dam_stays_shared():
    """Two panels one dam apart that face each other move together."""
    liner = liner_of(rect(0, 0, 900, 300), ornaments=[rect(20, 0, 10, 300), rect(801, 0, 10, 300)])
    (a, _), (b, _) = settled(liner, (61, 0, 100, 300), (186, 0, 200, 300))
    assert b - a == 125
    assert (a - 25) - 30 == 801 - (b + 225)


def test_a_shared_dam_is_not_given_up_for_clearance():
    """Each of two panels shows a post; apart, both could keep their dams further from it."""
    posts = [rect(115, 0, 10, 300), rect(500, 0, 10, 300)]
    liner = liner_of(rect(0, 0, 900, 300), ornaments=posts)
    assert settled(liner, (103, 0, 200, 300), (328, 0, 200, 300)) == [(100, 0), (325, 0)]
    assert settled(liner, (103, 0, 200, 300), (338, 0, 200, 300)) == [(25, 0), (405, 0)]


def test_panels_corner_to_corner_keep_the_dam_between_them():
    """One dam apart along x and one above the other, they stay so: the dam keeps its width."""
    liner = liner_of(rect(0, 0, 900, 300), ornaments=[rect(300, 0, 10, 50)])
    (a, _), (b, above) = settled(liner, (130, 25, 100, 80), (255, 110, 200, 100))
    assert b - a == 125
    assert above == 175


def test_a_dam_of_another_listed_width_keeps_it():
    """Though set-out and clearance would have the panels apart; two dams apart they may part."""
    liner = liner_of(rect(0, 0, 900, 300), ornaments=[rect(430, 280, 10, 20)])
    ground = survey(liner, RULES)
    rule = StripRule(25 * MM, (25 * MM, 266_400))
    for gap, most in ((33.3, 33.3), (25, 25), (50, 900)):
        seats = seats_on(ground, (103, 0, 200, 300), (303 + gap, 0, 200, 200))
        first, second = settle(ground, seats, rule)
        found = second.x - first.x - first.width
        assert round(gap * MM) <= found <= round(most * MM)


def test_a_panel_keeps_to_its_rim_and_its_wish():
    """A side on the rim stays there; what is shown stays inside by the margin."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(60, 0, 20, 300)])
    assert settled(liner, (0, 0, 92, 300)) == [(0, 0)]
    shown = settled(liner, (30, 0, 100, 300), wish=Wish(show=frozenset([0])))
    assert shown == [(25, 0)]
    amid = liner_of(rect(0, 0, 400, 300), ornaments=[rect(90, 0, 20, 300)])
    assert settled(amid, (30, 0, 100, 300), wish=Wish(show=frozenset([0]))) == [(50, 0)]


def test_hidden_ornament_stays_outside():
    """Though only the liner's rim lies between it and the panel."""
    outline = rect(0, 0, 400, 300)
    liner = liner_of(outline, ornaments=[rect(0, 0, 30, 300)])
    ((x, _),) = settled(liner, (61, 0, 100, 300), wish=Wish(hide=frozenset([0])))
    assert x >= 61
    assert x == 275


# Slopes


LEAVES = [
    ring((60, 250), (120, 240), (150, 300), (90, 330)),
    ring((330, 40), (390, 55), (350, 110)),
    ring((480, 260), (560, 300), (500, 380)),
]


def least_clearance(liner, placements):
    """Return the least clearance of the dams of a cast [steps]."""
    return min(dam.clearance for dam in place_dams(liner, strip_rule(RULES), placements))


def test_beside_leaves_a_panel_gains_clearance():
    """It ends on its map, with its sides, on the division, no nearer to any leaf than before."""
    liner = liner_of(rect(0, 0, 600, 400), ornaments=LEAVES)
    ground = survey(liner, RULES)
    pick = random.Random(3)
    for _ in range(12):
        width, height = pick.randint(80, 150), pick.randint(60, 120)
        panel_map = map_positions(ground, width * MM, height * MM)
        spots = [(pick.randint(25, 570 - width), pick.randint(25, 370 - height)) for _ in range(80)]
        x, y = next(s for s in spots if panel_map.sheet_at(s[0] * MM, s[1] * MM))
        (seat,) = seats_on(ground, (x, y, width, height))
        (spot,) = settle(ground, [seat], strip_rule(ground.rules))
        sheet = panel_map.sheet_at(spot.x, spot.y)
        assert sheet is not None
        assert sheet.sides == seat.placement.sides == spot.sides
        assert (spot.x % MM, spot.y % MM) == (0, 0)
        before, after = (least_clearance(liner, [p]) for p in (seat.placement, spot))
        assert after >= before


def test_a_panel_that_cuts_a_leaf_a_little_is_moved_off_it():
    """The wide layers put panels where they cut a slope; realising takes them off, or says no."""
    liner = liner_of(rect(0, 0, 600, 400), ornaments=LEAVES)
    ground = survey(liner, RULES)
    panel_map = map_positions(ground, 100 * MM, 80 * MM)
    size = SizedPanel(Panel("P", 100 * MM, 80 * MM, 1, "table"), panel_map, Wish(), (0, 0))
    low, high = panel_map.sheets[0].runs_at_y(260 * MM)[0]
    cut = (low - 2 * MM, 260 * MM) if low > 25 * MM else (high + 2 * MM, 260 * MM)
    assert panel_map.sheet_at(*cut) is None
    found = realise(ground, [seat_at(size, *cut, sides("lrbt"))], strip_rule(ground.rules))
    assert found is not None
    assert panel_map.sheet_at(found[0].x, found[0].y) is not None


def test_two_panels_are_moved_off_leaves_at_once():
    """Each cuts a slope by 2 mm or less, and both come to lie on their maps, apart."""
    ground = survey(liner_of(rect(0, 0, 600, 400), ornaments=LEAVES), RULES)
    panel_map = map_positions(ground, 100 * MM, 80 * MM)
    size = SizedPanel(Panel("P", 100 * MM, 80 * MM, 1, "table"), panel_map, Wish(), (0, 0))
    ends = [
        (x, y * MM, by)
        for y in range(30, 290, 20)
        for run in panel_map.sheets[0].runs_at_y(y * MM)
        for x, by in zip(run, (-1, 1), strict=True)
        if 30 * MM < x < 470 * MM
    ]
    cuts = [(x + by * 2 * MM, y) for x, y, by in ends]
    pairs = [(a, b) for a in cuts for b in cuts if b[0] - a[0] > 140 * MM]
    assert len(pairs) > 20
    for pair in pairs:
        assert all(panel_map.sheet_at(*spot) is None for spot in pair)
        found = realise(
            ground, [seat_at(size, *spot, sides("lrbt")) for spot in pair], strip_rule(ground.rules)
        )
        assert all(panel_map.sheet_at(spot.x, spot.y) for spot in found)
        across, up = abs(found[0].x - found[1].x), abs(found[0].y - found[1].y)
        assert across >= 125 * MM or up >= 105 * MM


def test_what_cannot_be_made_real_is_refused():
    """A panel that lies on a leaf whose slopes leave it no room has no place near by."""
    bowl = ring((0, 0), (300, 250), (600, 0), (600, 400), (0, 400))
    liner = liner_of(rect(0, 0, 600, 400), ornaments=[bowl])
    ground = survey(liner, RULES)
    panel_map = map_positions(ground, 500 * MM, 300 * MM)
    size = SizedPanel(Panel("P", 500 * MM, 300 * MM, 1, "table"), panel_map, Wish(), (0, 0))
    assert panel_map.sheet_at(50 * MM, 50 * MM) is None
    assert (
        realise(ground, [seat_at(size, 50 * MM, 50 * MM, sides("lrbt"))], strip_rule(ground.rules))
        is None
    )


# Whole casts


def packed(job, seed):
    """Return the seats of a cast filled up with whatever fits, in an order by chance."""
    pick = random.Random(seed)
    ground = survey(job.liner, job.rules)
    sizes = [choose_size(ground, panel, bend_of(job, "table")) for panel in job.panels]
    box = ground.frame
    cells = [(x, y) for x in range(0, box.x1, CELL) for y in range(0, box.y1, CELL)]
    spots = [tuple(spot for spot in cells if size.map.sheet_at(*spot)) for size in sizes]
    items = tuple(
        Item(size.map.width + CELL, size.map.height + CELL, 9, places)
        for size, places in zip(sizes, spots, strict=True)
    )
    instance = Instance(items, strip_rule(ground.rules).gaps)
    first = pick.randrange(len(instance.owner))
    layout = Pricer(instance, find_points(instance)).fill((first,), (2, 2, 2, 2))
    seats = []
    for bay in layout:
        size = sizes[instance.owner[bay]]
        x, y = (int(v) for v in instance.boxes[bay, :2])
        seats.append(seat_at(size, x, y, size.map.sheet_at(x, y).sides))
    return ground, seats


@pytest.mark.parametrize("kind", ["bands", "islands", "wishes", "corner", "hole"])
@pytest.mark.parametrize("seed", range(3))
def test_a_whole_cast_settles_within_the_rules(kind, seed):
    """On the maps, with the sides it had, one dam apart, no clearance lost, marked to 1 mm."""
    job = small_job(kind, 30 + seed)
    ground, seats = packed(job, seed)
    rule = strip_rule(ground.rules)
    found = settle(ground, seats, rule)
    dam = job.rules.dam_width
    for number, (seat, spot) in enumerate(zip(seats, found, strict=True)):
        sheet = seat.map.sheet_at(spot.x, spot.y)
        assert sheet is not None
        assert sheet.sides == spot.sides == seat.placement.sides
        assert (spot.x % MM, spot.y % MM) == (0, 0)
        grown = spot.box.grown(dam, dam, dam, dam)
        assert not any(grown.overlaps(other.box) for other in found[:number])
    before, after = (
        [
            d.clearance
            for d in place_dams(job.liner, strip_rule(job.rules), spots)
            if d.clearance is not None
        ]
        for spots in ([seat.placement for seat in seats], found)
    )
    if before:
        assert min(after) >= min(before)


@pytest.mark.parametrize("kind", ["bands", "islands", "hole"])
def test_a_coarse_division_is_kept_wherever_there_is_room(kind):
    """With a division of 7 mm, a coordinate off it has no such line free while the rest stays."""
    job = small_job(kind, 77)
    job = replace(job, rules=replace(job.rules, set_out=7 * MM))
    ground, seats = packed(job, 5)
    found = list(settle(ground, seats, strip_rule(ground.rules)))
    dam = job.rules.dam_width
    marked = 0
    for number, spot in enumerate(found):
        others = [other for other in found if other is not spot]
        for axis, at in (("x", spot.x), ("y", spot.y)):
            marked += at % (7 * MM) == 0
            if at % (7 * MM) == 0 or seats[number].sheet.sides != spot.sides:
                continue
            for shift in range(-6, 7):
                line = (at // (7 * MM) + shift) * 7 * MM
                moved = replace(spot, **{axis: line})
                sheet = seats[number].map.sheet_at(moved.x, moved.y)
                grown = moved.box.grown(dam, dam, dam, dam)
                is_free = sheet is not None and sheet.sides == spot.sides
                between = abs(line - at) < CELL
                is_free &= not any(grown.overlaps(other.box) for other in others)
                assert not (is_free and between), (axis, spot, moved)
    assert marked
