"""Position maps against brute force: the rules asked afresh at every millimetre.

No published figures exist for this; shapely is the second opinion. It sees the finished outlines
and the panel's own ring, and answers by the rules in docs/method.md: what the liner covers, what
the blank zones cover together, whether interiors meet.
"""

import random
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product

import numpy as np
import pytest
import shapely
from longcases import leave_long
from smalljobs import CELL, places_by_rule, small_job

from nesting.maps.ground import survey
from nesting.maps.positions import Wish, map_positions
from nesting.maps.sizes import wish_of
from nesting.shapes.geometry import Box, Polygon, polygon_of
from nesting.units import STEPS_PER_MM as MM
from nesting.values.job import Rules
from nesting.values.liner import BlankZone, Liner, Ornament

pytestmark = pytest.mark.long


WIDTH, HEIGHT = 60, 44
INTERIORS_MEET = "T********"


@dataclass(frozen=True)
class Case:
    """A liner, the shop's rules, panel sizes [mm] and wishes to map on it."""

    liner: Liner
    rules: Rules
    sizes: tuple[tuple[int, int], ...]
    wishes: tuple[Wish, ...]

    def brute(self):
        """Return the brute force for each size."""
        return [
            Brute(self, *size, wish) for size, wish in zip(self.sizes, self.wishes, strict=True)
        ]

    def maps(self):
        """Return the position map of each size."""
        ground = survey(self.liner, self.rules)
        return [
            map_positions(ground, width * MM, height * MM, wish)
            for (width, height), wish in zip(self.sizes, self.wishes, strict=True)
        ]


@dataclass(frozen=True)
class Brute:
    """The rules for one panel size, asked of shapely at arrays of places [steps].

    ``room`` [steps] is how far dams keep inside the blank zones, beyond what the rules ask.
    """

    case: Case
    width: int
    height: int
    wish: Wish
    room: int = 0

    @cached_property
    def outline(self):
        """The liner."""
        return prepared(shape_of(self.case.liner.outline))

    @cached_property
    def rim(self):
        """The liner's rim."""
        return prepared(shapely.boundary(shape_of(self.case.liner.outline)))

    @cached_property
    def blank(self):
        """All ground where a dam may lie, less the room given up along every rim of it."""
        if self.case.liner.unmarked == "blank":
            return self.outline
        zones = [shape_of(zone.outline) for zone in self.case.liner.zones]
        off = shapely.box(-MM, -MM, (WIDTH + 1) * MM, (HEIGHT + 1) * MM).difference(self.outline)
        ground = shapely.union_all([*zones, off] if self.room else zones)
        return prepared(ground.buffer(-self.room, join_style="mitre") if self.room else ground)

    @cached_property
    def ornaments(self):
        """The ornaments, in the liner's order."""
        return [prepared(shape_of(o.outline)) for o in self.case.liner.ornaments]

    def sides(self, x, y):
        """Return per place what stops each side: the rim where the whole side lies on it."""
        x1, y1 = x + self.width * MM, y + self.height * MM
        lines = (segments(x, y, x, y1), segments(x1, y, x1, y1), segments(x, y, x1, y))
        lines = (*lines, segments(x, y1, x1, y1))
        return np.stack([~shapely.covers(self.rim, line) for line in lines], axis=1)

    def allowed(self, x, y, dams):
        """Return per place whether no rule is broken with dams on those sides."""
        w, h = self.width * MM, self.height * MM
        dam, clearance = self.case.rules.dam_width, self.case.rules.dam_clearance
        left, right, bottom, top = dams.T * dam
        panel = shapely.box(x, y, x + w, y + h)
        outer = shapely.box(x - left, y - bottom, x + w + right, y + h + top)
        ok = shapely.covers(self.outline, outer)
        for strip, is_there in zip(
            strips(x, y, w, h, left, right, bottom, top), dams.T, strict=True
        ):
            strip, inside = strip[:, is_there], panel[is_there]
            ok[is_there] &= shapely.covers(self.blank, shapely.box(*strip))
            grown = shapely.box(*(strip + np.array([[-1], [-1], [1], [1]]) * clearance))
            beyond = shapely.difference(grown, inside)
            for ornament in self.ornaments:
                ok[is_there] &= ~shapely.relate_pattern(ornament, beyond, INTERIORS_MEET)
        return ok & self._keeps_margin(x, y, dams, panel) & self._as_wished(panel)

    def _keeps_margin(self, x, y, dams, panel):
        """Rule 5: inside the panel, an ornament keeps its margin from every dam side."""
        left, right, bottom, top = dams.T * self.case.rules.edge_margin
        w, h = self.width * MM, self.height * MM
        x0, x1 = np.minimum(x + left, x + w), np.maximum(x + w - right, x)
        y0, y1 = np.minimum(y + bottom, y + h), np.maximum(y + h - top, y)
        inner = shapely.box(x0, y0, x1, y1)
        inner[(x0 >= x1) | (y0 >= y1)] = shapely.Polygon()
        margin = shapely.difference(panel, inner)
        ok = np.ones(len(x), dtype=np.bool_)
        for ornament in self.ornaments:
            ok &= ~shapely.relate_pattern(ornament, margin, INTERIORS_MEET)
        return ok

    def _as_wished(self, panel):
        ok = np.ones(len(panel), dtype=np.bool_)
        for index, ornament in enumerate(self.ornaments):
            if index in self.wish.show:
                ok &= shapely.covered_by(ornament, panel)
            if index in self.wish.hide:
                ok &= ~shapely.relate_pattern(ornament, panel, INTERIORS_MEET)
        return ok


def strips(x, y, w, h, left, right, bottom, top):
    """Return the ring's four strips as (x0, y0, x1, y1), corner squares in both that meet there."""
    x0, x1, y0, y1 = x - left, x + w + right, y - bottom, y + h + top
    return (
        np.stack([x0, y0, x, y1]),
        np.stack([x + w, y0, x1, y1]),
        np.stack([x0, y0, x1, y]),
        np.stack([x0, y + h, x1, y1]),
    )


def segments(x0, y0, x1, y1):
    """Return one line per place."""
    return shapely.linestrings(np.stack([np.stack([x0, y0], 1), np.stack([x1, y1], 1)], axis=1))


def shape_of(polygon):
    """Return a polygon as shapely sees it; steps are whole numbers, which floats hold exactly."""
    return shapely.Polygon(polygon.shell, polygon.holes)


def prepared(shape):
    """Return the shape, made quick to ask."""
    shapely.prepare(shape)
    return shape


def every_millimetre(width, height):
    """Return x and y [steps] of all whole-millimetre places of a panel on the liner's box."""
    places = product(range(WIDTH - width + 1), range(HEIGHT - height + 1))
    return np.array(list(places)).T * MM


def rect(x, y, width, height):
    """Return a rectangle given in mm."""
    return polygon_of(Box(x * MM, y * MM, (x + width) * MM, (y + height) * MM))


def ring(*points):
    """Return a polygon of points in mm."""
    return Polygon(tuple((round(x * MM), round(y * MM)) for x, y in points))


def bands(pick):
    """Make blank bands each way, one of each exactly one dam wide, rectangles between them."""
    dam = pick.choice([3, 4])
    xs, ys = (14, 15 + dam), (10, 11 + dam)
    zones = [
        rect(xs[0], 0, dam, HEIGHT),
        rect(38, 0, pick.randint(dam, dam + 5), HEIGHT),
        rect(0, ys[0], WIDTH, dam),
        rect(0, 28, WIDTH, pick.randint(dam, dam + 4)),
        rect(xs[0] + dam, ys[0] + dam, pick.randint(1, 6), pick.randint(1, 6)),
    ]
    ornaments = [
        rect(x, y, pick.randint(2, 7), pick.randint(2, 6))
        for x, y in [(2, 2), (24, 2), (51, 1), (25, 18), (3, 20), (50, 36)]
        if pick.random() < 0.6
    ]
    sizes = [(xs[0], ys[0]), (38 - xs[0] - dam, 28 - ys[0] - dam), (WIDTH, ys[0]), (xs[0], HEIGHT)]
    return case_of(
        pick,
        outline=rect(0, 0, WIDTH, HEIGHT),
        zones=zones,
        ornaments=ornaments,
        dam=dam,
        sizes=sizes,
    )


def islands(pick):
    """Make plain ground with rectangles and slanted leaves, some on whole millimetres."""
    sizes = [(WIDTH, pick.randint(8, 20)), (pick.randint(8, 20), HEIGHT), (WIDTH, HEIGHT)]
    return case_of(pick, outline=rect(0, 0, WIDTH, HEIGHT), ornaments=leaves(pick, 3), sizes=sizes)


def corner(pick):
    """Make a liner with a corner missing and another one cut off at a slant."""
    x, y, cut = pick.randint(20, 40), pick.randint(15, 30), pick.randint(3, 9)
    points = [(0, 0), (WIDTH - cut, 0), (WIDTH, cut), (WIDTH, y), (x, y), (x, HEIGHT), (0, HEIGHT)]
    outline = turned(pick, points)
    sizes = [(x, HEIGHT - y), (WIDTH, y - cut), (x, HEIGHT), (WIDTH - x, y - cut), (x, 9)]
    return case_of(pick, outline=outline, ornaments=leaves(pick, 2), sizes=sizes)


def hole(pick):
    """Make a liner with a rectangular hole and a slanted one."""
    x, y = pick.randint(15, 30), pick.randint(12, 20)
    w, h = pick.randint(6, 12), pick.randint(6, 10)
    diamond = [(51, 4), (55, 8), (51, 12), (47, 8)]
    holes = (rect(x, y, w, h).shell, ring(*diamond).shell)
    outline = Polygon(rect(0, 0, WIDTH, HEIGHT).shell, holes)
    sizes = [(x, h), (w, y), (x, pick.randint(5, 12)), (WIDTH - x - w, h), (w, HEIGHT - y - h)]
    return case_of(pick, outline=outline, ornaments=leaves(pick, 2), sizes=sizes)


def slanted_zones(pick):
    """Make zones that touch along slants, overlap, or meet end to end; detail elsewhere."""
    lean, middle = pick.randint(2, 8), pick.randint(22, 34)
    zones = [
        ring((0, 0), (middle, 0), (middle - lean, HEIGHT), (0, HEIGHT)),
        ring((middle, 0), (middle + 6, 0), (middle + 6, HEIGHT), (middle - lean, HEIGHT)),
        rect(middle + 5, 6, WIDTH - middle - 5, 7),
        rect(middle + 6, 13, WIDTH - middle - 6, pick.randint(2, 5)),
        ring((middle + 4, 30), (WIDTH, 26), (WIDTH, 38), (middle + 4, 38.3)),
    ]
    sizes = [(pick.randint(8, 18), pick.randint(8, 14)), (WIDTH, 9), (12, HEIGHT)]
    return case_of(
        pick, outline=rect(0, 0, WIDTH, HEIGHT), zones=zones, ornaments=leaves(pick, 1), sizes=sizes
    )


KINDS = (bands, islands, corner, hole, slanted_zones)


def case_of(pick, *, outline, ornaments, sizes, zones=(), dam=3):
    """Return the case with two sizes more, and wishes now and then."""
    inside = [polygon for polygon in ornaments if shape_of(outline).covers(shape_of(polygon))]
    liner = Liner(
        "generated",
        outline,
        13 * MM,
        "detail" if zones else "blank",
        tuple(Ornament(f"leaf {k}", polygon) for k, polygon in enumerate(inside)),
        tuple(BlankZone(f"zone {k}", polygon) for k, polygon in enumerate(zones)),
    )
    sizes = [*sizes, (pick.randint(5, 20), pick.randint(5, 15)), (pick.randint(20, 40), 20)]
    rules = Rules(dam * MM, pick.randint(0, 3) * MM, pick.randint(0, 3) * MM, MM)
    return Case(liner, rules, tuple(sizes), tuple(wish(pick, len(inside)) for _ in sizes))


def wish(pick, count):
    """Return no wish, mostly; else one ornament to show or to hide."""
    if not count or pick.random() < 0.7:
        return Wish()
    chosen = frozenset([pick.randrange(count)])
    return Wish(chosen, frozenset()) if pick.random() < 0.5 else Wish(frozenset(), chosen)


def leaves(pick, count):
    """Return slanted and rectangular ornaments, apart from one another."""
    found: list[Polygon] = []
    while len(found) < count:
        x, y = pick.randint(4, WIDTH - 12), pick.randint(3, HEIGHT - 11)
        a, b, c, d = (pick.randint(1, 8) for _ in range(4))
        fine = pick.choice([0, 0.37])
        leaf = pick.choice(
            [
                rect(x, y, a, b),
                ring((x + a, y), (x + 8 + fine, y + b), (x + c, y + 8), (x, y + d + fine)),
                ring((x, y), (x + 8, y + fine), (x + 4, y + 3), (x + 5 + fine, y + 8)),
            ]
        )
        near = shape_of(leaf)
        if not any(near.intersects(shape_of(other)) for other in found):
            found.append(leaf)
    return found


def turned(pick, points):
    """Return the outline, turned half round every other time."""
    if pick.random() < 0.5:
        points = [(WIDTH - x, HEIGHT - y) for x, y in points]
    return ring(*points)


def mapped(panel_map, x, y):
    """Return per place the sides the map gives it, as True for a dam, or None."""
    found = []
    for place in zip(x.tolist(), y.tolist(), strict=True):
        sheet = panel_map.sheet_at(*place)
        found.append(None if sheet is None else tuple(side == "dam" for side in sheet.sides))
    return found


def by_rule(brute, x, y):
    """Return the same by brute force."""
    dams = brute.sides(x, y)
    allowed = brute.allowed(x, y, dams)
    return [tuple(d) if ok else None for d, ok in zip(dams.tolist(), allowed, strict=True)]


CASES = {
    f"{kind.__name__} {seed}": kind(random.Random(f"{kind.__name__} {seed}"))
    for kind in KINDS
    for seed in range(4)
}
EXACT = [name for name in CASES if not name.startswith("slanted_zones")]
BRACKETED = [name for name in CASES if name.startswith("slanted_zones")]


def is_further(name):
    """Whether a case is not the first of its kind, of which the plain run has enough."""
    return not name.endswith(" 0")


def differences(brute, panel_map, x, y):
    """Return where the two do not agree, with what each says."""
    both = zip(by_rule(brute, x, y), mapped(panel_map, x, y), strict=True)
    places = zip(x.tolist(), y.tolist(), strict=True)
    return [(place, *said) for place, said in zip(places, both, strict=True) if said[0] != said[1]]


def beside_run_ends(panel_map, most=400):
    """Return the ends of runs on whole-millimetre lines, and the places one step beyond them."""
    found = set()
    for sheet in panel_map.sheets:
        x0, y0, x1, y1 = sheet.domain
        for y in range(y0 // MM * MM, y1 + 1, MM):
            for low, high in sheet.runs_at_y(y):
                found |= {(low - 1, y), (low, y), (high, y), (high + 1, y)}
        for x in range(x0 // MM * MM, x1 + 1, MM):
            for low, high in sheet.runs_at_x(x):
                found |= {(x, low - 1), (x, low), (x, high), (x, high + 1)}
    chosen = sorted(found)[:: 1 + len(found) // most]
    return np.array(chosen, dtype=np.int64).reshape(-1, 2).T


@pytest.mark.parametrize("name", leave_long(EXACT, is_further))
def test_maps_hold_what_the_rules_allow_at_every_millimetre(name):
    """Both agree on each place, and on which of its sides are the rim's."""
    case = CASES[name]
    for brute, panel_map in zip(case.brute(), case.maps(), strict=True):
        assert differences(brute, panel_map, *every_millimetre(brute.width, brute.height)) == []


@pytest.mark.parametrize("name", leave_long(EXACT, is_further))
def test_runs_of_maps_end_where_the_rules_begin_to_the_step(name):
    """At the end of a run a panel may lie, and a step (0.000125 mm) further it may not."""
    case = CASES[name]
    for brute, panel_map in zip(case.brute(), case.maps(), strict=True):
        x, y = beside_run_ends(panel_map)
        assert differences(brute, panel_map, x, y) == []


@pytest.mark.parametrize("name", leave_long(BRACKETED, is_further))
def test_maps_give_up_at_most_two_steps_beside_slanted_zones(name):
    """Where zones with slanted edges cross, no place is too many, and none with 2 steps to spare.

    Such a crossing falls between the steps and is rounded to the safe side; see docs/method.md.
    """
    case = CASES[name]
    for brute, panel_map in zip(case.brute(), case.maps(), strict=True):
        x, y = every_millimetre(brute.width, brute.height)
        held = mapped(panel_map, x, y)
        allowed, roomy = by_rule(brute, x, y), by_rule(replace(brute, room=2), x, y)
        for place, is_held, is_allowed, is_roomy in zip(
            zip(x, y, strict=True), held, allowed, roomy, strict=True
        ):
            assert is_held in (is_allowed, is_roomy), place


def test_all_sixteen_combinations_of_edge_and_dam_sides_come_up():
    """The cases would prove little if a combination never had a place."""
    found = {
        sides
        for case in CASES.values()
        for brute, panel_map in zip(case.brute(), case.maps(), strict=True)
        for sides in mapped(panel_map, *every_millimetre(brute.width, brute.height))
    }
    assert found - {None} == set(product([False, True], repeat=4))


def test_what_must_be_kept_comes_up():
    """So do bands exactly one dam wide, panels shut in between two rims, and both wishes."""
    bands_of_one_dam = [
        zone
        for case in CASES.values()
        for zone in case.liner.zones
        if case.rules.dam_width in (zone.outline.bounds.width, zone.outline.bounds.height)
    ]
    sizes = {size for case in CASES.values() for size in case.sizes}
    wishes = [wish for case in CASES.values() for wish in case.wishes]
    assert len(bands_of_one_dam) > 4
    assert (WIDTH, HEIGHT) in sizes
    assert any(wish.show for wish in wishes)
    assert any(wish.hide for wish in wishes)


@pytest.mark.parametrize("name", leave_long(EXACT, is_further))
def test_the_first_place_is_on_the_map(name):
    """A map with a place has a first place, and an empty map has none."""
    case = CASES[name]
    for brute, panel_map in zip(case.brute(), case.maps(), strict=True):
        x, y = every_millimetre(brute.width, brute.height)
        first = panel_map.first_place()
        if first is None:
            assert not any(by_rule(brute, x, y))
        else:
            assert panel_map.sheet_at(*first) is not None


@pytest.mark.parametrize("kind", ["bands", "islands", "wishes", "corner", "hole"])
def test_maps_on_cells_are_what_sets_of_cells_say(kind):
    """The second opinion's own view of the rules, which knows no polygons at all, agrees too."""
    for seed in range(6):
        job = small_job(kind, seed)
        ground = survey(job.liner, job.rules)
        for panel in job.panels:
            wish_here = wish_of(ground, panel)
            panel_map = map_positions(ground, panel.width, panel.height, wish_here)
            frame = ground.frame
            cells = [
                (x, y)
                for x in range(frame.x1 // CELL)
                for y in range(frame.y1 // CELL)
                if panel_map.sheet_at(x * CELL, y * CELL)
            ]
            assert cells == places_by_rule(job, panel)
