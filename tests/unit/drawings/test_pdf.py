"""PDF: true to size, stable, with fonts of its own, and shared pictures stored once."""

import os
import re
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from ferry import make_ferry_job, make_ferry_schedule
from pdfink import page_sizes, read_paths, read_texts, render
from pypdf import PdfReader

from nesting.drawings.masking import draw_layout
from nesting.drawings.pdf import LONGEST_PAGE, to_pdf
from nesting.drawings.record import Area, Drawing, Layer, Line, Rect, Text

TESTS = Path(__file__).parents[2]
FONTS = TESTS.parent / "nesting" / "drawings" / "fonts"
ART = (Line(((0, 0), (1000, 0), (1000, 40)), "trace"), Area((((5, 5), (9, 5), (9, 9)),), "datum"))


def sheet(*layers, width=200, height=100, name="one"):
    """Return a drawing of 200 x 100 mm."""
    return Drawing(name, width, height, f"A title {name}", "A summary", layers)


def window(x, art=ART):
    """Return a layer that shows 180 mm of the art from x on, 10 mm from the sheet's left."""
    return Layer("art", art, Rect(10, 10, 190, 90), (10 - x, 20))


def test_a_page_is_as_large_as_its_drawing():
    """Each page has its own size, in mm to a thousandth."""
    sizes = page_sizes(to_pdf([sheet(), sheet(width=594, height=841.5)]))
    assert sizes == [pytest.approx((200, 100), abs=1e-3), pytest.approx((594, 841.5), abs=1e-3)]


def test_lines_lie_where_they_are_recorded():
    """Read back through every scale of the content, points are right to a thousandth of a mm."""
    pdf = to_pdf([sheet(Layer("a", (Line(((20, 30), (120, 30), (120, 80)), "rule"),)))])
    (path,) = read_paths(pdf)
    expected = ((20, 30), (120, 30), (120, 80))
    assert all(
        a == pytest.approx(b, abs=1e-3) for a, b in zip(path.rings[0], expected, strict=True)
    )
    assert path.width == pytest.approx(0.25, abs=1e-3)


def test_a_picture_seen_through_windows_is_stored_once():
    """Fifty pages of a picture of 2000 points are hardly larger than one."""
    art = (Line(tuple((x / 10, x % 7) for x in range(2000)), "ghost"),)
    one = to_pdf([sheet(window(0, art))])
    many = to_pdf([sheet(window(x, art), name=f"n{x}") for x in range(50)])
    assert len(many) - len(one) < 50 * 900


def test_a_window_shifts_and_cuts():
    """A line 1000 mm long lies shifted on the second page, and no ink is outside the window."""
    pdf = to_pdf([sheet(window(0)), sheet(window(820), name="two")])
    (line, _) = read_paths(pdf, 1)[-2:]
    assert line.rings[0][1] == pytest.approx((1000 - 820 + 10, 20), abs=1e-3)
    rows = render(pdf, 1, dpi=100).rows
    per_mm = 100 / 25.4
    inked = [x for row in rows for x, grey in enumerate(row) if grey < 250]
    assert min(inked) >= 10 * per_mm - 1
    assert max(inked) <= 190 * per_mm + 1


def test_rendered_ink_is_where_it_belongs():
    """At 300 dpi the middle of an upright line is within 0.02 mm of its place."""
    pdf = to_pdf([sheet(Layer("a", (Line(((73.4, 20), (73.4, 60)), "cross"),)))])
    x, y = render(pdf).ink_centre((70, 15, 77, 65))
    assert x == pytest.approx(73.4, abs=0.02)
    assert y == pytest.approx(40, abs=0.1)


def test_every_letter_prints():
    """Fractions, degrees, Polish and Greek letters come back from the page as they were."""
    words = "Łódź żółć 63 7⁄16″ ⅜ ½ 45° Ωμέγα R 3000 × 25"  # noqa: RUF001 - letters of the trade
    pdf = to_pdf([sheet(Layer("a", (Text(5, 50, words, 3.5), Text(5, 30, words, 3.5, "bold"))))])
    text = read_texts(pdf)
    assert text.count("Łódź żółć") == 2
    assert all(part in text for part in words.split())
    fonts = PdfReader(BytesIO(pdf)).pages[0]["/Resources"]["/Font"]
    used = [font.get_object()["/BaseFont"] for font in fonts.values()]
    assert any("DejaVuSans-Bold" in name for name in used)


@pytest.mark.parametrize("words", ["(A1)", "A)1(", "a\\b", "<A&1>", "\x07A\x001"])
def test_names_cannot_break_out(words):
    """Brackets, backslashes and control characters stay words."""
    pdf = to_pdf([sheet(Layer("a", (Text(5, 30, words, 3.5),)))], title=words)
    kept = "".join(letter for letter in words if letter.isprintable())
    assert kept in read_texts(pdf)
    assert PdfReader(BytesIO(pdf)).metadata.title == kept


def test_pages_ask_not_to_be_scaled_and_have_bookmarks():
    """The viewer is told to print without scaling; each page is found by its title."""
    reader = PdfReader(BytesIO(to_pdf([sheet(), sheet(name="two")])))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert [entry.title for entry in reader.outline] == ["A title one", "A title two"]


def test_masked_ground_is_hatched_within_its_outline():
    """Hatch reaches into the area and not into its hole."""
    rings = (((20, 20), (90, 20), (90, 80), (20, 80)), ((40, 40), (70, 40), (70, 60), (40, 60)))
    rows = render(to_pdf([sheet(Layer("a", (Area(rings, "masked"),)))]), dpi=100).rows
    per_mm = 100 / 25.4

    def share(x0, y0, x1, y1):
        box = [row[round(x0 * per_mm) : round(x1 * per_mm)] for row in rows]
        greys = b"".join(box[round((100 - y1) * per_mm) : round((100 - y0) * per_mm)])
        return sum(grey < 200 for grey in greys) / len(greys)

    assert 0.05 < share(22, 22, 88, 38) < 0.3
    assert share(42, 42, 68, 58) == 0
    assert share(95, 20, 150, 80) == 0


def test_a_masking_layout_prints_too():
    """Any drawing is a page: the layout's words are all on it."""
    schedule = make_ferry_schedule()
    drawing = draw_layout(make_ferry_job(), schedule, schedule.layouts[0])
    text = read_texts(to_pdf([drawing])).replace("\n", " ")
    assert all(each.words in text for each in drawing.texts)


def test_no_page_and_too_long_a_page_are_refused():
    """A PDF has a page, and none beyond 14,400 units."""
    with pytest.raises(ValueError, match="at least one page"):
        to_pdf([])
    with pytest.raises(ValueError, match="at most 5080 mm long"):
        to_pdf([sheet(width=LONGEST_PAGE + 1)])


def test_the_same_records_give_the_same_bytes():
    """Twice in one process and under another hash seed; no date is written."""
    code = (
        "import sys; from nesting.drawings.pdf import to_pdf; from ferry import *;"
        "from nesting.drawings.masking import draw_layout; s = make_ferry_schedule();"
        "d = draw_layout(make_ferry_job(), s, s.layouts[0]); a = to_pdf([d]);"
        "assert a == to_pdf([d]); sys.stdout.buffer.write(a)"
    )
    clockless = {key: each for key, each in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    found = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**clockless, "PYTHONHASHSEED": seed, "PYTHONPATH": f"{TESTS}:{TESTS.parent}"},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1
    assert b"/CreationDate (D:2000" in found.pop()


@pytest.mark.parametrize("name", ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf"])
def test_the_licence_is_what_the_fonts_records_say(name):
    """The copyright and the licence stand in the file as letters of two bytes, both notices."""
    font = (FONTS / name).read_bytes()
    licence = (FONTS / "LICENSE").read_text(encoding="utf-8")
    _, copyright_, terms = re.split(r"\n\n(?=Copyright \(c\)|Fonts are)", licence, maxsplit=2)
    assert all(f"{owner} Fonts Copyright" in terms for owner in ("Bitstream Vera", "Arev"))
    assert f"{copyright_}\n".encode("utf-16-be") in font
    assert terms.removesuffix("\n").encode("utf-16-be") in font
