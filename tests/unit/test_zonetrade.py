"""What more rubber buys, on the small motif: 52 mm and five casts, or 60 and three."""

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.casts import Areas
from nesting.check import check_schedule
from nesting.errors import RefusedError
from nesting.zonetrade import count_casts, least_casts, plan_motif, plan_offer


@pytest.fixture(scope="module")
def trade(tmp_path_factory):
    """Return the trade of the small motif."""
    return plan_motif(load_motif(tmp_path_factory.mktemp("motif")))


def test_the_offers_are_those_worked_out_by_hand(trade):
    """Two sizes apart take 2 + 3 casts; together 3, on a liner 8 mm longer; two A1 save less."""
    found = [(o.zoning.widths[0] // MM, o.schedule.casts) for o in trade.offers]
    assert found == [(52, 5), (60, 3)]
    assert trade.best is trade.offers[0]
    assert trade.offers[1].zoning.together == (("A1", "B1"),)
    assert (trade.tried, trade.pairs, trade.all_pairs) == (3, 2, 3)


def test_every_offer_has_a_plan_the_checker_passes(trade):
    """And the quick count is that of the plan."""
    for offer in trade.offers:
        assert check_schedule(offer.zoning.job, offer.schedule) == ()
        assert count_casts(offer.zoning.job) == offer.schedule.casts


def test_area_alone_bounds_the_casts_from_below(trade):
    """The bound is worked out with dams, falls with area, and no plan stays below it."""
    motif = trade.best.zoning.motif
    taken = (2 * 350 + 3 * 330) * 420 * MM**2
    area = 652 * 400 * MM**2
    room = max(area + 20 * MM * (side + area // side + 1) for side in motif.greatest)
    assert least_casts(motif, area) == -(-taken // (room + (20 * MM) ** 2))
    assert least_casts(motif, 10 * area) == 1
    assert all(least_casts(motif, o.zoning.area) <= o.schedule.casts for o in trade.offers)


def test_a_plan_the_checker_refuses_is_not_offered(trade, monkeypatch):
    """A liner is shown with a plan that keeps every rule, or not at all."""
    import nesting.zonetrade

    monkeypatch.setattr(nesting.zonetrade, "check_schedule", lambda *_: (Areas(1, 1, 0, 0),))
    with pytest.raises(RefusedError, match="Our own checker refused"):
        plan_offer(trade.best.zoning)
