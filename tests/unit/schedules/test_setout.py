"""The set-out: positions from the datum, in decimals and, in an inch job, in fractions."""

from dataclasses import replace

import pytest
from ferry import (
    INCH,
    MM,
    make_drum_job,
    make_drum_schedule,
    make_ferry_job,
    make_ferry_schedule,
)

from nesting.schedules.setout import list_set_out, rounding_words, write_length, write_size


def rows(lines):
    """Return the cells of each line, parted by two spaces or more."""
    return [[cell.strip() for cell in line.split("  ") if cell.strip()] for line in lines]


def test_lengths_are_written_in_the_units_of_the_job():
    """1612.9 mm is 63.5 in, and a position off the grid keeps its decimals."""
    assert write_length(12_903_200, "mm") == "1612.9"
    assert write_length(12_903_200, "in") == "63.5"
    assert write_length(MM + 2_000, "mm") == "1.25"
    assert write_size(60 * INCH, INCH // 64, "in") == "60 x 0.0156"


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
        "1749.286",
        "left, bottom",
        "heron",
    ]


def test_inch_jobs_show_each_face_in_decimals_and_in_fractions():
    """59.8755 in stands over 59 7/8 in with what remains beyond it."""
    dams = rows(list_set_out(make_drum_job(), make_drum_schedule().layouts[0]))[1:3]
    assert dams[0][:4] == ["dam 1", "decimal", "59.8755", "60.8755"]
    assert dams[1][:3] == ["fraction", "59 7/8 in (+0.01 mm)", "60 7/8 in (+0.01 mm)"]


def test_no_ornament_leaves_the_clearance_blank():
    """A liner without ornament has no clearance to state."""
    dams = rows(list_set_out(make_drum_job(), make_drum_schedule().layouts[0]))[1]
    assert dams[-2:] == ["-", "-"]


def test_a_turned_panel_is_marked():
    """A panel turned half round says so beside its mark."""
    layout = make_ferry_schedule().layouts[0]
    turned = replace(layout, panels=(replace(layout.panels[0], turned=True),))
    assert rows(list_set_out(make_ferry_job(), turned))[-1][0] == "A1 (turned)"


@pytest.mark.parametrize(
    ("steps", "units", "words"),
    [
        ((8000, 8), "mm", ""),
        ((8000, 4), "mm", " rounded to 0.001"),
        ((203_200, 12_700), "in", ""),
        ((203_200, 8000), "in", " rounded to 0.0001"),
        ((), "mm", ""),
    ],
)
def test_what_is_rounded_says_so(steps, units, words):
    """A figure that has more places than are written is never silently rounded."""
    assert rounding_words(steps, units) == words
