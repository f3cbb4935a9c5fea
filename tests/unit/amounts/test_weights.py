"""What panels weigh: by hand on the hand-sized job, and by laws."""

from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_schedule
from quantityjobs import make_job

from nesting.amounts.weights import (
    Weight,
    added_volume,
    list_panels,
    relief_volume,
    sum_weights,
    weigh_layout,
    weigh_order,
    weigh_panel,
)
from nesting.errors import InputErrors
from nesting.values.bed import Bed
from nesting.values.bend import bend_of
from nesting.values.material import Material


def weigh(job):
    """Return panel A1 of the hand-sized schedule, weighed."""
    layout = hand_schedule().layouts[0]
    return weigh_panel(job, layout.panels[0], layout.bed)


def on_bed(form):
    """Return the job on a curved bed."""
    bed = Bed("table", form, 3000 * MM) if form != "flat" else Bed("table")
    return replace(make_job(), beds=(bed,))


def test_a_panel_weighs_what_a_pencil_says():
    """800 x 650 mm, 20 mm with 4 of face coat, a boss of 220 x 400 x 9 mm half filled."""
    panel = weigh(make_job())
    assert panel.face_area == Fraction("0.52")
    assert panel.weight.face_wet == Fraction("0.52") * Fraction("0.004") * 2000
    boss = Fraction("0.088") * Fraction("0.009") / 2
    assert panel.weight.backing_wet == (Fraction("0.52") * Fraction("0.016") + boss) * 2000
    assert panel.weight.wet == panel.weight.face_wet + panel.weight.backing_wet
    assert panel.weight.heaviest == panel.weight.wet > panel.weight.cured
    assert (panel.mark, panel.shows, panel.thickness) == ("A1", ("heron",), 20 * MM)


def test_a_boss_and_a_hollow_of_equal_volume_cancel():
    """What one adds the other takes, to the last digit."""
    boss, hollow, plain = (
        weigh(make_job("boss")),
        weigh(make_job("hollow")),
        weigh(make_job(relief=0)),
    )
    assert boss.weight.wet > plain.weight.wet > hollow.weight.wet
    assert boss.weight.wet + hollow.weight.wet == 2 * plain.weight.wet
    assert boss.weight.cured + hollow.weight.cured == 2 * plain.weight.cured


def test_a_relief_not_stated_is_on_the_safe_side_of_both():
    """It adds weight like a boss and takes thickness like a hollow."""
    unstated = weigh(make_job(""))
    assert unstated.weight == weigh(make_job("boss")).weight
    assert unstated.least == weigh(make_job("hollow")).least == 11 * MM
    assert unstated.deepest == "heron"
    assert (weigh(make_job("boss")).least, weigh(make_job("boss")).deepest) == (20 * MM, "")


def test_fill_says_how_much_of_the_relief_there_is():
    """A block is twice a half, and a back that follows the relief adds nothing."""
    job = make_job(fill=Fraction(1))
    assert relief_volume(job.liner.ornaments[0]) == Fraction("0.088") * Fraction("0.009")
    half = make_job().liner.ornaments[0]
    assert 2 * added_volume(half) == added_volume(job.liner.ornaments[0])
    assert weigh(make_job(fill=Fraction(0))).weight == weigh(make_job(relief=0)).weight


@pytest.mark.parametrize("form", ["flat", "convex", "concave"])
def test_the_face_area_is_the_true_one(form):
    """Flat area on a flat bed, and the face's own length on a curved one."""
    job = on_bed(form)
    panel, bend = weigh(job), bend_of(job, job.beds[0].name)
    length = bend.ordered_length(800 * MM, job.beds[0].curved_axis)
    assert float(panel.face_area) == pytest.approx(length * 650 * MM / (1000 * MM) ** 2, rel=1e-7)
    assert (bend.face_ratio > 1) == (form == "convex")


@pytest.mark.parametrize("form", ["flat", "convex", "concave"])
def test_twice_the_backing_is_twice_the_backing(form):
    """Without relief, doubling the backing's thickness doubles its mass and no other."""
    job = replace(on_bed(form), liner=make_job(relief=0).liner)
    once, twice = (
        weigh(
            replace(
                job, materials=replace(job.materials, panel=Material(thick * MM, 4 * MM, 10 * MM))
            )
        ).weight
        for thick in (14, 24)
    )
    assert twice.backing_wet == 2 * once.backing_wet
    assert twice.backing_cured == 2 * once.backing_cured
    assert twice.face_wet == once.face_wet


def test_a_panel_has_its_own_thickness_first():
    """That of the material is for panels without one."""
    job = change_panel(make_job(), "A1", thickness=30 * MM)
    assert job.thickness_of(job.panel("A1")) == weigh(job).thickness == 30 * MM
    assert job.thickness_of(job.panel("B1")) == 20 * MM


def test_weights_add_up():
    """Sums and multiples go part by part; nothing weighs nothing."""
    one = Weight(Fraction(1), Fraction(2), Fraction(3), Fraction(4))
    assert sum_weights([one, one, one]) == one.times(3)
    assert sum_weights([]) == one.times(0) == Weight()
    assert (one.wet, one.cured, one.heaviest) == (3, 7, 7)


def test_panels_that_are_alike_share_a_row():
    """Pieces count repeats, rows keep the order of the job, and layouts are named once."""
    job, schedule = make_job(), hand_schedule()
    first = replace(schedule.layouts[0], repeats=3)
    schedule = replace(schedule, layouts=(schedule.layouts[1], first))
    weighed = weigh_order(job, schedule)
    rows = list_panels(job, schedule, weighed)
    assert [(row.panel.mark, row.pieces, row.layouts) for row in rows] == [
        ("A1", 3, (1,)),
        ("B1", 3, (1,)),
        ("C1", 1, (2,)),
    ]
    assert weighed[1] == weigh_layout(job, first)


def test_panels_that_are_too_thin_are_told_together():
    """A face coat as thick as the panel, and a hollow through it, each with what to do."""
    job = change_panel(make_job("hollow", 25), "A1", thickness=4 * MM)
    with pytest.raises(InputErrors) as refused:
        weigh_order(job, hand_schedule())
    first, second = str(refused.value).splitlines()
    assert first == (
        "Panel 'A1': thickness must be > 4 mm, the face coat's, got 4 mm; "
        "give the panel a greater thickness, or [material] a thinner face_coat."
    )
    assert second == (
        "Panel 'C1': thickness must be > 25 mm, the relief of hollow 'heron', got 20 mm; "
        "give the panel a greater thickness."
    )
