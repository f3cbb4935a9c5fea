"""The chart of a calendar: every cast on its liner's and its bed's row, nothing off the sheet."""

from dataclasses import replace
from datetime import date
from itertools import combinations

import pytest
import resvg_py
from calendarjobs import SMALL, make_calendar

from nesting.days.chart import draw_calendar
from nesting.drawings.record import Area, Rect, Text, bounds_of
from nesting.drawings.svg import to_svg
from nesting.values.shopdays import Times

DUES = {"A1": date(2026, 3, 3), "B1": date(2026, 3, 4), "C1": date(2027, 1, 1)}
CALENDARS = {
    "short": {},
    "due": {"dues": DUES, "liners": 2},
    "long": {"rows": [(40, "table", None), (30, "drum", None)]},
    "very long": {"rows": [(400, "table", None)]},
    "two a day": {"casts_per_day": 2, "times": Times(cover=60, face_coat=10, backing=20)},
    "set out": {"times": Times(set_out=600)},
}


@pytest.fixture(params=CALENDARS)
def planned(request):
    """Return (job, calendar) of one of several."""
    job, _, calendar = make_calendar(**CALENDARS[request.param])
    return job, calendar


def texts(drawing, layer):
    """Return the texts of a layer."""
    (shapes,) = (each.shapes for each in drawing.layers if each.name == layer)
    return [shape for shape in shapes if isinstance(shape, Text)]


def test_every_cast_is_on_two_rows(planned):
    """As many blocks as twice the casts, each with the number of its layout."""
    job, calendar = planned
    drawing = draw_calendar(job, calendar)
    (shapes,) = (each.shapes for each in drawing.layers if each.name == "days")
    blocks = [s for s in shapes if isinstance(s, Area) and s.style.startswith("tint")]
    assert len(blocks) == 2 * len(calendar.casts)
    rects = [bounds_of([block]) for block in blocks]
    assert not any(a.overlaps(b) for a, b in combinations(rects[:150], 2))


def test_everything_is_on_the_sheet_and_words_do_not_meet(planned):
    """Words of the head and of due dates keep apart, and all shapes lie within the paper."""
    drawing = draw_calendar(*planned)
    sheet = Rect(0, 0, drawing.width, drawing.height)
    assert all(sheet.holds(bounds_of([shape])) for shape in drawing.shapes)
    words = [text.rect for text in texts(drawing, "key")]
    assert not any(a.overlaps(b) for a, b in combinations(words, 2))
    strip = [text.rect for text in texts(drawing, "strip")]
    assert not any(a.overlaps(b) for a in words for b in strip)


def test_due_dates_are_shown_or_told():
    """Those within the chart are flagged, how late too; one beyond it stands in the key."""
    job, _, calendar = make_calendar(dues=DUES, liners=2)
    drawing = draw_calendar(job, calendar)
    shown = [text.words for text in texts(drawing, "days") if text.words.startswith("due")]
    assert len(shown) == 2
    assert any("late" in words for words in shown)
    told = [text.words for text in texts(drawing, "key")]
    assert "Due beyond the chart: C1 2027-01-01" in told


def test_many_due_dates_close_together_are_all_shown():
    """Each day's words are on a line where they meet no others."""
    job, _, calendar = make_calendar([(30, "table", None)])
    dues = [
        replace(due, mark=f"A{n}", due=date(2026, 3, 3 + n))
        for n, due in enumerate(make_calendar(dues={"A1": date(2026, 3, 3)})[2].dues * 9)
    ]
    drawing = draw_calendar(job, replace(calendar, dues=tuple(dues)))
    shown = [text for text in texts(drawing, "days") if text.words.startswith("due")]
    assert len(shown) == 9
    assert not any(a.rect.overlaps(b.rect) for a, b in combinations(shown, 2))


def test_letters_tell_what_comes_before_a_cast():
    """S, R, B and M as in the key."""
    job, _, calendar = make_calendar([(1, "table", None), (1, "drum", None), (1, "drum", 2)])
    words = {text.words for text in texts(draw_calendar(job, calendar), "days")}
    assert {"S", "B R"} <= words
    assert words & {"M"}


def test_the_key_tells_what_is_shown_and_no_more():
    """Letters of the steps there are, days off and due dates only where the chart has them."""

    def key(**terms):
        job, _, calendar = make_calendar(**terms)
        return " ".join(text.words for text in texts(draw_calendar(job, calendar), "key"))

    plain = key(rows=[(1, "table", None)])
    assert "S dams set out; on a bed's row" in plain
    assert not any(words in plain for words in ("re-set", "masked", "Grey", "ashes"))
    full = key(rows=[*SMALL, (4, "drum", None)], dues={"A1": date(2026, 3, 3)})
    assert "S dams set out, R dams re-set, B bed change, M bays masked; on" in full
    assert "Grey: day off. Thick dashes: end of a due date's day." in full


@pytest.mark.long
def test_the_chart_is_drawn(planned):
    """The SVG renders to a picture of the sheet's size."""
    drawing = draw_calendar(*planned)
    picture = bytes(resvg_py.svg_to_bytes(svg_string=to_svg(drawing), dpi=24))
    width = int.from_bytes(picture[16:20], "big")
    assert abs(width - drawing.width * 24 / 25.4) <= 1
