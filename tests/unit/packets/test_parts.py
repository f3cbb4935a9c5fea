"""The values of a packet: tables taken over from reports, and figures that ask for a wide page."""

import pytest

from nesting.drawings.record import Drawing
from nesting.files.columns import TextTable
from nesting.packets.parts import Figure, TableRow, grid_of, pick_columns, turn_table

TABLE = TextTable(
    "Dams:", ["dam", "left", "zones"], [["dam 1", "5", "-"], ["dam 2", "9", "east"]], ["dam"]
)


def test_a_grid_keeps_every_cell_and_ties_rows_to_refs():
    """The title loses its colon, since it stands above the table; the rest is as it was."""
    grid = grid_of(TABLE, refs=["a", "b"])
    assert (grid.title, grid.head, grid.left) == ("Dams", ("dam", "left", "zones"), {"dam"})
    assert grid.rows == (TableRow(("dam 1", "5", "-"), "a"), TableRow(("dam 2", "9", "east"), "b"))
    assert [row.ref for row in grid_of(TABLE, "Own").rows] == ["", ""]


def test_columns_are_picked_in_the_order_asked_for():
    """A title the table lacks is passed over: only inch jobs have "read as"."""
    picked = pick_columns(TABLE, ["left", "read as", "dam"])
    assert (picked.head, picked.rows) == (["left", "dam"], [["5", "dam 1"], ["9", "dam 2"]])


def test_a_table_on_its_side_has_a_column_for_each_row():
    """The first column becomes the head."""
    turned = turn_table(TABLE, "Turned")
    assert turned.head == ["dam", "dam 1", "dam 2"]
    assert turned.rows == [["left", "5", "9"], ["zones", "-", "east"]]


@pytest.mark.parametrize(("width", "wide"), [(200, False), (201, True), (100, False)])
def test_a_drawing_over_twice_as_wide_as_high_wants_a_wide_page(width, wide):
    """Twice is still upright."""
    assert Figure(Drawing("d", width, 100, "", "", ())).is_wide is wide
