"""Sizes as cast in the report and on drawings: `nesting.schedules.ascast`."""

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from handjob import MM, change_panel, hand_job, hand_schedule

from nesting.drawings.masking import draw_layout
from nesting.schedules.ascast import Moved, list_cast_sizes, list_moved, note_cast_sizes
from nesting.schedules.report import report_schedule
from nesting.values.castsizes import AsCast, lay_liner

WARM = AsCast(
    liner_temperature=Fraction(30), measured_temperature=Fraction(20), expansion=Fraction(1, 10_000)
)
COLD = replace(WARM, liner_temperature=Fraction(10))


def lying(as_cast, **changes):
    """Return the hand-sized job with the liner as it lies now."""
    job = replace(hand_job(), **changes)
    as_cast = replace(as_cast, drawn=job.liner)
    return replace(job, liner=lay_liner(job.liner, as_cast), as_cast=as_cast)


def tolerant(job, mm=(-3, 3)):
    """Return the job with one tolerance for all its panels."""
    limits = tuple(round(limit * MM) for limit in mm)
    return replace(job, panels=tuple(replace(each, tolerance=limits) for each in job.panels))


def test_nothing_is_said_where_nothing_is_corrected():
    """Neither in the report nor on a drawing, nor where both temperatures are the same."""
    same = replace(WARM, measured_temperature=Fraction(30))
    for as_cast in (AsCast(), same):
        assert list_cast_sizes(lying(as_cast)) == []
        assert note_cast_sizes(as_cast, "mm") == []


def test_the_report_says_what_the_liner_measures_now():
    """The factor, why it is so, and both sizes."""
    job = lying(AsCast(liner_shrink=Fraction(1, 1000)))
    assert list_cast_sizes(job) == [
        "Sizes as cast, in millimetres:",
        "  The liner is 0.9990 of its drawing: shrunk by 0.1 %.",
        "  Drawn 1200 mm by 800 mm, it now measures 1199 mm scant by 799 mm full in length and "
        "width.",
    ]


def test_an_inch_job_has_fractions_and_fahrenheit_beside():
    """Lengths as the shop's own tape reads them."""
    job = tolerant(lying(WARM, units="in"), (-99, 99))
    assert " ".join(line.strip() for line in list_cast_sizes(job)) == (
        "Sizes as cast, in inches: "
        "The liner is 1.0010 of its drawing: at 30 C (86 F), measured at 20 C (68 F), growing by "
        "0.0001 per degree C. "
        "Drawn 47 1/4 in scant by 31 1/2 in scant, it now measures "
        "47 19/64 in scant by 31 17/32 in scant in length and width."
    )


def test_panels_that_shrink_are_listed_with_the_size_they_are_cast_at():
    """And by how much larger that is; nothing is said of a liner as drawn."""
    job = lying(AsCast(panel_shrink=Fraction(1, 101)))
    _, title, *table = list_cast_sizes(job)
    assert title == "  Panels shrink by 0.9901 % once cast, so each is cast larger by that:"
    assert [re.split("  +", line.strip()) for line in table] == [
        ["panel", "ordered", "as cast", "larger by"],
        ["A1", "800 x 650", "808 x 657 scant", "+8 by +6.5"],
        ["B1", "375 x 800", "379 scant x 808", "+3.75 by +8"],
        ["C1", "1200 x 650", "1212 x 657 scant", "+12 by +6.5"],
    ]


@pytest.mark.parametrize("as_cast", [WARM, COLD])
def test_a_side_moved_by_more_than_a_quarter_of_its_tolerance_is_warned_of(as_cast):
    """Ten degrees either way move 1 mm in 1000; a quarter of 3 mm is 0.75 mm."""
    assert list_moved(tolerant(lying(as_cast))) == [
        Moved("A1", "width", 800 * MM, round(0.8 * MM), 3 * MM),
        Moved("B1", "height", 800 * MM, round(0.8 * MM), 3 * MM),
        Moved("C1", "width", 1200 * MM, round(1.2 * MM), 3 * MM),
    ]


def test_a_quarter_of_the_tolerance_itself_is_let_pass():
    """0.8 mm of 3.2 mm are no more than a quarter; a step less tolerance is warned of."""
    job = lying(WARM, panels=(hand_job().panels[0],))
    assert list_moved(tolerant(job, (-3.2, 3.2))) == []
    (moved,) = list_moved(change_panel(job, "A1", tolerance=(1 - round(3.2 * MM), 4 * MM)))[:1]
    assert (moved.side, moved.tolerance) == ("width", round(3.2 * MM) - 1)


def test_width_and_height_have_their_own_limits():
    """As a tolerance class gives them; the narrower limit of a side counts."""
    job = lying(WARM, panels=(hand_job().panels[0],))
    limits = {"tolerance": (-9 * MM, 4 * MM), "tolerance_height": (-MM, 9 * MM)}
    (moved,) = list_moved(change_panel(job, "A1", **limits))
    assert (moved.side, moved.tolerance) == ("height", MM)


def test_a_size_without_tolerance_is_warned_of_at_any_difference():
    """Nothing is a quarter of nothing."""
    assert len(list_moved(lying(WARM))) == 6
    assert list_moved(lying(AsCast(liner_shrink=Fraction(1, 1000)))) == []


def test_the_warning_gives_every_figure_and_what_to_do():
    """Difference, temperature to keep, and for each side its move, tolerance and quarter."""
    lines = list_cast_sizes(tolerant(lying(COLD)))
    assert lines[3:5] == [
        "  Warning: 10 degrees C move these sizes by more than a quarter of their tolerance. Mark "
        "out and",
        "    cast at 10 C, or plan anew for the temperature of the day.",
    ]
    assert [line.split() for line in lines[5:]] == [
        ["panel", "side", "ordered", "moves", "by", "tolerance", "a", "quarter"],
        ["A1", "width", "800", "0.8", "3", "0.75"],
        ["B1", "height", "800", "0.8", "3", "0.75"],
        ["C1", "width", "1200", "1.2", "3", "0.75"],
    ]


def test_warmth_that_makes_up_for_shrinkage_is_still_warned_of():
    """The liner is as drawn today, and another day it is not."""
    job = lying(replace(WARM, liner_shrink=1 - 1 / WARM.factor))
    text = "\n".join(list_cast_sizes(tolerant(job)))
    assert "The liner is 1.0000 of its drawing: shrunk by 0.0999 %; at 30 C" in text
    assert "Warning: 10 degrees C" in text


def test_a_drawing_says_that_its_figures_are_not_those_of_the_liners_drawing():
    """One line for the liner, one for the panels, each only where it applies."""
    everything = replace(WARM, liner_shrink=Fraction(2, 1000), panel_shrink=Fraction(1, 2000))
    assert note_cast_sizes(everything, "mm") == [
        "Figures are for the liner as it lies now, at 30 C: 0.998998 of its drawing.",
        "Panels are cast larger, as they shrink by 0.05 %.",
    ]
    assert note_cast_sizes(WARM, "in") == [
        "Figures are for the liner as it lies now, at 30 C (86 F): 1.0010 of its drawing."
    ]
    assert note_cast_sizes(AsCast(panel_shrink=Fraction(1, 2000)), "mm") == [
        "Panels are cast larger, as they shrink by 0.05 %."
    ]


def test_report_and_drawing_hold_them():
    """The passage stands in the report, the note in the key of every masking layout."""
    job, schedule = lying(AsCast(liner_shrink=Fraction(2, 1000))), hand_schedule()
    assert "\n\nSizes as cast, in millimetres:\n" in report_schedule(job, schedule)
    assert "Sizes as cast" not in report_schedule(hand_job(), schedule)
    for layout in schedule.layouts:
        words = " ".join(text.words for text in draw_layout(job, schedule, layout).texts)
        assert "Figures are for the liner as it lies now: 0.9980 of its drawing." in words
