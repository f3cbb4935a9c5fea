"""Figures: lengths as they stand on a drawing."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

from dataclasses import replace

import pytest
from ferry import INCH, MM, SIXTEENTH, make_drum_job, make_ferry_job

from nesting.drawings.figures import length_figure, length_words, size_figure


@pytest.mark.parametrize(
    ("steps", "words"),
    [(1500 * MM, "1500"), (12 * MM + 4000, "13 scant"), (1, "0"), (-400, "0"), (-3 * MM, "-3")],
)
def test_a_mm_job_shows_whole_millimetres(steps, words):
    """Beside a mark the figure says on which side, and 0 is never -0."""
    assert length_figure(steps, make_ferry_job()) == words


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        (0, "0"),
        (63 * INCH + 7 * SIXTEENTH, "63 7/16"),
        (2438 * MM, "95 63/64"),
        (96 * INCH + 300, "96"),
        (96 * INCH + 800, "96 full"),
        (-SIXTEENTH, "-1/16"),
    ],
)
def test_an_inch_job_shows_fractions(steps, words):
    """Inches go to the marks of the tape; no mm stand beside them."""
    assert length_figure(steps, make_drum_job()) == words


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
    assert length_words(93 * INCH + INCH // 4 + 5000, make_drum_job()) == "93 9/32 in scant"
