"""The packet in a browser: nothing off the page, nothing on top of another, the script, the print.

A script measures what stands in the page, taps here and there, and tells what it found.
"""

import re
from io import BytesIO

import pypdfium2
import pytest
from packets import dam_packet, example_packet

from nesting.packets.html import to_html

pytestmark = pytest.mark.long

PROBE = """
function box(each) {
  var at = each.getBoundingClientRect();
  return {x0: at.left, y0: at.top, x1: at.right, y1: at.bottom,
          what: each.tagName + " " + each.textContent.trim().slice(0, 40)};
}
function list(query) { return Array.prototype.map.call(document.querySelectorAll(query), box); }
function tap(query) {
  document.querySelector(query).dispatchEvent(new MouseEvent("click", {bubbles: true}));
  return Array.prototype.map.call(document.querySelectorAll(".lit"), function (each) {
    return each.tagName.toLowerCase() + " " + each.getAttribute("data-ref");
  });
}
var found = {
  width: document.documentElement.clientWidth, across: document.documentElement.scrollWidth,
  parts: list("h1, nav, h2, h3, p, pre, .grid, figure"), tables: list("table"), cells: 0, torn: [],
  drawings: list("figure > svg"), sections: list("section"),
  texts: list("figure svg text"),
  spot: tap(".spot[data-ref='l1-d1']"), off: tap(".spot[data-ref='l1-d1']"),
  row: tap("#l1 tr[data-ref='l1-p2']"), layout: tap("#sequence tr[data-ref='l3']"),
  box: (tap("#l1 input"), document.querySelectorAll(".lit").length)
};
document.querySelectorAll("td, th").forEach(function (cell) {
  if (cell.scrollWidth > cell.clientWidth + 1) { found.cells += 1; }
  var range = document.createRange();
  range.selectNodeContents(cell);
  var torn = range.getClientRects().length !== 1;
  if (torn) { if (/^\\S+$/.test(cell.textContent)) { found.torn.push(cell.textContent); } }
});
return found;
"""


@pytest.fixture(scope="module")
def show(browser, tmp_path_factory):
    """Return what opens an example's packet on a screen of that many pixels, in the browser."""
    folder = tmp_path_factory.mktemp("packets")

    def open_packet(name, width=1100, height=900):
        path = folder / f"{name}.html"
        path.write_text(to_html(example_packet(name)), encoding="utf-8")
        browser.open(path.as_uri(), width, height)
        browser.shoot(folder / f"{name}-{width}.png")
        return browser

    return open_packet


def print_pages(show, name):
    """Return the pages of an example's packet as the browser prints it."""
    return list(pypdfium2.PdfDocument(BytesIO(show(name).print())))


def overlapping(parts):
    """Return the pairs of boxes that cover common ground, by more than a pixel each way."""
    return [
        (a["what"], b["what"])
        for count, a in enumerate(parts)
        for b in parts[count + 1 :]
        if min(a["x1"], b["x1"]) - max(a["x0"], b["x0"]) > 1
        and min(a["y1"], b["y1"]) - max(a["y0"], b["y0"]) > 1
    ]


@pytest.fixture(scope="module")
def tablet(show):
    """Return what is found in the ferry terminal's packet on an upright tablet."""
    return show("ferry-terminal", 768, 1024).run(PROBE)


def test_nothing_is_off_the_screen(tablet):
    """The page cannot be pushed sideways, and every table and drawing ends before its edge."""
    assert tablet["across"] == tablet["width"]
    assert 700 < tablet["width"] <= 768
    assert len(tablet["tables"]) > 50
    for part in (*tablet["parts"], *tablet["tables"], *tablet["drawings"]):
        assert part["x0"] >= 0, part["what"]
        assert part["x1"] <= tablet["width"] + 0.5, part["what"]
    assert tablet["cells"] == 0


@pytest.mark.parametrize("width", [390, 768, 1024])
@pytest.mark.parametrize("name", ["reading-room", "bath-house-frieze"])
def test_no_screen_is_pushed_sideways(show, name, width):
    """On a phone and on a tablet either way round; what is too wide moves in a frame of its own."""
    browser = show(name, width, 800)
    across = "return [document.documentElement.scrollWidth, innerWidth]"
    wide, screen = browser.run(across)
    assert (wide <= screen, screen) == (True, width)


def test_no_word_or_figure_is_torn(tablet):
    """A length broken over two lines would be read wrong at the bed."""
    assert tablet["torn"] == []


def test_nothing_lies_on_anything_else(tablet):
    """Headings, words, tables and drawings all have ground of their own."""
    assert len(tablet["parts"]) > 100
    assert overlapping(tablet["parts"]) == []


def test_drawings_are_large_enough_to_read(tablet):
    """Each is as wide as its page, and no figure in it is under 8 pixels high."""
    assert len(tablet["drawings"]) == 3 + 8 + 4 + 4 + 2
    assert all(each["x1"] - each["x0"] > 600 for each in tablet["drawings"])
    words = [each for each in tablet["texts"] if len(each["what"]) > len("text 123")]
    least = min(min(each["x1"] - each["x0"], each["y1"] - each["y0"]) for each in words)
    assert least > 8


def test_a_tap_lights_a_dam_and_its_rows(tablet):
    """The spot and both rows of dam 1 in layout 1, nothing else; a second tap puts them out."""
    assert sorted(tablet["spot"]) == ["rect l1-d1", "tr l1-d1", "tr l1-d1"]
    assert tablet["off"] == []


def test_a_tap_on_a_row_lights_its_panel(tablet):
    """Panel A3 in the drawing, the set-out and the marks."""
    assert sorted(tablet["row"]) == ["rect l1-p2", "tr l1-p2", "tr l1-p2"]


def test_a_tap_on_a_layout_lights_its_page(tablet):
    """The row of the sequence, its six casts in the calendar, and the page of that layout."""
    assert sorted(tablet["layout"]) == ["section l3"] + 7 * ["tr l3"]


def test_a_tick_lights_nothing_more(tablet):
    """A box to tick leaves what is lit as it was."""
    assert tablet["box"] == len(tablet["layout"])


def test_the_print_has_a_page_for_each_layout(show):
    """Each layout begins a page; one on a curved bed may take two. All ink is within margins."""
    pages = print_pages(show, "ferry-terminal")
    heads = [page.get_textpage().get_text_range()[:90] for page in pages]
    numbers = [re.search(r"Layout (\d) of 8", head)[1] for head in heads if "Layout" in head]
    assert numbers == sorted(numbers)
    assert max(map(numbers.count, "12345678")) <= 2
    assert min(map(numbers.count, "12345678")) == 1
    assert len(pages) > 15
    for page in pages:
        assert [round(each) for each in page.get_size()] == [595, 842]
        within_margins(page)


def test_a_wide_layout_is_printed_lying(show):
    """The frieze's layout lies on its long side; what comes before and after stands."""
    pages = print_pages(show, "bath-house-frieze")
    lying = [page.get_width() > page.get_height() for page in pages]
    assert (lying[0], any(lying), lying[-1]) == (False, True, False)
    for page in pages:
        within_margins(page)


def test_a_layout_that_runs_over_tears_no_dam(browser, tmp_path):
    """On letter paper, each page names the layout at its head; both rows of a dam stand on one."""
    path = tmp_path / "dams.html"
    path.write_text(to_html(dam_packet(120)), encoding="utf-8")
    browser.open(path.as_uri(), 1100, 900)
    _, *pages = pypdfium2.PdfDocument(BytesIO(browser.print()))
    told = [page.get_textpage().get_text_range() for page in pages]
    assert len(told) > 3
    assert all("Layout1of1" in "".join(text.split()) for text in told)
    for text in told:
        assert re.findall(r"decimal(\d+)", text) == re.findall(r"fraction(\d+)", text)
    assert "Marks" in told[-1][told[-1].index("Casting layout 1") :]
    assert {tuple(map(round, page.get_size())) for page in pages} == {(612, 792)}


def within_margins(page):
    """Hold that every object of the page lies within its margins of 12 mm, by a hair."""
    width, height = page.get_size()
    margin = 12 / 25.4 * 72 - 2
    for each in page.get_objects(max_depth=1):
        left, low, right, high = each.get_bounds()
        if right - left > 0.98 * width and high - low > 0.9 * height:
            continue
        assert left >= margin
        assert right <= width - margin
        assert 0 <= low <= high <= height
