"""Widths shared out so that dams have room: totals stay, unused strips stay unused."""

from dataclasses import replace

from makemotifs import MM
from motiffiles import load_motif

from nesting.values.motif import Strip
from nesting.zones.places import place_panels, roomiest_ways
from nesting.zones.rooms import share_out
from nesting.zones.strips import prepare


def test_room_is_shared_between_two_strips(tmp_path):
    """What one strip has to spare goes to the other, and the least room grows."""
    motif = load_motif(tmp_path)
    ends = Strip("S0", "x", 10 * MM, 0, 200 * MM)
    motif = replace(motif, strips=(*motif.strips, ends))
    setting = prepare(motif)
    before = (62, 80)
    ways = roomiest_ways(motif, tuple(w * MM for w in before), setting.needs)
    after = share_out(motif, before, ways, MM)
    assert sum(after) == sum(before)

    def least(widths):
        places = place_panels(motif, setting.field, tuple(w * MM for w in widths), setting.needs)
        return min(place.least_room for place in places)

    assert least(after) >= least(before)
    assert after != before


def test_an_unused_strip_stays_unused(tmp_path):
    """It gets nothing, and a total that leaves no choice gives the same widths."""
    motif = load_motif(tmp_path)
    motif = replace(motif, strips=(*motif.strips, Strip("S0", "x", 10 * MM, 0, 200 * MM)))
    setting = prepare(motif)
    ways = roomiest_ways(motif, (52 * MM, 0), setting.needs)
    assert share_out(motif, (52, 0), ways, MM) == (52, 0)
