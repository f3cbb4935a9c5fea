"""Tables: columns line up and nothing trails."""

import pytest

from nesting.files.columns import write_table


def test_no_rows_leave_the_head():
    """A table without rows is its head alone."""
    assert write_table(["dam", "left"], []) == ["  dam  left"]


def test_columns_are_as_wide_as_their_widest_cell():
    """Every cell of a column ends, or begins, at the same place."""
    lines = write_table(["a", "b"], [["1", "long name"], ["1000", "x"]], left=["b"])
    assert lines == ["     a  b", "     1  long name", "  1000  x"]


def test_lines_have_no_trailing_spaces():
    """An empty last cell leaves no spaces behind."""
    assert write_table(["a", "b"], [["1", ""]], left=["b"])[1] == "  1"


def test_a_row_of_another_length_is_refused():
    """A row must have one cell for each column."""
    with pytest.raises(ValueError, match="zip"):
        write_table(["a", "b"], [["1"]])
