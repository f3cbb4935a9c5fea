"""What each strip is for, told by taking it out again."""

from dataclasses import replace

from makemotifs import MM
from motiffiles import WIDTH, change_motif, load_motif

from nesting.values.motif import make_job
from nesting.zones.strips import plan_zones, prepare
from nesting.zones.uses import list_uses, lost_sizes

DRAWN = '[[liner.blank_zone]]\nname = "drawn"\nrect = [290, 0, 20, 400]\n\n[rules]'


def test_a_strip_gives_the_sizes_lost_without_it(tmp_path):
    """Neither size has a place on the motif as drawn."""
    motif = load_motif(tmp_path)
    (use,) = list_uses(plan_zones(prepare(motif)))
    assert (use.name, use.axis, use.added) == ("S1", "x", WIDTH)
    assert (use.low, use.high) == (300 * MM, 352 * MM)
    assert use.gives == use.holds == ("A1", "B1")
    assert lost_sizes(make_job(motif, (0,))) == ["A1", "B1"]
    assert lost_sizes(make_job(motif, (WIDTH,))) == []


def test_a_strip_that_widens_drawn_ground_is_told_with_all_of_it(tmp_path):
    """From the drawn zone's side to its other side on the new liner."""
    found = plan_zones(prepare(load_motif(tmp_path, change_motif(("[rules]", DRAWN)))))
    (use,) = list_uses(found)
    assert use.widens == "drawn"
    assert (use.low, use.high) == (290 * MM, 310 * MM + use.added)


def test_a_strip_as_wide_as_another_names_it(tmp_path):
    """Whichever of the two says so; one not in use is not listed."""
    motif = load_motif(tmp_path)
    twin = replace(motif.strips[0], name="S2", at=590 * MM, as_wide_as="S1")
    idle = replace(motif.strips[0], name="S3", at=595 * MM)
    uses = list_uses(plan_zones(prepare(replace(motif, strips=(*motif.strips, twin, idle)))))
    assert [(use.name, use.as_wide_as) for use in uses] == [("S1", "S2"), ("S2", "S1")]
