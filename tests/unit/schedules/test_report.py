"""The report: every figure a person acts on is there, and says what it is."""

from dataclasses import replace

import pytest
from ferry import (
    MM,
    make_drum_job,
    make_drum_schedule,
    make_ferry_job,
    make_ferry_schedule,
    make_unproved_schedule,
)

from nesting.files.columns import WIDTH
from nesting.schedules.report import (
    report_schedule,
    sum_areas,
    write_back,
    write_proof,
    write_result,
)
from nesting.values.bed import Bed
from nesting.values.casts import Layout, Proof


def ferry_report():
    """Return the report of the ferry job."""
    return report_schedule(make_ferry_job(), make_ferry_schedule())


def squeeze(line):
    """Return the words of a line with one space between them."""
    return " ".join(line.split())


def test_the_first_line_gives_casts_bound_and_proved():
    """The first line is the result, and PROVED stands in it when bound and casts meet."""
    assert ferry_report().splitlines()[0] == (
        "Ferry terminal, waiting hall: 7 casts, 1 set of dams, 1 layout; at least 7 needed; "
        "fewest casts PROVED."
    )


def test_a_bound_below_the_casts_is_not_proved():
    """Where the bound stays below the casts the result says NOT PROVED."""
    assert write_result(make_unproved_schedule()).endswith(
        "7 casts, 1 set of dams, 1 layout; at least 6 needed; fewest casts NOT PROVED."
    )


def test_notes_stand_right_after_the_result():
    """What the reader must know comes before any table."""
    report = report_schedule(make_ferry_job(), make_unproved_schedule())
    assert report.splitlines()[2] == "Note: The time limit of 2 s was reached."


def layout_row(report, number):
    """Return the row of a layout in the table of layouts."""
    return next(line for line in report.splitlines() if line.startswith(f"       {number} "))


def test_the_table_of_layouts_has_a_row_per_layout():
    """A layout's row holds its casts, bed, panels, dams, dam length and idle share."""
    row = layout_row(ferry_report(), 1).split()
    assert row == ["1", "7", "table", "A1", "2", "2425", "53.1", "%"]


def test_panels_that_repeat_in_a_cast_are_counted():
    """Two panels of one mark in a cast are written once with their number."""
    schedule = make_ferry_schedule()
    layout = schedule.layouts[0]
    double = replace(layout, panels=layout.panels * 2)
    report = report_schedule(make_ferry_job(), replace(schedule, layouts=(double,)))
    assert "2 x A1" in report


def test_areas_are_accounted_per_cast_and_in_total():
    """1530000 mm2 idle in one cast of 2880000 are 1.53 m2, and seven times that in all."""
    lines = ferry_report().splitlines()
    start = lines.index("Areas in m2 (liner = panels + dams + masked; idle = dams + masked):")
    assert squeeze(lines[start + 2]) == "1, each cast 7 2.8800 1.3500 0.0606 1.4694 1.5300 53.1 %"
    assert squeeze(lines[start + 3]) == "all casts 7 20.1600 9.4500 0.4244 10.2856 10.7100 53.1 %"


def test_total_areas_are_conserved():
    """Over all casts liner = panels + dams + masked, in whole square steps."""
    areas = sum_areas(make_ferry_schedule())
    assert areas.liner == areas.panels + areas.dams + areas.masked == 20_160_000 * MM * MM


def test_inch_jobs_are_accounted_in_square_feet():
    """A liner of 8 by 4 ft is 32 square feet."""
    report = report_schedule(make_drum_job(), make_drum_schedule())
    assert "Areas in ft2" in report
    assert "1, each cast      2  32.0000" in report


def test_the_least_clearance_names_its_dam():
    """The dam nearest to ornament is named with the distance and the rule."""
    assert (
        "Least clearance from ornament: 50 mm, at dam 2 of layout 1; "
        "the job asks for at least 6 mm."
    ) in ferry_report()


def test_without_ornament_there_is_no_clearance_to_state():
    """A liner without ornament says so instead of a number."""
    report = report_schedule(make_drum_job(), make_drum_schedule())
    assert "Least clearance from ornament: no dam lies beside an ornament." in report


def test_sizes_as_ordered_need_no_table():
    """On a flat bed the flat size is the size ordered, and nothing is said about it."""
    assert "otherwise than ordered" not in ferry_report()


def test_a_curved_bed_shows_ordered_and_flat_size_per_mark():
    """60 in on a drum of 120 in is marked out as 59.8755 in, on the mark of 59 7/8 in."""
    lines = report_schedule(make_drum_job(), make_drum_schedule()).splitlines()
    start = lines.index("Sizes marked out otherwise than ordered, in inches:")
    row = squeeze(lines[start + 2])
    assert row == "B2 drum 60 x 30 face - 59 7/8 x 30 -1/8 by 0 60 3/8 scant x 30"


B2_SIZES = "60 x 30 face - 59 7/8 x 30 -1/8 by 0 60 3/8 scant x 30"


def test_decimals_stand_in_a_column_of_their_own_where_asked():
    """Of the dams' length, of each layout, of the sizes; the clearance has its own behind it."""
    job, schedule = make_drum_job(), make_drum_schedule()
    lines = [squeeze(line) for line in report_schedule(job, schedule, exact=True).splitlines()]
    assert f"B2 drum {B2_SIZES} width 59.8755" in lines
    assert len([line for line in lines if line.endswith(" exact")]) == 4
    assert "exact" not in report_schedule(job, schedule)
    ferry = report_schedule(make_ferry_job(), make_ferry_schedule(), exact=True)
    assert "Least clearance from ornament: 50 mm (50), at dam 2" in ferry


@pytest.mark.parametrize(
    ("form", "shape", "radius"),
    [("convex", "concave", "120 1/2"), ("concave", "convex", "119 1/2")],
)
def test_a_curved_bed_says_how_the_panel_face_curves(form, shape, radius):
    """The face of a panel curves the other way, half an inch of liner away from the bed."""
    job = make_drum_job()
    job = replace(job, beds=(replace(job.beds[0], form=form),))
    report = report_schedule(job, make_drum_schedule())
    assert f"panel faces are {shape}, radius {radius} in." in report


def test_plumb_ends_are_told_with_the_back_they_give():
    """A face of 60 in on 120.5 in has a back of 60.3725 in, or of 59.9922 in where it is plumb."""
    job = make_drum_job()
    plumb = replace(job, beds=(replace(job.beds[0], ends="plumb"),))
    report = report_schedule(plumb, make_drum_schedule())
    assert "Ends are plumb: face and back have one chord." in squeeze(report)
    placed = make_drum_schedule().layouts[0].panels[0]
    assert write_back(job, placed, "drum") == "60 3/8 scant x 30"
    assert write_back(plumb, placed, "drum") == "59 63/64 full x 30"
    assert write_back(make_ferry_job(), make_ferry_schedule().layouts[0].panels[0], "table") == "-"


def test_a_size_within_tolerance_shows_how_much_was_taken():
    """A panel made 2 mm narrower within its tolerance is listed with that change."""
    schedule = make_ferry_schedule()
    layout = schedule.layouts[0]
    narrow = replace(layout.panels[0], width=1498 * MM, off_nominal=(-2 * MM, 0))
    schedule = replace(schedule, layouts=(replace(layout, panels=(narrow,)),))
    report = report_schedule(make_ferry_job(), schedule)
    assert "  A1     table  1500 x 900  face" in report
    assert "-2 by 0  1498 x 900  -2 by 0" in report


def test_a_flat_bed_is_not_described_as_curved():
    """A size taken within tolerance on a flat bed brings no line about curves."""
    schedule = make_ferry_schedule()
    layout = schedule.layouts[0]
    wide = replace(layout.panels[0], width=1501 * MM, off_nominal=(MM, 0))
    schedule = replace(schedule, layouts=(replace(layout, panels=(wide,)),))
    report = report_schedule(make_ferry_job(), schedule)
    assert "+1 by 0" in report
    assert "panel faces are" not in report


def test_a_layout_that_keeps_dams_says_which_and_masks_the_rest():
    """A layout with another's dams tells to leave them and to mask the other bays."""
    schedule = make_ferry_schedule()
    first = schedule.layouts[0]
    again = Layout(2, 1, "table", first.panels, first.dams, first.areas, same_dams_as=1)
    report = report_schedule(make_ferry_job(), replace(schedule, layouts=(first, again)))
    assert "Layout 2, cast once on bed 'table':" in report
    assert "The dams stay as in layout 1; mask every bay but those of the panels listed." in report
    row = layout_row(report, 2)
    assert squeeze(row) == "2 1 table A1 as 1 - 53.1 %"
    after = report.splitlines()[report.splitlines().index(row) + 1]
    assert after.strip() == (
        "A layout with dams as in another takes masking alone and no set of dams of its own."
    )
    assert report.count("dam 2 ") == 2


def test_a_proof_can_be_followed_with_pencil_and_paper():
    """Prices, what the order comes to, the most a cast can hold, and the quotient rounded up."""
    proof = Proof("table", 4, 4, (("A1", 2), ("B1", 0), ("C1", 3)), 17, 5)
    assert write_proof(proof) == (
        "Bed 'table': give each panel points (A1 2, C1 3). The order has 17, no cast can hold "
        "more than 5, and 17 / 5 = 3.4: at least 4 casts."
    )


def test_a_bound_beyond_the_prices_says_that_fewer_casts_were_ruled_out():
    """A bound above the quotient rests on the search, and the proof says which."""
    proof = Proof("table", 5, 5, (("A1", 2),), 17, 5, method="all heavy casts listed")
    assert write_proof(proof).endswith(
        "at least 4 casts. Every set of 4 casts was then ruled out: 5 casts. "
        "How the limit is known: all heavy casts listed."
    )


def test_a_limit_shown_by_points_says_where_they_are():
    """Weights on spots of the liner can be checked one by one in the schedule file."""
    proof = Proof("table", 7, 7, (("A1", 1),), 7, 1, ((0, 0, 1),), "weights on points")
    assert write_proof(proof).endswith(
        "at least 7 casts. Weights on 1 spot of the liner show the limit (schedule.json)."
    )


def test_prices_are_shown_in_their_smallest_whole_numbers():
    """A factor common to prices and limit is taken out, and told where the file has it still."""
    proof = Proof("table", 4, 4, (("A1", 20), ("C1", 30)), 170, 50, ((0, 0, 50),))
    assert write_proof(proof) == (
        "Bed 'table': give each panel points (A1 2, C1 3). The order has 17, no cast can hold "
        "more than 5, and 17 / 5 = 3.4: at least 4 casts. "
        "Weights on 1 spot of the liner show the limit (schedule.json, there times 10)."
    )


def test_a_proof_without_prices_gives_its_bound_and_method():
    """Where nothing has a price there is no quotient to show."""
    proof = Proof("table", 1, 1, (), 0, 0, method="every order needs a cast")
    assert write_proof(proof) == "Bed 'table': at least 1 cast. every order needs a cast"


def test_running_text_is_at_most_one_line_wide():
    """No line but a table's, a heading's or the first is wider than the page."""
    proof = Proof("table", 7, 7, tuple((f"M{n}", n + 1) for n in range(60)), 7, 1)
    schedule = replace(make_ferry_schedule(), proofs=(proof,), notes=("word " * 100,))
    report = report_schedule(make_ferry_job(), schedule)
    assert max(map(len, report.splitlines()[1:])) <= WIDTH


def test_cautions_close_the_report():
    """Silica dust, wet cement and the precedence of local codes end every report."""
    ending = ferry_report().splitlines()[-2:]
    assert "silica dust" in ending[0]
    assert "wet cement" in ending[0]
    assert "Local codes and licensed practice rule" in ending[1]


def test_the_report_is_ascii_but_for_names():
    """Nothing of our own needs more than ASCII."""
    assert report_schedule(make_drum_job(), make_drum_schedule()).isascii()


def test_flat_beds_stay_unmentioned_beside_curved_ones():
    """A second, flat bed adds no line about curves."""
    job = make_drum_job()
    job = replace(job, beds=(*job.beds, Bed("table")))
    report = report_schedule(job, make_drum_schedule())
    assert report.count("panel faces are") == 1
