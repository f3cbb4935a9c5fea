"""Figures: lengths as they stand on a drawing."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace

import pytest
from ferry import INCH, MM, SIXTEENTH, make_drum_job, make_ferry_job

from nesting.drawings.figures import is_exact, length_figure, length_words, size_figure


@pytest.mark.parametrize(
    ("steps", "words"),
    [(1500 * MM, "1500"), (12 * MM + 4000, "12.5"), (1, "0"), (-400, "-0.1"), (-3 * MM, "-3")],
)
def test_a_mm_job_shows_tenths(steps, words):
    """Millimetres are written to 0.1 without idle zeros, and never as -0."""
    assert length_figure(steps, make_ferry_job()) == words
    assert length_figure(steps, make_ferry_job(), beside=True) == words


@pytest.mark.parametrize(
    ("steps", "words", "both"),
    [
        (0, "0", "0 (0)"),
        (63 * INCH + 7 * SIXTEENTH, "63 7/16", "63 7/16 (1611.3)"),
        (96 * INCH, "96", "96 (2438.4)"),
        (2438 * MM, "96 (-0.40 mm)", "96 (2438)"),
        (96 * INCH + 300, "96", "96 (2438.4)"),
        (-SIXTEENTH, "-1/16", "-1/16 (-1.6)"),
    ],
)
def test_an_inch_job_shows_fractions_and_owns_up_to_the_rest(steps, words, both):
    """Inches go to the set-out division; a rest of 0.05 mm or more is told in mm."""
    assert length_figure(steps, make_drum_job()) == words
    assert length_figure(steps, make_drum_job(), beside=True) == both


def test_the_division_is_that_of_the_job():
    """A job that marks to 1/64 in writes sixty-fourths."""
    job = make_drum_job()
    job = replace(job, rules=replace(job.rules, set_out=INCH // 64))
    assert length_figure(5 * INCH // 64, job) == "5/64"


def test_sizes_run_along_x_first():
    """A size is the length along x, then along y; words name the unit."""
    assert size_figure(1500 * MM, 900 * MM, make_ferry_job()) == "1500 × 900"
    assert length_words(25 * MM, make_ferry_job()) == "25 mm"
    assert length_words(INCH // 2, make_drum_job()) == "1/2 in"


def test_a_rest_stands_behind_the_unit():
    """Not "93 1/4 (+0.67 mm) in"."""
    steps = 93 * INCH + INCH // 4 + round(0.67 * MM)
    assert length_words(steps, make_drum_job()) == "93 1/4 in (+0.67 mm)"


def test_a_figure_tells_whether_it_is_the_whole_length():
    """A tenth of a mm is whole, a step beyond is not; of inches the rest beside counts."""
    assert is_exact(1500 * MM + 800, make_ferry_job())
    assert not is_exact(1500 * MM + 801, make_ferry_job())
    assert is_exact(INCH + SIXTEENTH, make_drum_job())
    assert is_exact(INCH + 800, make_drum_job())
    assert not is_exact(INCH + 801, make_drum_job())
