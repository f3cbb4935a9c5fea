"""What a size asks of both axes together, and what two sizes in one cast ask."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import WIDTH, load_motif

from nesting.values.motif import Centring
from nesting.zones.field import survey_motif
from nesting.zones.needs import find_need


@pytest.fixture
def motif(tmp_path):
    """Return the small motif."""
    return load_motif(tmp_path)


def need_of(motif, number, **changes):
    """Return the need of one panel of the order, changed."""
    panel = replace(motif.job.panels[number], **changes)
    return find_need(motif, survey_motif(motif), panel)


def test_a_size_is_met_from_its_least_strip_on(motif):
    """52 mm do for A1, a step less does not."""
    need = need_of(motif, 0)
    assert need.is_possible
    assert need.ways_met(motif, (WIDTH,))
    assert not need.ways_met(motif, (WIDTH - 1,))


def test_what_must_be_shown_and_hidden_narrows_the_ways(motif):
    """A panel over the wave cannot hide it, unless it lies at the other rim."""
    assert need_of(motif, 0, must_show=("wave",), must_hide=("leaf",)).is_possible
    assert not need_of(motif, 0, width=640 * MM, must_hide=("wave",)).is_possible
    assert len(need_of(motif, 0).ways[0]) == 2
    assert len(need_of(motif, 1).ways[0]) == 1


def test_a_centred_ornament_is_inside_along_both_axes(motif):
    """Centred along x it must be shown, so a wish to hide it as well has no place."""
    wish = Centring("A1", "wave", "x", 15 * MM)
    centred = replace(motif, centrings=(wish,))
    assert need_of(centred, 0).is_possible
    assert not need_of(centred, 0, must_hide=("wave",)).is_possible
