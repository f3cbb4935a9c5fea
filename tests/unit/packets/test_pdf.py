"""The packet as a PDF: the same words, a page for each layout, drawings, the same bytes."""

import re
from functools import cache
from io import BytesIO

import pypdfium2
import pytest
from packets import dam_packet, example_packet, hand_packet
from pdfink import page_sizes
from pypdf import PdfReader

from nesting.packets.parts import Packet, PacketTable, Section, SideBySide, TableRow, Ticks, Words
from nesting.packets.pdf import to_pdf
from nesting.schedules.cautions import CAUTIONS


@cache
def texts(pdf):
    """Return the text of every page, blanks and line ends as single blanks."""
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


def feet(pdf):
    """Return what stands in the lower margin of every page."""
    pages = (page.get_textpage() for page in pypdfium2.PdfDocument(pdf))
    return [" ".join(page.get_text_bounded(top=40).split()) for page in pages]


@pytest.fixture(scope="module")
def ferry():
    """Return the ferry terminal's PDF."""
    return to_pdf(example_packet("ferry-terminal"))


def test_each_layout_of_the_example_fits_one_page_or_parts_before_casting(ferry):
    """One of three panels on a curved bed runs over: what is cast then has a page of its own."""
    pages = texts(ferry)
    at = [n for n, page in enumerate(pages) if re.search(r"Cast [0-9, to]+ of 24", page)]
    assert all(f"Layout {count} of 8" in pages[n] for count, n in enumerate(at, 1))
    between = sorted(set(range(at[0], at[-1] + 1)) - set(at))
    assert [n - 1 for n in between] == [at[5]]
    assert "Casting layout 6" in pages[between[0]]
    assert "Re-set 1 of 4" in pages[at[-1] + 1]


def test_pages_are_a4_and_wide_layouts_lie(ferry):
    """All upright here; the frieze's layout lies on its long side."""
    assert {tuple(map(round, size)) for size in page_sizes(ferry)} == {(210, 297)}
    frieze = to_pdf(example_packet("bath-house-frieze"))
    sizes = [tuple(map(round, size)) for size in page_sizes(frieze)]
    assert sizes[:2] == [(210, 297), (210, 297)]
    assert (297, 210) in sizes
    assert sizes[-1] == (210, 297)


def test_the_pdf_holds_cautions_dams_and_verdict(ferry):
    """What must not be missed is there in words."""
    text = " ".join(texts(ferry))
    for caution in CAUTIONS:
        assert all(" ".join(each.split()) in text for each in caution.paragraphs)
    assert "dam 4 4 1525 25 19 x west, east, north" in text
    assert "found no fault" in text


def test_sections_are_the_readers_list_of_pages(ferry):
    """A bookmark for each section, in turn."""
    outline = [each.title for each in PdfReader(BytesIO(ferry)).outline]
    assert outline == [each.title for each in example_packet("ferry-terminal").sections]


def test_names_with_markup_are_text():
    """What looks like markup is shown as it is written."""
    packet = Packet("T <b>", "mm", (Section("s", "S & <i>", (Words("a <font size=9> & b"),)),))
    (page,) = texts(to_pdf(packet))
    assert "T <b>" in page
    assert "S & <i>" in page
    assert "a <font size=9> & b" in page


def test_a_long_table_runs_on_under_its_head():
    """Every row is printed, and the head stands on every page; so in a group that fits no page."""
    rows = tuple(TableRow((f"row{n}", str(n))) for n in range(300))
    grid = PacketTable("Long", ("name", "number"), rows, frozenset({"name"}))
    for block in (grid, SideBySide((grid, Ticks("Steps", ("1",), ("spray",))))):
        pages = texts(to_pdf(Packet("T", "mm", (Section("s", "S", (block,)),))))
        assert len(pages) > 2
        assert " ".join(pages).count("row") == 300
        assert all("name number" in page for page in pages[:-1])


def test_a_layout_that_runs_over_says_so_and_tears_no_dam():
    """Each page after the first says what it goes on with; both rows of a dam stand on one."""
    pages = texts(to_pdf(dam_packet(120)))
    assert len(pages) > 4
    assert [("Layout 1 of 1, continued" in page) for page in pages] == [False, False] + [True] * (
        len(pages) - 2
    )
    for number in range(120):
        (home,) = [page for page in pages if f"D{number}. " in page]
        assert f"fraction{number}." in home


def test_a_part_is_not_parted_from_its_title():
    """Where what is left of a page is too little, the whole part goes to the next."""
    for pairs in range(22, 38, 3):
        pages = texts(to_pdf(dam_packet(pairs)))
        (home,) = [page for page in pages if "Casting layout 1" in page]
        assert "Marks mark A1" in home


@pytest.mark.long
def test_a_full_page_is_followed_by_no_empty_one(ferry):
    """The example's pages all hold more than a head and a foot."""
    for pdf in (ferry, to_pdf(example_packet("reading-room"))):
        assert min(len(page) for page in texts(pdf)) > 100


def test_every_foot_counts_the_pages(ferry):
    """Which page of how many, after the job's title; a title too long for that is shortened."""
    count = len(pypdfium2.PdfDocument(ferry))
    stamp = r"2026-03-02 08:05, code \S{4}-\S{4}"
    for number, foot in enumerate(feet(ferry), 1):
        assert re.fullmatch(f"Ferry terminal, waiting hall {stamp}; page {number} of {count}", foot)
    assert len({re.search("code (.*);", foot)[1] for foot in feet(ferry)}) == 1
    (foot,) = feet(to_pdf(Packet("long " * 90, "mm", (Section("s", "S", (Words("a"),)),))))
    assert re.fullmatch(r"(long )+lo?n?g?\.\.\.(l?o?n?g? ?)+ page 1 of 1", foot)


def test_the_same_packet_gives_the_same_bytes(monkeypatch):
    """No date and no chance is in the file, nor what the process wrote before."""
    first = to_pdf(hand_packet())
    monkeypatch.setattr("reportlab.rl_config.useA85", 1)
    assert to_pdf(hand_packet()) == first
