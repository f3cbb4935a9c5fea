"""Ratios, batches and days as text."""

from dataclasses import replace
from fractions import Fraction

from handjob import hand_schedule
from quantityjobs import make_quantities

from nesting.amounts.mixreport import batch_table, day_table, list_ratios
from nesting.amounts.quantities import reckon_quantities
from nesting.masses import KG_PER_LB
from nesting.values.material import INGREDIENTS, USUAL


def test_both_mixes_are_told_by_weight():
    """All the water, and what of it the dispersion brings."""
    job, _ = make_quantities()
    text = " ".join(" ".join(list_ratios(job)).split())
    assert (
        "Backing: cement 1, sand 1, water 0.32 in all, of it 0.05 in the dispersion, dispersion "
        "0.1 (50 % solids), plasticiser 0.01, pigment 0, fibre 5 % of the whole."
    ) in text


def test_every_cast_has_its_batches():
    """A row for each mix of each layout, whose cells add up to the batch."""
    job, found = make_quantities()
    rows = [line.split() for line in batch_table(job, found).told if " face coat " in line]
    assert [cells[0] for cells in rows] == ["1", "2"]
    weights = [Fraction(cell) for cell in rows[0][4:12]]
    assert sum(weights[:-1]) == weights[-1] == found.casts[0].face.one
    assert rows[0][-1] == f"{float(found.casts[0].face.water_cement):.3f}"
    title = " ".join(batch_table(job, found).told[:2])
    assert "5 % for overspray and 5 % for loss" in title
    assert "the mixer takes 60 kg" in title


def test_a_layer_of_nothing_has_no_row():
    """Without a face coat only the backing is batched."""
    job, _ = make_quantities()
    panel = replace(job.materials.panel, face_coat=0)
    job = replace(job, materials=replace(job.materials, panel=panel))
    lines = batch_table(job, reckon_quantities(job, hand_schedule())).told
    assert not any(" face coat " in line for line in lines)
    assert sum(" backing " in line for line in lines) == 2


def test_all_days_are_the_order():
    """The last row is the sum of the rows above it."""
    job, found = make_quantities()
    lines = day_table(job, found).told
    *days, total = [line.split() for line in lines[2:]]
    assert total[:2] == ["all", "days"]
    for place in range(len(INGREDIENTS) + 1):
        cells = [Fraction(day[3 + place]) for day in days]
        assert sum(cells) == Fraction(total[3 + place])


def test_decimals_are_those_of_the_scale():
    """A scale of 5 g shows three, one of a whole kilogram none, one of an ounce four in kg."""
    for scale, decimals in (("0.005", 3), ("0.5", 1)):
        batch = replace(USUAL.batch, scale=Fraction(scale))
        job, found = make_quantities(batch=batch)
        cell = day_table(job, found).told[-1].split()[-1]
        assert len(cell.partition(".")[2]) == decimals
    batch = replace(USUAL.batch, scale=KG_PER_LB / 16)
    assert day_table(*make_quantities(batch=batch)).told[-1].split()[-1][-5] == "."
