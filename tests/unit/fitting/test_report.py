"""The answer to a size, as text and as a record."""

import re
from dataclasses import replace

import pytest
from handjob import MM, hand_job

from nesting.fitting.answer import fit_size
from nesting.fitting.report import fit_record, reason, report_fit
from nesting.maps.ground import survey
from nesting.values.bend import bend_of
from nesting.values.panels import Panel
from nesting.values.tolerances import class_limits

JOB = hand_job()
GROUND = survey(JOB.liner, JOB.rules)


def fit(width, height, **wants):
    """Return the answer for a size in mm."""
    panel = Panel("P", width * MM, height * MM, 1, "table", **wants)
    return fit_size(GROUND, panel, bend_of(JOB, "table"))


def test_a_size_that_fits_is_told_with_its_place_and_its_dams():
    """Place, what it shows, room, clearance, idle area, and the dams by their faces."""
    assert report_fit(JOB, fit(800, 650)).splitlines() == [
        "Liner 'reeds', bed 'table', 800 x 650 mm: fits.",
        "  Marked out flat 800 x 650 mm, lower left corner at x 0 mm, y 0 mm; its left and bottom "
        "sides lie on the rim; shows heron.",
        "  Room to shift: left 0 mm, right 0 mm, down 0 mm, up 0 mm; least clearance from ornament "
        "50 mm.",
        "  Idle: 45.8 % of the liner.",
        "  dam    left  right  bottom  top  length  width  clearance  blank zones",
        "  dam 1   800    825       0  650     650     25        280  east, north",
        "  dam 2     0    825     650  675     825     25         50  east, north",
    ]


def test_a_size_that_does_not_fit_is_told_why_and_what_would():
    """Reason, nearest sizes, smallest change."""
    assert report_fit(JOB, fit(850, 650)).splitlines() == [
        "Liner 'reeds', bed 'table', 850 x 650 mm: does not fit.",
        "  It is 15 mm too wide where it would come nearest to lying: grown to the right, its "
        "right dam would lie 15 mm outside blank zone 'east'.",
        "  Nearest sizes (proved):",
        "    smaller 835 x 650 mm; larger 1200 x 650 mm",
        "    of the same height, 650 mm: 835 x 650 mm or 1200 x 650 mm",
        "    of the same width, 850 mm: none",
        "  Smallest change to the liner that gives it a place: widen blank zone 'east' by 15 mm on "
        "its right side.",
    ]


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (
            (750, 650),
            r"It is 40 mm too narrow .* cut back at the right, its right dam would lie 40 mm",
        ),
        (
            (800, 670),
            r"It is 5 mm too high .* grown to the top, its top dam would lie 5 mm outside",
        ),
        ((1300, 650), r"It is 100 mm too wide for the liner, lying flat\."),
        (
            (800, 630),
            r"It is 10 mm too low .* its top dam would lie 10 mm outside blank zone 'north'",
        ),
    ],
)
def test_the_reason_gives_side_and_millimetres(size, words):
    """In one sentence, by the nearest size that has a place."""
    answer = fit(*size)
    assert re.search(words, reason(JOB, answer))


def test_a_size_no_change_mends_says_so():
    """A panel longer than the liner needs another liner."""
    assert "no ornament cut back on one side would" in report_fit(JOB, fit(1300, 650))


def test_a_size_within_tolerance_names_the_tolerance():
    """Limits given, or the class with its source."""
    answer = fit(837, 650, tolerance=(-3 * MM, 3 * MM))
    text = report_fit(JOB, answer)
    assert text.startswith("Liner 'reeds', bed 'table', 837 x 650 mm: fits within tolerance.")
    assert "  Changed: width -2 mm, height 0 mm, within -3 mm to +3 mm." in text
    limits = class_limits("small-unit", 837 * MM)
    classed = fit(837, 650, tolerance=limits, tolerance_height=limits, tolerance_class="small-unit")
    assert "within class 'small-unit' (small GFRC units" in report_fit(JOB, classed)


def test_the_record_has_every_key_whether_it_fits_or_not():
    """Missing things are null, lengths are mm."""
    yes, no = (
        fit_record(JOB, fit(800, 650), "reeds.toml"),
        fit_record(JOB, fit(850, 650), "reeds.toml"),
    )
    assert list(yes) == list(no)
    assert yes == {
        "file": "reeds.toml",
        "liner": "reeds",
        "bed": "table",
        "size": [800, 650],
        "fits": True,
        "with_tolerance": False,
        "tolerance": None,
        "x": 0,
        "y": 0,
        "width": 800,
        "height": 650,
        "shows": ["heron"],
        "clearance": 50,
        "reason": None,
        "nearest_smaller": None,
        "nearest_larger": None,
        "nearest_proved": None,
    }
    assert (no["fits"], no["x"], no["shows"]) == (False, None, [])
    assert (no["nearest_smaller"], no["nearest_larger"]) == ([835, 650], [1200, 650])
    assert no["nearest_proved"] is True


def test_an_inch_job_is_told_in_inches():
    """Fractions of the tape, full or scant of them."""
    job = replace(JOB, units="in")
    assert "too wide" in reason(job, fit(850, 650))
    assert "19/32 in scant" in reason(job, fit(850, 650))
    text = report_fit(job, fit(850, 650))
    assert "of the same height, 25 19/32 in scant: 32 7/8 x 25 19/32 scant in" in text
    assert "up to 15 3/4 in, and no" in report_fit(job, fit(1300, 650))


def test_decimals_follow_where_they_are_asked_for():
    """Of the place in a line and a column of its own, of the nearest sizes behind each."""
    job = replace(JOB, units="in")
    text = report_fit(job, fit(800, 650), exact=True)
    assert "In decimals: width 31.4961, height 25.5906, clearance 1.9685." in text
    assert text.splitlines()[5].endswith("exact")
    assert "(width 32.874, height 25.5906)" in report_fit(job, fit(850, 650), exact=True)
    assert "decimals" not in report_fit(job, fit(800, 650))
