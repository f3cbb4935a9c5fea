"""The ties of a wall as a section of the packet."""

from tiedwalls import HERON, flat_wall

from nesting.packets.parts import Figure, PacketTable, Words
from nesting.packets.ties import list_wall_ties
from nesting.walls.cladding import divide_wall
from nesting.walls.ties import tie_skins


def test_places_stand_in_a_table_and_each_kind_of_back_is_drawn():
    """Count, table, notes with the caution, then a caption and a figure for either skin."""
    wall = flat_wall()
    section = list_wall_ties(wall, tie_skins(wall, divide_wall(wall), {"A-inner": [HERON]}))
    assert (section.ref, section.title) == ("ties", "Inserts for ties")
    (table,) = [each for each in section.blocks if isinstance(each, PacketTable)]
    assert table.rows[0].cells[-2:] == ("60, 400, 740", "740, 400, 60")
    figures = [each.drawing for each in section.blocks if isinstance(each, Figure)]
    assert [each.name for each in figures] == ["ties-01", "ties-02"]
    assert [layer.name for layer in figures[0].layers] == [
        "panel",
        "hollows",
        "dimensions",
        "inserts",
    ]
    words = " ".join(each.text for each in section.blocks if isinstance(each, Words))
    assert "seen from behind, with 9 inserts" in words
    assert "licensed engineer" in words
