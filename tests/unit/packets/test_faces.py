"""The packet's page of finished faces."""

import pytest
from packets import hand_packet, read_example

from nesting.packets.faces import FACES, list_faces
from nesting.packets.parts import Figure, PacketTable, Words


@pytest.fixture(scope="module")
def ferry():
    """Return the page of the ferry terminal, whose eleven kinds lie on three beds."""
    return list_faces(*read_example("ferry-terminal"))


def table_of(section):
    """Return the one table of a page."""
    (table,) = [block for block in section.blocks if isinstance(block, PacketTable)]
    return table


def test_every_kind_has_its_measures(ferry):
    """Arc, chord, diagonals and what it shows, as the front view has them."""
    table = table_of(ferry)
    rows = {row.cells[0]: dict(zip(table.head, row.cells, strict=True)) for row in table.rows}
    assert len(rows) == 11
    assert rows["B1"] == {
        "panel": "B1",
        "pieces": "4",
        "layouts": "4",
        "along the face": "1540 × 900",  # noqa: RUF001 - the sign
        "chord": "1523 full × 900",  # noqa: RUF001
        "along the back": "1550 scant × 900",  # noqa: RUF001
        "both diagonals": "1769 full",
        "over the face": "-",
        "face": "concave R 3013",
        "shows": "heron, young heron",
    }
    assert (rows["C1 (1)"]["both diagonals"], rows["C1 (1)"]["over the face"]) == (
        "1157 full",
        "1159 scant",
    )
    assert (rows["A2 (2)"]["shows"], rows["A2 (2)"]["chord"]) == ("young heron", "-")


def test_every_kind_is_drawn_once(ferry):
    """Three to a row, the last one shorter; no two drawings have one name."""
    drawings = [block.drawing for block in ferry.blocks if isinstance(block, Figure)]
    assert [len(drawing.layers) for drawing in drawings] == [3, 3, 3, 2]
    assert len({drawing.name for drawing in drawings}) == len(drawings)
    named = [row.cells[0] for row in table_of(ferry).rows]
    bold = [t.words for drawing in drawings for t in drawing.texts if t.style == "bold"]
    assert [words for words in bold if words != "up"] == named


def test_the_page_says_from_where_faces_are_seen(ferry):
    """And from where layouts are, so that nobody takes one for the other."""
    first = ferry.blocks[0]
    assert isinstance(first, Words)
    assert first.text.startswith("Seen from the front")
    assert "seen from above" in first.text


def test_flat_faces_have_one_size_and_no_chord():
    """With nothing curved there is no column for it; the page stands behind the layouts'."""
    packet = hand_packet()
    refs = [section.ref for section in packet.sections]
    assert refs[refs.index(FACES) - 1 : refs.index(FACES) + 2] == ["l2", FACES, "weights"]
    (page,) = [section for section in packet.sections if section.ref == FACES]
    head = table_of(page).head
    assert "size" in head
    assert "chord" not in head
