"""The chart of liner area against casts."""

from dataclasses import replace

import pytest
from motiffiles import load_motif

from nesting.drawings.record import Area, Line, Rect
from nesting.zones.chart import draw_trade
from nesting.zones.trade import plan_motif


@pytest.fixture(scope="module")
def trade(tmp_path_factory):
    """Return the trade of the small motif."""
    return plan_motif(load_motif(tmp_path_factory.mktemp("motif")))


def layer(drawing, name):
    """Return the shapes of one layer."""
    return next(each.shapes for each in drawing.layers if each.name == name)


def test_each_offer_is_a_dot_where_its_figures_are(trade):
    """More area lies to the right, fewer casts lie lower; words name both."""
    drawing = draw_trade(trade)
    dots = [shape for shape in layer(drawing, "offers") if isinstance(shape, Area)]
    (x0, y0), (x1, y1) = (dot.rings[0][0] for dot in dots)
    assert x0 < x1
    assert y0 > y1
    words = {text.words for text in drawing.texts}
    assert {"652 x 400: 5 casts", "660 x 400: 3 casts"} <= words


def test_the_bound_lies_below_every_dot(trade):
    """The broken line is at most as high as the dot above it."""
    drawing = draw_trade(trade)
    (bound,) = layer(drawing, "bound")
    dots = [shape for shape in layer(drawing, "offers") if isinstance(shape, Area)]
    assert bound.style == "witness"
    for dot in dots:
        x, y = sum(x for x, _ in dot.rings[0]) / 4, max(y for _, y in dot.rings[0])
        assert all(level <= y for at, level in bound.points if at > x + 1e-9)


def test_words_stay_on_the_sheet_and_clear_of_each_other(trade):
    """No text leaves the frame, and no two meet."""
    drawing = draw_trade(trade)
    frame = Rect(10, 10, drawing.width - 10, drawing.height - 10)
    rects = [text.rect for text in drawing.texts]
    assert all(frame.holds(rect) for rect in rects)
    assert not any(a.overlaps(b) for n, a in enumerate(rects) for b in rects[:n])


def test_one_offer_alone_is_a_chart_too(trade):
    """There is then no line between dots."""
    drawing = draw_trade(replace(trade, offers=trade.offers[:1]))
    assert not [s for s in layer(drawing, "offers") if isinstance(s, Line)]
