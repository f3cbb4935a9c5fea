"""What is done and measured on a bed once the liner lies on it."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, hand_job, hand_schedule

from nesting.schedules.onbed import (
    bed_measures,
    list_bed_tasks,
    measure_panels,
    note_bed,
    say_where_it_lies,
    taped_words,
)
from nesting.values.bed import Bed
from nesting.values.castsizes import AsCast
from nesting.values.job import DamStock

DRUM = Bed("table", "convex", 1000 * MM, neutral=Fraction(0))


def bed_job(**changes):
    """Return the hand-sized job on a drum of 1000 mm, its liner 13 mm thick with a stiff back."""
    return replace(hand_job(), beds=(replace(DRUM, **changes),))


def first_layout(**changes):
    """Return the first layout of the hand-sized job, changed."""
    return replace(hand_schedule().layouts[0], **changes)


def test_panels_measure_what_the_face_makes_of_them():
    """A1, 800 x 650 mm flat: 810.4 mm along a face of 1013 mm, its chord that of 0.8 rad."""
    first = measure_panels(bed_job(), first_layout())[0]
    assert (first.mark, first.height) == ("A1", 650 * MM)
    assert first.width / MM == pytest.approx(810.4)
    assert first.chord / MM == pytest.approx(2 * 1013 * math.sin(0.4), abs=1e-3)
    assert first.straight / MM == pytest.approx(math.hypot(first.chord / MM, 650), abs=1e-3)
    assert first.over / MM == pytest.approx(math.hypot(810.4, 650), abs=1e-3)


def test_on_the_bed_a_panel_has_not_shrunk_yet():
    """What is measured before spraying is what is cast, not what is ordered."""
    job = bed_job()
    shrinks = replace(job, as_cast=AsCast(panel_shrink=Fraction(1, 100)))
    assert measure_panels(shrinks, first_layout()) == measure_panels(job, first_layout())


def test_along_y_the_curve_takes_the_height():
    """On a bed curved along y widths stay as they are."""
    first = measure_panels(bed_job(curved_axis="y"), first_layout())[0]
    assert first.width == 800 * MM
    assert first.height / MM == pytest.approx(650 * 1.013)
    assert first.chord < first.height


def test_on_a_flat_bed_both_diagonals_are_one():
    """Nothing is bent."""
    first = measure_panels(replace(bed_job(), beds=(Bed("table"),)), first_layout())[0]
    assert first.over == first.straight == round(math.hypot(800, 650) * MM)


def test_every_panel_has_its_row():
    """In the order of the layout."""
    table = bed_measures(bed_job(), first_layout())
    assert [row[0] for row in table.rows] == ["A1", "B1"]
    assert table.head[-1] == "diagonals straight"


def test_a_tape_reads_the_diagonal_it_can_reach():
    """Over a convex bed it lies on the face, in a concave one it is drawn straight."""
    job, layout = bed_job(), first_layout()
    first = measure_panels(job, layout)[0]
    assert "diagonals over it" in taped_words(job, first, job.beds[0])
    assert "chord" in taped_words(job, first, replace(job.beds[0], form="concave"))


def test_the_liner_lies_in_the_middle_of_its_bed():
    """1200 x 800 mm on 1300 x 900 mm: 50 mm on every side, as a stiff back keeps its length."""
    job = bed_job(size=(1300 * MM, 900 * MM))
    said = (
        "its rims 50 mm from the ends of the bed along the curve (x) and 50 mm from those along y"
    )
    assert say_where_it_lies(job, job.beds[0]) == said
    flat = Bed("table", size=(1210 * MM, 800 * MM))
    assert (
        say_where_it_lies(job, flat)
        == "its rims 5 mm from the ends of the bed along x and 0 mm along y"
    )
    assert say_where_it_lies(job, DRUM) == ""


def test_on_a_curved_bed_dams_are_set_once_the_liner_lies_there():
    """Marked flat, laid, set, measured: in that turn."""
    job = bed_job(size=(1300 * MM, 900 * MM))
    mark, lay, put, measure = list_bed_tasks(job, first_layout())
    assert mark.endswith("faces of dam 1, dam 2; measure again. No dam is laid yet.")
    assert lay.startswith("Lay the liner on bed 'table', bent to it, its rims 50 mm from")
    assert put.startswith("Set dam 1, dam 2 on the marks.")
    assert put.endswith(
        "straight and square to the face, those along it bent, fixed along the foot."
    )
    assert measure.startswith("Measure every panel on the bed")


def test_cut_dams_and_plumb_ends_are_set_as_they_are():
    """The task names what the job asks for."""
    job = replace(bed_job(ends="plumb"), dams=DamStock(on_curve="cut"))
    put = list_bed_tasks(job, first_layout())[2]
    assert put.endswith("those along it cut to it, their ends trimmed to what leans.")


def test_on_a_flat_bed_dams_are_laid_first():
    """A flat liner is carried to its bed with its dams."""
    lay, bed = list_bed_tasks(replace(bed_job(), beds=(Bed("table"),)), first_layout())
    assert "lay dam 1, dam 2; measure again" in lay
    assert bed == "Lay the liner on bed 'table'."


def test_dams_that_stay_are_measured_again():
    """The liner stays bent; without dams nothing is marked."""
    (stay,) = list_bed_tasks(bed_job(), first_layout(same_dams_as=3))
    assert stay == (
        "Leave the dams of layout 3 where they lie, the liner on bed 'table'. Measure again on the "
        "bed."
    )
    bare, lay = list_bed_tasks(bed_job(), first_layout(dams=()))
    assert (bare, lay) == (
        "Clean the liner and look it over.",
        "Lay the liner on bed 'table', bent to it.",
    )


def test_a_drawing_says_what_is_flat_and_where_the_liner_lies():
    """Of a flat bed it says where the liner lies, and nothing where that is not known."""
    job = bed_job(size=(1300 * MM, 900 * MM))
    flat, lies = note_bed(job, first_layout())
    assert "dams are set once it lies on bed table" in flat
    assert lies.startswith("The liner lies on the bed with its rims 50 mm from")
    assert note_bed(replace(job, beds=(Bed("table"),)), first_layout()) == []
    table = Bed("table", size=(1210 * MM, 800 * MM))
    (lies,) = note_bed(replace(job, beds=(table,)), first_layout())
    assert lies.endswith("its rims 5 mm from the ends of the bed along x and 0 mm along y.")
