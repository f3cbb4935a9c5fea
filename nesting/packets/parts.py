"""What a packet is made of: sections of words, tables, boxes to tick and drawings, as values.

Nothing here knows how a page looks. A ``ref`` ties what belongs together: a table's row and the
spot of a drawing that show the same dam bear the same one.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from nesting.drawings.record import Drawing, Rect
from nesting.files.columns import TextTable
from nesting.values.job import Units

Tone = Literal["plain", "strong", "note", "warning"]


@dataclass(frozen=True, slots=True)
class Words:
    """One paragraph."""

    text: str
    tone: Tone = "plain"


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines of text as they stand, set in even columns; a heading above them."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of a table, with the ref of what it tells of, if any."""

    cells: tuple[str, ...]
    ref: str = ""


@dataclass(frozen=True, slots=True)
class PacketTable:
    """A table: columns named in ``left`` are set flush left, the others flush right."""

    title: str
    head: tuple[str, ...]
    rows: tuple[TableRow, ...]
    left: frozenset[str] = frozenset()

    @property
    def depths(self) -> tuple[tuple[int, ...], ...]:
        """How many rows each cell takes, row by row; 0 where one above takes its ground.

        A row whose first cell is blank goes with the one above, whose cells take its blanks; so
        tied, no page parts them.

        >>> rows = TableRow(("dam 1", "5")), TableRow(("", "5/16"))
        >>> PacketTable("", ("dam", "left"), rows).depths
        ((2, 1), (0, 1))
        """
        depths = [[1] * len(row.cells) for row in self.rows]
        for at in range(len(self.rows) - 1, 0, -1):
            if not self.rows[at].cells[0]:
                for column, cell in enumerate(self.rows[at].cells):
                    if not cell:
                        depths[at - 1][column] += depths[at][column]
                        depths[at][column] = 0
        return tuple(map(tuple, depths))


@dataclass(frozen=True, slots=True)
class Ticks:
    """Boxes to tick: a row for each task, a column for each cast."""

    title: str
    columns: tuple[str, ...]
    tasks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LitSpot:
    """Where on a drawing [mm, y up] something lies that can be lit, and what it is in words."""

    ref: str
    rect: Rect
    words: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing and its spots, the first one lowest."""

    drawing: Drawing
    spots: tuple[LitSpot, ...] = ()

    @property
    def is_wide(self) -> bool:
        """Whether the drawing is more than twice as wide as high, so that its page should turn."""
        return self.drawing.width > 2 * self.drawing.height


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Tables that may stand side by side where there is room, else one under the other."""

    blocks: tuple[PacketTable | Ticks, ...]


@dataclass(frozen=True, slots=True)
class TitledPart:
    """What stands under a title of its own, and on one page wherever one page holds it."""

    title: str
    blocks: tuple[PacketTable | SideBySide, ...]


Block = Words | Lines | PacketTable | Ticks | Figure | SideBySide | TitledPart


@dataclass(frozen=True, slots=True)
class Section:
    """What has a title and, unless it is ``short``, begins on a page of its own.

    ``wide`` asks for a page that lies on its long side.
    """

    ref: str
    title: str
    blocks: tuple[Block, ...]
    wide: bool = False
    short: bool = False


@dataclass(frozen=True, slots=True)
class Packet:
    """The whole, in the order it is printed; ``stamp`` is what every page says of its print."""

    title: str
    units: Units
    sections: tuple[Section, ...]
    stamp: str = ""

    def is_alone(self, section: Section) -> bool:
        """Whether a section shares no page: neither the title's, nor one with short sections."""
        at = self.sections.index(section)
        following = self.sections[at + 1 : at + 2]
        return at > 0 and not section.short and not any(each.short for each in following)


def grid_of(table: TextTable, title: str | None = None, refs: Sequence[str] = ()) -> PacketTable:
    """Return a report's table with the refs of its rows, under its own title unless given.

    A row whose first cell is blank goes with the one above: both have that one's ref.

    >>> rows = [["dam 1", "5"], ["", "5/16"], ["dam 2", "9"]]
    >>> table = TextTable("Dams", ["dam", "left"], rows, ["dam"])
    >>> [row.ref for row in grid_of(table, refs=["l1-d1", "l1-d2"]).rows]
    ['l1-d1', 'l1-d1', 'l1-d2']
    """
    rows, at = [], -1
    for cells in table.rows:
        at += bool(cells[0])
        rows.append(TableRow(tuple(cells), refs[at] if refs else ""))
    words = table.title if title is None else title
    return PacketTable(words.rstrip(":"), tuple(table.head), tuple(rows), frozenset(table.left))


def pick_columns(table: TextTable, titles: Sequence[str]) -> TextTable:
    """Return the table with these of its columns only, in this order; unknown ones are left out.

    >>> pick_columns(TextTable("", ["a", "b"], [["1", "2"]], ["b"]), ["b"])
    TextTable(title='', head=['b'], rows=[['2']], left=['b'])
    """
    at = [list(table.head).index(title) for title in titles if title in table.head]
    rows = [[row[index] for index in at] for row in table.rows]
    return TextTable(table.title, [table.head[index] for index in at], rows, table.left)


def turn_table(table: TextTable, title: str) -> TextTable:
    """Return the table on its side: its first column becomes the head, its head the first column.

    >>> turn_table(TextTable("", ["mix", "sand"], [["face", "7"], ["back", "9"]]), "One batch").rows
    [['sand', '7', '9']]
    """
    head, *rows = ([name, *cells] for name, *cells in zip(table.head, *table.rows, strict=True))
    return TextTable(title, head, rows, (head[0],))
