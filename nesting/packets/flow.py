"""From the blocks of a packet to what a page of its PDF is filled with, in one size of type.

Side by side stands only what fits one page. All measures are points.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import CondPageBreak, Flowable, Paragraph, Spacer, Table

from nesting.drawings.lettering import clean
from nesting.drawings.pdf import FACES, draw_shapes
from nesting.packets.parts import (
    Block,
    Figure,
    Lines,
    PacketTable,
    SideBySide,
    Ticks,
    TitledPart,
    Words,
)

GAP = 12.0
_PAD = 2.5
_LEAST_ROOM = 45.0
_LEAST_TYPE, _LESS = 4.0, 0.2
_BOX = "\u2610"
_LOOSE = re.compile(r"(?<=\d) (?=\d+/\d|(?:in|mm|kg|lb|h|min)\b)")
_RULES: list[tuple[Any, ...]] = [
    ("GRID", (0, 0), (-1, -1), 0.4, "#555555"),
    ("LINEBELOW", (0, 0), (-1, 0), 1, "#111111"),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), _PAD),
    ("RIGHTPADDING", (0, 0), (-1, -1), _PAD),
    ("TOPPADDING", (0, 0), (-1, -1), 0.8),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 1.4),
]
_BARE: list[tuple[Any, ...]] = [
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 0),
    ("RIGHTPADDING", (0, 0), (-1, -1), 0),
    ("TOPPADDING", (0, 0), (-1, -1), 0),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
]


class _Drawn(Flowable):  # type: ignore[misc]
    """A drawing as wide as the page, or as high as its share of it."""

    def __init__(self, figure: Figure, width: float, most_height: float) -> None:
        super().__init__()
        self.drawing = figure.drawing
        self.unit = min(width / self.drawing.width, most_height / self.drawing.height)

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        return self.drawing.width * self.unit, self.drawing.height * self.unit

    def draw(self) -> None:
        self.canv.saveState()
        self.canv.scale(self.unit, self.unit)
        draw_shapes(self.canv, self.drawing.shapes)
        self.canv.restoreState()


@dataclass(frozen=True, slots=True)
class Setter:
    """Sets blocks on pages of that width and height, tables in ``small`` type, words in ``plain``.

    A drawing is at most its ``share`` of the page high, or half as much again on a wide page.
    """

    width: float
    height: float
    small: float
    plain: float
    share: float

    def lay(self, blocks: Sequence[Block]) -> list[Flowable]:
        """Return what the blocks come to, in turn."""
        return [part for block in blocks for part in self._block(block)]

    def _block(self, block: Block) -> Iterator[Flowable]:
        if isinstance(block, Words):
            bold = block.tone in ("strong", "warning")
            yield Paragraph(as_text(block.text), style(self.plain, bold=bold, after=3.0))
        elif isinstance(block, Lines):
            yield self._caption(block.title)
            yield from (Paragraph(as_text(line), style(self.small)) for line in block.lines)
        elif isinstance(block, Figure):
            share = self.share * (1.5 if block.is_wide else 1)
            yield _Drawn(block, self.width, self.height * share)
            yield Spacer(0, 4)
        elif isinstance(block, TitledPart):
            yield from self._part(block)
        elif isinstance(block, SideBySide):
            yield from self._beside(block)
        else:
            yield from self._under(block)

    def measure(self, flow: Sequence[Flowable], width: float) -> float:
        """Return how high all of it is; less than nothing stands between two of it."""
        heights = (part.wrap(width, self.height)[1] for part in flow if _takes_room(part))
        around = (part.getSpaceBefore() + part.getSpaceAfter() for part in flow)
        return float(sum(heights) + sum(around))

    def _part(self, part: TitledPart) -> Iterator[Flowable]:
        """Yield a part on a page of its own where what is left of this one is too little."""
        title = Paragraph(as_text(part.title), style(self.plain, bold=True, after=2.0))
        flow = [title, *self.lay(part.blocks)]
        high = self.measure(flow, self.width)
        yield CondPageBreak(high if high <= self.height else _LEAST_ROOM)
        yield from flow

    def _under(self, block: PacketTable | Ticks) -> Iterator[Flowable]:
        """Yield a table; its title never ends a page alone."""
        yield CondPageBreak(_LEAST_ROOM)
        yield from self._table(block, self.width)

    def _beside(self, group: SideBySide) -> Iterator[Flowable]:
        """Yield the tables of a group side by side, or in turn where one is higher than a page."""
        count = len(group.blocks)
        column = (self.width - GAP * (count - 1)) / count
        cells = [list(self._table(block, column)) for block in group.blocks]
        high = max(self.measure(cell, column) for cell in cells)
        is_narrow = any(sum(_least(_rows_of(each), self.small)) > column for each in group.blocks)
        if count > 3 or high > 0.9 * self.height or is_narrow:
            for block in group.blocks:
                yield from self._under(block)
            return
        row: list[Any] = [part for cell in cells for part in (cell, "")][:-1]
        widths = [part for _ in cells for part in (column, GAP)][:-1]
        yield Table([row], colWidths=widths, style=_BARE, hAlign="LEFT")

    def _table(self, block: PacketTable | Ticks, width: float) -> Iterator[Flowable]:
        """Yield the title and the table; its head stands again on every page it runs over.

        Its type is smaller where the words of its head would not go in whole.
        """
        rows = _rows_of(block)
        size, head = self.small, rows[0]
        while sum(_least([head], size)) > width and size > _LEAST_TYPE:
            size -= _LESS
        left = {"task"} if isinstance(block, Ticks) else set(block.left)
        rules = list(_RULES) if isinstance(block, Ticks) else [*_RULES, *_joined(block)]
        plain = [style(size, right=title not in left) for title in head]
        bold = [style(size, bold=True, right=title not in left) for title in head]
        cells = [
            [Paragraph(as_text(each), how) for each, how in zip(row, styles, strict=True)]
            for row, styles in zip(rows, [bold, *[plain] * (len(rows) - 1)], strict=True)
        ]
        yield self._caption(block.title)
        widths = share_width(rows, width, size)
        yield Table(cells, colWidths=widths, style=rules, repeatRows=1, hAlign="LEFT", spaceAfter=4)

    def _caption(self, title: str) -> Paragraph:
        return Paragraph(as_text(title), style(self.small, bold=True))


def _takes_room(part: Flowable) -> bool:
    return not isinstance(part, CondPageBreak)


def _hold(cell: str) -> str:
    """Return a cell's words with each figure held together with its fraction and its unit."""
    return _LOOSE.sub("\u00a0", cell)


def _joined(grid: PacketTable) -> Iterator[tuple[Any, ...]]:
    """Yield the rules that span the cells of rows that go together, so that no page parts them."""
    for at, depths in enumerate(grid.depths):
        for column, depth in enumerate(depths):
            if depth > 1:
                yield "SPAN", (column, at + 1), (column, at + depth)


def _rows_of(block: PacketTable | Ticks) -> list[Sequence[str]]:
    """Return the rows of a table, the head first, with what belongs together held together."""
    if isinstance(block, Ticks):
        return [
            ("task", *block.columns),
            *((_hold(task), *[_BOX] * len(block.columns)) for task in block.tasks),
        ]
    return [block.head, *([_hold(cell) for cell in row.cells] for row in block.rows)]


def share_width(rows: Sequence[Sequence[str]], width: float, size: float) -> list[float]:
    """Return the width of each column: all together take ``width``, whatever they hold.

    A column gets what its longest cell needs where all can have that; else at least its longest
    word, and its share of what is left. Where not even the words go in, those of the head, which
    is the first row, stay whole as long as they can. ``size`` is that of the type.
    """
    wanted = [max(_wide(cell, size) for cell in column) for column in zip(*rows, strict=True)]
    if sum(wanted) <= width:
        return [each * width / sum(wanted) for each in wanted]
    words, heads = _least(rows, size), _least(rows[:1], size)
    if sum(words) <= width:
        return _between(words, wanted, width)
    if sum(heads) <= width:
        return _between(heads, words, width)
    return [each * width / sum(heads) for each in heads]


def _between(least: Sequence[float], most: Sequence[float], width: float) -> list[float]:
    """Return widths from the least to the most, which together are the width."""
    share = (width - sum(least)) / (sum(most) - sum(least))
    return [a + (b - a) * share for a, b in zip(least, most, strict=True)]


def _least(rows: Sequence[Sequence[str]], size: float) -> list[float]:
    """Return how wide each column must be for its longest word."""
    return [
        max(_wide(word, size) for cell in column for word in cell.split(" "))
        for column in zip(*rows, strict=True)
    ]


def _wide(words: str, size: float) -> float:
    return float(stringWidth(clean(words), FACES["bold"], size)) + 2 * _PAD + 1


def style(
    size: float, *, bold: bool = False, right: bool = False, after: float = 0.0
) -> ParagraphStyle:
    """Return how a paragraph is set; ``after`` is the room below it."""
    made = ParagraphStyle("packet", fontName=FACES["bold" if bold else "plain"], fontSize=size)
    made.leading = 1.22 * size
    made.spaceAfter = after
    if right:
        made.alignment = TA_RIGHT
    return made


def as_text(words: str) -> str:
    """Return words with nothing left that a paragraph would take for markup."""
    return escape(clean(words), quote=False)
