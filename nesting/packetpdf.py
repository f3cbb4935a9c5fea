"""From a packet to one PDF, for those without a browser: the same words, tables and drawings.

Side by side stands only what fits one page. The fonts come with the package, so that a page looks
alike on every machine; the same packet gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from io import BytesIO
from typing import Any

from reportlab.lib.enums import TA_RIGHT
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Paragraph,
    Spacer,
    Table,
)

from nesting.lettering import clean
from nesting.packetparts import Block, Figure, Grid, Group, Lines, Packet, Section, Ticks, Words
from nesting.pdf import FACES, draw_shapes, load_fonts

_PAPERS = {"mm": A4, "in": letter}
_MARGIN, _FOOT, _GAP, _PAD = 34.0, 44.0, 12.0, 2.5
_SMALL, _PLAIN, _TITLE = 6.8, 8.5, 12.5
_SHARE, _WIDE_SHARE = 0.36, 0.55
_LEAST_ROOM = 45.0
_BOX = "\u2610"
_RULES = [
    ("GRID", (0, 0), (-1, -1), 0.4, "#555555"),
    ("LINEBELOW", (0, 0), (-1, 0), 1, "#111111"),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), _PAD),
    ("RIGHTPADDING", (0, 0), (-1, -1), _PAD),
    ("TOPPADDING", (0, 0), (-1, -1), 0.8),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 1.4),
]
_BARE = [
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


def to_pdf(packet: Packet) -> bytes:
    """Return the PDF; each section has a bookmark of its title."""
    load_fonts()
    target = BytesIO()
    title = clean(packet.title)
    paper = _PAPERS[packet.units]
    document = BaseDocTemplate(target, title=title, creator="nesting", invariant=1)
    document.addPageTemplates(
        [_page("upright", paper, title), _page("wide", landscape(paper), title)]
    )
    document.build(list(_flow(packet, paper)))
    return target.getvalue()


def _page(name: str, paper: tuple[float, float], title: str) -> PageTemplate:
    width, height = paper
    frame = Frame(_MARGIN, _FOOT, width - 2 * _MARGIN, height - _MARGIN - _FOOT, 0, 0, 0, 0)

    def write_foot(canvas: Canvas, document: BaseDocTemplate) -> None:
        canvas.setFont(FACES["plain"], 7)
        canvas.drawString(_MARGIN, _FOOT / 2, title)
        canvas.drawRightString(width - _MARGIN, _FOOT / 2, f"page {document.page}")

    return PageTemplate(name, [frame], onPage=write_foot, pagesize=paper)


def _flow(packet: Packet, paper: tuple[float, float]) -> Iterator[Flowable]:
    yield Paragraph(_text(packet.title), _style(_TITLE + 3, bold=True))
    lies = False
    for count, section in enumerate(packet.sections):
        if section.short and count and not lies:
            yield CondPageBreak(paper[1] / 3)
        elif count:
            yield NextPageTemplate("wide" if section.wide else "upright")
            yield PageBreak()
        lies = section.wide
        width, height = landscape(paper) if lies else paper
        yield _Bookmark(section)
        for block in section.blocks:
            yield from _block(block, width - 2 * _MARGIN, height - _MARGIN - _FOOT)
        yield Spacer(0, _GAP)


class _Bookmark(Paragraph):  # type: ignore[misc]
    """The title of a section, which the reader's list of pages leads to."""

    def __init__(self, section: Section) -> None:
        super().__init__(_text(section.title), _style(_TITLE, bold=True))
        self.section = section

    def draw(self) -> None:
        self.canv.bookmarkPage(self.section.ref)
        self.canv.addOutlineEntry(clean(self.section.title), self.section.ref)
        super().draw()


def _block(block: Block, width: float, height: float) -> Iterator[Flowable]:
    if isinstance(block, Words):
        yield Paragraph(_text(block.text), _style(_PLAIN, bold=block.tone in ("strong", "warning")))
    elif isinstance(block, Lines):
        yield _caption(block.title)
        yield from (Paragraph(_text(line), _style(_SMALL)) for line in block.lines)
    elif isinstance(block, Figure):
        yield _Drawn(block, width, height * (_WIDE_SHARE if block.is_wide else _SHARE))
        yield Spacer(0, 4)
    elif isinstance(block, Group):
        yield from _beside(block, width, height)
    else:
        yield from _under(block, width)


def _under(block: Grid | Ticks, width: float) -> Iterator[Flowable]:
    """Yield a table; its title never ends a page alone."""
    yield CondPageBreak(_LEAST_ROOM)
    yield from _table(block, width)


def _beside(group: Group, width: float, height: float) -> Iterator[Flowable]:
    """Yield the tables of a group side by side, or in turn where one is higher than a page."""
    count = len(group.blocks)
    column = (width - _GAP * (count - 1)) / count
    cells = [list(_table(block, column)) for block in group.blocks]
    high = max(sum(part.wrap(column, height)[1] for part in cell) for cell in cells)
    if count > 3 or high > 0.9 * height:
        for block in group.blocks:
            yield from _under(block, width)
        return
    row: list[Any] = [part for cell in cells for part in (cell, "")][:-1]
    widths = [part for _ in cells for part in (column, _GAP)][:-1]
    yield Table([row], colWidths=widths, style=_BARE, hAlign="LEFT")


def _table(block: Grid | Ticks, width: float) -> Iterator[Flowable]:
    """Yield the title and the table; its head stands again on every page it runs over."""
    if isinstance(block, Ticks):
        head: Sequence[str] = ("step", *block.columns)
        rows: list[Sequence[str]] = [(step, *[_BOX] * len(block.columns)) for step in block.steps]
        left = {"step"}
    else:
        head, rows, left = block.head, [row.cells for row in block.rows], set(block.left)
    styles = [_style(_SMALL, right=title not in left) for title in head]
    heads = [_style(_SMALL, bold=True, right=title not in left) for title in head]
    cells = [[Paragraph(_text(each), how) for each, how in zip(head, heads, strict=True)]]
    cells += [
        [Paragraph(_text(each), how) for each, how in zip(row, styles, strict=True)] for row in rows
    ]
    yield _caption(block.title)
    widths = share_width([head, *rows], width)
    yield Table(cells, colWidths=widths, style=_RULES, repeatRows=1, hAlign="LEFT", spaceAfter=4)


def share_width(rows: Sequence[Sequence[str]], width: float) -> list[float]:
    """Return the width of each column [points]: all together take ``width``, whatever they hold.

    A column gets what its longest cell needs where all can have that; else at least its longest
    word, and its share of what is left.
    """
    columns = list(zip(*rows, strict=True))
    wanted = [max(map(_wide, column)) for column in columns]
    if sum(wanted) <= width:
        return [each * width / sum(wanted) for each in wanted]
    least = [
        max(_wide(word) for cell in column for word in cell.split() or [""]) for column in columns
    ]
    spare, more = width - sum(least), sum(wanted) - sum(least)
    if spare <= 0:
        return [each * width / sum(least) for each in least]
    return [a + (b - a) * spare / more for a, b in zip(least, wanted, strict=True)]


def _wide(words: str) -> float:
    return float(stringWidth(clean(words), FACES["bold"], _SMALL)) + 2 * _PAD + 1


def _caption(title: str) -> Paragraph:
    return Paragraph(_text(title), _style(_SMALL, bold=True))


def _style(size: float, *, bold: bool = False, right: bool = False) -> ParagraphStyle:
    style = ParagraphStyle("packet", fontName=FACES["bold" if bold else "plain"], fontSize=size)
    style.leading = 1.22 * size
    style.spaceAfter = 0.0 if size == _SMALL else 3.0
    if right:
        style.alignment = TA_RIGHT
    return style


def _text(words: str) -> str:
    """Return words with nothing left that a paragraph would take for markup."""
    return escape(clean(words), quote=False)
