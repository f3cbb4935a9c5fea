"""Liner and casts in one program, on the small motif."""

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.zones.zonecasts import CastProgram, cast_sets, least_cover
from nesting.zones.zonesharing import join_needs
from nesting.zones.zoning import list_points, prepare

SETS = [(0,), (0, 1), (1,)]


@pytest.fixture(scope="module")
def setting(tmp_path_factory):
    """Return the small motif made ready."""
    return prepare(load_motif(tmp_path_factory.mktemp("motif")))


@pytest.fixture(scope="module")
def known(setting):
    """Return what is known of the one pair."""
    return {(0, 1): join_needs(setting.field, setting.needs, 20 * MM)}


@pytest.mark.parametrize(("casts", "width"), [(5, 52), (4, 60), (3, 60)])
def test_the_least_liner_that_could_do_with_so_many_casts(setting, known, casts, width):
    """2 and 3 panels take 5 casts apart, and 3 where each cast may hold one of either."""
    ((totals, _),) = list_points(CastProgram(setting, SETS, known, casts))
    assert totals == (width, 0)


def test_no_liner_does_with_fewer_than_the_larger_quantity(setting, known):
    """Three of B1, each in its own cast."""
    assert list_points(CastProgram(setting, SETS, known, 2)) == []
    assert least_cover(SETS, (2, 3)) == 3


def test_fewest_casts_at_given_totals(setting, known):
    """52 mm leave no room for the pair, 60 do."""
    program = CastProgram(setting, SETS, known)
    assert program.fewest_casts((52, 0), 1)[0] == 5
    assert program.fewest_casts((60, 0), 1)[0] == 3


def test_sets_of_a_schedule_have_room_for_all_their_known_parts(setting, known):
    """The pair is cast where the strip is wide enough."""
    assert cast_sets(SETS, known, setting.motif, (60 * MM,)) == [(0, 1), (1,)]
    assert cast_sets(SETS, known, setting.motif, (52 * MM,)) == [(0,), (1,)]
