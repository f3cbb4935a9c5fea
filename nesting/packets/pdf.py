"""From a packet to one PDF, for those without a browser: the same words, tables and drawings.

The type of a section that shares no page is as large as lets it stand on one; where none does, the
pages it runs over say so. The fonts come with the package, so that a page looks alike
on every machine; the same packet gives the same bytes.
"""

from collections.abc import Iterator, Sequence
from io import BytesIO
from typing import NamedTuple

from reportlab.lib.pagesizes import A4, landscape, letter
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
)

from nesting.drawings.lettering import CAPITAL, clean, shorten
from nesting.drawings.pdf import FACES, load_fonts
from nesting.packets.flow import GAP, Setter, as_text, style
from nesting.packets.parts import Block, Packet, Section, TitledPart

_PAPERS = {"mm": A4, "in": letter}
_MARGIN, _FOOT = 34.0, 44.0
_TITLE, _ASIDE = 12.5, 7.0
_SIZES = ((8.4, 9.6, 0.36), (7.6, 9.0, 0.36), (6.8, 8.5, 0.36), (6.8, 8.5, 0.3), (6.8, 8.5, 0.24))
"""Type of tables and of words and the share of a drawing, to be tried in turn."""
_USUAL = _SIZES[2]


_COUNT = "count"


def to_pdf(packet: Packet) -> bytes:
    """Return the PDF; each section has a bookmark of its title, each page the count of pages."""
    load_fonts()
    target, begun = BytesIO(), list[_Begun]()
    title, paper = clean(packet.title), _PAPERS[packet.units]
    document = BaseDocTemplate(target, title=title, creator="nesting", invariant=1)
    sides = {"upright": paper, "wide": landscape(paper)}
    document.addPageTemplates([_page(*side, packet, begun) for side in sides.items()])
    document.build([*_flow(packet, paper, begun), _Count()])
    return target.getvalue()


class _Begun(NamedTuple):
    """Where a section begins: its page, how high on it [points], its title."""

    page: int
    top: float
    title: str


def _page(
    name: str, paper: tuple[float, float], packet: Packet, begun: Sequence[_Begun]
) -> PageTemplate:
    width, height = paper
    frame = Frame(_MARGIN, _FOOT, width - 2 * _MARGIN, height - _MARGIN - _FOOT, 0, 0, 0, 0)

    def write_around(canvas: Canvas, document: BaseDocTemplate) -> None:
        end = width - _MARGIN - canvas.stringWidth("000", FACES["plain"], _ASIDE)
        canvas.setFont(FACES["plain"], _ASIDE)
        told = f"{packet.stamp}{'; ' * bool(packet.stamp)}page"
        canvas.drawRightString(end, _FOOT / 2, f"{told} {document.page} of ")
        room = end - _MARGIN - canvas.stringWidth(f"{told} 000 of ", FACES["plain"], _ASIDE)
        title = shorten(clean(packet.title), room, _ASIDE * CAPITAL)
        canvas.drawString(_MARGIN, _FOOT / 2, title)
        canvas.translate(end, _FOOT / 2)
        canvas.doForm(_COUNT)
        going_on = _going_on(begun, document.page, height - _MARGIN)
        if going_on:
            canvas.setFont(FACES["bold"], _ASIDE)
            up = height - 0.7 * _MARGIN - _FOOT / 2
            canvas.drawString(_MARGIN - end, up, f"{clean(going_on)}, continued")

    return PageTemplate(name, [frame], onPageEnd=write_around, pagesize=paper)


def _going_on(begun: Sequence[_Begun], page: int, top: float) -> str:
    """Return the title of the section that runs on at the head of a page, '' where none does."""
    if any(each.page == page and each.top > top - 5 for each in begun):
        return ""
    return next((each.title for each in reversed(begun) if each.page < page), "")


class _Count(Flowable):  # type: ignore[misc]
    """The number of the last page, where it is known, for the foot of every page."""

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        return 0.0, 0.0

    def draw(self) -> None:
        count = str(self.canv.getPageNumber())
        self.canv.beginForm(_COUNT, 0, -_ASIDE, 10 * _ASIDE, _ASIDE)
        self.canv.setFont(FACES["plain"], _ASIDE)
        self.canv.drawString(0, 0, count)
        self.canv.endForm()


def _flow(packet: Packet, paper: tuple[float, float], begun: list[_Begun]) -> Iterator[Flowable]:
    yield Paragraph(as_text(packet.title), style(_TITLE + 3, bold=True, after=3.0))
    lies = False
    for count, section in enumerate(packet.sections):
        if section.short and count and not lies:
            yield CondPageBreak(paper[1] / 3)
            yield Spacer(0, GAP)
        elif count:
            yield NextPageTemplate("wide" if section.wide else "upright")
            yield PageBreak()
        lies = section.wide
        yield _Heading(section, begun)
        sizes = _SIZES if packet.is_alone(section) else ()
        yield from _set(section, landscape(paper) if lies else paper, sizes)


def _set(
    section: Section, paper: tuple[float, float], sizes: Sequence[tuple[float, float, float]]
) -> list[Flowable]:
    """Return a section in the first size with which it fits one page.

    Else in the first with which its parts fit one each, and what goes before them; else as usual.
    """
    width, height = paper[0] - 2 * _MARGIN, paper[1] - _MARGIN - _FOOT
    room = height - 2 * _TITLE
    for groups in ([section.blocks], _at_parts(section.blocks)):
        for size in sizes:
            setter = Setter(width, height, *size)
            flows = [setter.lay(blocks) for blocks in groups]
            if all(setter.measure(flow, width) <= room for flow in flows):
                return [each for flow in flows for each in flow]
    return Setter(width, height, *_USUAL).lay(section.blocks)


def _at_parts(blocks: Sequence[Block]) -> list[Sequence[Block]]:
    """Return the blocks before all parts, and each part."""
    parts = [[block] for block in blocks if isinstance(block, TitledPart)]
    return [[block for block in blocks if not isinstance(block, TitledPart)], *parts]


class _Heading(Paragraph):  # type: ignore[misc]
    """The title of a section, which the reader's list of pages leads to."""

    def __init__(self, section: Section, begun: list[_Begun]) -> None:
        super().__init__(as_text(section.title), style(_TITLE, bold=True, after=3.0))
        self.section, self.begun = section, begun

    def draw(self) -> None:
        top = self.canv.absolutePosition(0, self.height)[1]
        self.begun.append(_Begun(self.canv.getPageNumber(), top, self.section.title))
        self.canv.bookmarkPage(self.section.ref)
        self.canv.addOutlineEntry(clean(self.section.title), self.section.ref)
        super().draw()
