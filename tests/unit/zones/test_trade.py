"""What more rubber buys, on the small motif: 52 mm and five casts, or 60 and three."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.checking.schedule import check_schedule
from nesting.errors import NoScheduleError, RefusedError
from nesting.search.solver import Deadline
from nesting.values.casts import Areas
from nesting.zones.report import report_zones
from nesting.zones.strips import plan_zones, prepare
from nesting.zones.trade import plan_motif, plan_offer, weigh_rubber


@pytest.fixture(scope="module")
def trade(tmp_path_factory):
    """Return the trade of the small motif."""
    return plan_motif(load_motif(tmp_path_factory.mktemp("motif")))


def test_the_offers_are_those_worked_out_by_hand(trade):
    """Two sizes apart take 2 + 3 casts; together 3, on a liner 8 mm longer; two A1 save less."""
    found = [(o.zoning.widths[0] // MM, o.schedule.casts) for o in trade.offers]
    assert found == [(52, 5), (60, 3)]
    assert trade.best is trade.offers[0]
    assert trade.offers[1].new == (("A1", "B1"),)
    assert trade.tried == 2
    assert trade.casts_proved
    assert trade.is_complete


def test_every_offer_has_a_plan_the_checker_passes(trade):
    """And the count is that of the plan."""
    for offer in trade.offers:
        assert check_schedule(offer.zoning.job, offer.schedule) == ()
        assert offer.casts == offer.schedule.casts


def test_what_is_proved_of_all_other_liners(trade):
    """Four casts take the area of the second, two none has; a trade cut short claims less."""
    areas = [offer.zoning.area for offer in trade.offers]
    assert [trade.least_area(casts) for casts in (5, 4, 3, 2)] == [
        areas[0],
        areas[1],
        areas[1],
        None,
    ]
    assert [trade.least_casts(area) for area in (areas[0], areas[1] - 1, areas[1])] == [5, 5, 3]
    short = replace(trade, bounds=((2, None),))
    assert [short.is_proved(offer) for offer in short.offers] == [True, False]
    assert not short.is_complete
    assert short.open_ends == [(4, areas[0])]
    assert replace(trade, bounds=((4, areas[1]),)).open_ends == [(2, areas[1])]


def test_a_plan_the_checker_refuses_is_not_offered(trade, monkeypatch):
    """A liner is shown with a plan that keeps every rule, or not at all."""
    import nesting.schedules.findings

    monkeypatch.setattr(
        nesting.schedules.findings, "check_schedule", lambda *_: (Areas(1, 1, 0, 0),)
    )
    with pytest.raises(RefusedError, match="Our own checker refused"):
        plan_offer(trade.best.zoning, 5)


def test_time_that_is_over_before_a_liner_is_found_is_told(tmp_path):
    """There is nothing to show, so it ends as where there is no answer."""
    told = r"No liner was found within the time limit of 1e-09 s; allow more time\."
    with pytest.raises(NoScheduleError, match=told):
        plan_motif(load_motif(tmp_path), time_limit=1e-9)


def test_time_that_is_over_later_leaves_the_least_liner_and_claims_no_more(tmp_path):
    """The least liner and its plan stand; of casts and of other liners nothing is proved."""
    setting = prepare(load_motif(tmp_path))
    first = plan_zones(setting)
    found = weigh_rubber(replace(setting, deadline=Deadline(0)), first)
    assert [offer.zoning.area for offer in found.offers] == [first.area]
    assert check_schedule(first.job, found.best.schedule) == ()
    assert (found.stopped, found.is_complete, found.casts_proved) == (True, False, False)
    assert "looked at, when the time limit was" in " ".join(report_zones(found, ()).split())
