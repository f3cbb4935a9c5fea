"""Sheet and units of a drawing against published figures."""

import pytest
import resvg_py
from ferry import make_drum_job, make_drum_schedule, make_ferry_job, make_ferry_schedule
from pngimage import read_png

from nesting.drawing import Area, Drawing, Layer
from nesting.masking import draw_layout
from nesting.svg import to_svg


def test_a_millimetre_is_96_over_25_4_pixels():
    """W3C, CSS Values and Units 3, Absolute Lengths: 1in = 96px, so 1mm = 96/25.4 px.

    A sheet of 50.8 x 25.4 mm, which is 2 x 1 in, is rendered 192 x 96 px large.
    """
    svg = to_svg(Drawing("units", 50.8, 25.4, "", "", ()))
    assert read_png(bytes(resvg_py.svg_to_bytes(svg_string=svg, dpi=96)))[:2] == (192, 96)


def test_one_user_unit_is_one_millimetre_and_y_grows_down():
    """W3C, SVG, Coordinate Systems: size and viewBox alike make one unit 1 mm; y grows down.

    A bar 50 mm long whose lower left corner is recorded 20 mm from the left and 10 mm from the
    lower edge of the sheet is ink from 75.6 px on, 189 px long, and ends 37.8 px above that edge.
    """
    ring = ((20, 10), (70, 10), (70, 15), (20, 15))
    svg = to_svg(Drawing("bar", 76.2, 50.8, "", "", (Layer("bar", (Area((ring,), "datum"),)),)))
    picture = resvg_py.svg_to_bytes(svg_string=svg, dpi=96, background="white")
    _, height, rows = read_png(bytes(picture))
    inked = [(x, y) for y, row in enumerate(rows) for x, grey in enumerate(row) if grey < 128]
    columns, lines = {x for x, _ in inked}, {y for _, y in inked}
    assert len(columns) == pytest.approx(50 * 96 / 25.4, abs=1)
    assert min(columns) == pytest.approx(20 * 96 / 25.4, abs=1)
    assert max(lines) + 1 == pytest.approx(height - 10 * 96 / 25.4, abs=1)
    assert len(lines) == pytest.approx(5 * 96 / 25.4, abs=1)


def test_a_mm_job_is_drawn_on_a3():
    """ISO 216: A3 is 297 x 420 mm."""
    schedule = make_ferry_schedule()
    drawing = draw_layout(make_ferry_job(), schedule, schedule.layouts[0])
    assert (drawing.height, drawing.width) == (297, 420)


def test_an_inch_job_is_drawn_on_11_by_17():
    """ASME Y14.1: size B is 11 x 17 in; 16 CFR 500.19: 1 in = 2.54 cm exactly."""
    schedule = make_drum_schedule()
    drawing = draw_layout(make_drum_job(), schedule, schedule.layouts[0])
    assert (drawing.height, drawing.width) == pytest.approx((11 * 25.4, 17 * 25.4))
