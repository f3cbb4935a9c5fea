"""Rubber, a second liner and costs as text."""

from dataclasses import replace
from fractions import Fraction

from handjob import MM
from quantityjobs import PRICES, make_quantities

from nesting.amounts.rubberreport import list_costs, list_rubber
from nesting.values.material import USUAL, SecondLiner

SECOND = replace(USUAL.rubber, second=SecondLiner(400 * MM, 500 * MM, 13 * MM))


def test_rubber_is_told_by_volume_and_weight():
    """0.96 m2 of 13 mm, less half a boss of 9 mm: 12.1 litres."""
    first, liner, dams = list_rubber(*make_quantities())
    assert first == "Rubber, at 1150 kg/m3:"
    assert liner == "  This liner: 12.1 litres, 13.9 kg (30.6 lb)."
    strip = "2.8 m of strip if none serves twice"
    assert dams == f"  Dams: set 2 times, {strip}, 3.5 h of setting."


def test_a_second_liner_stands_beside_dams_on_this_one():
    """Rubber, price and days against settings, strip, hours and price."""
    text = " ".join(" ".join(list_rubber(*make_quantities(rubber=SECOND, prices=PRICES))).split())
    assert (
        "A second liner of 400 x 500 mm, 13 mm thick: 2.6 litres, 3.0 kg (6.6 lb), costs 35.88 "
        "crowns; it can be used after 1 day (days for the model 0, then 4 h to make and 16 h until "
        "it leaves the model)."
    ) in text
    assert "3.5 h of setting, costs 8.40 crowns." in text


def test_days_are_counted_in_the_plural():
    """Two days for the model and one for the rest."""
    rubber = replace(SECOND, model_days=2)
    text = " ".join(" ".join(list_rubber(*make_quantities(rubber=rubber))).split())
    assert "after 3 days (days for the model 2, then" in text


def test_an_inch_job_has_cubic_feet_and_feet():
    """Volume, density and strip in its units."""
    job, found = make_quantities(rubber=SECOND)
    text = " ".join(list_rubber(replace(job, units="in"), found))
    assert "at 71.8 lb/ft3" in text
    assert "0.43 ft3" in text
    assert "9 ft 2 15/64 in of strip" in text


def test_without_prices_there_are_no_costs():
    """The section is left out."""
    assert list_costs(*make_quantities()) == []


def test_costs_are_told_for_panels_and_casts():
    """Material, the liner's share, both together, and what has no price."""
    job, found = make_quantities(prices=PRICES)
    lines = list_costs(job, found)
    assert lines[0].startswith("Costs in crowns;")
    total = lines[[line.startswith("  all casts") for line in lines].index(True)].split()
    assert total[-1] == f"{float(found.cost.total):.2f}"
    assert Fraction(total[-3]) + Fraction(total[-2]) == Fraction(total[-1])
    text = " ".join(" ".join(lines).split())
    assert "Without a price, and so left out: water, dispersion, plasticiser." in text
    assert "The liner's share of a cast is 900.00 over 150 pulls." in text


def test_a_liner_without_a_price_has_no_share():
    """A dash stands for what is not known."""
    job, found = make_quantities(prices=replace(PRICES, liner=None, pulls=None))
    last = next(line for line in list_costs(job, found) if line.startswith("  all casts"))
    assert last.split()[-2] == "-"
