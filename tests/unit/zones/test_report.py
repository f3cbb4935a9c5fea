"""The answer as text and as JSON."""

import json
from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import change_motif, load_motif

from nesting.zones.report import area_text, price_of, report_zones, tell_use, zones_to_json
from nesting.zones.trade import plan_motif
from nesting.zones.uses import Use, list_uses


@pytest.fixture(scope="module")
def trade(tmp_path_factory):
    """Return the trade of the small motif."""
    return plan_motif(load_motif(tmp_path_factory.mktemp("motif")))


@pytest.fixture(scope="module")
def report(trade):
    """Return its report."""
    return report_zones(trade, list_uses(trade.best.zoning))


@pytest.mark.parametrize(
    "line",
    [
        "  strip S1 at x 300 to 352, 52 mm: gives A1 and B1",
        "  A1     flat     0    330       0  400  330 x 400  left, bottom, top",
        "  A1     right  330        2      30",
        "  B1     right  310       22      10",
        "Strips are whole set-out divisions wide.",
        "  652 x 400    0.2608     0.0208   26.08       1      5  yes             0.2640",
        "  660 x 400    0.2640     0.0240   26.40       1      3  yes              never",
        "  in one cast on 660 x 400: A1 + B1",
    ],
)
def test_the_report_holds_every_figure(report, line):
    """Strip, place, room, grid and trade, as worked out by hand."""
    assert line in report.splitlines()


def test_the_answer_comes_first_and_the_caution_last(report):
    """Liner, area, proof, casts; then who rules."""
    assert report.startswith("Bath house, frieze to be: liner 652 x 400 mm, 0.0208 m2 more than")
    assert "least area PROVED" in " ".join(report.splitlines()[:3])
    assert report.endswith("this answer certifies no panel, lift or structure.")
    assert max(map(len, report.splitlines())) <= 100


def test_a_strip_nobody_loses_tells_whose_dams_lie_in_it(trade):
    """As wide as another, widening drawn ground, holding a dam, or idle."""
    motif = trade.best.zoning.motif
    use = Use("S2", "y", 5 * MM, 0, 5 * MM, "drawn", (), ("A1", "A2", "B1"), "S1")
    assert tell_use(motif, use) == (
        "strip S2 at y 0 to 5, 5 mm added to the drawn zone drawn, as wide as S1: no size is lost "
        "without it alone; dams of A1, A2 and B1 lie in it"
    )
    report = report_zones(trade, ())
    assert "  none is needed" not in report
    assert "  not needed: S1" in report


def test_areas_and_prices_are_those_of_the_units(trade, tmp_path):
    """Square metres, or square feet in an inch motif; no price, no column."""
    motif = trade.best.zoning.motif
    assert area_text(motif, (1000 * MM) ** 2) == "1.0000 m2"
    assert price_of(motif, (1000 * MM) ** 2) == 100
    free = load_motif(tmp_path, change_motif(("rubber_price = 100\n", "")))
    assert price_of(free, 1) is None
    assert "added, m2  strips" in report_zones(plan_motif(free), ())


def test_json_has_the_same_figures(trade):
    """Lengths in mm, offers with widths by the strip's name."""
    document = json.loads(zones_to_json(trade, list_uses(trade.best.zoning)))
    assert document["liner"] == [652, 400]
    assert not document["ornaments_as_stairs"]
    assert (document["casts_proved"], document["complete"]) == (True, True)
    assert document["strips"][0]["gives"] == ["A1", "B1"]
    assert [offer["casts"] for offer in document["offers"]] == [5, 3]
    assert [offer["fewer_from"] for offer in document["offers"]] == [264000, None]
    assert document["offers"][1]["widths"] == {"S1": 60}
    assert document["places"][0]["dams"] == [
        {"side": "right", "at": 330, "outward": 2, "inward": 30}
    ]


def test_a_trade_not_settled_says_what_is_open(trade):
    """Which casts may be had from what area on; casts with dams laid exactly in brackets."""
    offers = [replace(offer, casts=offer.casts + 1) for offer in trade.offers]
    short = replace(trade, offers=tuple(offers), bounds=((2, None),), casts_proved=False)
    report = " ".join(report_zones(short, ()).split())
    assert "takes 6 casts on it (5 with dams laid exactly, as planned)" in report
    assert "fewest for such a liner NOT PROVED" in report
    assert "6 (5) yes" in report
    assert "4 (3) no" in report
    assert "not settled: whether 5 casts or fewer are to be had from 0.2608 m2 on" in report


def test_a_proof_for_stairs_only_is_said(trade):
    """As text and as JSON."""
    zoning = replace(trade.best.zoning, is_exact=False)
    stairs = replace(trade, offers=(replace(trade.best, zoning=zoning),))
    report = " ".join(report_zones(stairs, ()).split())
    assert "area PROVED for slanted ornaments taken as stairs," in report
    assert json.loads(zones_to_json(stairs, ()))["ornaments_as_stairs"]


def test_a_finer_grid_is_said(tmp_path):
    """Where whole divisions have no answer."""
    text = change_motif(("set_out = 1", "set_out = 10"), ("[330, 400]", "[673, 400]"))
    report = report_zones(plan_motif(load_motif(tmp_path, text)), ())
    assert "No answer exists on whole set-out divisions" in report
