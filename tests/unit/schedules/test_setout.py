"""The set-out: positions from the datum, as the tape of the job reads them."""

from dataclasses import replace

from ferry import (
    INCH,
    MM,
    SIXTEENTH,
    make_drum_job,
    make_drum_schedule,
    make_ferry_job,
    make_ferry_schedule,
)

from nesting.schedules.setout import (
    explain_figures,
    list_set_out,
    order_words,
    ordered_size,
    placed_size,
    write_length,
    write_size,
)
from nesting.values.casts import Placement, Sides


def rows(lines):
    """Return the cells of each line, parted by two spaces or more."""
    return [[cell.strip() for cell in line.split("  ") if cell.strip()] for line in lines]


def test_without_a_job_lengths_are_written_as_they_are_stated():
    """1612.9 mm is 63 1/2 in."""
    assert write_length(12_903_200, "mm") == "1612.9"
    assert write_length(12_903_200, "in") == "63 1/2"
    assert write_size(60 * INCH, INCH // 64, "in") == "60 x 1/64"


def test_every_dam_is_given_by_its_four_faces():
    """A dam's faces are measured from the datum; its cut length and width stand beside them."""
    dams = rows(list_set_out(make_ferry_job(), make_ferry_schedule().layouts[0]))[1:3]
    assert dams == [
        ["dam 1", "1500", "1525", "0", "900", "900", "25", "980", "east, north"],
        ["dam 2", "0", "1525", "900", "925", "1525", "25", "50", "east, north"],
    ]


def test_every_panel_is_given_by_its_corners_and_rim_sides():
    """A panel's row holds its faces, its flat size, the sides on the rim and what it shows."""
    panel = rows(list_set_out(make_ferry_job(), make_ferry_schedule().layouts[0]))[-1]
    assert panel == [
        "A1",
        "0",
        "1500",
        "0",
        "900",
        "1500 x 900",
        "1749 full",
        "left, bottom",
        "heron",
    ]


def test_decimals_stand_in_a_column_of_their_own_for_whoever_asks():
    """59 7/8 in is within what a tape shows; its decimals follow where they are asked for."""
    job, layout = make_drum_job(), make_drum_schedule().layouts[0]
    assert rows(list_set_out(job, layout))[1][:3] == ["dam 1", "59 7/8", "60 7/8"]
    head, dam, *_ = rows(list_set_out(job, layout, exact=True))
    assert head[-1] == "exact"
    assert dam[-1] == "left 59.8755, right 60.8755"


def test_no_ornament_leaves_the_clearance_blank():
    """A liner without ornament has no clearance to state."""
    dams = rows(list_set_out(make_drum_job(), make_drum_schedule().layouts[0]))[1]
    assert dams[-2:] == ["-", "-"]


def test_a_turned_panel_is_marked():
    """A panel turned half round says so beside its mark."""
    layout = make_ferry_schedule().layouts[0]
    turned = replace(layout, panels=(replace(layout.panels[0], turned=True),))
    assert rows(list_set_out(make_ferry_job(), turned))[-1][0] == "A1 (turned)"


def test_a_size_is_written_as_ordered_only_where_it_is_the_size_ordered():
    """Feet stay feet; a flat size that differs in one side is told by the tape on both."""
    job = make_drum_job()
    panel = replace(job.panels[0], in_feet=(True, False))
    job = replace(job, panels=(panel,))
    as_is = Placement(panel.mark, 0, 0, panel.width, panel.height, Sides(*["edge"] * 4))
    assert ordered_size(job, panel) == placed_size(job, as_is) == "5 ft x 30 in"
    assert order_words(job, panel) == "5 ft x 30 in"
    assert placed_size(job, replace(as_is, width=panel.width - SIXTEENTH)) == "59 15/16 x 30"


def test_an_order_in_mm_is_quoted_with_its_decimals():
    """1200.5 mm as ordered is not a whole number of mm."""
    job = make_ferry_job()
    panel = replace(job.panels[0], width=1200 * MM + 4000)
    assert ordered_size(job, panel) == "1200.5 x 900"
    assert order_words(job, panel) == "1200.5 x 900 mm"


def test_full_and_scant_are_explained_for_a_layout_that_has_them():
    """The drum's first dam begins beside a mark; the ferry job's figures are all whole."""
    assert explain_figures(make_drum_job(), make_drum_schedule().layouts[0]) == ""
    layout = make_ferry_schedule().layouts[0]
    assert explain_figures(make_ferry_job(), layout) == ""
    moved = replace(layout, dams=(replace(layout.dams[0], x=1500 * MM + 800),))
    assert explain_figures(make_ferry_job(), moved)
