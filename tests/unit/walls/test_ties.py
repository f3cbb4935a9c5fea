"""Where ties stand: spread between the edges, on common rays, clear of hollows."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from handjob import MM
from tiedwalls import HERON, cornered_wall, flat_wall, pond, round_wall, tie_rule, tied_wall

from nesting.errors import InputError, InputErrors
from nesting.units import STEPS_PER_INCH
from nesting.walls.cladding import WallRun, divide_wall
from nesting.walls.ties import need_ties, tie_skins


def tie(wall, ground=None):
    """Return the pairs of a wall with their ties."""
    return tie_skins(wall, divide_wall(wall), ground).pairs


def places(pair, skin="inner"):
    """Return the places of the inserts in mm, row by row."""
    spots = [(each.row, getattr(each, skin)) for each in pair.ties]
    rows = sorted({row for row, _ in spots})
    return [[(x / MM, y / MM) for row, (x, y) in spots if row == each] for each in rows]


def test_ties_are_spread_evenly_between_the_edge_distances():
    """680 mm at most 400 apart take two gaps; three rows stand 60 mm from foot and head."""
    (pair,) = tie(flat_wall())
    assert places(pair) == [[(x, y) for x in (60, 400, 740)] for y in (60, 325, 590)]
    assert places(pair, "outer") == [[(x, y) for x in (740, 400, 60)] for y in (60, 325, 590)]
    assert [each.number for each in pair.ties] == list(range(1, 10))


@pytest.mark.parametrize(("spacing", "count"), [(680, 2), (679, 3), (340, 3), (339, 4), (9999, 2)])
def test_as_few_ties_as_the_spacing_allows(spacing, count):
    """Exactly the spacing apart is allowed."""
    (pair,) = tie(flat_wall(ties=tie_rule(spacing)))
    assert len(places(pair)[0]) == count


def test_one_row_stands_midway_up():
    """Between the edge distances, on a whole millimetre."""
    (pair,) = tie(flat_wall(ties=tie_rule(rows=1)))
    assert {y for _, y in places(pair)[0]} == {325}


def test_the_spacing_holds_on_the_longer_back():
    """On the outer back, 3175 / 3025 of the inner one, no gap is wider than asked for."""
    for spacing, count in ((243, 4), (240, 5)):
        for pair in tie(round_wall(ties=tie_rule(spacing))):
            inner, outer = ([x for x, _ in places(pair, skin)[0]] for skin in ("inner", "outer"))
            assert max(a - b for a, b in pairwise(outer)) <= spacing
            assert max(b - a for a, b in pairwise(inner)) < 232
            assert (len(inner), inner[0]) == (count + 1, 60)


def test_twins_lie_on_one_ray_of_an_arc():
    """An inner place over its radius, and the outer one from the other end over its own."""
    for pair in tie(round_wall()):
        for each in pair.ties:
            angle = pair.inner.ends[0] + each.inner[0] / (3025 * MM)
            twin = pair.outer.ends[1] - each.outer[0] / (3175 * MM)
            assert math.isclose(float(angle), float(twin), abs_tol=1 / (3000 * MM))
            assert each.inner[1] == each.outer[1]


def test_at_a_corner_ties_stand_where_both_panels_are():
    """The inner face ends 100 mm before the axis does, and its tie 60 mm before that."""
    first, last = tie(cornered_wall())
    assert max(x for x, _ in places(first)[0]) == 1000 - 100 - 60
    assert min(x for x, _ in places(first, "outer")[0]) == 1075 - 840
    assert min(x for x, _ in places(last)[0]) == 60 + 25  # the mitre's back begins 25 mm earlier


def test_a_tie_over_a_hollow_moves_along_by_the_least():
    """The heron begins 300 mm along: 40 mm before it stands the tie, 140 mm from its place."""
    (pair,) = tie(flat_wall(), {"A-inner": [HERON]})
    assert places(pair)[1] == [(60, 325), (260, 325), (740, 325)]
    assert places(pair, "outer")[1] == [(740, 325), (540, 325), (60, 325)]
    assert places(pair)[0] == [(60, 60), (400, 60), (740, 60)]
    assert [each.shift / MM for each in pair.ties if each.shift] == [-140, -140]


def test_both_inserts_keep_clear():
    """The same heron in the outer skin ends 520 mm along its back: its insert goes to 560."""
    (pair,) = tie(flat_wall(), {"A-inner": [HERON], "A-outer": [HERON]})
    assert places(pair)[1][1] == (240, 325)
    assert places(pair, "outer")[1][1] == (560, 325)


def test_a_tie_moves_to_the_nearer_side():
    """A pond that begins 390 mm along is left at 350, one that ends 410 mm along at 450."""
    for x, wanted in ((390, 350), (310, 450)):
        (pair,) = tie(flat_wall(), {"A-inner": [pond("pond", x, 0, 100, 650)]})
        assert {places(pair)[row][1][0] for row in range(3)} == {wanted}


def test_no_tie_moves_by_half_a_gap():
    """Where neither side has a clear place in reach, panel and ornament are named in one line."""
    with pytest.raises(InputErrors) as refused:
        tie(flat_wall(ties=tie_rule(hollow=60)), {"A-outer": [HERON], "A-inner": [HERON]})
    assert str(refused.value) == (
        "Panel 'A-outer': no tie keeps hollow_distance 60 mm from hollow 'heron', got none within "
        "half a spacing of 400 mm along and 325 mm up; give another spacing or number of rows, or "
        "hide the ornament."
    )


@pytest.mark.parametrize(
    ("rule", "told"),
    [
        (tie_rule(edge=401), "must face panel 'A-outer' along more than 2 x edge_distance 401 mm"),
        (tie_rule(edge=326), "height must hold 3 rows of ties between two edge distances"),
    ],
)
def test_a_panel_without_room_is_refused(rule, told):
    """One line with the panel, its number in its part and what was got."""
    with pytest.raises(InputError, match="Panel 'A-inner', number 1 of its part: ") as refused:
        tie(flat_wall(ties=rule))
    assert told in str(refused.value)


def test_work_is_bounded():
    """A wall with more ties than anyone sets is refused before it is gone through."""
    run = WallRun("A", 400_000 * MM, "axis", 40)
    rule = tie_rule(spacing=50, rows=50, edge=10)
    with pytest.raises(InputError, match="at most 20000 ties; give a larger spacing or fewer rows"):
        tie(tied_wall(run, ties=rule))


def test_in_an_inch_wall_inner_places_are_on_sixteenths():
    """The tape of the wall's units has no finer marks."""
    for pair in tie(round_wall(units="in")):
        assert all(each.inner[0] % (STEPS_PER_INCH // 16) == 0 for each in pair.ties)


def test_a_wall_without_a_rule_has_none():
    """Whoever needs ties is told to give the table."""
    need_ties(flat_wall(), "--ties")
    with pytest.raises(InputError, match=r"--ties: the wall must say .*; give it a table \[ties\]"):
        need_ties(replace(flat_wall(), ties=None), "--ties")
