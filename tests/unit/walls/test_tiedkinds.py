"""Panels whose inserts stand alike share a sheet."""

from handjob import MM
from tiedwalls import cornered_wall, flat_wall, round_wall, tied_wall

from nesting.walls.cladding import WallRun, divide_wall
from nesting.walls.tiedkinds import alike_pairs, alike_panels
from nesting.walls.ties import tie_skins
from nesting.walls.widths import WidthRule


def pairs_of(wall):
    """Return the tied pairs of a wall."""
    return tie_skins(wall, divide_wall(wall)).pairs


def test_equal_panels_of_a_run_are_of_one_kind_in_either_skin():
    """Three panels of a mark, all with their inserts at the same places."""
    wall = tied_wall(WallRun("A", 2440 * MM, "axis", 3))
    kinds = alike_panels(pairs_of(wall))
    assert [(each.mark, each.numbers, each.twin) for each in kinds] == [
        ("A-inner", (1, 2, 3), "A-outer"),
        ("A-outer", (1, 2, 3), "A-inner"),
    ]
    assert kinds[0].panels == "panels 1 to 3"
    assert kinds[0].inserts[0] == (1, (60 * MM, 60 * MM))
    assert len(alike_pairs(pairs_of(wall))) == 1


def test_every_panel_stands_in_one_kind():
    """At open ends of an arc joints leave the common radii, so places differ; none is lost."""
    for wall in (flat_wall(), round_wall(), cornered_wall()):
        pairs = pairs_of(wall)
        found = [(k.mark, number) for k in alike_panels(pairs) for number in k.numbers]
        wanted = [(b.stretch.mark, b.number) for p in pairs for b in (p.inner, p.outer)]
        assert sorted(found) == sorted(wanted)
        assert sum(map(len, alike_pairs(pairs))) == len(pairs)


def test_a_closing_panel_is_a_kind_of_its_own():
    """It has another mark and another width."""
    wall = tied_wall(
        WallRun("A", 3000 * MM, "axis", 3), widths=WidthRule(250 * MM, "closing panel")
    )
    kinds = {each.mark: each.panels for each in alike_panels(pairs_of(wall))}
    assert kinds["A-inner"] == "panels 1, 2"
    assert kinds["A-inner-closing"] == "panel 3"
