"""Position maps: where a panel may lie, worked out on paper."""

from itertools import product

import pytest
from handjob import MM, hand_liner, liner_of, rect, sides

from nesting.maps.ground import survey
from nesting.maps.positions import Sheet, Wish, map_positions
from nesting.shapes.convex import pieces_of_boxes
from nesting.shapes.geometry import Box, Polygon
from nesting.values.job import Rules

RULES = Rules(dam_width=25 * MM, dam_clearance=6 * MM, edge_margin=12 * MM, set_out=MM)
ALL_SIDES = [
    "".join(letter for letter, is_dam in zip("lrbt", dams, strict=True) if is_dam)
    for dams in product((False, True), repeat=4)
]


def map_of(liner, width, height, wish=None):
    """Return the map of a panel given in mm."""
    args = (survey(liner, RULES), round(width * MM), round(height * MM))
    return map_positions(*args, wish) if wish else map_positions(*args)


def at(panel_map, x, y):
    """Return the first letters of the dam sides at a place in mm, or None where there is none."""
    sheet = panel_map.sheet_at(round(x * MM), round(y * MM))
    if sheet is None:
        return None
    return "".join(c for c, side in zip("lrbt", sheet.sides, strict=True) if side == "dam")


def domains(panel_map):
    """Return the domain of each sheet [mm] by its dam sides."""
    return {
        "".join(c for c, side in zip("lrbt", sheet.sides, strict=True) if side == "dam"): tuple(
            value / MM for value in sheet.domain
        )
        for sheet in panel_map.sheets
    }


def mm(boxes):
    """Return boxes of steps as tuples of mm."""
    return {tuple(value / MM for value in box) for box in boxes}


# The sixteen combinations


@pytest.mark.parametrize("dams", ALL_SIDES, ids=lambda dams: dams or "none")
def test_every_combination_of_dams_and_rims_has_its_places(dams):
    """On plain ground 400 x 300 each side without a dam lies on the rim, to the step.

    A panel between two rims is as long as the liner; with one dam it lies on the other rim; with
    two it keeps a dam's width from both.
    """
    width = 400 if not {"l", "r"} & set(dams) else 200
    height = 300 if not {"b", "t"} & set(dams) else 100
    panel_map = map_of(liner_of(rect(0, 0, 400, 300)), width, height)
    x = {"": (0, 0), "r": (0, 0), "l": (200, 200), "lr": (25, 175)}[dams.strip("bt")]
    y = {"": (0, 0), "t": (0, 0), "b": (200, 200), "bt": (25, 175)}[dams.strip("lr")]
    assert domains(panel_map)[dams] == (x[0], y[0], x[1], y[1])
    for spot in product(x, y):
        assert at(panel_map, *spot) == dams
    step = 1 / MM
    for beyond in ((x[0] - step, y[0]), (x[1] + step, y[0]), (x[0], y[0] - step)):
        assert at(panel_map, *beyond) is None


def test_a_panel_smaller_than_the_liner_has_nine_combinations():
    """None with rims on opposite sides."""
    found = domains(map_of(liner_of(rect(0, 0, 400, 300)), 200, 100))
    assert set(found) == {d for d in ALL_SIDES if set(d) & set("lr") and set(d) & set("bt")}


def test_a_panel_that_fills_the_liner_has_one_place_and_no_dam():
    """All four sides lie on the rim; a step less and nothing fits, as a dam finds no ground."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(0, 0, 400, 300)])
    assert domains(map_of(liner, 400, 300)) == {"": (0, 0, 0, 0)}
    assert map_of(liner, 400, 300).first_place() == (0, 0)
    assert map_of(liner, 400 - 1 / MM, 300).sheets == ()


@pytest.mark.parametrize("size", [(401, 100), (100, 301), (400 + 1 / MM, 300)])
def test_a_panel_larger_than_the_liner_has_no_sheet(size):
    """A step too long is too long."""
    panel_map = map_of(liner_of(rect(0, 0, 400, 300)), *size)
    assert panel_map.sheets == ()
    assert panel_map.first_place() is None


def test_a_panel_within_a_dam_of_the_liners_length_has_one_row_of_places():
    """375 of 400 leaves one dam: on either rim; 376 leaves too little for any."""
    liner = liner_of(rect(0, 0, 400, 300))
    assert set(domains(map_of(liner, 375, 300))) == {"l", "r"}
    assert map_of(liner, 376, 300).sheets == ()
    assert "lr" in domains(map_of(liner, 350, 300))
    assert domains(map_of(liner, 350, 300))["lr"] == (25, 0, 25, 0)


# Zones


def test_a_slot_exactly_one_ring_wide_is_a_point():
    """A panel 100 x 80 in a window of a blank frame 25 wide has one place, and none if moved."""
    frame = Polygon(rect(100, 100, 150, 130).shell, (rect(125, 125, 100, 80).shell,))
    panel_map = map_of(liner_of(rect(0, 0, 400, 300), zones=[frame], unmarked="detail"), 100, 80)
    assert at(panel_map, 125, 125) == "lrbt"
    assert [runs for sheet in panel_map.sheets for runs in sheet.runs_at_y(125 * MM)] == [
        (125 * MM, 125 * MM)
    ]
    step = 1 / MM
    for dx, dy in ((step, 0), (-step, 0), (0, step), (0, -step)):
        assert at(panel_map, 125 + dx, 125 + dy) is None
    assert panel_map.first_place() == (125 * MM, 125 * MM)


@pytest.mark.parametrize(("width", "height"), [(100 + 1 / MM, 80), (100, 80 - 1 / MM)])
def test_a_panel_a_step_off_the_slot_has_no_place(width, height):
    """Larger or smaller, one of its dams leaves the frame."""
    frame = Polygon(rect(100, 100, 150, 130).shell, (rect(125, 125, 100, 80).shell,))
    liner = liner_of(rect(0, 0, 400, 300), zones=[frame], unmarked="detail")
    assert map_of(liner, width, height).first_place() is None


def test_a_band_exactly_one_dam_wide_leaves_a_line():
    """A dam lies in the band at one y only, anywhere along it."""
    band = rect(0, 200, 400, 25)
    liner = liner_of(rect(0, 0, 400, 300), zones=[band], unmarked="detail")
    above = map_of(liner, 400, 75)
    assert [(y, at(above, 0, y)) for y in range(226) if at(above, 0, y)] == [(225, "b")]
    assert at(map_of(liner, 400, 200), 0, 0) == "t"
    narrower = liner_of(rect(0, 0, 400, 300), zones=[rect(0, 200, 400, 24.999)], unmarked="detail")
    assert map_of(narrower, 400, 200).first_place() is None


def test_zones_side_by_side_are_one_ground():
    """A dam may lie across the seam of two zones."""
    zones = [rect(0, 200, 150, 30), rect(150, 200, 250, 30)]
    liner = liner_of(rect(0, 0, 400, 300), zones=zones, unmarked="detail")
    assert at(map_of(liner, 400, 202), 0, 0) == "t"


def test_an_ornament_that_slips_over_a_zone_still_rules():
    """Blank or not, a dam keeps its clearance of 6 from it, and the panel its margin of 12."""
    slip = rect(50, 100, 60, 101)
    zone = rect(0, 190, 400, 60)
    liner = liner_of(rect(0, 0, 400, 300), zones=[zone], ornaments=[slip], unmarked="detail")
    found = [height for height in range(190, 226) if at(map_of(liner, 400, height), 0, 0)]
    assert found == list(range(213, 226))
    above = [height for height in range(40, 100) if at(map_of(liner, 400, height), 0, 300 - height)]
    assert above == list(range(50, 69))


def test_the_hand_sized_job_has_one_place_each():
    """As its picture says: A1 and C1 at the datum, B1 against the far rim."""
    heron = frozenset([0])
    liner = hand_liner()
    a1 = map_of(liner, 800, 650, Wish(show=heron))
    assert (at(a1, 0, 0), a1.first_place()) == ("rt", (0, 0))
    b1 = map_of(liner, 375, 800, Wish(hide=heron))
    assert (at(b1, 825, 0), b1.first_place()) == ("l", (825 * MM, 0))
    c1 = map_of(liner, 1200, 650)
    assert (at(c1, 0, 0), c1.first_place()) == ("t", (0, 0))


# Ornaments and wishes


def test_an_ornament_is_inside_by_the_margin_or_outside_by_dam_and_clearance():
    """A post 10 wide at x = 200: a panel 100 wide keeps 31 beyond it, or 12 within."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(200, 150, 10, 10)])
    panel_map = map_of(liner, 100, 300)
    free = [x for x in range(301) if at(panel_map, x, 0) == "lr"]
    beside, within = [*range(25, 70)], [*range(122, 189)]
    assert free == beside + within + [*range(241, 276)]


def test_along_a_rim_nothing_is_checked():
    """On an edge side the liner's own rim rules: an ornament may touch it and be cut by nothing."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(0, 0, 10, 300)])
    panel_map = map_of(liner, 100, 300)
    assert at(panel_map, 0, 0) == "r"
    assert at(panel_map, 25, 0) is None
    assert at(panel_map, 41, 0) == "lr"


def test_a_margin_wider_than_the_panel_leaves_no_room_for_ornament():
    """The margins of a narrow panel meet."""
    liner = liner_of(rect(0, 0, 400, 300), ornaments=[rect(200, 150, 1, 1)])
    panel_map = map_of(liner, 24, 300)
    assert [x for x in range(140, 240) if at(panel_map, x, 0)] == [
        *range(140, 146),
        *range(232, 240),
    ]


@pytest.mark.parametrize(
    ("wish", "free"),
    [
        (Wish(), [0, *range(25, 40), *range(122, 159), *range(241, 276), 300]),
        (Wish(show=frozenset([0])), [*range(122, 159)]),
        (Wish(hide=frozenset([0])), [0, *range(25, 40), *range(241, 276), 300]),
        (Wish(show=frozenset([1])), []),
        (Wish(show=frozenset([0]), hide=frozenset([0])), []),
    ],
)
def test_wishes_take_places_away(wish, free):
    """Shown is whole inside, hidden is whole outside; both at once for one ornament is nowhere."""
    posts = [rect(170, 150, 40, 10), rect(230, 10, 10, 10)]
    liner = liner_of(rect(0, 0, 400, 200), ornaments=posts)
    panel_map = map_of(liner, 100, 100, wish)
    assert [x for x in range(301) if at(panel_map, x, 75)] == free


def test_one_ornament_can_be_shown_and_its_neighbour_hidden():
    """The panel lies so that its dam runs between them."""
    posts = [rect(100, 100, 20, 20), rect(180, 100, 20, 20)]
    liner = liner_of(rect(0, 0, 400, 300), ornaments=posts)
    wish = Wish(show=frozenset([0]), hide=frozenset([1]))
    panel_map = map_of(liner, 60, 300, wish)
    assert [x for x in range(341) if at(panel_map, x, 0)] == [*range(72, 89)]


# Liners that are no rectangle at the datum


CORNERS = [(0, 0), (400, 0), (400, 100), (150, 100), (150, 300), (0, 300)]
ELL = Polygon(tuple((x * MM, y * MM) for x, y in CORNERS))


def test_a_notched_liner_has_rims_where_it_steps():
    """In the arm 150 wide a panel as wide lies between two rims; across the step it needs a dam."""
    panel_map = map_of(liner_of(ELL), 150, 120)
    assert at(panel_map, 0, 180) == "b"
    assert at(panel_map, 0, 100) == "bt"
    assert at(panel_map, 0, 99) is None
    flat = map_of(liner_of(ELL), 250, 100)
    assert at(flat, 150, 0) == "l"
    assert at(flat, 151, 0) is None
    assert at(flat, 100, 0) is None
    assert at(map_of(liner_of(ELL), 400, 100), 0, 0) is None
    assert at(map_of(liner_of(ELL), 400, 75), 0, 0) == "t"


def test_no_panel_lies_over_the_notch_or_a_hole():
    """Nor do its dams, a side must lie on the rim whole."""
    hole = Polygon(rect(0, 0, 400, 300).shell, (rect(180, 120, 40, 60).shell,))
    panel_map = map_of(liner_of(hole), 100, 60)
    assert at(panel_map, 220, 120) == "rbt"
    assert at(panel_map, 80, 120) == "lbt"
    assert at(panel_map, 220, 121) is None
    assert at(panel_map, 245, 121) == "lrbt"
    assert at(panel_map, 219, 120) is None
    assert at(map_of(liner_of(hole), 180, 60), 220, 120) == "bt"


def test_an_outline_need_not_start_at_the_datum():
    """Moved by (-250, -70), every place moves along; so do zones, ornaments and wishes."""

    def spots(dx, dy):
        zones = [rect(100 + dx, dy, 60, 300), rect(dx, 180 + dy, 400, 40)]
        ornaments = [rect(30 + dx, 40 + dy, 20, 30)]
        outline = rect(dx, dy, 400, 300)
        liner = liner_of(outline, zones=zones, ornaments=ornaments, unmarked="detail")
        panel_map = map_of(liner, 110, 190, Wish(show=frozenset([0])))
        steps = product(range(0, 300, 5), range(0, 200, 5))
        return {(x, y, at(panel_map, x + dx, y + dy)) for x, y in steps}

    assert spots(-250, -70) == spots(0, 0)
    assert (0, 0, "rt") in spots(0, 0)


# Sheets


PIECES = pieces_of_boxes([Box(10, 5, 20, 12), Box(15, 8, 40, 30)])
SHEET = Sheet(sides("lrbt"), Box(0, 0, 50, 40), PIECES)


def test_runs_are_closed_and_end_where_pieces_touch():
    """On the line of a piece's face nothing of it is forbidden."""
    assert SHEET.runs_at_y(5) == [(0, 50)]
    assert SHEET.runs_at_y(6) == [(0, 10), (20, 50)]
    assert SHEET.runs_at_y(10) == [(0, 10), (40, 50)]
    assert SHEET.runs_at_y(12) == [(0, 15), (40, 50)]
    assert SHEET.runs_at_x(15) == [(0, 5), (12, 40)]
    assert SHEET.runs_at_y(-1) == SHEET.runs_at_y(41) == []


def test_ends_are_those_of_the_domain_and_of_the_pieces():
    """Near ends are right faces, far ends left ones."""
    assert sorted(SHEET.ends(far=False).tolist()) == [0, 20, 40]
    assert sorted(SHEET.ends(far=True).tolist()) == [10, 15, 50]


def test_a_shadow_holds_every_x_with_a_place():
    """It leaves out an x that a box forbids from bottom to top."""
    wall = pieces_of_boxes([Box(10, -1, 20, 41), Box(25, 0, 30, 40)])
    sheet = Sheet(sides("lrbt"), Box(0, 0, 50, 40), wall)
    assert sheet.shadow() == [(0, 10), (20, 50)]
    assert SHEET.shadow() == [(0, 50)]


def test_a_sheet_turned_over_holds_the_places_exchanged():
    """Lines along x become lines along y."""
    turned = SHEET.turned_over()
    assert turned.domain == Box(0, 0, 40, 50)
    for x, y in product(range(-1, 52), range(-1, 42)):
        assert turned.holds(y, x) == SHEET.holds(x, y)


def test_a_map_of_slanted_ground_finds_the_place_it_holds():
    """A panel 100 x 80 has the middle of a wreath's opening to itself."""
    panel_map = map_of(liner_of(rect(0, 0, 600, 600), ornaments=[wreath()]), 100, 80)
    assert at(panel_map, 250, 260) == "lrbt"
    place = panel_map.first_place()
    assert place is not None
    assert panel_map.sheet_at(*place) is not None


def wreath():
    """Return a square ornament with a square opening set on its corner, 400 across."""
    opening = [(300, 100), (500, 300), (300, 500), (100, 300)]
    return Polygon(rect(50, 50, 500, 500).shell, (tuple((x * MM, y * MM) for x, y in opening),))


@pytest.mark.parametrize("size", [(20, 146), (29, 164), (20, 191)])
def test_a_pocket_between_slopes_is_found(size):
    """A tall panel fits the wreath's opening too; its map says so, so it has a first place."""
    panel_map = map_of(liner_of(rect(0, 0, 600, 600), ornaments=[wreath()]), *size)
    assert at(panel_map, 300 - size[0] / 2, 300 - size[1] / 2) == "lrbt"
    assert panel_map.first_place() is not None
