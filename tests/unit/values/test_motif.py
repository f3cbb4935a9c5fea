"""The motif as values: what a strip moves, stretches and adds."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import WIDTH, load_motif

from nesting.shapes.geometry import Box, polygon_of
from nesting.values.liner import BlankZone
from nesting.values.motif import liner_size, make_job, plain_run, segment_of, shifts, strip_box


@pytest.fixture
def motif(tmp_path):
    """Return the small motif."""
    return load_motif(tmp_path)


def with_zone(motif, box):
    """Return the motif with one drawn zone [mm]."""
    zone = BlankZone("drawn", polygon_of(Box(*(side * MM for side in box))))
    return replace(motif, job=replace(motif.job, liner=replace(motif.job.liner, zones=(zone,))))


def test_what_lies_beyond_a_strip_moves_by_its_width(motif):
    """The wave stays, the leaf moves, the liner grows, the strip is a blank zone of its own."""
    job = make_job(motif, (WIDTH,))
    wave, leaf = (ornament.outline.bounds for ornament in job.liner.ornaments)
    assert wave.x0 == 20 * MM
    assert (leaf.x0, leaf.x1) == (372 * MM, 632 * MM)
    assert job.liner.outline.bounds == (0, 0, 652 * MM, 400 * MM)
    (zone,) = job.liner.zones
    assert (zone.name, zone.outline.bounds) == ("S1", (300 * MM, 0, 352 * MM, 400 * MM))
    assert job.panels == motif.job.panels


def test_a_strip_of_no_width_changes_nothing(motif):
    """The liner is then the one drawn."""
    assert make_job(motif, (0,)).liner == motif.job.liner


def test_a_drawn_zone_from_rim_to_rim_is_widened(motif):
    """The strip is part of it and no zone of its own."""
    zoned = with_zone(motif, (290, 0, 310, 400))
    (zone,) = make_job(zoned, (WIDTH,)).liner.zones
    assert plain_run(zoned, 0) == "drawn"
    assert zone.outline.bounds == (290 * MM, 0, 362 * MM, 400 * MM)


def test_a_shorter_drawn_zone_is_stretched_beside_the_strip(motif):
    """It does not reach the rim, so the strip stands for itself."""
    zoned = with_zone(motif, (290, 0, 310, 300))
    first, second = make_job(zoned, (WIDTH,)).liner.zones
    assert plain_run(zoned, 0) == ""
    assert first.outline.bounds == (290 * MM, 0, 362 * MM, 300 * MM)
    assert second.name == "S1"


def test_sizes_and_shifts_add_up(motif):
    """Shifts are running totals, and ground at a cut line lies beyond it."""
    assert shifts(motif, (WIDTH,), "x") == [0, WIDTH]
    assert liner_size(motif, (WIDTH,)) == (652 * MM, 400 * MM)
    assert strip_box(motif, (WIDTH,), 0).width == WIDTH
    assert [segment_of(low, [300]) for low in (299, 300)] == [0, 1]
