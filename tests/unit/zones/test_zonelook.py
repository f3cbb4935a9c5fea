"""The search behind the trade."""

import pytest
from makemotifs import MM
from motiffiles import load_motif

import nesting.zones.zonelook
from nesting.search.solver import silent
from nesting.zones.zonelook import Look
from nesting.zones.zoning import plan_zones, prepare

AREA = 400 * MM**2


@pytest.fixture
def look(tmp_path):
    """Return a search on the small motif, nothing asked yet."""
    setting = prepare(load_motif(tmp_path))
    return Look(setting, plan_zones(setting), silent)


def test_every_step_of_the_search_bounds_the_area(look):
    """Four casts or three take 60 mm; fewer, none has."""
    best, proved = look.find_first()
    assert (best.widths, best.count.casts, proved) == ((52 * MM,), 5, True)
    look.find_more(5)
    assert look.bounds == {4: 660 * MM * AREA // MM, 2: None}
    assert [found.count.casts for found in look.found.values()] == [5, 3]


def test_pairs_that_have_room_are_kept_when_room_is_shared_out(look):
    """At 60 mm that of A1 and B1 asks for a total of at least as much; at 52 none asks."""
    held = look.held((60 * MM,))
    assert any(limits.low == 60 * MM for _, totals in held for _, limits in totals)
    assert not any(totals for _, totals in look.held((52 * MM,)))


def test_a_search_cut_short_claims_no_more_than_it_proved(look, monkeypatch):
    """Without a question nothing is known but what no liner at all stays below."""
    monkeypatch.setattr(nesting.zones.zonelook, "MOST_QUESTIONS", 0)
    assert look.find_first()[1] is False
    look.find_more(5)
    assert look.bounds == {2: None}


def test_with_too_many_sets_nothing_is_asked_and_nothing_claimed(tmp_path, monkeypatch):
    """The limit is then the least liner itself, and what it takes is not proved."""
    monkeypatch.setattr(nesting.zones.zonelook, "MOST_SETS", 1)
    setting = prepare(load_motif(tmp_path))
    first = plan_zones(setting)
    look = Look(setting, first, silent)
    assert look.limit == first.area
    assert look.find_first()[1] is False
    look.find_more(5)
    assert look.bounds == {}
