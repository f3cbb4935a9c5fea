"""The search behind the trade."""

import pytest
from makemotifs import MM
from motiffiles import load_motif

import nesting.zones.look
from nesting.search.solver import silent
from nesting.zones.look import TradeSearch
from nesting.zones.strips import plan_zones, prepare

AREA = 400 * MM**2


@pytest.fixture
def look(tmp_path):
    """Return a search on the small motif, nothing looked at yet but the first liner."""
    setting = prepare(load_motif(tmp_path))
    return TradeSearch(setting, plan_zones(setting), silent)


def test_every_number_of_casts_has_its_area(look):
    """Four casts or three take 60 mm; fewer, none has."""
    best, proved = look.find_first()
    assert (best.widths, best.count.casts, proved) == ((52 * MM,), 5, True)
    look.find_more(5)
    assert look.bounds == {4: 660 * AREA, 3: 660 * AREA, 2: None, 1: None}
    assert [found.count.casts for found in look.found.values()] == [5, 3]


def test_pairs_that_have_room_are_kept_when_room_is_shared_out(look):
    """At 60 mm that of A1 and B1 asks for a total of at least as much; at 52 none asks."""
    held = look.held((60 * MM,))
    assert any(limits.low == 60 * MM for _, totals in held for _, limits in totals)
    assert not any(totals for _, totals in look.held((52 * MM,)))


def test_a_search_cut_short_claims_no_more_than_it_proved(look, monkeypatch):
    """With no region gone through, fewer casts may take no more than the least total: 52 mm."""
    monkeypatch.setattr(nesting.zones.look, "MOST_REGIONS", 0)
    look.find_more(5)
    assert look.bounds == {4: 652 * AREA, 3: 652 * AREA, 2: None, 1: None}


def test_the_first_is_not_proved_where_fewer_casts_were_not_ruled_out(look, monkeypatch):
    """A bound of nothing, and nothing gone through."""
    monkeypatch.setattr(nesting.zones.look, "MOST_REGIONS", 0)
    monkeypatch.setattr(
        TradeSearch, "_blocked", lambda self, _: [frozenset() for _ in self._covers]
    )
    best, proved = look.find_first()
    assert (best.count.casts, proved) == (5, False)


def test_a_liner_whose_casts_are_not_explained_is_left_open(look, monkeypatch):
    """Its area bounds what may take as few casts as its region was thought to."""
    monkeypatch.setattr(TradeSearch, "_learn", lambda *_: False)
    monkeypatch.setattr(
        TradeSearch, "count", lambda self, widths: self.found[self.first.widths].count
    )
    look.find_more(5)
    assert look.bounds[3] == 660 * AREA
    assert look.bounds[2] is None
