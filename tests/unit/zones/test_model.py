"""The whole-number program of the strips, on the small motif."""

from dataclasses import replace

from makemotifs import MM, grid_motif
from motiffiles import change_motif, load_motif

from nesting.search.solver import INFINITY
from nesting.zones.field import survey_motif
from nesting.zones.model import Program
from nesting.zones.needs import find_need

FREE = (INFINITY, INFINITY)


def program_of(motif, grid=MM):
    """Return the program of a motif's order."""
    field = survey_motif(motif)
    needs = [find_need(motif, field, panel) for panel in motif.job.panels]
    return Program(motif, needs, grid)


def test_the_least_total_is_the_one_worked_out_by_hand(tmp_path):
    """52 along x, in one strip, and nothing along y; 51 is not met."""
    program = program_of(load_motif(tmp_path))
    total, answer = program.least_total(0, FREE)
    assert (total, answer.widths) == (52, (52,))
    assert program.least_total(1, FREE)[0] == 0
    assert program.fewest_used((52, 0))[0] == 1
    assert program.least_total(0, (51, INFINITY)) is None
    assert program.least_total(0, (52, 0)) is not None
    assert program.least_total(0, (51, 0)) is None


def test_a_coarser_grid_rounds_the_strip_up(tmp_path):
    """On 5 mm it is 55, on 10 mm 60."""
    motif = load_motif(tmp_path)
    assert program_of(motif, 5 * MM).least_total(0, FREE)[0] == 11
    assert program_of(motif, 10 * MM).least_total(0, FREE)[0] == 6


def test_limits_that_clash_leave_nothing_to_choose(tmp_path):
    """A least width that the grid puts above the greatest."""
    change = ("greatest = 150", "greatest = 59\nleast = 55")
    motif = load_motif(tmp_path, change_motif(change))
    assert program_of(motif).is_possible
    assert not program_of(motif, 30 * MM).is_possible


def test_strips_as_wide_as_another_are():
    """The answer's widths are equal where the motif says so."""
    motif = grid_motif(1, 3, 2, 3)
    twins = (motif.strips[0], replace(motif.strips[1], as_wide_as="x1"), motif.strips[2])
    _, answer = program_of(replace(motif, strips=twins)).least_total(0, FREE)
    assert answer.widths[0] == answer.widths[1] > 0
