"""The masking layout as a figure: cut to the liner, with a spot on every panel and dam."""

import pytest
from handjob import MM
from packets import read_example

from nesting.drawings.masking import draw_layout
from nesting.drawings.record import Area, Line, Text, bounds_of
from nesting.packets.figure import crop, dam_refs, draw_figure, panel_refs


def test_every_panel_and_dam_has_its_spot(job, schedule):
    """Spots are named, and lie as panels and dams do: dam 1 right of A1, as wide as its 25 mm."""
    figure = draw_figure(job, schedule, schedule.layouts[0])
    spots = {spot.words: spot for spot in figure.spots}
    assert [spot.ref for spot in figure.spots] == ["l1-p1", "l1-p2", "l1-d1", "l1-d2"]
    assert list(spots) == ["panel A1", "panel B1", "dam 1", "dam 2"]
    panel, dam = spots["panel A1"].rect, spots["dam 1"].rect
    assert dam.x0 == pytest.approx(panel.x1, abs=0.002)
    assert dam.width / panel.width == pytest.approx(25 / 800, abs=0.001)


def test_the_paper_is_left_out_and_nothing_else(job, schedule):
    """The frame, the key and the strip go; every other shape stays, on the cut ground."""
    whole = draw_layout(job, schedule, schedule.layouts[0])
    cut = crop(whole)
    gone = {"sheet", "key", "strip"}
    assert [each.name for each in cut.layers] == [
        each.name for each in whole.layers if each.name not in gone
    ]
    kept = [shape for each in whole.layers if each.name not in gone for shape in each.shapes]
    assert [type(shape) for shape in cut.shapes] == [type(shape) for shape in kept]
    assert {Area, Line, Text} == {type(shape) for shape in kept}
    room = bounds_of(cut.shapes)
    assert (room.x0, room.y0) == pytest.approx((2, 2), abs=0.01)
    assert (cut.width - room.x1, cut.height - room.y1) == pytest.approx((2, 2), abs=0.01)


def test_refs_tell_panels_of_one_mark_apart(schedule):
    """They count placements, not marks, and name the layout."""
    one, two = schedule.layouts
    assert (panel_refs(one), dam_refs(one)) == (["l1-p1", "l1-p2"], ["l1-d1", "l1-d2"])
    assert (panel_refs(two), dam_refs(two)) == (["l2-p1"], ["l2-d1"])
    assert one.panels[0].width == 800 * MM


@pytest.mark.parametrize("name", ["ferry-terminal", "reading-room", "bath-house-frieze"])
def test_figures_are_two_millimetres_high_on_the_page(name):
    """On the width of an upright page of 186 mm no word of a layout's drawing is lower."""
    job, schedule = read_example(name)
    for layout in schedule.layouts:
        drawing = draw_figure(job, schedule, layout).drawing
        least = min(text.height for text in drawing.texts)
        assert least * 186 / drawing.width >= 2
