"""The second look at ties, in plan: a fault of a millimetre is a millimetre there."""

from dataclasses import replace

import pytest
from handjob import MM
from tiedwalls import cornered_wall, flat_wall, round_wall

from nesting.walls.cladding import divide_wall
from nesting.walls.ties import TiedPair, tie_skins
from nesting.walls.twins import worst_miss

WALLS = {
    "run": flat_wall(),
    "arc": round_wall(),
    "arc toward the outer side": round_wall(toward="outer"),
    "mitred": cornered_wall(),
}


def moved(pair, skin, by):
    """Return a pair whose first tie has one insert moved [mm] along x and up."""
    first = pair.ties[0]
    x, y = getattr(first, skin)
    spot = (x + by[0] * MM, y + by[1] * MM)
    return TiedPair(pair.inner, pair.outer, (replace(first, **{skin: spot}), *pair.ties[1:]))


@pytest.mark.parametrize("name", WALLS)
def test_ties_on_one_ray_miss_by_nothing(name):
    """No more than a step along, seen square to the backs."""
    wall = WALLS[name]
    assert worst_miss(wall, tie_skins(wall, divide_wall(wall)).pairs) < 0.001


@pytest.mark.parametrize("skin", ["inner", "outer"])
@pytest.mark.parametrize("by", [(1, 0), (-1, 0), (0, 1)])
@pytest.mark.parametrize("name", WALLS)
def test_an_insert_off_by_a_millimetre_misses_by_one(name, by, skin):
    """On an arc by one midway between both backs: up to 75 mm of 2900 mm more or less."""
    wall = WALLS[name]
    pair = moved(tie_skins(wall, divide_wall(wall)).pairs[0], skin, by)
    assert worst_miss(wall, [pair]) == pytest.approx(1, rel=0.03)


def test_no_tie_misses_nothing():
    """A wall of no pairs."""
    assert worst_miss(flat_wall(), ()) == 0
