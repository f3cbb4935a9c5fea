"""What a packet's blocks come to on a PDF page: columns, rows that go together, parts."""

import pytest
from reportlab.platypus import CondPageBreak, Table

from nesting.drawings.pdf import load_fonts
from nesting.packets.flow import Setter, share_width
from nesting.packets.parts import PacketTable, SideBySide, TableRow, TitledPart

SETTER = Setter(500, 700, 6.8, 8.5, 0.36)


@pytest.fixture(autouse=True)
def fonts():
    """Make the fonts known that widths are measured in."""
    load_fonts()


def test_columns_share_the_width():
    """All together take it all, whether the cells are short or far too long."""
    for rows in ([["a", "b"]], [["word " * 90, "b"]], [["x" * 400, "y" * 400]]):
        widths = share_width(rows, 300, 6.8)
        assert sum(widths) == pytest.approx(300)
        assert min(widths) > 5


def test_a_figure_keeps_its_fraction_and_its_unit():
    """Narrow cells break before the bracket only: 27 3/16 in, then (+0.60 mm)."""
    grid = PacketTable("T", ("left",), (TableRow(("27 3/16 in (+0.60 mm)",)),))
    *_, table = Setter(60, 700, 6.8, 8.5, 0.36).lay([grid])
    (cell,) = [row[0] for row in table._cellvalues[1:]]
    cell.wrap(table._colWidths[0] - 5, 700)
    lines = [" ".join(words) for _, words in cell.blPara.lines]
    assert [line.replace("\u00a0", " ") for line in lines] == ["27 3/16 in", "(+0.60 mm)"]


def test_a_part_goes_to_the_next_page_whole_where_it_fits_one():
    """It asks for all its height, or, where no page holds it, only for room to begin."""
    for count, whole in ((20, True), (200, False)):
        grid = PacketTable("T", ("name",), tuple(TableRow((f"row{n}",)) for n in range(count)))
        ask, *flow = SETTER.lay([TitledPart("To cast", (grid,))])
        assert isinstance(ask, CondPageBreak)
        high = sum(part.wrap(500, 700)[1] for part in flow if not isinstance(part, CondPageBreak))
        assert (ask.height >= high) is whole
        assert any(isinstance(part, Table) for part in flow)


def lines_of_heads(flow):
    """Return the heads of every table in a flow as they are broken into lines, with their words."""
    found = []
    for part in flow:
        for cells, widths in _tables(part):
            for cell, width in zip(cells, widths, strict=True):
                words = cell.text.split()
                cell.wrap(width - 5, 700)
                lines = [getattr(line, "words", line[1] if isinstance(line, tuple) else None)
                         for line in cell.blPara.lines]  # fmt: skip
                found.append((words, [word for line in lines for word in line]))
    return found


def _tables(part):
    """Yield head and column widths of a table, or of those that stand side by side in it."""
    if not isinstance(part, Table):
        return
    for cell in part._cellvalues[0]:
        for inner in cell if isinstance(cell, list) else ():
            yield from _tables(inner)
    if all(hasattr(cell, "text") for cell in part._cellvalues[0]):
        yield part._cellvalues[0], part._colWidths


HEADS = ("panel", "clearance", "thickness", "measured on", "starts at x, y", "blank zones")
FULL = PacketTable(
    "T", HEADS, (TableRow(("north-elevation-7", "9", "3/4", "face", "x" * 40, "a, b")),)
)


@pytest.mark.parametrize("width", [150, 190, 250, 500])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_no_heading_breaks_inside_a_word(width, count):
    """However narrow the page and however many stand side by side, words of heads stay whole."""
    setter = Setter(width, 700, 8.4, 9.6, 0.36)
    heads = lines_of_heads(setter.lay([SideBySide((FULL,) * count)]))
    assert len(heads) == count * len(HEADS)
    assert all(words == broken for words, broken in heads)
