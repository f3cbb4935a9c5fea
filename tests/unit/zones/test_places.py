"""Places on the new liner, the room of their dams, and what the exact maps object to."""

from dataclasses import replace

import pytest
from makemotifs import MM
from motiffiles import WIDTH, load_motif

from nesting.shapes.geometry import Box
from nesting.values.casts import Sides
from nesting.values.motif import Centring, make_job
from nesting.zones.places import RoomyPlace, place_panels, refused_places, roomiest_ways
from nesting.zones.strips import prepare


@pytest.fixture
def setting(tmp_path):
    """Return the small motif made ready."""
    return prepare(load_motif(tmp_path))


def test_each_size_has_its_place_and_the_room_worked_out_by_hand(setting):
    """A1's dam may be off 2 mm outward, 30 inward; B1's 22 and 10."""
    places = place_panels(setting.motif, setting.field, (WIDTH,), setting.needs)
    rooms = {p.mark: [(r.side, r.outward // MM, r.inward // MM) for r in p.rooms] for p in places}
    assert rooms == {"A1": [("right", 2, 30)], "B1": [("right", 22, 10)]}
    assert places[0].box == Box(0, 0, 330 * MM, 400 * MM)
    assert places[0].least_room == 2 * MM


def test_a_liner_too_small_has_no_places(setting):
    """A step less of the strip and A1 is lost."""
    assert place_panels(setting.motif, setting.field, (WIDTH - 1,), setting.needs) is None


def test_the_exact_maps_accept_a_place_and_refuse_it_one_step_off(setting):
    """With tolerance the dam of A1 just fits; moved by a step it does not."""
    motif = setting.motif
    job = make_job(motif, (WIDTH,))
    (place, _) = place_panels(motif, setting.field, (WIDTH,), setting.needs)
    assert refused_places(motif, job, [place]) == []
    moved = replace(place, box=place.box.moved(1, 0))
    assert "'A1' has no place" in refused_places(motif, job, [moved])[0]
    tight = replace(motif, lay_tolerance=motif.lay_tolerance + 1)
    assert len(refused_places(tight, job, [place])) == 1


def test_a_centred_ornament_is_in_the_middle_as_far_as_asked(setting):
    """The wave's middle is at 150, so the panel's, 165 at the rim, is 15 off it."""
    wish = Centring("A1", "wave", "x", 15 * MM)
    ready = prepare(replace(setting.motif, centrings=(wish,)))
    place, _ = place_panels(ready.motif, ready.field, (WIDTH,), ready.needs)
    assert abs(2 * 150 * MM - place.box.x0 - place.box.x1) <= 2 * 15 * MM


def test_the_roomiest_way_is_taken(setting):
    """With a wide strip A1 has a way for each rim, and one for each panel is chosen."""
    ways = roomiest_ways(setting.motif, (100 * MM,), setting.needs)
    assert len(ways) == 2
    assert all(len(pair) == 2 for pair in ways)


def test_a_panel_without_dams_has_no_least_room():
    """Nothing to lay, nothing to miss."""
    rim = Sides("edge", "edge", "edge", "edge")
    assert RoomyPlace("A", Box(0, 0, 1, 1), rim).least_room is None
