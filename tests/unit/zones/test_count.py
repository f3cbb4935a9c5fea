"""Casts on one liner with dams that may miss."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.maps.ground import survey
from nesting.maps.positions import NO_WISH
from nesting.values.motif import make_job
from nesting.zones.count import Count, count_casts, least_casts, map_loosely


@pytest.fixture(scope="module")
def motif(tmp_path_factory):
    """Return the small motif."""
    return load_motif(tmp_path_factory.mktemp("motif"))


@pytest.mark.parametrize(("width", "casts"), [(52, 5), (59, 5), (60, 3)])
def test_casts_are_those_counted_by_hand(motif, width, casts):
    """Both sizes share a cast from 60 mm on."""
    assert count_casts(motif, (width * MM,)) == Count(casts, casts)


def test_a_dam_that_may_miss_takes_so_much_more_plain_ground(motif):
    """Two strips of 52: A1 of 330 ends where 2 mm are left of the first; at 4 mm it has none."""
    job = make_job(motif, (52 * MM,))
    for miss, at in ((0, (0, 0)), (2, (0, 0)), (3, None)):
        wide = replace(job.rules, dam_width=(20 + 2 * miss) * MM)
        found = map_loosely(
            survey(job.liner, wide), 330 * MM, 400 * MM, NO_WISH, miss * MM
        ).first_place()
        assert found == at


def test_area_alone_bounds_the_casts_from_below(motif):
    """The bound is worked out with dams and falls with area."""
    taken = (2 * 350 + 3 * 330) * 420 * MM**2
    area = 652 * 400 * MM**2
    room = max(area + 20 * MM * (side + area // side + 1) for side in motif.greatest)
    assert least_casts(motif, area) == -(-taken // (room + (20 * MM) ** 2))
    assert least_casts(motif, 10 * area) == 1
