"""The strips of a job as text."""

from dataclasses import replace
from fractions import Fraction

from calendarjobs import make_calendar
from handjob import MM
from stripjobs import lay, strip_job, strip_schedule, three_sets

from nesting.strips.plan import plan_strips
from nesting.strips.report import (
    NO_STOCK,
    cut_table,
    report_strips,
    reset_table,
    sawn_table,
    say_way,
    strip_table,
    tell_cuts,
    tell_reset,
    write_result,
)
from nesting.values.bed import Bed


def plan(**values):
    """Return (job, plan) of the three sets."""
    job = strip_job(**values)
    return job, plan_strips(job, three_sets())


def test_the_result_counts_dams_strips_and_stock():
    """Eight dams in three sets come from four strips of one length."""
    _, found = plan()
    assert write_result(found) == (
        "Bath house, foyer: 8 dams in 3 sets of dams from 4 strips; 1 length of stock, fewest "
        "PROVED."
    )


def test_a_strip_tells_every_dam_it_is():
    """Layout by layout, and what it does there; with exact lengths where asked for."""
    job, found = plan()
    rows = strip_table(job, found, exact=True).rows
    assert rows[1] == [
        "2", "700", "25", "19", "layout 1: dam 2; layout 2: dam 2, moves; layout 3: dam 2, moves",
        "-",
    ]  # fmt: skip
    assert rows[2][4] == "layout 1: dam 3; layout 3: dam 1, from store"


def test_the_cut_plan_names_stock_and_strips():
    """What is left over is after the last cut."""
    job, found = plan()
    (section,) = found.cuts
    table = cut_table(job, section)
    assert table.title == "Cut from stock 25 x 19 mm, each cut takes 3 mm:"
    assert table.rows == [["1", "2440", "1: 800, 2: 700, 4: 400, 3: 300", "228"]]


def test_the_proof_adds_lengths_up_where_that_is_enough():
    """The strips with their cuts against what one length holds."""
    job, found = plan()
    assert tell_cuts(job, found.cuts[0]) == (
        "1 length of stock, fewest PROVED: the strips with a cut each come to 2212 mm, and a "
        "length of 2440 mm holds 2443 mm of that. In total 2440 mm."
    )


def test_the_proof_gives_points_where_lengths_are_not_enough():
    """Three strips over half a length share none, however short all are in total."""
    job = strip_job(stock=(1000, 1300), kerf=0)
    schedule = strip_schedule(lay(1, (0, 0, 25, 700), (100, 0, 25, 690), (200, 0, 25, 680)))
    (section,) = plan_strips(job, schedule).cuts
    assert tell_cuts(job, section) == (
        "3 lengths of stock, fewest PROVED: give every strip points by its length (700 mm 1, 690 "
        "mm 1, 680 mm 1), 3 in all; no length of 1300 mm holds strips of more than 1. In total "
        "3000 mm, least with 3 lengths PROVED."
    )


def test_without_stock_it_is_told_how_to_get_a_cut_plan():
    """The list of strips is there all the same."""
    job, found = plan(stock=())
    text = report_strips(job, found)
    assert NO_STOCK in text
    assert "Strips to cut, lengths in mm" in text


def test_a_re_set_counts_what_becomes_of_its_dams():
    """In words, and strip by strip with the faces of the new place."""
    job, found = plan()
    first = found.resets[0]
    assert tell_reset(found, first) == (
        "Re-set 1: layout 1 to layout 2, for cast 3; 1 stays, 1 moves, 1 goes to the store, 1 is "
        "new."
    )
    assert reset_table(job, first).rows == [
        ["1", "stays", "dam 1", "dam 1", "0", "800", "650", "675"],
        ["2", "moves 200 right", "dam 2", "dam 2", "1000", "1025", "0", "700"],
        ["3", "goes", "dam 3", "-", "-", "-", "-", "-"],
        ["4", "cut new", "-", "dam 3", "500", "525", "0", "400"],
    ]


def test_a_way_is_told_by_the_lower_left_corner():
    """To the right or left, up or down, and whether the dam is turned."""
    one, two, three = lay(1, (0, 9, 25, 300), (5, 0, 25, 300), (5, 0, 300, 25)).dams
    job = strip_job()
    assert say_way(job, one, two) == "5 right, 9 down"
    assert say_way(job, two, one) == "5 left, 9 up"
    assert say_way(job, two, three) == "turned"


def test_several_liners_are_told_apart():
    """In the list and in every re-set."""
    job, schedule, calendar = make_calendar(
        rows=((1, "table", None), (1, "table", None), (1, "table", None)), liners=2
    )
    found = plan_strips(job, schedule, calendar)
    assert all("(liner " in row[4] for row in strip_table(job, found).rows)
    assert all(f", liner {each.after.liner}: " in tell_reset(found, each) for each in found.resets)


def test_dams_sawn_from_sheet_are_listed_apart():
    """With their parts where they are longer than the sheet."""
    bed = Bed("table", "convex", 3000 * MM, "x", Fraction(1, 2))
    job = replace(strip_job(stock=(500,), on_curve="cut"), beds=(bed,))
    found = plan_strips(job, strip_schedule(lay(1, (0, 0, 800, 25))))
    ((number, foot, _, _, parts, uses),) = sawn_table(job, found).rows
    assert (number, foot, uses) == ("1", "802 scant", "layout 1: dam 1")
    assert len(parts.split(" + ")) == 2
    assert "and 1 dam sawn from sheet" in write_result(found)
