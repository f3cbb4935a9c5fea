"""PlacedNames: as large as they go, each on or beside what it names, never on one another."""

# ruff: noqa: RUF001 - the multiplication sign stands in sizes

import pytest

from nesting.drawings.labels import Taken
from nesting.drawings.names import LARGE, SMALL, PlacedNames
from nesting.drawings.record import Area, Line, Rect, Text

GROUND = Rect(0, 0, 300, 200)


@pytest.fixture
def names():
    """Return an empty ground."""
    return PlacedNames(GROUND, Taken())


def written(names):
    """Return each text's words with their height and rectangle."""
    return {text.words: (text.height, text.rect) for text in names.texts}


def leaders(names):
    """Return the leaders."""
    return [shape for shape in names.leaders if isinstance(shape, Line)]


def test_a_roomy_panel_has_mark_and_size_in_its_middle(names):
    """The mark is large, the size below it, both inside."""
    room = Rect(20, 20, 140, 100)
    names.name_panel(room, "A1", "1500 × 900")
    (mark_height, mark), (size_height, size) = written(names).values()
    assert (mark_height, size_height) == (LARGE, SMALL)
    assert room.holds(mark)
    assert room.holds(size)
    assert size.y1 <= mark.y0
    assert (names.unsized, leaders(names)) == ([], [])


def test_a_narrow_panel_is_lettered_upright(names):
    """Where the words do not fit across they run upward."""
    names.name_panel(Rect(20, 20, 36, 100), "A1", "160 × 800")
    assert all(text.upright for text in names.texts)
    assert names.unsized == []


def test_a_small_panel_has_its_mark_alone(names):
    """A panel too small for its size has its mark inside and is noted as unsized."""
    room = Rect(20, 20, 35, 27)
    names.name_panel(room, "A1", "150 × 70")
    assert list(written(names)) == ["A1"]
    assert room.holds(written(names)["A1"][1])
    assert names.unsized == ["A1"]


def test_a_mark_longer_than_its_panel_is_folded(names):
    """At spaces and behind hyphens, whole, with the size below it and no leader."""
    names.name_panel(Rect(20, 20, 90, 60), "Window jamb, north side-light 10", "700 × 400")
    lines = list(written(names))
    assert lines == ["Window jamb, north", "side-light 10", "700 × 400"]
    assert (leaders(names), names.unsized) == ([], [])


def test_a_mark_is_cut_where_it_is_still_told_from_all_others():
    """A mark that would be cut to the same as another stands outside with a leader."""
    room, marks = Rect(20, 20, 28, 75), ("WINDOWJAMBNORTH10", "WINDOWJAMBNORTH11")
    own = PlacedNames(GROUND, Taken(), marks=marks)
    own.name_panel(room, marks[0], "8 × 55")
    (short,) = written(own)
    assert "..." in short
    assert short.endswith("10")
    assert (leaders(own), own.unsized) == ([], [marks[0]])
    alike = PlacedNames(GROUND, Taken(), marks=("WINDOWNORTHJAMB10", "WINDOWSOUTHJAMB10"))
    alike.name_panel(room, "WINDOWNORTHJAMB10", "8 × 55")
    assert len(leaders(alike)) == 1


def test_a_tiny_panel_is_named_from_outside(names):
    """A panel too small even for its mark has it beside, with a leader that ends inside."""
    room = Rect(20, 20, 24, 60)
    names.name_panel(room, "A1", "40 × 400")
    assert not room.overlaps(written(names)["A1"][1])
    (leader,) = leaders(names)
    assert room.grown(-1).holds(Rect(*leader.points[1], *leader.points[1]))
    assert names.unsized == ["A1"]


def test_a_panel_s_name_keeps_off_ornaments_where_it_can(names):
    """A name goes where it crosses no line, though that is not the middle."""
    names.taken.draw([(70, 0), (70, 200)], 12.0)
    names.name_panel(Rect(20, 20, 120, 100), "A1", "1000 × 800")
    assert not any(rect.x0 < 70 < rect.x1 for _, rect in written(names).values())


def test_a_thick_dam_bears_its_name(names):
    """A dam thicker than its name has it on itself, without a leader."""
    strip = Rect(20, 20, 150, 30)
    names.name_dam(strip, "D1")
    assert strip.holds(written(names)["D1"][1])
    assert leaders(names) == []
    assert [plate.style for plate in names.plates] == ["tag"]


def test_a_thin_dam_is_named_beside_with_a_leader_to_its_face(names):
    """A thin dam's name stands off it, and the leader ends on its face."""
    strip = Rect(100, 20, 102.5, 150)
    names.name_dam(strip, "D1")
    assert not strip.overlaps(written(names)["D1"][1])
    ((_, end),) = (leader.points for leader in leaders(names))
    assert end[0] in (strip.x0, strip.x1) or end[1] in (strip.y0, strip.y1)


def test_names_never_overlap_however_many(names):
    """Forty dams in a heap get forty names that stand apart and on the ground, or are noted."""
    for index in range(40):
        names.name_dam(Rect(100 + 2 * index, 90, 101 + 2 * index, 110), f"D{index + 1}")
    rects = [rect for _, rect in written(names).values()]
    assert len(rects) + len(names.unplaced) == 40
    assert len(rects) > 30
    assert all(GROUND.holds(rect) for rect in rects)
    assert not any(a.overlaps(b) for n, a in enumerate(rects) for b in rects[:n])


def test_what_finds_no_place_is_noted():
    """On ground that is taken already nothing is written, and that is noted."""
    taken = Taken()
    taken.take(GROUND)
    names = PlacedNames(GROUND, taken)
    names.name_dam(Rect(100, 20, 102.5, 150), "D1")
    assert (names.texts, names.unplaced) == ([], ["D1"])


def test_an_ornament_is_named_only_where_nothing_is_crossed(names):
    """A name inside its ornament; none at all where every place near crosses something."""
    names.name_ornament(Rect(20, 20, 60, 60), "heron")
    assert Rect(20, 20, 60, 60).holds(written(names)["heron"][1])
    for x in range(0, 300, 2):
        names.taken.draw([(x, 100), (x, 200)], 12.0)
    names.name_ornament(Rect(100, 140, 160, 160), "reed")
    assert "reed" not in written(names)


def test_a_mark_without_room_asks_for_a_number(names):
    """Nothing is written, and that is told; a number then stands inside or beside with a leader."""
    small, tiny = Rect(100, 50, 112, 60), Rect(0, 0, 2, 2)
    assert not names.mark_panel(small, "north elevation")
    assert not names.mark_panel(tiny, "A1")
    assert written(names) == {}
    assert names.mark_panel(small, "north elevation", "1")
    assert names.mark_panel(tiny, "A1", "2")
    assert small.holds(written(names)["1"][1])
    assert not tiny.overlaps(written(names)["2"][1])
    assert len(names.leaders) == 2  # the line and its dot


def test_a_mark_is_written_whole_before_its_number(names):
    """A mark that goes in is written, in several lines if it must be, whatever its number."""
    assert names.mark_panel(Rect(0, 0, 60, 40), "A1", "1")
    assert names.mark_panel(Rect(100, 0, 130, 40), "north side-light", "2")
    assert {"A1", "north", "side-", "light"} == set(written(names))


def test_every_name_has_its_plate(names):
    """Under each name lies a plate that keeps hatching off its words."""
    names.name_panel(Rect(20, 20, 140, 100), "A1", "1500 × 900")
    names.name_dam(Rect(200, 20, 202.5, 150), "D1")
    plates = [shape for shape in names.shapes if isinstance(shape, Area) and shape.style != "datum"]
    kinds = [type(shape) for shape in names.shapes]
    assert [plate.style for plate in plates] == ["plate", "tag"]
    assert kinds.index(Text) > max(index for index, kind in enumerate(kinds) if kind is Area)
