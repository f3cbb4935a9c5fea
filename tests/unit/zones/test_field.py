"""The obstacles of a motif: intervals that move with their segment, and how far to keep off."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import load_motif

from nesting.shapes.geometry import Box, polygon_of
from nesting.values.liner import BlankZone
from nesting.zones.field import Reach, survey_motif


@pytest.fixture
def motif(tmp_path):
    """Return the small motif."""
    return load_motif(tmp_path)


def in_mm(interval):
    """Return an interval with its lengths in mm."""
    return interval.segment, *(
        value // MM for value in (interval.low, interval.high, interval.outer, interval.inner)
    )


def test_ornaments_and_detail_become_intervals_with_the_tolerance_in_them(motif):
    """Dam 20, clearance 5, margin 10, tolerance 2: ornaments 27 and 12, detail 22 and 2."""
    field = survey_motif(motif)
    assert [in_mm(each) for each in field.intervals[0]] == [
        (0, 0, 300, 22, 2),
        (0, 20, 280, 27, 12),
        (1, 300, 600, 22, 2),
        (1, 320, 580, 27, 12),
    ]
    assert len(field.intervals[1]) == 2
    assert [field.spots[number][0] for (number,) in field.ornaments] == [1, 3]


def test_drawn_zones_are_no_detail(motif):
    """Plain ground from 280 to 320 leaves detail on either side of it."""
    zone = BlankZone("drawn", polygon_of(Box(280 * MM, 0, 320 * MM, 400 * MM)))
    liner = replace(motif.job.liner, zones=(zone,))
    field = survey_motif(replace(motif, job=replace(motif.job, liner=liner)))
    ends = [in_mm(each)[1:3] for each in field.intervals[0]]
    assert ends == [(0, 280), (20, 280), (320, 580), (320, 600)]


def test_blank_unmarked_ground_has_ornaments_only(motif):
    """Then no detail stands in a dam's way."""
    liner = replace(motif.job.liner, unmarked="blank")
    field = survey_motif(replace(motif, job=replace(motif.job, liner=liner)))
    assert len(field.spots) == 2


def test_a_run_of_strips_leaves_the_others_their_least():
    """The greatest total is held down by the liner's limit."""
    reach = Reach((10, 20), 30, (1, 2), (9, 9), 12)
    assert (reach.low(0, 2), reach.high(0, 2)) == (3, 12)
    assert reach.high(0, 1) == 9
    assert reach.high(1, 2) == 9
    assert replace(reach, most=8).high(0, 1) == 6
